"""Coverage of reading: how much of what was written could be read into words of the lexicon."""

from collections import Counter
from dataclasses import dataclass

from cupwright.core.analyse.answers import Answers
from cupwright.core.taste.sheet import Kind


@dataclass(frozen=True, slots=True)
class Coverage:
    """Counts of notes in fields for words.

    `asked` counts every chance to write: places that a taster was given x fields for words. asked = empty +
    written and written = read + unread; `read` notes held at least one known word. `unread_words` are
    (word, number of notes), the most frequent first; `unread_notes` the texts in which nothing was known,
    likewise.
    """

    asked: int
    empty: int
    written: int
    read: int
    unread: int
    unread_words: tuple[tuple[str, int], ...]
    unread_notes: tuple[tuple[str, int], ...]


def coverage(answers: Answers) -> Coverage:
    """How many notes were empty, read, or not read at all, and which words stopped the reading."""
    fields = sum(field.kind is Kind.WORDS for part in answers.sheet.passes for field in part.fields)
    asked = fields * len(_cups(answers))
    texts = [(w.text, w.reading) for w in answers.written if w.reading is not None]
    unread = [(text, reading) for text, reading in texts if not reading.words]
    words: Counter[str] = Counter()
    for _, reading in texts:
        words.update({word.casefold() for word in reading.unread_words()})
    return Coverage(
        asked=asked,
        empty=asked - len(texts),
        written=len(texts),
        read=len(texts) - len(unread),
        unread=len(unread),
        unread_words=_ranked(words),
        unread_notes=_ranked(Counter(" ".join(text.split()) for text, _ in unread)),
    )


def had_it(answers: Answers) -> tuple[int, ...]:
    """How many tasters were given each coffee, or wrote about it all the same; coffee by coffee."""
    rows = {place: row for row, places in enumerate(answers.places) for place in places}
    had: list[set[str]] = [set() for _ in answers.places]
    for seat, place in _cups(answers):
        had[rows[place]].add(seat)
    return tuple(map(len, had))


def _cups(answers: Answers) -> set[tuple[str, str]]:
    """(seat, place) of everything that somebody was given, or wrote about all the same."""
    stood = {place for places in answers.places for place in places}
    given = {(seat.id, place) for seat in answers.seats for place in stood.intersection(seat.order)}
    return given | {(written.seat, written.place) for written in answers.written}


def _ranked(counted: Counter[str]) -> tuple[tuple[str, int], ...]:
    return tuple(sorted(counted.items(), key=lambda item: (-item[1], item[0])))
