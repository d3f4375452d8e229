"""Looking up a concept by whatever somebody calls it: its id, its label, or any way to write it."""

from cupwright.core.words.lexicon import Lexicon
from cupwright.core.words.reading import read_note
from cupwright.core.words.tokens import tokens
from cupwright.errors import NotFound


def concept_called(text: str, lexicon: Lexicon) -> str:
    """The id of the concept that a text names.

    Raises
    ------
    NotFound
        If it names none, or more than one.
    """
    if text in lexicon:
        return text
    named = dict.fromkeys(word.concept for word in read_note(text, lexicon).words)
    if len(named) == 1:
        return next(iter(named))
    if not named:
        raise NotFound(
            f"No word of the lexicon is called '{_short(text)}'.", todo="Try another way to say it."
        )
    labels = " and ".join(f"'{lexicon[concept].label}'" for concept in list(named)[:3])
    raise NotFound(f"'{_short(text)}' names more than one word: {labels}.", todo="Ask for one of them.")


def _short(text: str) -> str:
    words = [token.word for token in tokens(text[:200])]
    return " ".join(words[:8])
