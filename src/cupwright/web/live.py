"""Live: the desk hears that something changed at a table, and asks for it again.

An event carries no content, only (table, kind); what was missed while away is made good by the first
event after coming back, `hello`, upon which the desk asks for everything it shows.
"""

import asyncio
import threading
from collections.abc import AsyncIterator, Iterator
from contextlib import contextmanager

# Ten phones writing at once must not make the desk reload fifty times a second.
SHORTEST_PAUSE_S = 0.2


class Listener:
    """One open stream. Kinds that arrive while it is busy are kept once each."""

    def __init__(self, table_id: str | None) -> None:
        self.table_id = table_id
        self._loop = asyncio.get_running_loop()
        self._pending: dict[tuple[str, str], None] = {}
        self._something = asyncio.Event()
        self._ended = asyncio.Event()

    def tell(self, table_id: str, kind: str) -> None:
        """Called from any thread."""
        if self.table_id in (None, table_id) and not self._loop.is_closed():
            self._loop.call_soon_threadsafe(self._put, table_id, kind)

    def end(self) -> None:
        """Called from any thread: the stream ends when it has told what it knows."""
        if not self._loop.is_closed():
            self._loop.call_soon_threadsafe(self._end)

    def _end(self) -> None:
        self._ended.set()
        self._something.set()

    def _put(self, table_id: str, kind: str) -> None:
        self._pending[(table_id, kind)] = None
        self._something.set()

    async def events(self) -> AsyncIterator[tuple[str, str]]:
        """(table, kind) as they come, until somebody ends it."""
        while not self._ended.is_set():
            await self._something.wait()
            self._something.clear()
            news, self._pending = tuple(self._pending), {}
            for event in news:
                yield event
            if self._ended.is_set():
                return
            await asyncio.sleep(SHORTEST_PAUSE_S)


class Hub:
    """All open streams of this process."""

    def __init__(self) -> None:
        self._listeners: set[Listener] = set()
        self._lock = threading.Lock()

    def announce(self, table_id: str, kind: str) -> None:
        """Tell every listener of that table. Cheap, never blocks, callable from any thread."""
        with self._lock:
            listeners = tuple(self._listeners)
        for listener in listeners:
            listener.tell(table_id, kind)

    def end(self) -> None:
        """End every stream, because the server stops: one that has to be cancelled is printed as a fault."""
        with self._lock:
            listeners = tuple(self._listeners)
        for listener in listeners:
            listener.end()

    @contextmanager
    def listening(self, table_id: str | None) -> Iterator[Listener]:
        """A stream about one table, or about all (None); it ends with the block."""
        listener = Listener(table_id)
        with self._lock:
            self._listeners.add(listener)
        try:
            yield listener
        finally:
            with self._lock:
                self._listeners.discard(listener)
