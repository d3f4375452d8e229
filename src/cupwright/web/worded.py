"""The wire, outward: the lexicon, kin, and the own words of an installation."""

from collections.abc import Iterable, Sequence
from datetime import datetime
from typing import TYPE_CHECKING, Any

from cupwright.core.words.lexicon import Concept, Lexicon, load_lexicon
from cupwright.web.revealed import ConceptShown, MatchedShown, ReadingShown, concepts_shown
from cupwright.web.seat_view import own_word_fields
from cupwright.web.shape import Shown

if TYPE_CHECKING:
    from cupwright.core.words.map_of_words import WordMap
    from cupwright.steps.words import ImportedWords, OwnWordView

KIN = 12


class OwnWordShown(Shown):
    """An own word: a concept with its label and parents or, without a label, forms of another concept.

    `why_not` says why it is not read by, and is empty if it is.
    """

    id: str
    concept: str
    label: str
    parents: list[str]
    forms: list[str]
    added: datetime
    why_not: str


class ImportedWordsShown(Shown):
    """What came of a file of own words: how many are new, and how many were here already."""

    added: int
    known: int


class ConceptLine(Shown):
    """A concept in few words; `family` is the label of its head."""

    id: str
    label: str
    family: str
    own: bool


class ListedConcept(ConceptLine):
    """A concept in the list, to be found by any way to write it."""

    forms: list[str]


class KinShown(Shown):
    """A concept near another: kinship from 0 to 1, and why."""

    concept: str
    label: str
    kinship: float
    why: str


class ConceptView(ListedConcept):
    """A concept, what it hangs under, what hangs under it, and its nearest kin."""

    parents: list[ConceptShown]
    children: list[ConceptShown]
    colour: str
    reference: str
    allergens: list[str]
    defect: str
    todo: str
    kin: list[KinShown]


class PairShown(Shown):
    """Two phrases, what concepts each names, how near they are, and why."""

    a: list[ConceptShown]
    b: list[ConceptShown]
    kinship: float
    why: str


class PointShown(ConceptLine):
    """Where a concept lies on the map: no unit, the middle of all at 0. `colour` is typical of it, or ""."""

    x: float
    y: float
    colour: str


class MapShown(Shown):
    """Kin near each other, strangers far; `stress` says how much of that a plane cannot show, 0 for none."""

    points: list[PointShown]
    stress: float


class TextsMatchedShown(Shown):
    """Two texts as read, and what they have in common."""

    mine: ReadingShown
    theirs: ReadingShown
    matched: MatchedShown


def own_word_shown(view: "OwnWordView") -> OwnWordShown:
    """An own word in the one shape for both kinds."""
    kept = view.kept
    return OwnWordShown(id=kept.id, added=kept.added, why_not=view.why_not, **own_word_fields(kept.addition))


def imported_shown(imported: "ImportedWords") -> ImportedWordsShown:
    """How many words of a file are new."""
    return ImportedWordsShown(added=len(imported.added), known=imported.known)


def listed_concepts(lexicon: Lexicon) -> list[ListedConcept]:
    """Every concept, by label."""
    by_label = sorted(lexicon, key=lambda concept: (concept.label.casefold(), concept.id))
    return [ListedConcept(**_line(concept, lexicon), forms=_forms(concept)) for concept in by_label]


def concept_view(concept_id: str, lexicon: Lexicon) -> ConceptView:
    """One concept with all that hangs around it."""
    from cupwright.core.words.explain import explain
    from cupwright.core.words.kinship import nearest_kin

    concept = lexicon[concept_id]
    near = nearest_kin(concept_id, lexicon, count=KIN)
    return ConceptView(
        **_line(concept, lexicon),
        parents=concepts_shown(concept.parents, lexicon),
        children=concepts_shown([one.id for one in lexicon if concept_id in one.parents], lexicon),
        forms=_forms(concept),
        colour=concept.colour,
        reference=concept.reference,
        allergens=list(concept.allergens),
        defect=concept.defect,
        todo=concept.todo,
        kin=[
            KinShown(
                concept=other,
                label=lexicon[other].label,
                kinship=kinship,
                why=explain(concept_id, other, lexicon),
            )
            for other, kinship in near
        ],
    )


def map_shown(lexicon: Lexicon, laid: "WordMap") -> MapShown:
    """The map with the labels of its points."""
    return MapShown(
        points=[
            PointShown(**_line(lexicon[concept], lexicon), x=x, y=y, colour=lexicon[concept].colour)
            for concept, (x, y) in zip(laid.concepts, laid.points.tolist(), strict=True)
        ],
        stress=laid.stress,
    )


def pair_shown(one: Sequence[str], other: Sequence[str], lexicon: Lexicon) -> PairShown:
    """The concepts of two phrases side by side."""
    from cupwright.core.words.explain import explain_phrases
    from cupwright.core.words.phrase_kinship import phrase_kinship

    return PairShown(
        a=concepts_shown(one, lexicon),
        b=concepts_shown(other, lexicon),
        kinship=phrase_kinship(one, other, lexicon).kinship,
        why=explain_phrases(one, other, lexicon),
    )


def texts_read(notes: Iterable[str], field: str, lexicon: Lexicon) -> list[ReadingShown]:
    """Texts and how they are read. Raises Refused for a field that is no family."""
    from cupwright.core.words.reading import read_note
    from cupwright.errors import Refused

    if field and field not in lexicon.families:
        raise Refused(f"There is no family '{field}'.", todo=f"Name one of {', '.join(lexicon.families)}.")
    return [ReadingShown.model_validate(read_note(note, lexicon, field=field)) for note in notes]


def texts_matched(mine: str, theirs: str, lexicon: Lexicon) -> TextsMatchedShown:
    """Two texts, read and laid side by side."""
    from cupwright.core.reveal.match import match
    from cupwright.core.words.reading import read_note
    from cupwright.web.revealed import matched_shown

    one, other = read_note(mine, lexicon), read_note(theirs, lexicon)
    return TextsMatchedShown(
        mine=ReadingShown.model_validate(one),
        theirs=ReadingShown.model_validate(other),
        matched=matched_shown(match(one.concepts, other.concepts, lexicon), lexicon),
    )


def _line(concept: Concept, lexicon: Lexicon) -> dict[str, Any]:
    return {
        "id": concept.id,
        "label": concept.label,
        "family": lexicon[concept.family].label,
        "own": concept.id not in load_lexicon(),
    }


def _forms(concept: Concept) -> list[str]:
    """How it is written; a group of words in braces is called by its usual one."""
    written = (form.replace("{", "").replace("}", "") for form in concept.synonyms)
    return [form for form in dict.fromkeys(written) if form != concept.label]
