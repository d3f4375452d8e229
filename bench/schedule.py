"""How long a schedule takes, beside one integer programme of the same flight.

    .venv/bin/python bench/schedule.py [--quick] [--json]

Every flight is scheduled from nothing: what was kept in memory is forgotten before. The programme that it is
set beside does less: it only says whether the bowls can be kept at all, on full steps of 5 s, and it is the
least that a schedule by programmes alone would need (one for each window of steep). Both are run in turn, so
that a slow moment meets both. `ratio` is schedule over programme; seconds are the median of the rounds.
`least` is the share of the flights whose spread and steep are proven to be the best. Drawn hands take whole
and half seconds, and many of them cannot keep their bowls, which has to be answered too.
"""

import argparse
import json
import random
import statistics
import time
from dataclasses import dataclass

from cupwright.core.pour import act_times, schedule
from cupwright.core.pour.hands import Hands
from cupwright.core.pour.programme import programmed
from cupwright.core.pour.timing import STANDARD_TIMING
from cupwright.errors import Refused

Figures = dict[str, float]

# (bowls, people) at 15, 10 and 15 s
USUAL = ((6, 1), (8, 1), (10, 1), (12, 1), (20, 2), (24, 2), (36, 3), (44, 4), (50, 5), (60, 6))
WANTED_S = 0.1


@dataclass(frozen=True, slots=True)
class Taken:
    """Seconds of one flight, and whether its schedule is proven to be the best."""

    seconds: float
    programme: float
    least: bool


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description="How long a schedule takes, beside an integer programme.")
    parser.add_argument("--quick", action="store_true", help="fewer rounds and hands, some seconds")
    parser.add_argument("--json", action="store_true", help="one JSON object on the last line")
    asked = parser.parse_args()
    rounds, draws = (3, 20) if asked.quick else (9, 200)
    usual = {f"{bowls}x{people}": taken(bowls, Hands(people), rounds) for bowls, people in USUAL}
    figures = {**flat(usual), **drawn(draws)}
    if asked.json:
        print(json.dumps(figures))
        return
    for name, value in figures.items():
        print(f"{name:24}{value:>12.4f}")
    slow = [name for name, one in usual.items() if one.seconds > WANTED_S]
    print(f"Usual hands within {WANTED_S:g} s: {'all' if not slow else 'not ' + ', '.join(slow)}")


def taken(bowls: int, hands: Hands, rounds: int) -> Taken:
    """One flight, several times from nothing."""
    task = schedule.task_of(hands, STANDARD_TIMING).on(schedule.STEP_S)
    own, beside, least = [], [], True
    for _ in range(rounds):
        began = time.perf_counter()
        least = scheduled(bowls, hands)
        scheduled_at = time.perf_counter()
        programmed(bowls, task)
        own.append(scheduled_at - began)
        beside.append(time.perf_counter() - scheduled_at)
    return Taken(statistics.median(own), statistics.median(beside), least)


def scheduled(bowls: int, hands: Hands) -> bool:
    """Schedule from nothing, as a screen asks for it: with the most bowls. True if proven or refused."""
    for kept in (
        *(act_times.most_bowls, act_times.act_times, act_times.any_times, act_times.some_way_of_any),
        schedule.laid,
    ):
        kept.cache_clear()
    schedule.largest(hands)
    try:
        return schedule.schedule(bowls, hands).least
    except Refused:
        return True


def drawn(draws: int) -> Figures:
    """Hands of whole and half seconds with flights up to 60 bowls, many of which cannot be kept."""
    rng = random.Random(20261125)
    seconds, least = [], 0
    for _ in range(draws):
        halves = (rng.randint(16, 60), rng.randint(8, 40), rng.randint(16, 50))
        hands = Hands(rng.randint(1, 6), *(half / 2 for half in halves))
        began = time.perf_counter()
        least += scheduled(rng.randint(1, 60), hands)
        seconds.append(time.perf_counter() - began)
    tenths = statistics.quantiles(seconds, n=10)
    return {
        "drawn": draws,
        "drawn_median_s": statistics.median(seconds),
        "drawn_p90_s": tenths[-1],
        "drawn_max_s": max(seconds),
        "drawn_least": least / draws,
    }


def flat(usual: dict[str, Taken]) -> Figures:
    """Flat names for all figures."""
    figures: Figures = {}
    for name, one in usual.items():
        figures |= {f"{name}_s": one.seconds, f"{name}_ratio": one.seconds / one.programme}
    figures["usual_least"] = statistics.mean(one.least for one in usual.values())
    return figures


if __name__ == "__main__":
    main()
