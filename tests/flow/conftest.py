"""A real server in a process of its own, on a free port, with a data folder that is thrown away."""

import os
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import httpx2
import pytest
from tests.flow.browser import chromium, open_screen  # noqa: F401 (fixtures)

START = "from cupwright.main import run; run()"
PATIENCE_S = 90  # a start takes 1.5 s, and far longer on two cores that do ten things at once


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


def command(*arguments: str) -> list[str]:
    """`cupwright ...` by the interpreter that runs the tests."""
    return [sys.executable, "-W", "error", "-c", START, *arguments]


@dataclass
class Server:
    """`stop` and `start` keep port and data, as when the program is restarted in the middle of a table."""

    data: Path
    arguments: tuple[str, ...] = ()
    environment: dict[str, str] = field(default_factory=dict)
    port: int = field(default_factory=free_port)
    process: subprocess.Popen[str] | None = None

    @property
    def url(self) -> str:
        return f"http://127.0.0.1:{self.port}"

    @property
    def log(self) -> str:
        """Everything it printed so far."""
        return (self.data.parent / f"server-{self.port}.log").read_text()

    def start(self) -> "Server":
        with open(self.data.parent / f"server-{self.port}.log", "a") as log:
            self.process = subprocess.Popen(
                command("serve", "--data", str(self.data), "--port", str(self.port), *self.arguments),
                env=os.environ | self.environment,
                stdout=log,
                stderr=subprocess.STDOUT,
                text=True,
            )
        self._wait()
        return self

    def stop(self) -> int:
        """Stop as Ctrl+C does; the exit code."""
        if self.process is None:
            return 0
        self.process.send_signal(signal.SIGINT)
        code = self.process.wait(PATIENCE_S)
        self.process = None
        return code

    def kill(self) -> None:
        """Stop without any warning."""
        if self.process is not None:
            self.process.kill()
            self.process.wait(PATIENCE_S)
            self.process = None

    def client(self, **headers: str) -> httpx2.Client:
        """A browser that opened our own page."""
        return httpx2.Client(base_url=self.url, headers={"Origin": self.url} | headers, timeout=PATIENCE_S)

    def _wait(self) -> None:
        deadline = time.monotonic() + PATIENCE_S
        while time.monotonic() < deadline:
            if self.process is None or self.process.poll() is not None:
                break
            try:
                # First a bare connection: a client of HTTP takes long to make, and the server needs the time.
                socket.create_connection(("127.0.0.1", self.port), timeout=5).close()
                httpx2.get(f"{self.url}/api/health", timeout=PATIENCE_S)
                return
            except (OSError, httpx2.TransportError):
                time.sleep(0.02)
        raise RuntimeError(f"The server did not start:\n{self.log}")


@pytest.fixture
def start_server(tmp_path: Path) -> Iterator[Callable[..., Server]]:
    """Starts servers; all are stopped at the end of the test."""
    started: list[Server] = []

    def start(*arguments: str, data: Path | None = None, **environment: str) -> Server:
        server = Server(data or tmp_path / "data", arguments, environment)
        started.append(server)
        return server.start()

    yield start
    for server in started:
        server.kill()


@pytest.fixture(scope="module")
def shared_server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    """One server for all tests of a file, each with its own tables: starting one costs seconds."""
    server = Server(tmp_path_factory.mktemp("shared") / "data").start()
    yield server
    server.kill()


@pytest.fixture
def server(start_server: Callable[..., Server]) -> Server:
    """One server as `make run` starts it, with nothing in its data folder."""
    return start_server()


@pytest.fixture
def desk(server: Server) -> Iterator[httpx2.Client]:
    """The desk's browser."""
    with server.client() as client:
        yield client


@pytest.fixture
def cupwright(tmp_path: Path) -> Callable[..., subprocess.CompletedProcess[str]]:
    """Runs one command on a data folder that is thrown away."""

    def run(*arguments: str, **environment: Any) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            command(*arguments),
            env=os.environ | {"CUPWRIGHT_DATA": str(tmp_path / "data")} | environment,
            capture_output=True,
            text=True,
            check=False,
            timeout=120,
        )

    return run
