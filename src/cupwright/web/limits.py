"""Limits: how often a code or a passphrase may be typed wrongly."""

import threading
from collections import deque
from collections.abc import Callable, Iterator
from contextlib import contextmanager

from cupwright.errors import TooManyTries


class Tries:
    """A sliding window over the wrong tries of everybody together.

    Global on purpose: a limit per address is no limit for someone who can change addresses. Source of
    the figure: 30 bits of join code at 10 wrong tries a minute are found in four hours with a chance
    of 2e-6 (2,400 tries in 2^30).
    """

    def __init__(self, ticks: Callable[[], float], *, most: int = 10, within: float = 60.0) -> None:
        self._ticks = ticks
        self._most = most
        self._within = within
        self._wrong: deque[float] = deque()
        self._lock = threading.Lock()

    @contextmanager
    def counted(self, *wrong: type[Exception]) -> Iterator[None]:
        """One try; it was a wrong one if it ends in one of those errors.

        One at a time, so that forty tries at once cannot all be let through before the first is counted.
        Raises TooManyTries before the try begins.
        """
        with self._lock:
            self._check()
            try:
                yield
            except wrong:
                self._wrong.append(self._ticks())
                raise

    def _check(self) -> None:
        oldest = self._ticks() - self._within
        while self._wrong and self._wrong[0] <= oldest:
            self._wrong.popleft()
        if len(self._wrong) >= self._most:
            raise TooManyTries(
                "Too many wrong tries in the last minute.", todo="Wait a minute, then try again."
            )
