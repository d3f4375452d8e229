"""Totals, orders, picks and repeats of a table, said on a terminal; `reveal` and `analyse` share it."""

from typing import TYPE_CHECKING

from cupwright.cli.blocks import say_blocks
from cupwright.cli.said import say, say_rows

if TYPE_CHECKING:
    from cupwright.core.analyse.answers import Answers
    from cupwright.core.analyse.totals import Total
    from cupwright.core.report.judged import Judged, OddPicks


def say_judged(answers: "Answers", found: "Judged") -> None:
    """Nothing where the sheet asked for nothing of the kind."""
    from cupwright.core.report.compared_section import compared_section
    from cupwright.core.report.repeats_section import repeats_section

    _say_totals(answers, found.totals)
    say_blocks(compared_section(answers))
    for picks in found.odd:
        _say_how_sure(picks)
    say_blocks(repeats_section(answers, found.repeats))


def _say_totals(answers: "Answers", found: "tuple[Total, ...]") -> None:
    from cupwright.core.analyse.totals import mean_of

    if answers.sheet.points is None:
        return
    say("")
    if not found:
        say("Nobody gave any points.")
        return
    names = {coffee.id: coffee.name for coffee in answers.coffees}
    rows = [(names[one.coffee], one.place, one.name, _total(one)) for one in found]
    say_rows(("coffee", "place", "taster", "points"), rows)
    for coffee in answers.coffees:
        own = [one for one in found if one.coffee == coffee.id and one.points.total is not None]
        mean = mean_of(own)
        if mean is not None:
            say(f"{coffee.name}: mean {mean:.2f} of {len(own)}")


def _total(one: "Total") -> str:
    made = one.points
    return f"{made.low} to {made.high}, open" if made.total is None else f"{made.total}"


def _say_how_sure(picks: "OddPicks") -> None:
    if picks.of:
        say(f"How sure that is: cupwright size triangle --right {picks.right} --of {picks.of}")
