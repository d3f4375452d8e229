"""`cupwright --help` must answer at once, so it may load nothing heavy."""

import json
import subprocess
import sys

import pytest

# Everything that a command needs is imported inside that command.
HEAVY = {
    "alembic",
    "altair",
    "argon2",
    "fastapi",
    "jinja2",
    "numpy",
    "openpyxl",
    "psycopg",
    "pwdlib",
    "pydantic",
    "rapidfuzz",
    "rich",
    "scipy",
    "segno",
    "sqlalchemy",
    "sqlite3",
    "starlette",
    "typst",
    "uvicorn",
    "vl_convert",
}

SHOW_HELP = """
import json, sys
from cupwright.main import run
sys.argv = ["cupwright", *sys.argv[1:]]
try:
    run()
except SystemExit as leaving:
    if leaving.code:
        raise
print("MODULES", json.dumps(sorted({name.split(".")[0] for name in sys.modules})))
"""


def modules_loaded_by(*arguments: str) -> tuple[str, set[str]]:
    """What the command prints, and the top-level modules in memory when it has done so."""
    command = [sys.executable, "-c", SHOW_HELP, *arguments]
    done = subprocess.run(command, check=False, capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    printed, _, modules = done.stdout.rpartition("MODULES ")
    return printed, set(json.loads(modules))


def test_help_loads_no_heavy_library():
    printed, modules = modules_loaded_by("--help")

    assert "serve" in printed
    assert "report" in printed
    assert modules & HEAVY == set()


@pytest.mark.parametrize("command", ["plan", "import", "report", "serve"])
def test_help_of_a_command_loads_no_heavy_library(command: str):
    printed, modules = modules_loaded_by(command, "--help")

    assert "--data" in printed
    assert modules & HEAVY == set()
