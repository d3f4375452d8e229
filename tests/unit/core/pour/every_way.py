"""Whether a small flight can be kept, by trying every beginning of every act, second by second.

Written from the rules alone, without the programme of act_times.py: bowls in any order of skims, people by
counting who is at work.
"""

from collections.abc import Iterator
from functools import cache
from typing import TypeAlias

STEEPS, BROKEN = "steeps", "broken"
# For each bowl that was begun: what it is, and when it was poured or its break was over.
State: TypeAlias = tuple[tuple[str, int], ...]
Next: TypeAlias = tuple[State, tuple[int, ...], int]


def can_be_kept(
    bowls: int, people: int, acts: tuple[int, int, int], steep: tuple[int, int], end: int
) -> bool:
    """Bowls poured in order; times in seconds from the first pour; `end` is when all has to be skimmed."""
    pour, crust, skim = acts
    earliest, latest = steep

    @cache
    def go(now: int, state: State, busy: tuple[int, ...], begun: int) -> bool:
        if begun == bowls and not state:
            return True
        if now >= end:
            return False
        still = tuple(sorted(until for until in busy if until > now))
        if len(still) < people and any(go(now, *each) for each in begins(now, state, still, begun)):
            return True
        too_long = any(what == STEEPS and now + 1 - since > latest for what, since in state)
        # The first bowl is poured at once: waiting for it would only move everything.
        return begun > 0 and not too_long and go(now + 1, state, still, begun)

    def begins(now: int, state: State, still: tuple[int, ...], begun: int) -> Iterator[Next]:
        if begun < bowls:
            yield (*state, (STEEPS, now)), (*still, now + pour), begun + 1
        for index, (what, since) in enumerate(state):
            before, after = state[:index], state[index + 1 :]
            its_turn = all(other != STEEPS for other, _ in before)
            if what == STEEPS and its_turn and earliest <= now - since <= latest:
                yield (*before, (BROKEN, now + crust), *after), (*still, now + crust), begun
            if what == BROKEN and since <= now and now + skim <= end:
                yield (*before, *after), (*still, now + skim), begun

    return go(0, (), (), 0)
