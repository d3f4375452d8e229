"""`cupwright size`: how many tasters, bowls and right answers a question needs, and how sure a result is."""

import argparse
from typing import TYPE_CHECKING

from cupwright.cli.asking import Commands, command, with_json
from cupwright.cli.joint import Joint
from cupwright.cli.said import say, say_json, say_rows

if TYPE_CHECKING:
    from cupwright.steps.size import SizeAnswer

_SAYS = "Say how many tasters, bowls and right answers a question needs, and how sure a result is."

_TESTS = {
    "triangle": "three cups, two alike: which is the odd one?",
    "duo-trio": "which of two cups is like the one that is shown?",
    "2-afc": "which of two cups has more of something named?",
    "3-afc": "which of three cups, two alike, has more of something named?",
    "paired": "which of two cups has more, or is liked better, either way round?",
    "two-out-of-five": "which two of five cups are of the other coffee?",
}


def add_to(commands: Commands) -> None:
    """Make the command and its questions known."""
    parser = commands.add_parser("size", help=_SAYS, description=_SAYS, allow_abbrev=False)
    questions = parser.add_subparsers(title="questions", metavar="QUESTION", required=True)
    for name, asks in _TESTS.items():
        _add_test(questions, name, asks)
    _add_difference(questions)
    _add_simulate(questions)


def _add_test(questions: Commands, name: str, asks: str) -> None:
    test = command(questions, name, of_test, says=f"A test of difference: {asks}")
    test.set_defaults(method=name)
    size = test.add_mutually_exclusive_group()
    size.add_argument(
        "--discriminators",
        metavar="SHARE",
        type=float,
        help="share of tasters who can tell the coffees apart, such as 0.3",
    )
    size.add_argument("--dprime", metavar="D", type=float, help="distance d' of the coffees, such as 1")
    _with_errors(test)
    test.add_argument(
        "--right", metavar="N", type=int, help="with --of: how many were right, and how sure is it?"
    )
    test.add_argument("--of", metavar="N", type=int, help="tasters, one answer each")
    test.add_argument(
        "--level",
        metavar="SHARE",
        type=float,
        default=0.95,
        help="with --right: level of the intervals (0.95)",
    )
    with_json(test)


def _add_difference(questions: Commands) -> None:
    says = "How many tasters and bowls show a difference of so many points between two coffees?"
    asking = command(questions, "difference", difference, says=says)
    _with_points(asking)
    _with_errors(asking)
    asking.add_argument(
        "--most-bowls", metavar="N", type=int, default=5, help="up to how many bowls of each (5)"
    )
    asking.add_argument("--tasters", metavar="N", type=int, help="also say what so many tasters can do")
    with_json(asking)


def _add_simulate(questions: Commands) -> None:
    says = "Draw tables with a difference put in, with some coffees each, steps and lost scores."
    asking = command(questions, "simulate", simulate, says=says)
    _with_points(asking)
    asking.add_argument("--tasters", metavar="N", type=int, required=True)
    asking.add_argument(
        "--samples-each", metavar="N", type=int, default=0, help="coffees that each taster gets (all)"
    )
    asking.add_argument("--step", metavar="POINTS", type=float, default=0.0, help="step of the scale (none)")
    asking.add_argument(
        "--lost", metavar="SHARE", type=float, default=0.0, help="share of scores never written (0)"
    )
    asking.add_argument("--alpha", metavar="SHARE", type=float, default=0.05, help="error allowed (0.05)")
    asking.add_argument("--draws", metavar="N", type=int, default=4000, help="tables drawn (4000)")
    asking.add_argument("--seed", metavar="N", type=int, default=1, help="the same number draws the same (1)")
    with_json(asking)


