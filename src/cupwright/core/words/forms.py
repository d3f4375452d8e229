"""Every way to write a form of the lexicon.

A form may hold a group in braces: "light {body}" stands for every word of the group `body` of the language.
A hyphen stands for written together, apart, or with the hyphen: "blue-berry". A word that two shores write
differently (flavour, flavor) stands for both, and "didn't" for "didnt", too.
"""

from collections.abc import Iterator
from itertools import product

from cupwright.core.words.lexicon import Language
from cupwright.core.words.tokens import fold

_GROUP_OPEN, _GROUP_CLOSE = "{", "}"


def spellings(form: str, language: Language) -> tuple[tuple[str, ...], ...]:
    """Every way to write a form, each as a tuple of folded words: without repetition, always in one order."""
    found: dict[tuple[str, ...], None] = {}
    for filled in _filled(form, language):
        for way in product(*(_ways_of_part(part, language) for part in filled.split())):
            found[tuple(word for piece in way for word in piece)] = None
    return tuple(found)


def _filled(form: str, language: Language) -> list[str]:
    """The form with each group in braces replaced by each of its words."""
    if _GROUP_OPEN not in form:
        return [form]
    head, rest = form.split(_GROUP_OPEN, 1)
    name, tail = rest.split(_GROUP_CLOSE, 1)
    return [head + word + end for word in language.groups[name] for end in _filled(tail, language)]


def _ways_of_part(part: str, language: Language) -> list[tuple[str, ...]]:
    pieces = tuple(fold(piece) for piece in part.split("-"))
    ways = [pieces] if len(pieces) == 1 else [pieces, ("".join(pieces),)]
    return [shore for way in ways for shore in _shores(way, language)]


def _shores(way: tuple[str, ...], language: Language) -> Iterator[tuple[str, ...]]:
    yield way
    if any(word.endswith("n't") for word in way):
        yield tuple(word.replace("n't", "nt") for word in way)  # didnt like
    if any(word in language.spelling for word in way):
        yield tuple(language.spelling.get(word, word) for word in way)
