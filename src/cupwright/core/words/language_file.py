"""Reading the small words of a language (english.toml, spanish.toml, portuguese.toml)."""

from collections.abc import Iterable, Mapping
from typing import Any

from cupwright.core.words.lexicon import Endings, Language
from cupwright.core.words.marks import DEGREES, KINDS
from cupwright.core.words.tokens import fold
from cupwright.errors import BadFile, Place

_TEXTS = ("plain", "moments", "real_words")
_KEYS = frozenset([*_TEXTS, "spelling", "endings", "marks", "groups", "label", "forms"])


def language_from(data: Mapping[str, Any], code: str, file: str) -> Language:
    """The language that the data of a file describe.

    Raises
    ------
    BadFile
        If a key or a kind of mark is one that nobody reads.
    """
    if unknown := set(data) - _KEYS:
        _refuse(f"The language '{code}' has a key nobody reads: {sorted(unknown)[0]}.", file)
    plain, moments, real_words = (_words(data.get(key, "")) for key in _TEXTS)
    return Language(
        code=code,
        plain=plain,
        moments=moments,
        real_words=real_words,
        marks=_marks(data.get("marks", {}), code, file),
        spelling=_both_shores(data.get("spelling", ())),
        endings=_endings(data.get("endings", {})),
        groups={name: tuple(group) for name, group in data.get("groups", {}).items()},
    )


def _words(text: str) -> frozenset[str]:
    return frozenset(fold(word) for word in text.split())


def _marks(sections: Mapping[str, Any], code: str, file: str) -> dict[str, tuple[str, ...]]:
    marks = {
        f"{section}.{kind}": tuple(phrases)
        for section, kinds in sections.items()
        for kind, phrases in kinds.items()
    }
    if unknown := set(marks) - KINDS:
        _refuse(f"The language '{code}' has a kind of mark nobody reads: {sorted(unknown)[0]}.", file)
    _check_degrees(marks, code, file)
    return marks


def _check_degrees(marks: Mapping[str, tuple[str, ...]], code: str, file: str) -> None:
    """A phrase gives one degree in one way."""
    given: dict[tuple[str, str], str] = {}
    for kind, phrases in marks.items():
        section, _, degree = kind.partition(".")
        for phrase in phrases if degree in DEGREES else ():
            if given.setdefault((section, phrase), degree) != degree:
                _refuse(
                    f"In the language '{code}' the phrase '{phrase}' has two degrees in '{section}'.", file
                )


def _both_shores(pairs: Iterable[str]) -> dict[str, str]:
    words = [tuple(fold(word) for word in pair.split()) for pair in pairs]
    return dict([(one, other) for one, other in words] + [(other, one) for one, other in words])


def _endings(data: Mapping[str, Any]) -> Endings:
    return Endings(
        number=tuple(_ending(text) for text in data.get("number", ())),
        quality=tuple(_ending(text) for text in data.get("quality", ())),
        doubling=frozenset(data.get("doubling", ())),
        hissing=tuple(data.get("hissing", ())),
        comparing=tuple(data.get("comparing", ())),
    )


def _ending(text: str) -> tuple[str, tuple[str, ...]]:
    ending, *replacements = text.split(":")
    return ending, tuple(replacements)


def _refuse(sentence: str, file: str) -> None:
    raise BadFile(sentence, todo="Mend the language file.", where=Place(file))
