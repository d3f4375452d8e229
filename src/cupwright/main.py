"""Main: the one place where the parts are joined. Nothing heavy is imported before a command needs it."""

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager, nullcontext
from pathlib import Path
from typing import TYPE_CHECKING

from cupwright.cli.joint import Joint, Listening, Wish
from cupwright.cli.program import main

if TYPE_CHECKING:
    from cupwright.steps.ports import Tools


def run() -> None:
    """The command `cupwright`."""
    sys.exit(main(sys.argv[1:], Joint(open_tools, serve)))


def make_tools(data: str | Path) -> "Tools":
    """Tools on a data folder or the address of a database; close `tools.store` when done."""
    import random
    from datetime import UTC, datetime

    from cupwright.core.ids import time_ordered_id
    from cupwright.render.renderer import Renderer
    from cupwright.steps.ports import NoColumns, Tools
    from cupwright.store.backup import SqliteArchive
    from cupwright.store.columns import FileColumns
    from cupwright.store.opening import open_store
    from cupwright.store.passphrases import SlowPassphrases
    from cupwright.store.spreadsheet import FileRows

    rng = random.SystemRandom()
    store = open_store(data)
    return Tools(
        store=store,
        now=lambda: datetime.now(UTC),
        rng=rng,
        new_id=lambda: time_ordered_id(int(datetime.now(UTC).timestamp() * 1000), rng),
        render=Renderer(),
        archive=SqliteArchive(store),
        spreadsheets=FileRows(),
        passphrases=SlowPassphrases(),
        columns=FileColumns(Path(data)) if "://" not in str(data) else NoColumns(),
    )


@contextmanager
def open_tools(data: str, *, alone: bool = False) -> Iterator["Tools"]:
    """Tools for as long as the block lasts; `alone` keeps a second server off a data folder."""
    from cupwright.cli.alone import alone_in

    # A database has its own way of keeping writers apart, and may serve several machines.
    with alone_in(Path(data)) if alone and "://" not in data else nullcontext():
        tools = make_tools(data)
        try:
            yield tools
        finally:
            tools.store.close()


def serve(tools: "Tools", wish: Wish, greet: Callable[[Listening], None]) -> None:
    """Run the web side until it is stopped."""
    from cupwright.web.addresses import host_names, reachable_at, web_address
    from cupwright.web.app import make_app
    from cupwright.web.serving import bound_socket
    from cupwright.web.serving import run as run_server
    from cupwright.web.settings import Settings

    listener = bound_socket(wish.host, wish.port)
    port = int(listener.getsockname()[1])
    app = make_app(
        tools,
        Settings(
            port=port,
            lan=wish.lan,
            names=host_names() if wish.lan else frozenset(),
            addresses=lambda: reachable_at(wish.host),
            word_hash=wish.word_hash,
        ),
    )
    elsewhere = tuple(web_address(address, port) for address in reachable_at(wish.host)) if wish.lan else ()
    here = web_address({"0.0.0.0": "127.0.0.1", "::": "::1"}.get(wish.host, wish.host), port)
    run_server(app, listener, lambda: greet(Listening(here, elsewhere)))
