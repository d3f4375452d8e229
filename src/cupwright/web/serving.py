"""Serving: bind first, so that a taken port is one clear sentence; then run until stopped."""

import errno
import signal
import socket
from collections.abc import Callable
from types import FrameType

import uvicorn
from fastapi import FastAPI

from cupwright.errors import Clash, Refused
from cupwright.web.live import Hub

BACKLOG = 512


def bound_socket(host: str, port: int) -> socket.socket:
    """A listening socket; port 0 takes any free one.

    Raises
    ------
    Clash
        If the port is taken.
    Refused
        If the address is none of this machine's, or the port may not be used.
    """
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    listener = socket.socket(family, socket.SOCK_STREAM)
    listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listener.bind((host, port))
        listener.listen(BACKLOG)
    except OSError as fault:
        listener.close()
        raise _cannot_listen(fault, host, port) from None
    return listener


def _cannot_listen(fault: OSError, host: str, port: int) -> Clash | Refused:
    if fault.errno == errno.EADDRINUSE:
        return Clash(
            f"Port {port} is taken by another program.", todo=f"Stop that one, or use --port {port + 1}."
        )
    reason = fault.strerror or str(fault)
    return Refused(
        f"Cupwright cannot listen on {host} port {port}: {reason}.", todo="Choose another address."
    )


def run(app: FastAPI, listener: socket.socket, ready: Callable[[], None]) -> None:
    """Serve on the socket until the process is told to stop (SIGINT or SIGTERM), then return."""
    config = uvicorn.Config(
        app,
        log_level="warning",
        access_log=False,
        server_header=False,
        proxy_headers=False,
        lifespan="off",
        ws="none",
        # For whoever does not end when told to.
        timeout_graceful_shutdown=1,
    )
    # uvicorn stops in good order and then raises the signal anew; without a handler of our own SIGTERM
    # would end the process there and then, with files still open.
    before = signal.signal(signal.SIGTERM, _as_interrupt)
    try:
        _Server(config, ready, app.state.here.hub).run(sockets=[listener])
    except KeyboardInterrupt:
        pass
    finally:
        signal.signal(signal.SIGTERM, before)
        listener.close()


class _Server(uvicorn.Server):
    """Says when it is ready, and ends the open event streams before it stops."""

    def __init__(self, config: uvicorn.Config, ready: Callable[[], None], hub: Hub) -> None:
        super().__init__(config)
        self._ready = ready
        self._hub = hub

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        await super().startup(sockets)
        self._ready()

    async def shutdown(self, sockets: list[socket.socket] | None = None) -> None:
        self._hub.end()
        await super().shutdown(sockets)


def _as_interrupt(_signal: int, _frame: FrameType | None) -> None:
    raise KeyboardInterrupt
