"""Whether each taster's notes pick out the coffees, or would have fitted any of them."""

from collections.abc import Mapping, Sequence

from cupwright.core.analyse.answers import Answers
from cupwright.core.report.document import Block, Caveat, Heading, Paragraph
from cupwright.core.report.wording import counted
from cupwright.core.report.words_section import SMALL_TABLE
from cupwright.core.reveal.fits import fit_in_words, taster_fits
from cupwright.core.reveal.significance import TableFit
from cupwright.core.words.reading import read_note

_SELDOM = 0.05
_SOURCES = "Shuffles: Fisher (1935), The Design of Experiments; draws: Phipson & Smyth (2010), SAGMB 9:39."


def fits_section(answers: Answers) -> tuple[Block, ...]:
    """By the roasters' words and by the other tasters': of few tasters each, of many how many of them."""
    fits = taster_fits(_said(answers), _published(answers), answers.lexicon)
    tell = _each if len(answers.seats) <= SMALL_TABLE else _how_many
    said = [
        *_part("By the roasters' words", tell(answers, {f.seat: f.published for f in fits if f.published})),
        *_part("By the other tasters' words", tell(answers, {f.seat: f.others for f in fits if f.others})),
    ]
    if not said:
        return ()
    caveat = (
        "Many usual words fit any coffee; therefore the same notes are matched with the words of every other "
        "coffee of the table. This judges notes by words, not tasters: the words they are held against may "
        "be wrong."
    )
    return (Heading("Do the notes pick out the coffees?"), *said, Caveat(f"{caveat} {_SOURCES}"))


def _part(title: str, sentences: Sequence[str]) -> list[Block]:
    return [Heading(title, 2), *map(Paragraph, sentences)] if sentences else []


def _each(answers: Answers, fits: Mapping[str, TableFit]) -> list[str]:
    names = {seat.id: seat.name for seat in answers.seats}
    coffees = {coffee.id: coffee.name for coffee in answers.coffees}
    return [fit_in_words(fit, coffees, f"{names[seat]}'s notes") for seat, fit in fits.items()]


def _how_many(_answers: Answers, fits: Mapping[str, TableFit]) -> list[str]:
    if not fits:
        return []
    good = sum(fit.chance.p_value <= _SELDOM for fit in fits.values())
    able = sum(fit.chance.least <= _SELDOM for fit in fits.values())
    if not able:
        return ["Too few coffees have words on both sides: even the best notes could be luck."]
    return [
        f"The notes of {good} of {counted(able, 'taster')} pick out the coffees better than 19 of 20 ways of "
        f"shuffling them; luck alone would give about {able * _SELDOM:.0f}."
    ]


def _said(answers: Answers) -> dict[str, dict[str, frozenset[str]]]:
    """Seat -> coffee -> concepts, every coffee named."""
    said = {seat.id: {coffee.id: frozenset[str]() for coffee in answers.coffees} for seat in answers.seats}
    for one in answers.written:
        if one.reading is not None:
            said[one.seat][one.coffee] |= one.reading.concepts
    return said


def _published(answers: Answers) -> dict[str, frozenset[str]]:
    return {
        coffee.id: read_note(coffee.published_notes, answers.lexicon).concepts for coffee in answers.coffees
    }
