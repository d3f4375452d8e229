"""Small invented tables for the tests of analyse, report and render: six words, a sheet, notes."""

from collections.abc import Collection, Mapping, Sequence
from datetime import UTC, datetime

from cupwright.core.analyse.answers import Answers, gather
from cupwright.core.flow import Step
from cupwright.core.plan.coffee import Coffee
from cupwright.core.plan.table import Blinding, Plan, Seat, Table
from cupwright.core.taste.note import Note, Value
from cupwright.core.taste.sheet import Field, Kind, Moment, Pass, Sheet
from cupwright.core.taste.stamp import Stamp
from cupwright.core.words.lexicon import Concept, Lexicon, load_lexicon


def small_lexicon() -> Lexicon:
    """Two families of three words; one of the words can name a fault."""
    concepts = [
        Concept("fruit", "fruit", "fruit", ("fruit", "fruity")),
        Concept("lemon", "lemon", "fruit", ("lemon",), parents=("fruit",)),
        Concept("orange", "orange", "fruit", ("orange",), parents=("fruit",)),
        Concept("roast", "roast", "roast", ("roast", "roasty")),
        Concept("cocoa", "cocoa", "roast", ("cocoa", "chocolate"), parents=("roast",)),
        Concept(
            "smoke",
            "smoke",
            "roast",
            ("smoke", "smoky"),
            parents=("roast",),
            defect="Usually dried over a wood fire.",
            todo="Ask how it was dried.",
        ),
    ]
    return Lexicon({concept.id: concept for concept in concepts}, ("fruit", "roast"), load_lexicon().language)


SHEET = Sheet(
    name="small",
    version=1,
    title="Small sheet",
    passes=(
        Pass("aroma", "Aroma", "?", Moment.BREAK, (Field("words", Kind.WORDS, "Aroma"),)),
        Pass("colour", "Colour", "?", Moment.HOT, (Field("colour", Kind.COLOUR, "Colour"),)),
        Pass(
            "flavour",
            "Flavour",
            "?",
            Moment.WARM,
            (
                Field("words", Kind.WORDS, "Flavour"),
                Field("weight", Kind.LINE, "Weight", low_label="light", high_label="heavy"),
            ),
        ),
        Pass(
            "verdict",
            "Verdict",
            "?",
            Moment.COOL,
            (
                Field("liking", Kind.LINE, "Liking", low_label="not for me", high_label="for me"),
                Field("line", Kind.TEXT, "Anything else"),
            ),
        ),
    ),
    liking=("verdict", "liking"),
)

NORTH, SOUTH = Coffee("c-north", "North Slope"), Coffee("c-south", "South Slope")


def table_of(
    tasters: int, places: Sequence[str], *, blinding: Blinding = Blinding.CODES, sheet: Sheet = SHEET
) -> Table:
    """An opened table: seats s1.. named Taster 1.., and codes (for a shuffle as many positions)."""
    return Table(
        id="t",
        plan=Plan("Invented table", (NORTH.id, SOUTH.id), blinding=blinding),
        sheet=sheet,
        created=datetime(2026, 11, 25, 9, 30, tzinfo=UTC),
        step=Step.REVEAL,
        codes=tuple(places),
        seats=tuple(Seat(f"s{n}", f"Taster {n}", tuple(places)) for n in range(1, tasters + 1)),
        commitment="ab" * 32,
    )


def note(seat: int, place: str, question: str, value: Value, *, counter: int = 1) -> Note:
    """An answer of seat s<seat>; `question` is "pass/field"."""
    part, field = question.split("/")
    made = f"{seat}-{place}-{question}-{counter}"
    return Note(made, f"s{seat}", place, part, field, value, Stamp(counter, "device"), 0)


def answers_of(
    table: Table,
    notes: Sequence[Note],
    place_coffee: Mapping[str, str],
    *,
    coffees: Sequence[Coffee] = (NORTH, SOUTH),
    late: Collection[str] = (),
) -> Answers:
    """The answers, read with the small lexicon."""
    return gather(table, notes, place_coffee, coffees, small_lexicon(), late=late)


TWO_CODES = {"241": NORTH.id, "573": SOUTH.id}


def small_table_answers() -> tuple[Table, Answers]:
    """Three tasters, two coffees: enough of everything a report shows."""
    table = table_of(3, tuple(TWO_CODES))
    notes = [
        note(1, "241", "aroma/words", "lemon"),
        note(2, "241", "aroma/words", "Lemon, orange"),
        note(3, "241", "flavour/words", "fruity and zesty"),
        note(1, "573", "flavour/words", "chocolate, not smoky"),
        note(2, "573", "flavour/words", "gribble"),
        note(3, "573", "verdict/line", "The last one I would finish."),
        note(1, "241", "colour/colour", {"l": 0.9, "a": -0.02, "b": 0.15}),
        note(2, "241", "colour/colour", {"l": 0.8, "a": 0.02, "b": 0.15}),
    ]
    liking = {("241", 1): 80.0, ("241", 2): 71.0, ("241", 3): 90.0, ("573", 1): 40.0, ("573", 2): 35.0}
    notes += [note(seat, place, "verdict/liking", value) for (place, seat), value in liking.items()]
    return table, answers_of(table, notes, TWO_CODES)
