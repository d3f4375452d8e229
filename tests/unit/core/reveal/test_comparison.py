"""The comparison: whose words are beside whose, per coffee and wherever it stood."""

from collections.abc import Collection, Sequence
from dataclasses import replace

from tests.fakes.values import a_coffee, a_note, a_table

from cupwright.core.flow import Step
from cupwright.core.plan.table import Blinding, Seat, Table
from cupwright.core.reveal.comparison import CoffeeComparison, Comparison, compare
from cupwright.core.taste.note import Note, Value
from cupwright.core.words.lexicon import load_lexicon

LEXICON = load_lexicon()
NAMES = ("Ada", "Ben", "Cleo", "Dan", "Eve")


def table_of(seats: int, **changes: object) -> Table:
    table = a_table(step=Step.REVEAL, **changes)
    return replace(table, seats=tuple(Seat(name, name, table.places) for name in NAMES[:seats]))


def say(seat: str, value: Value, number: int = 1, place: str = "412", **changes: str) -> Note:
    return a_note(number, seat=seat, value=value, place=place, id=f"{seat}-{number}-{place}", **changes)


def compared(
    table: Table, notes: Sequence[Note], published: str = "", late: Collection[str] = ()
) -> CoffeeComparison:
    coffees = {"coffee-1": a_coffee(1, published_notes=published), "coffee-2": a_coffee(2)}
    places = dict(zip(table.places, ("coffee-1", "coffee-2") * 2, strict=False))
    return compare(table, notes, places, coffees, LEXICON, late=late).coffees[0]


def test_what_was_corrected_or_taken_back_is_not_compared() -> None:
    notes = [say("Ada", "cherry", 1), say("Ada", "tobacco", 2), say("Ben", "cherry", 1), say("Ben", None, 2)]

    found = compared(table_of(2), notes)

    assert [(taster.name, taster.concepts) for taster in found.tasters] == [("Ada", {"tobacco"})]


def test_without_published_words_or_others_there_is_nothing_to_compare_with() -> None:
    (alone,) = compared(table_of(1), [say("Ada", "cherry")]).tasters

    assert alone.published is None
    assert alone.others is None


def test_words_written_in_several_passes_are_one_list_in_the_order_of_the_sheet() -> None:
    notes = [
        say("Ada", "cocoa", 1, part="finish"),
        say("Ada", "jasmine", 2, part="fragrance"),
        say("Ada", "not a word field", 3, part="verdict", field="line"),
    ]

    (ada,) = compared(table_of(1), notes).tasters

    assert [(one.part, one.text) for one in ada.written] == [("fragrance", "jasmine"), ("finish", "cocoa")]
    assert ada.concepts == {"jasmine", "cocoa"}


def test_a_coffee_that_stood_at_two_places_is_compared_once() -> None:
    plan = replace(a_table().plan, blinding=Blinding.SHUFFLE, bowls_per_sample=2)
    table = table_of(1, plan=plan, codes=("111", "222", "333", "444"))
    notes = [say("Ada", "cherry", 1, place="3"), say("Ada", "cocoa", 2, place="1")]

    found = compared(table, notes, published="cherry, cocoa")

    assert found.places == ("1", "3")
    assert [one.place for one in found.tasters[0].written] == ["1", "3"]
    assert found.tasters[0].published is not None
    assert found.tasters[0].published.shared == ("cherry", "cocoa")


def test_a_word_is_shared_if_any_other_used_it_and_missed_only_if_half_of_them_did() -> None:
    notes = [
        say("Ada", "cherry"),
        say("Ben", "cherry, tobacco, rubber"),
        say("Cleo", "tobacco"),
        say("Dan", "jasmine"),
        say("Eve", "leather"),
    ]

    ada = compared(table_of(5), notes).tasters[0]

    assert ada.others is not None
    assert ada.others.shared == ("cherry",)
    assert ada.others.missed == ("tobacco",)


def test_a_word_that_is_denied_is_not_compared() -> None:
    (ada,) = compared(table_of(1), [say("Ada", "no cherry, cocoa")], published="cherry").tasters

    assert ada.published is not None
    assert ada.published.missed == ("cherry",)


def test_what_came_late_is_shown_beside_the_rest_and_compared_with_nothing() -> None:
    notes = [
        say("Ada", "cherry", 1),
        say("Ada", "cherry, tobacco", 2),
        say("Ben", "cherry", 1),
        say("Cleo", "tobacco", 1),
    ]
    late = {notes[1].id, notes[3].id}

    ada, ben, cleo = compared(table_of(3), notes, "tobacco", late).tasters

    assert (ada.name, ada.concepts) == ("Ada", {"cherry"})
    assert [one.text for one in ada.late] == ["cherry, tobacco"]
    assert ada.others is not None
    assert (ada.others.shared, ada.others.missed) == (("cherry",), ())
    assert ada.published is not None
    assert ada.published.missed == ("tobacco",)
    assert ben.late == ()
    assert [one.text for one in cleo.late] == ["tobacco"]
    assert (cleo.written, cleo.concepts, cleo.published, cleo.others) == ((), frozenset(), None, None)


def test_a_late_note_that_takes_an_answer_back_leaves_it_standing() -> None:
    notes = [say("Ada", "cherry", 1), say("Ada", None, 2)]

    (ada,) = compared(table_of(1), notes, late={notes[1].id}).tasters

    assert ([one.text for one in ada.written], ada.late) == (["cherry"], ())


def both_compared(table: Table, notes: Sequence[Note], late: Collection[str] = ()) -> Comparison:
    coffees = {
        "coffee-1": a_coffee(1, published_notes="plum"),
        "coffee-2": a_coffee(2, published_notes="tobacco"),
    }
    places = dict(zip(table.places, ("coffee-1", "coffee-2"), strict=True))
    return compare(table, notes, places, coffees, LEXICON, late=late)


RIGHT = (say("Ada", "plum", 1), say("Ada", "tobacco", 2, place="735"))


def test_each_taster_hears_whether_the_notes_pick_out_the_coffees() -> None:
    (fit,) = both_compared(table_of(2), RIGHT).fits

    assert fit.seat == "Ada"
    assert fit.published is not None
    assert (fit.published.chance.worse, fit.published.chance.ways) == (1, 2)
    assert fit.others is None


def test_notes_that_came_late_pick_nothing_out() -> None:
    assert both_compared(table_of(2), RIGHT, late=[note.id for note in RIGHT]).fits == ()


def test_at_a_table_that_was_not_blind_picking_out_proves_nothing() -> None:
    plan = replace(a_table().plan, blinding=Blinding.OPEN)
    table = table_of(2, plan=plan)
    coffees = {"coffee-1": a_coffee(1, published_notes="plum"), "coffee-2": a_coffee(2)}
    notes = [replace(note, place=table.places[at]) for at, note in enumerate(RIGHT)]

    found = compare(table, notes, dict(zip(table.places, coffees, strict=True)), coffees, LEXICON)

    assert found.fits == ()
    assert found.coffees[0].tasters[0].concepts == {"plum"}
