"""`cupwright reveal`: open the key, and see the words side by side."""

import argparse
import sys
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from cupwright.cli.asking import Commands, command, with_json, with_table
from cupwright.cli.data_folder import data_folder
from cupwright.cli.joint import Joint
from cupwright.cli.judged import say_judged
from cupwright.cli.said import complain_line, say, say_json
from cupwright.errors import Refused

if TYPE_CHECKING:
    from cupwright.core.reveal.comparison import Comparison, Written
    from cupwright.core.taste.progress import SeatProgress
    from cupwright.core.taste.sheet import Sheet


def add_to(commands: Commands) -> None:
    """Make the command known."""
    says = "Open the key of a table (once opened, nothing is written any more), or show an open one again."
    parser = command(commands, "reveal", reveal, says=says)
    with_table(parser)
    parser.add_argument(
        "--placing",
        metavar="PLACE=CODE",
        action="append",
        type=_placing,
        default=[],
        help="after a shuffle: the code under the bowl at a place, as 1=421; once for every bowl",
    )
    parser.add_argument("--yes", action="store_true", help="open it without asking on the terminal")
    with_json(parser)


def reveal(joint: Joint, chosen: argparse.Namespace) -> None:
    """Open the key unless it is open, then compare."""
    from cupwright.core.flow import Step
    from cupwright.core.plain import plain
    from cupwright.core.report.judged import judged, judged_as_data
    from cupwright.steps.analyse import analysis
    from cupwright.steps.plan import find_table
    from cupwright.steps.reveal import comparison, open_key
    from cupwright.steps.taste import progress_of

    placings = _placings(chosen)
    with joint.open_tools(data_folder(chosen.data)) as tools:
        table = find_table(tools, chosen.table)
        if table.step is not Step.REVEAL or placings:
            if table.step is not Step.REVEAL and not chosen.yes:
                _ask(table.plan.name, progress_of(tools, table.id))
            open_key(tools, table.id, placings or None)
        compared, answers = comparison(tools, table.id), analysis(tools, table.id)
        beside = judged(find_table(tools, table.id), answers)
    if chosen.json:
        parts = {"coffees": plain(compared.coffees), "fits": plain(compared.fits)}
        say_json({"table_id": compared.table_id, **parts, **judged_as_data(beside)})
    else:
        _say(compared, table.sheet)
        say_judged(answers, beside)
        _say_fits(compared, {seat.id: seat.name for seat in table.seats})


def _ask(table: str, so_far: "Sequence[SeatProgress]") -> None:
    """Somebody at a terminal is asked first: an opened key cannot be sealed again.

    Raises
    ------
    Refused
        If the answer is not yes.
    """
    if not sys.stdin.isatty():
        return
    unfinished = [seat.name for seat in so_far if any(part.done < part.all for part in seat.passes)]
    if unfinished:
        complain_line(f"Not finished yet: {', '.join(unfinished)}.")
    complain_line(f"Open the key of '{table}'? Nothing can be written afterwards. Type yes to open it:")
    if sys.stdin.readline().strip().casefold() not in ("y", "yes"):
        raise Refused(f"The key of '{table}' stays closed.", todo="Open it when everybody has finished.")


def _placing(text: str) -> tuple[str, str]:
    place, equals, code = (part.strip() for part in text.partition("="))
    if not (place and equals and code):
        raise argparse.ArgumentTypeError(f"'{text}' is not PLACE=CODE, as in 1=421")
    return place, code


def _placings(chosen: argparse.Namespace) -> dict[str, str]:
    placings = dict(chosen.placing)
    if len(placings) < len(chosen.placing):
        chosen.wrong_use("--placing names one place twice")
    return placings


def _say(compared: "Comparison", sheet: "Sheet") -> None:
    for coffee in compared.coffees:
        say(f"{', '.join(coffee.places)}  {coffee.coffee.name}")
        if coffee.published.text:
            say(f"    published: {coffee.published.text}")
        several = len(coffee.places) > 1
        for taster in coffee.tasters:
            for one in taster.written:
                say(f"    {taster.name}, {_at(one, sheet, several)}: {one.text}")
            for one in taster.late:
                say(f"    {taster.name}, {_at(one, sheet, several)}, late and not compared: {one.text}")


def _at(one: "Written", sheet: "Sheet", several: bool) -> str:
    """Which pass a note is from, and which place where the coffee stood at several."""
    part = sheet.part(one.part)
    title = part.title if part else one.part
    return f"{title}, {one.place}" if several else title


def _say_fits(compared: "Comparison", names: Mapping[str, str]) -> None:
    """Whether each taster's notes pick out the coffees, by the published words."""
    from cupwright.core.reveal.fits import fit_in_words

    coffees = {one.coffee.id: one.coffee.name for one in compared.coffees}
    for fit in compared.fits:
        if fit.published:
            say(fit_in_words(fit.published, coffees, f"{names[fit.seat]}'s notes"))
