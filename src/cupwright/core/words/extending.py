"""A lexicon with own words: the concepts and forms that users of an installation added.

The lexicon that comes with the program stays as it is; an extended one is a new value. Compiling its index
takes a moment, so whoever reads many notes keeps it (steps/words.py).
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from cupwright.core.words.forms import spellings
from cupwright.core.words.lexicon import Concept, Lexicon
from cupwright.core.words.own_words import Addition, OwnConcept, OwnForm
from cupwright.errors import Clash, CupwrightError, Refused

_Spelling = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SetAside:
    """An own word that does not fit the lexicon (any more), and why, in one sentence."""

    addition: Addition
    why: str


def extended(lexicon: Lexicon, additions: Iterable[Addition]) -> Lexicon:
    """The lexicon with these own words; concepts may hang under each other, in any order.

    Raises
    ------
    Clash
        If a concept of that id exists, or a form belongs to a concept already.
    Refused
        If a parent or the concept of a form does not exist, or a form holds small words only.
    """
    growing = _Growing(lexicon)
    for addition in _parents_first(additions, lexicon):
        growing.take(addition)
    return growing.lexicon()


def fitting(lexicon: Lexicon, additions: Iterable[Addition]) -> tuple[Lexicon, tuple[SetAside, ...]]:
    """The same without raising: what does not fit is set aside.

    A newer program may bring a word that users had added before; their data must open all the same.
    """
    growing, aside = _Growing(lexicon), []
    for addition in _parents_first(additions, lexicon):
        try:
            growing.take(addition)
        except CupwrightError as refusal:
            aside.append(SetAside(addition, refusal.message))
    return growing.lexicon(), tuple(aside)


def _parents_first(additions: Iterable[Addition], lexicon: Lexicon) -> Sequence[Addition]:
    """Concepts before what hangs under them, then forms; what hangs under nothing known comes last."""
    waiting = [one for one in additions if isinstance(one, OwnConcept)]
    forms = [one for one in additions if isinstance(one, OwnForm)]
    ordered: list[Addition] = []
    known = set(lexicon.concepts)
    while ready := [one for one in waiting if known.issuperset(one.parents)]:
        ordered += ready
        known.update(one.id for one in ready)
        waiting = [one for one in waiting if one not in ready]
    return [*ordered, *waiting, *forms]


class _Growing:
    """A lexicon that is being added to; either a whole addition is taken or nothing of it."""

    def __init__(self, lexicon: Lexicon) -> None:
        self._before = lexicon
        self._concepts = dict(lexicon.concepts)
        self._taken = 0
        self._owners = {
            spelling: concept.id
            for concept in lexicon
            for form in (*concept.synonyms, *concept.slips)
            for spelling in spellings(form, lexicon.language)
        }

    def lexicon(self) -> Lexicon:
        return replace(self._before, concepts=self._concepts, own=self._before.own + self._taken)

    def take(self, addition: Addition) -> None:
        if isinstance(addition, OwnConcept):
            self._take_concept(addition)
        else:
            self._take_form(addition)
        self._taken += 1

    def _take_concept(self, own: OwnConcept) -> None:
        if own.id in self._concepts:
            raise Clash(
                f"The lexicon has a concept '{self._concepts[own.id].label}' already.",
                todo="Add another way to write that concept instead.",
            )
        for parent in own.parents:
            self._require(parent, f"'{own.label}' hangs under")
        self._own(own.id, own.written)
        first = self._concepts[own.parents[0]]
        self._concepts[own.id] = Concept(
            own.id,
            own.label,
            first.family,
            own.written,
            parents=own.parents,
            about=first.about,
            takes=first.takes,
        )

    def _take_form(self, own: OwnForm) -> None:
        self._require(own.concept, f"'{own.form}' is said to be written for")
        self._own(own.concept, (own.form,))
        before = self._concepts[own.concept]
        self._concepts[own.concept] = replace(before, synonyms=(*before.synonyms, own.form))

    def _require(self, concept: str, said: str) -> None:
        if concept not in self._concepts:
            raise Refused(f"{said} '{concept}', which is no concept.", todo="Choose one that exists.")

    def _own(self, concept: str, forms: Iterable[str]) -> None:
        """Give the forms to the concept, all or none."""
        wanted = {spelling: form for form in forms for spelling in self._spellings(form)}
        for spelling, form in wanted.items():
            if spelling in self._owners:
                raise Clash(
                    f"'{form}' is a way to write '{self._concepts[self._owners[spelling]].label}' already.",
                    todo="Choose another form, or correct single readings.",
                )
        self._owners.update(dict.fromkeys(wanted, concept))

    def _spellings(self, form: str) -> tuple[_Spelling, ...]:
        found = spellings(form, self._before.language)
        small = self._before.language.small
        if any(small.issuperset(spelling) for spelling in found):
            raise Refused(
                f"'{form}' consists of words that carry no taste by themselves.",
                todo="Add the word that does.",
            )
        return found
