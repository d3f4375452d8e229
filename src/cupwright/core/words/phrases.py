"""The forms of a lexicon as a tree of words, and the longest phrase of it that starts at a word of a note."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from functools import cached_property, lru_cache

from cupwright.core.words import marks
from cupwright.core.words.forms import spellings
from cupwright.core.words.lexicon import ENGLISH, Language, Lexicon
from cupwright.core.words.spelling import EXACT, ONE_SLIP, Candidate, Mender, inflected_from
from cupwright.core.words.tokens import Token

# How sure a reading is when the form may stand for another concept, too.
AMBIGUOUS = 0.6
# Families whose shared forms are meant only in a field of their own: orange the colour, where it was asked.
_ONLY_WHERE_ASKED = ("colour",)
_CACHED_WORDS = 65_536
_KEPT_INDEXES = 32


@dataclass(slots=True)
class _Node:
    """One word of a phrase: what may follow, and what a phrase that ends here is."""

    next: dict[str, "_Node"] = field(default_factory=dict)
    concept: str = ""
    marks: frozenset[str] = marks.NONE
    certainty: float = EXACT

    @property
    def ends(self) -> bool:
        return bool(self.concept or self.marks)


@dataclass(frozen=True, slots=True)
class Found:
    """A phrase in a note: words `first` up to but not including `after`.

    `concept` is "" for a phrase that only marks others. `compares`: the ending that compares, if any.
    """

    concept: str
    marks: frozenset[str]
    first: int
    after: int
    certainty: float
    compares: str = ""


class PhraseIndex:
    """Compiled once for a lexicon, a language and a field; answers in the time of a few look-ups.

    A language other than English stands upon the index of English (`base`) and has the first say over its
    words. In a field that is a family's own, a form that several concepts share is read as the family's.
    """

    def __init__(
        self, lexicon: Lexicon, language: Language, field: str = "", base: "PhraseIndex | None" = None
    ) -> None:
        self._root = _Node()
        self._known: set[str] = set()
        self._mendable: set[str] = set()  # single words somebody may have meant to type
        self._endings = language.endings
        self._base = base
        self._plant_language(lexicon, language, field)
        self.small: frozenset[str] = language.small | (base.small if base else frozenset())
        self._fixed = self._fixed_words(language)
        self._comparing = dict(self._comparisons())
        self._stands_for = lru_cache(_CACHED_WORDS)(self._candidates)

    def longest(self, words: Sequence[Token], first: int, before: int | None = None) -> Found | None:
        """The phrase of most words from `first` on; of equally long ones the most certain.

        With `before` it ends before that word.
        """
        best: tuple[int, float, _Node, str] | None = None
        stands_for, end = self._stands_for, len(words) if before is None else before
        open_ends = [(self._root, first, EXACT, "")]
        while open_ends:
            node, at, certainty, compares = open_ends.pop()
            for candidate in stands_for(words[at].word):
                following = node.next.get(candidate.word) if at > first else self._begun(candidate.word)
                if following is None or (candidate.alone and at > first):
                    continue
                sure, ending = certainty * candidate.certainty, candidate.compares or compares
                after = at + 1
                if (following.concept or following.marks) and (best is None or (after, sure) > best[:2]):
                    best = (after, sure, following, ending)
                if following.next and not candidate.alone and after < end and words[after].joined:
                    open_ends.append((following, after, sure, ending))
        if best is None:
            return None
        after, certainty, node, compares = best
        return Found(node.concept, node.marks, first, after, certainty * node.certainty, compares)

    def knows(self, word: str) -> bool:
        """Whether a word means or marks something by itself, or is a small word."""
        begun = (self._begun(candidate.word) for candidate in self._stands_for(word))
        return word in self.small or any(node is not None and node.ends for node in begun)

    def _begun(self, word: str) -> _Node | None:
        """The phrases that begin with a word, in this language before English."""
        begun = self._root.next.get(word)
        return self._base._begun(word) if begun is None and self._base else begun

    def _means(self, word: str) -> bool:
        begun = self._begun(word)
        return begun is not None and bool(begun.concept)

    def _fixed_words(self, language: Language) -> frozenset[str]:
        """Words that stand for themselves only. One that marks and means (strong) has endings like others."""
        bare = language.plain | language.moments | language.real_words
        marking = frozenset(word for word in self.small if not self._means(word))
        return bare | marking | (self._base._fixed if self._base else frozenset())

    def _plant_language(self, lexicon: Lexicon, language: Language, field: str) -> None:
        for kind, phrases in language.marks.items():
            for phrase in phrases:
                for spelling in spellings(phrase, language):
                    self._grow(spelling).marks |= {kind}
        for concept in lexicon:
            for form in concept.forms_in(language.code):
                for spelling in spellings(form, language):
                    self._plant(spelling, concept.id)
        if language.code == ENGLISH:
            self._plant_slips(lexicon, language)
            self._share(lexicon, language, field)

    def _plant(self, spelling: tuple[str, ...], concept: str) -> None:
        """Take a form in; one of two words also run together (brownsugar), because people type that."""
        self._grow(spelling).concept = concept
        if len(spelling) == 1:
            self._mendable.update(spelling)
        elif len(spelling) == 2 and "".join(spelling) not in self._root.next:
            self._grow(("".join(spelling),)).concept = concept

    def _plant_slips(self, lexicon: Lexicon, language: Language) -> None:
        for concept in lexicon:
            for form in concept.slips:
                for spelling in spellings(form, language):
                    node = self._grow(spelling)
                    node.concept, node.certainty = concept.id, ONE_SLIP

    def _share(self, lexicon: Lexicon, language: Language, field: str) -> None:
        """A shared form is less certain, or its meaning is the field's."""
        for concept in lexicon:
            for form in concept.shared:
                for spelling in spellings(form, language):
                    node = self._grow(spelling)
                    if concept.family == field:
                        node.concept, node.certainty = concept.id, EXACT
                    elif concept.family not in _ONLY_WHERE_ASKED and lexicon[node.concept].family != field:
                        node.certainty = AMBIGUOUS

    def _grow(self, spelling: tuple[str, ...]) -> _Node:
        node = self._root
        for word in spelling:
            node = node.next.setdefault(word, _Node())
        self._known.update(spelling)
        return node

    def _comparisons(self) -> Iterator[tuple[str, str]]:
        """Words the lexicon holds that compare: "lighter", because "light" means or marks the same."""
        for word, node in self._root.next.items():
            if node.ends and word.endswith(self._endings.comparing):
                for candidate in inflected_from(word, self._known, self._endings):
                    stem = self._root.next.get(candidate.word)
                    if candidate.compares and stem and not candidate.alone and _alike(node, stem):
                        yield word, candidate.compares

    def _inflected(self, word: str) -> list[Candidate]:
        """What a word may be a form of, by the endings of this language and then of English."""
        own = inflected_from(word, self._known, self._endings)
        if self._base is None:
            return own
        met = {candidate.word for candidate in own}
        return own + [candidate for candidate in self._base._inflected(word) if candidate.word not in met]

    def _compares(self, word: str) -> str:
        own = self._comparing.get(word, "")
        return own if own or self._base is None or word in self._root.next else self._base._compares(word)

    def _holds(self, word: str) -> bool:
        return word in self._known or (self._base is not None and self._base._holds(word))

    @cached_property
    def _mender(self) -> Mender:
        """Made when the first unknown word is met."""
        return Mender(self._mendable - self._fixed)

    def _mended(self, word: str) -> Candidate | None:
        return self._mender.meant(word) or (self._base._mended(word) if self._base else None)

    def _candidates(self, word: str) -> tuple[Candidate, ...]:
        """What a word may stand for. Small words and protected words stand for themselves only."""
        itself = Candidate(word, EXACT, compares=self._compares(word))
        if word in self._fixed:
            return (itself,) if self._holds(word) else ()
        stems = self._inflected(word)
        fit = tuple(stem for stem in stems if stem.word == word or stem.word not in self._fixed)
        if fit:
            return (itself, *fit[1:]) if fit[0].word == word else fit
        slip = self._mended(word)
        return (slip,) if slip else ()


def _alike(one: _Node, other: _Node) -> bool:
    if one.concept:
        return one.concept == other.concept
    return any(mark.startswith(marks.AMOUNT) for mark in one.marks) and any(
        mark.startswith(marks.AMOUNT) for mark in other.marks
    )


def phrase_index(lexicon: Lexicon, code: str = ENGLISH, field: str = "") -> PhraseIndex:
    """The index of a lexicon for a language and a field, compiled at first use."""
    if field and not any(concept.shared for concept in lexicon if concept.family == field):
        field = ""  # nothing is read otherwise there
    return _compiled(lexicon, code, field)


@lru_cache(_KEPT_INDEXES)
def _compiled(lexicon: Lexicon, code: str, field: str) -> PhraseIndex:
    if code == ENGLISH:
        return PhraseIndex(lexicon, lexicon.language, field)
    return PhraseIndex(lexicon, lexicon.others[code], field, _compiled(lexicon, ENGLISH, field))
