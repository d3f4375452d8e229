"""The wheel is complete: it runs in an empty environment, without Node, without the checkout."""

import json
import shutil
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
import zipfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
UV = Path(sys.executable).with_name("uv")

NOTES = """\
taster,coffee,acidity,note
Ada,Coffee A,7,"lemon, black tea, honey"
Ben,Coffee A,6,"citrus and jasmine"
Cleo,Coffee A,8,"lime; sweet like honey"
Ada,Coffee B,3,"dark chocolate, hazelnut"
Ben,Coffee B,2,"cocoa, roasted nuts"
Cleo,Coffee B,4,"chocolate, a bit smoky"
"""


def run(*command: str | Path, cwd: Path, env: dict[str, str] | None = None) -> str:
    done = subprocess.run(command, check=False, cwd=cwd, env=env, capture_output=True, text=True)
    assert done.returncode == 0, f"{command}\n{done.stdout}\n{done.stderr}"
    return done.stdout


def copy_of_sources(target: Path) -> Path:
    """What a fresh clone would hold, with the client's packages at hand but the client not built."""
    listed = run("git", "ls-files", "-z", "--cached", "--others", "--exclude-standard", cwd=ROOT)
    for name in filter(None, listed.split("\0")):
        if (ROOT / name).is_file():
            (target / name).parent.mkdir(parents=True, exist_ok=True)
            shutil.copy2(ROOT / name, target / name)
    (target / "client/node_modules").symlink_to(ROOT / "client/node_modules")
    return target


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A wheel built from a fresh copy, so that the build hook has to build the client."""
    sources = copy_of_sources(tmp_path_factory.mktemp("sources"))
    assert not (sources / "src/cupwright/web/static").exists()
    target = tmp_path_factory.mktemp("wheel")
    run(sys.executable, "-m", "hatchling", "build", "--target", "wheel", "--directory", target, cwd=sources)
    (built,) = target.glob("cupwright-*.whl")
    return built


@pytest.fixture(scope="module")
def installed(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of programs of an empty environment with the locked dependencies and the wheel."""
    home = tmp_path_factory.mktemp("installed")
    run(sys.executable, "-m", "venv", "--without-pip", "env", cwd=home)
    python = home / "env/bin/python"
    lock = ROOT / "requirements/run.lock"
    run(UV, "pip", "sync", "--python", python, "--require-hashes", lock, cwd=home)
    run(UV, "pip", "install", "--python", python, "--no-deps", "--offline", wheel, cwd=home)
    return python.parent


@pytest.fixture
def outside(installed: Path, tmp_path: Path) -> dict[str, str]:
    """An environment whose only programs are those of the installation."""
    assert shutil.which("node", path=str(installed)) is None
    return {"PATH": str(installed), "HOME": str(tmp_path), "LANG": "C.UTF-8"}


@contextmanager
def serving(program: Path, data: Path, env: dict[str, str]) -> Iterator[str]:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    log = data.with_suffix(".log")
    with log.open("w") as output:
        server = subprocess.Popen(
            [program, "serve", "--port", str(port), "--data", data],
            cwd=data.parent,
            env=env,
            stdout=output,
            stderr=output,
        )
    try:
        yield wait_until_it_answers(f"http://127.0.0.1:{port}", server, log)
    finally:
        server.terminate()
        server.wait(timeout=10)


def wait_until_it_answers(address: str, server: subprocess.Popen[bytes], log: Path) -> str:
    deadline = time.monotonic() + 30
    while time.monotonic() < deadline and server.poll() is None:
        try:
            get(address + "/api/health")
        except (urllib.error.URLError, ConnectionError):
            time.sleep(0.1)
        else:
            return address
    pytest.fail(f"The server did not answer within 30 s:\n{log.read_text()}")


def get(url: str) -> tuple[str, bytes]:
    with urllib.request.urlopen(url, timeout=10) as answer:
        return answer.headers["Content-Type"], answer.read()


def test_wheel_carries_every_file_of_the_package_and_the_built_client(wheel: Path):
    tracked = run("git", "ls-files", "-z", "src/cupwright", cwd=ROOT).split("\0")
    expected = {name.removeprefix("src/") for name in tracked if name and (ROOT / name).is_file()}

    carried = set(zipfile.ZipFile(wheel).namelist())

    assert expected - carried == set()
    assert "cupwright/web/static/index.html" in carried
    assert any(name.startswith("cupwright/web/static/assets/") and name.endswith(".js") for name in carried)
    assert not [name for name in carried if "node_modules" in name or name.startswith("tests/")]


def test_installed_program_prints_its_help(installed: Path, outside: dict[str, str], tmp_path: Path):
    assert "serve" in run(installed / "cupwright", "--help", cwd=tmp_path, env=outside)


def test_installed_program_serves_the_client_and_the_api(
    installed: Path, outside: dict[str, str], tmp_path: Path
):
    with serving(installed / "cupwright", tmp_path / "data", outside) as address:
        _, health = get(address + "/api/health")
        kind, page = get(address + "/")
        script = page.decode().split('src="', 1)[1].split('"', 1)[0]
        script_kind, _ = get(address + script)

    assert json.loads(health)["version"] == "0.1.0"
    assert kind.startswith("text/html")
    assert "javascript" in script_kind


@pytest.mark.parametrize(
    ("ending", "magic"), [("pdf", b"%PDF-"), ("html", b"<!doctype html"), ("json", b"{")]
)
def test_installed_program_reports_on_imported_notes(
    installed: Path, outside: dict[str, str], tmp_path: Path, ending: str, magic: bytes
):
    (tmp_path / "notes.csv").write_text(NOTES, encoding="utf-8")
    data = tmp_path / "data"
    program = installed / "cupwright"
    run(program, "import", "notes.csv", "--table", "Tuesday", "--data", data, cwd=tmp_path, env=outside)

    report = tmp_path / f"report.{ending}"
    run(program, "report", "Tuesday", "-o", report, "--data", data, cwd=tmp_path, env=outside)

    content = report.read_bytes()
    assert content[: len(magic)].lower() == magic.lower()
    assert len(content) > 1000
