"""Fits: whether each taster's notes pick out the coffees of a table, by the bags' words and by the others'.

The words of one taster are laid beside those printed for each coffee, or those that the other tasters wrote
of each; significance.py says what shuffling the coffees would give.
"""

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from cupwright.core.reveal.significance import TableFit, sentence, table_fit
from cupwright.core.words.lexicon import Lexicon

# Coffee -> concepts.
Words = Mapping[str, Collection[str]]
# A panel of hundreds is looked at as a whole, not taster by taster.
MOST_TASTERS = 60


@dataclass(frozen=True, slots=True)
class TasterFit:
    """How one taster's notes fit the coffees; None where fewer than two coffees have words on both sides."""

    seat: str
    published: TableFit | None
    others: TableFit | None


def taster_fits(said: Mapping[str, Words], published: Words, lexicon: Lexicon) -> tuple[TasterFit, ...]:
    """One fit for each taster who wrote, or none at all for a panel of more than 60.

    Parameters
    ----------
    said : mapping
        Seat -> what that taster wrote: coffee -> concepts.
    published : mapping
        What is printed for each coffee: coffee -> concepts.
    """
    wrote = [seat for seat, words in said.items() if any(words.values())]
    if len(wrote) > MOST_TASTERS:
        return ()
    return tuple(
        TasterFit(
            seat,
            _fit(said[seat], published, lexicon),
            _fit(said[seat], _of_others(said, seat), lexicon),
        )
        for seat in wrote
    )


def fit_in_words(fit: TableFit, names: Mapping[str, str], whose: str = "Your notes") -> str:
    """What to make of a fit; `names` are the coffees' names, of which those that were left out are told."""
    said = sentence(fit.chance, whose)
    if not fit.left_out:
        return said
    left = " and ".join(names[coffee] for coffee in fit.left_out)
    return f"{said} Left out, for want of words to compare: {left}."


def _fit(mine: Words, theirs: Words, lexicon: Lexicon) -> TableFit | None:
    both = [coffee for coffee in mine if mine[coffee] and theirs.get(coffee)]
    return table_fit(mine, theirs, lexicon) if len(both) > 1 else None


def _of_others(said: Mapping[str, Words], seat: str) -> dict[str, set[str]]:
    """Coffee -> every concept that anybody else used for it."""
    used: dict[str, set[str]] = {}
    for other, words in said.items():
        if other != seat:
            for coffee, concepts in words.items():
                used.setdefault(coffee, set()).update(concepts)
    return used