def _with_points(asking: argparse.ArgumentParser) -> None:
    asking.add_argument(
        "--points", metavar="POINTS", type=float, required=True, help="the difference that should be found"
    )
    asking.add_argument("--coffees", metavar="N", type=int, default=2, help="coffees on the table (2)")
    asking.add_argument(
        "--bowls", metavar="N", type=int, default=1, help="bowls of each that a taster scores (1)"
    )
    asking.add_argument(
        "--taster-sd",
        metavar="POINTS",
        type=float,
        help="spread of how tasters take to a coffee (1, an assumption)",
    )
    asking.add_argument(
        "--residual-sd",
        metavar="POINTS",
        type=float,
        help="spread of one taster over bowls of one coffee (0.9, an assumption)",
    )


def _with_errors(asking: argparse.ArgumentParser) -> None:
    asking.add_argument(
        "--power", metavar="SHARE", type=float, default=0.9, help="how often it should be found (0.9)"
    )
    asking.add_argument(
        "--alpha",
        metavar="SHARE",
        type=float,
        default=0.05,
        help="how often at most where there is no difference (0.05)",
    )


def of_test(_joint: Joint, chosen: argparse.Namespace) -> None:
    """A size, the counts of a given size, or how sure a result is."""
    from cupwright.steps.size import counts_for_test, method_called, result_of_test, tasters_for_test

    if chosen.right is not None and chosen.of is None:
        chosen.wrong_use("--right goes with --of: how many were right, of how many")
    if chosen.right is not None and (chosen.discriminators, chosen.dprime) != (None, None):
        chosen.wrong_use("--right and --of say how sure a result is; leave the difference out")
    if chosen.of is None and chosen.discriminators is None and chosen.dprime is None:
        chosen.wrong_use("say how large a difference should be found (--discriminators or --dprime), or --of")
    method = method_called(chosen.method)
    if chosen.right is not None:
        _answer(result_of_test(method, chosen.right, chosen.of, level=chosen.level), as_data=chosen.json)
        return
    asked = {
        "discriminators": chosen.discriminators,
        "dprime": chosen.dprime,
        "alpha": chosen.alpha,
        "power": chosen.power,
    }
    if chosen.of is not None:
        _answer(counts_for_test(method, chosen.of, **asked), as_data=chosen.json)
    else:
        _answer(tasters_for_test(method, **asked), as_data=chosen.json)


def difference(_joint: Joint, chosen: argparse.Namespace) -> None:
    """Tasters and bowls for a difference in points."""
    from cupwright.steps.size import panel_for_difference

    answer = panel_for_difference(
        chosen.points,
        taster_sd=chosen.taster_sd,
        residual_sd=chosen.residual_sd,
        most_repeats=chosen.most_bowls,
        coffees=chosen.coffees,
        tasters=chosen.tasters,
        repeats=chosen.bowls,
        alpha=chosen.alpha,
        power=chosen.power,
    )
    _answer(answer, as_data=chosen.json)
    if not chosen.json:
        rows = [
            (str(one["repeats"]), str(one["tasters"] or "over 10,000"), _power(one["power"]))
            for one in answer.numbers["panels"]
        ]
        say("")
        say_rows(("bowls of each", "tasters", "power"), rows)


def simulate(_joint: Joint, chosen: argparse.Namespace) -> None:
    """Power of a table that no formula covers."""
    from cupwright.steps.size import design_of, simulated_table

    design = design_of(
        taster_sd=chosen.taster_sd,
        residual_sd=chosen.residual_sd,
        points=chosen.points,
        tasters=chosen.tasters,
        coffees=chosen.coffees,
        samples_each=chosen.samples_each,
        repeats=chosen.bowls,
        step=chosen.step,
        lost=chosen.lost,
    )
    _answer(
        simulated_table(design, alpha=chosen.alpha, draws=chosen.draws, seed=chosen.seed), as_data=chosen.json
    )


def _answer(answer: "SizeAnswer", *, as_data: bool) -> None:
    if as_data:
        say_json(answer.as_data)
        return
    for sentence in answer.sentences:
        say(sentence)


def _power(power: float | None) -> str:
    return "" if power is None else f"{power:.3f}"
