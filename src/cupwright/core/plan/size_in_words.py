"""Sizes in words: what a computed size or result means, as sentences that any door shows."""

import math
from collections.abc import Mapping

from cupwright.core.analyse.estimate import Estimate
from cupwright.core.plan.discrimination import GUESSING, Method
from cupwright.core.plan.discrimination_size import Effect, NeededTasters, Trial
from cupwright.core.plan.observed_count import ObservedCount
from cupwright.core.plan.panel_size import MOST_TASTERS, NeededPanels, PanelReach
from cupwright.core.plan.simulated_size import Design, SimulatedPower
from cupwright.core.report.wording import counted, level_name, listed, percent

Sentences = tuple[str, ...]

NAMES: Mapping[Method, str] = {
    Method.TRIANGLE: "triangle test",
    Method.DUO_TRIO: "duo-trio test",
    Method.TWO_AFC: "2-AFC test",
    Method.THREE_AFC: "3-AFC test",
    Method.PAIRED: "paired test asked both ways",
    Method.TWO_OF_FIVE: "two-out-of-five test",
}

ONE_ANSWER = "One answer a taster: somebody who answers twice is not two tasters."

_WHY_TWO = (
    "The two numbers differ because right answers come whole: one taster more may take one right answer "
    "more, and then the chance to find the difference falls a little."
)

_ASSUMED = (
    "The spreads are assumptions, worked out from rules of thumb of the trade. Put in your own panel's when "
    "you know them."
)


def needed_in_words(needed: NeededTasters) -> Sentences:
    """How many tasters, the counts that go with them, and why there are two numbers."""
    first, lasting = needed.first, needed.lasting
    same = first.tasters == lasting.tasters
    onward = (
        "so does every larger number" if same else f"from {lasting.tasters:,} tasters on every number does"
    )
    return (
        f"{counted(first.tasters, 'taster')} are the fewest with whom a {NAMES[needed.method]} finds the "
        f"difference at least {times(needed.power)}; {onward}.",
        f"The difference: {_effect(needed.method, needed.effect)}.",
        *(line for one in ([first] if same else [first, lasting]) for line in _counts(needed.method, one)),
        *(() if same else (_WHY_TWO,)),
        ONE_ANSWER,
    )


def trial_in_words(method: Method, trial: Trial, effect: Effect | None) -> Sentences:
    """What a test with a given number of tasters can tell."""
    if effect is None or trial.power is None:
        return (*_counts(method, trial), ONE_ANSWER)
    return (
        *_counts(method, trial),
        f"The difference that was named is found {times(trial.power)}: {_effect(method, effect)}.",
        ONE_ANSWER,
    )


def observed_in_words(observed: ObservedCount) -> Sentences:
    """Whether a result can be luck, and how large the difference may be."""
    paired, guessing = observed.method is Method.PAIRED, GUESSING[observed.method]
    what = "chose this cup" if paired else "right"
    so_many = "a majority as large, either way," if paired else "so many or more"
    who = "Lean towards this cup" if paired else "Tasters who can tell them apart"
    return (
        f"{observed.right:,} of {observed.of:,} {what}; guessing alone gives {so_many} "
        f"{times(observed.p_value)} ({_p(observed.p_value)}).",
        _verdict(observed),
        f"{'Choose this cup' if paired else 'Right answers'} in the long run: {_shares(observed.share)}; "
        f"guessing gives {percent(guessing)}.",
        f"{who}: {_shares(observed.discriminators)}. Distance d': {_distance(observed.dprime)}.",
        f"Ranges are two-sided {level_name(observed.share.level)} intervals. {ONE_ANSWER}",
    )


def panels_in_words(needed: NeededPanels, reach: PanelReach | None, *, assumed: bool) -> Sentences:
    """Tasters and bowls for a difference in points, and what bowls cannot do."""
    head = [f"{_many(one.tasters)} with {counted(one.repeats, 'bowl')} of each" for one in needed.panels[:1]]
    rest = [f"{_number(one.tasters)} with {one.repeats}" for one in needed.panels[1:]]
    return (
        f"To find {_points(needed.points)} between two coffees {times(needed.power)} takes "
        f"{listed(head + rest, last='or')}.",
        *_what_bowls_do(needed),
        *(() if reach is None else _reach(needed, reach)),
        *((_ASSUMED,) if assumed else ()),
    )


def simulated_in_words(simulated: SimulatedPower, full_table: float) -> Sentences:
    """How often drawn tables found the difference, beside the formula's power for a full table."""
    design = simulated.design
    return (
        f"Of {simulated.draws:,} drawn tables {percent(simulated.found.estimate)} found the difference of "
        f"{_points(design.points)}; luck in the drawing leaves {_range(simulated.found)}.",
        f"Where there was no difference, {percent(simulated.false_alarms.estimate)} found one all the same "
        f"({_range(simulated.false_alarms)}).",
        f"Each table: {_design(design)}.",
        f"By the formula, a full table without steps or lost scores finds it {times(full_table)}.",
    )


