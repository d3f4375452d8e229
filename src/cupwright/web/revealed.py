"""The wire, outward, after the reveal: words side by side. Concepts carry their labels."""

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING, Annotated

from pydantic import Field

from cupwright.core.words.lexicon import Lexicon
from cupwright.web.shape import Shown
from cupwright.web.shown import CoffeeFace
from cupwright.web.shown_cooling import CupTemperatureShown
from cupwright.web.shown_sheets import TotalShown, total_shown

if TYPE_CHECKING:
    from cupwright.core.analyse.totals import Total
    from cupwright.core.reveal.comparison import CoffeeComparison, Comparison, TasterWords
    from cupwright.core.reveal.match import Matched
    from cupwright.core.reveal.significance import TableFit
    from cupwright.steps.reveal import Opened


class ConceptShown(Shown):
    """A concept of the lexicon."""

    concept: str
    label: str


class WordShown(Shown):
    """A concept found in a text, from character `start` to `end`.

    `degree`: trace, slight, plain, marked, very or too. `comparison` with another cup, `against`: more, most,
    less, least, other or "". `stage`: first, finish, cooling or "".
    """

    concept: str
    label: str
    start: int
    end: int
    certainty: float
    negated: bool
    degree: str
    comparison: str
    against: str
    hedged: bool
    stage: str


class SpanShown(Shown):
    """A piece of a text that could not be read."""

    start: int
    end: int


class ReadingShown(Shown):
    """A text word for word, and how it was read."""

    text: str
    words: list[WordShown]
    unread: list[SpanShown]


class NearShown(Shown):
    """Two words that are close; kinship from 0 to 1."""

    mine: ConceptShown
    theirs: ConceptShown
    kinship: float


class MatchedShown(Shown):
    """Two lists of words laid side by side."""

    shared: list[ConceptShown]
    near: list[NearShown]
    missed: list[ConceptShown]
    own: list[ConceptShown]
    score: float


class WrittenShown(Shown):
    """One answer, where it was given; `cup_c` is how warm the cup was, null for a dry one."""

    place: str
    part: Annotated[str, Field(serialization_alias="pass")]
    field: str
    text: str
    reading: ReadingShown
    cup_c: CupTemperatureShown | None


class TasterWordsShown(Shown):
    """One taster's words of one coffee."""

    seat: str
    name: str
    written: list[WrittenShown]
    concepts: list[ConceptShown]
    published: MatchedShown | None
    others: MatchedShown | None
    late: list[WrittenShown]


class CoffeeComparisonShown(Shown):
    """One coffee, where it stood, and everybody's words."""

    coffee: CoffeeFace
    places: list[str]
    published: ReadingShown
    tasters: list[TasterWordsShown]


class FitShown(Shown):
    """Whether notes pick out the coffees: a sentence, and the numbers it says.

    `worse` of `ways` of shuffling the coffees fit worse than the coffees as they stood.
    """

    sentence: str
    coffees: int
    worse: int
    ways: int
    p_value: float
    exact: bool


class TasterFitShown(Shown):
    """One taster's notes, by the bags' words and by the others'; null where there is too little to say."""

    seat: str
    published: FitShown | None
    others: FitShown | None


class KeyShown(Shown):
    """The opened key: what the commitment can be computed from again."""

    pairs: list[tuple[str, str]]
    nonce: str


class ComparisonShown(Shown):
    """All coffees of a table, and the key with what was promised of it."""

    table_id: str
    commitment: str
    key: KeyShown
    coffees: list[CoffeeComparisonShown]
    fits: list[TasterFitShown]
    totals: list[TotalShown]


def comparison_shown(
    comparison: "Comparison",
    opened: "Opened",
    totals: "Iterable[Total]",
    names: Mapping[str, str],
    seat: str | None = None,
) -> ComparisonShown:
    """The comparison with the labels of its concepts, beside the opened key.

    `names` are the tasters' by seat. For a taster (`seat`) only the own notes are held against chance.
    """
    lexicon = comparison.lexicon
    return ComparisonShown(
        table_id=comparison.table_id,
        commitment=opened.commitment,
        key=KeyShown.model_validate(opened.key),
        coffees=[_coffee(coffee, lexicon) for coffee in comparison.coffees],
        fits=_fits(comparison, names, seat),
        totals=[total_shown(total) for total in totals],
    )


def _fits(comparison: "Comparison", names: Mapping[str, str], seat: str | None) -> list[TasterFitShown]:
    from cupwright.core.reveal.fits import fit_in_words

    coffees = {one.coffee.id: one.coffee.name for one in comparison.coffees}

    def shown(fit: "TableFit | None", seat_id: str) -> FitShown | None:
        if fit is None:
            return None
        whose = "Your notes" if seat else f"{names[seat_id]}'s notes"
        chance = fit.chance
        return FitShown(
            sentence=fit_in_words(fit, coffees, whose),
            coffees=chance.coffees,
            worse=chance.worse,
            ways=chance.ways,
            p_value=chance.p_value,
            exact=chance.exact,
        )

    return [
        TasterFitShown(
            seat=fit.seat, published=shown(fit.published, fit.seat), others=shown(fit.others, fit.seat)
        )
        for fit in comparison.fits
        if seat in (None, fit.seat)
    ]


def _coffee(compared: "CoffeeComparison", lexicon: Lexicon) -> CoffeeComparisonShown:
    return CoffeeComparisonShown(
        coffee=CoffeeFace.model_validate(compared.coffee),
        places=list(compared.places),
        published=ReadingShown.model_validate(compared.published),
        tasters=[_taster(taster, lexicon) for taster in compared.tasters],
    )


def _taster(words: "TasterWords", lexicon: Lexicon) -> TasterWordsShown:
    return TasterWordsShown(
        seat=words.seat,
        name=words.name,
        written=[WrittenShown.model_validate(one) for one in words.written],
        concepts=concepts_shown(sorted(words.concepts), lexicon),
        published=_matched(words.published, lexicon),
        others=_matched(words.others, lexicon),
        late=[WrittenShown.model_validate(one) for one in words.late],
    )


def _matched(matched: "Matched | None", lexicon: Lexicon) -> MatchedShown | None:
    return None if matched is None else matched_shown(matched, lexicon)


def matched_shown(matched: "Matched", lexicon: Lexicon) -> MatchedShown:
    """Two lists of words laid side by side, with their labels."""
    return MatchedShown(
        shared=concepts_shown(matched.shared, lexicon),
        near=[
            NearShown(mine=_concept(mine, lexicon), theirs=_concept(theirs, lexicon), kinship=kinship)
            for mine, theirs, kinship in matched.near
        ],
        missed=concepts_shown(matched.missed, lexicon),
        own=concepts_shown(matched.own, lexicon),
        score=matched.score,
    )


def concepts_shown(ids: Iterable[str], lexicon: Lexicon) -> list[ConceptShown]:
    """Concepts with their labels."""
    return [_concept(concept, lexicon) for concept in ids]


def _concept(concept: str, lexicon: Lexicon) -> ConceptShown:
    return ConceptShown(concept=concept, label=lexicon[concept].label)
