"""Watch: a progress bar on standard error for what takes over a second, if somebody is there to see it."""

import sys
import threading
from types import TracebackType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from rich.progress import Progress, TaskID

PATIENCE_S = 1.0


class Watch:
    """A context, called with (done, all) as the work goes on; never called, it shows only that it works."""

    def __init__(self, title: str) -> None:
        self._title = title
        self._state: tuple[int, int | None] = (0, None)
        self._lock = threading.Lock()
        self._bar: tuple[Progress, TaskID] | None = None
        self._timer = threading.Timer(PATIENCE_S, self._show)
        self._timer.daemon = True

    def __enter__(self) -> "Watch":
        if sys.stderr.isatty():
            self._timer.start()
        return self

    def __call__(self, done: int, all_: int) -> None:
        with self._lock:
            self._state = (done, all_)
            if self._bar:
                progress, task = self._bar
                progress.update(task, completed=done, total=all_)

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self._timer.cancel()
        with self._lock:
            if self._bar:
                self._bar[0].stop()

    def _show(self) -> None:
        from rich.console import Console
        from rich.progress import Progress

        with self._lock:
            progress = Progress(console=Console(stderr=True), transient=True)
            done, all_ = self._state
            self._bar = (progress, progress.add_task(self._title, completed=done, total=all_))
            progress.start()
