"""Looking up concepts by whatever somebody calls them: an id, a label, or any way to write one."""

from cupwright.core.words.lexicon import Lexicon
from cupwright.core.words.reading import read_note
from cupwright.core.words.tokens import tokens
from cupwright.errors import NotFound


def concepts_called(text: str, lexicon: Lexicon) -> tuple[str, ...]:
    """The ids of the concepts that a text names, each once, in its order: "quince jelly" names two.

    Raises
    ------
    NotFound
        If it names none.
    """
    if text in lexicon:
        return (text,)
    named = tuple(dict.fromkeys(word.concept for word in read_note(text, lexicon).words))
    if not named:
        raise NotFound(
            f"No word of the lexicon is called '{_short(text)}'.", todo="Try another way to say it."
        )
    return named


def concept_called(text: str, lexicon: Lexicon) -> str:
    """The id of the one concept that a text names.

    Raises
    ------
    NotFound
        If it names none, or more than one.
    """
    named = concepts_called(text, lexicon)
    if len(named) == 1:
        return named[0]
    labels = " and ".join(f"'{lexicon[concept].label}'" for concept in named[:3])
    raise NotFound(f"'{_short(text)}' names more than one word: {labels}.", todo="Ask for one of them.")


def _short(text: str) -> str:
    words = [token.word for token in tokens(text[:200])]
    return " ".join(words[:8])