def times(chance: float) -> str:
    """A chance as so many times in 100."""
    if chance < 0.0005:
        return "less than once in 2,000 times" if chance > 0 else "never"
    if 0.9995 < chance < 1:
        return "all but once in 2,000 times, or oftener"
    digits = 1 if chance < 0.1 or chance > 0.99 else 0
    return f"{100 * chance:.{digits}f} times in 100".replace(".0 ", " ")


def _effect(method: Method, effect: Effect) -> str:
    who = "lean one way" if method is Method.PAIRED else "can tell the coffees apart"
    right = "go that way" if method is Method.PAIRED else "are right"
    apart = f"; d' is {effect.dprime:.2f}" if math.isfinite(effect.dprime) else ""
    return (
        f"{percent(effect.discriminators)} of tasters {who}, so that {percent(effect.share)} of answers "
        f"{right} where guessing gives {percent(GUESSING[method])}{apart}"
    )


def _counts(method: Method, trial: Trial) -> list[str]:
    answers = "answers for the same cup" if method is Method.PAIRED else "right answers"
    if trial.least_right is None:
        lines = [
            f"Of {trial.tasters:,}, not even {trial.tasters:,} {answers} would show a difference at this "
            "error."
        ]
    else:
        lines = [
            f"Of {trial.tasters:,}, {trial.least_right:,} {answers} or more show a difference; guessing "
            f"alone gives that {times(trial.alpha)}."
        ]
    if trial.most_right_if_alike is not None:
        lines.append(
            f"Of {trial.tasters:,}, {trial.most_right_if_alike:,} or fewer say that the difference is "
            "smaller than the one named."
        )
    return lines


def _verdict(observed: ObservedCount) -> str:
    if observed.p_value <= 1 - observed.share.level:
        return "Luck is a poor explanation: the coffees can be told apart."
    return "Luck explains it well enough. That is no proof that the coffees are alike."


def _what_bowls_do(needed: NeededPanels) -> Sentences:
    spread = needed.spread
    shrink = f"More bowls shrink only what differs from bowl to bowl ({_points(spread.residual)})."
    if spread.taster_coffee == 0:
        return (shrink,)
    stays = (
        f"That one taster takes to a coffee more than others do ({_points(spread.taster_coffee)}) stays, "
        f"however many bowls there are: even endless bowls take {_many(needed.at_best)}."
    )
    return (shrink, stays)


def _reach(needed: NeededPanels, reach: PanelReach) -> Sentences:
    if reach.power >= needed.power:
        more = "that is enough"
    elif reach.repeats_needed is None:
        more = f"with endless bowls {times(reach.best_power)}, so bowls cannot make up for missing tasters"
    else:
        more = f"{counted(reach.repeats_needed, 'bowl')} of each would do"
    return (
        f"{counted(reach.tasters, 'taster')} with {counted(reach.repeats, 'bowl')} of each find it "
        f"{times(reach.power)}; {more}.",
        f"What they find {times(needed.power)} is {_points(reach.detectable)}. The "
        f"{level_name(1 - needed.alpha)} interval of a difference reaches {_points(reach.half_width)} to "
        "either side.",
    )


def _design(design: Design) -> str:
    each = design.samples_each or design.coffees
    part = "all" if each == design.coffees else f"{each} of"
    step = f", points in steps of {design.step:g}" if design.step else ""
    lost = f", {percent(design.lost)} of scores lost" if design.lost else ""
    return (
        f"{counted(design.tasters, 'taster')}, {part} {design.coffees} coffees each, "
        f"{counted(design.repeats, 'bowl')} of each{step}{lost}"
    )


def _many(tasters: int | None) -> str:
    return f"{_number(tasters)} tasters"  # never one: a panel has two or more


def _number(tasters: int | None) -> str:
    return f"more than {MOST_TASTERS:,}" if tasters is None else f"{tasters:,}"


def _points(points: float) -> str:
    size = abs(points)
    text = f"{size:.2f}".rstrip("0").rstrip(".") if size >= 0.1 or size == 0 else f"{size:.2g}"
    return f"{text} point{'' if text == '1' else 's'}"


def _shares(shares: Estimate) -> str:
    return f"{_signed(shares.estimate)} ({_range(shares)})"


def _range(shares: Estimate) -> str:
    return f"{_signed(shares.low)} to {_signed(shares.high)}"


def _signed(share: float) -> str:
    return f"−{percent(-share)}" if share < 0 else percent(share)


def _distance(dprime: Estimate) -> str:
    def one(value: float) -> str:
        return f"{value:.2f}".replace("-", "−") if math.isfinite(value) else "without end"

    reach = f"to {one(dprime.high)}" if math.isfinite(dprime.high) else "upwards"
    return f"{one(dprime.estimate)} ({one(dprime.low)} {reach})"


def _p(value: float) -> str:
    return "p under 0.0001" if value < 0.0001 else f"p = {value:.4f}"
