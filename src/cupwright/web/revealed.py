"""The wire, outward, after the reveal: words side by side. Concepts carry their labels."""

from collections.abc import Iterable
from datetime import date
from typing import TYPE_CHECKING, Annotated

from pydantic import BaseModel, ConfigDict, Field

from cupwright.core.words.lexicon import Lexicon

if TYPE_CHECKING:
    from cupwright.core.reveal.comparison import CoffeeComparison, Comparison, TasterWords
    from cupwright.core.reveal.match import Matched
    from cupwright.steps.reveal import Opened


class Shown(BaseModel):
    """Base; read from a core value by attribute names."""

    model_config = ConfigDict(from_attributes=True, frozen=True)


class ConceptShown(Shown):
    """A concept of the lexicon."""

    concept: str
    label: str


class WordShown(Shown):
    """A concept found in a text, from character `start` to `end`."""

    concept: str
    label: str
    start: int
    end: int
    certainty: float
    negated: bool


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
    """One answer, where it was given."""

    place: str
    part: Annotated[str, Field(serialization_alias="pass")]
    field: str
    text: str
    reading: ReadingShown


class TasterWordsShown(Shown):
    """One taster's words of one coffee."""

    seat: str
    name: str
    written: list[WrittenShown]
    concepts: list[ConceptShown]
    published: MatchedShown | None
    others: MatchedShown | None
    late: list[WrittenShown]


class CoffeeFace(Shown):
    """A coffee as its bag describes it; what is left of it stays at the desk."""

    id: str
    name: str
    roaster: str
    origin: str
    process: str
    variety: str
    roast_date: date | None
    published_notes: str


class CoffeeComparisonShown(Shown):
    """One coffee, where it stood, and everybody's words."""

    coffee: CoffeeFace
    places: list[str]
    published: ReadingShown
    tasters: list[TasterWordsShown]


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


def comparison_shown(comparison: "Comparison", opened: "Opened") -> ComparisonShown:
    """The comparison with the labels of its concepts, beside the opened key."""
    lexicon = comparison.lexicon
    return ComparisonShown(
        table_id=comparison.table_id,
        commitment=opened.commitment,
        key=KeyShown.model_validate(opened.key),
        coffees=[_coffee(coffee, lexicon) for coffee in comparison.coffees],
    )


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
