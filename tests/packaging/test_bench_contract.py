"""Every benchmark takes --quick and --json, and with --json its last line is one object of figures.

What a script measures is its own affair, and how long it takes is not tested here: only that whoever runs
them all in turn can ask each in the same way. The scripts are read, not run, but for the one over soonest.
"""

import ast
import json
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
SCRIPTS = sorted((ROOT / "bench").glob("*.py"))
ASKED = {"--quick", "--json"}
SOONEST = "reading.py"


def flags(source: str) -> set[str]:
    """Switches without a value that a script declares to its command line."""
    calls = [node for node in ast.walk(ast.parse(source)) if isinstance(node, ast.Call)]
    return {
        str(call.args[0].value)
        for call in calls
        if isinstance(call.func, ast.Attribute)
        and call.func.attr == "add_argument"
        and isinstance(call.args[0], ast.Constant)
        and any(ast.unparse(word.value) == "'store_true'" for word in call.keywords if word.arg == "action")
    }


def runs_only_when_asked(source: str) -> bool:
    """Whether a script can be imported without measuring anything."""
    return any(
        isinstance(node, ast.If) and ast.unparse(node.test) == "__name__ == '__main__'"
        for node in ast.parse(source).body
    )


@pytest.mark.parametrize("script", SCRIPTS, ids=lambda script: script.stem)
def test_every_benchmark_can_be_asked_to_be_quick_and_to_answer_as_data(script: Path):
    source = script.read_text("utf-8")

    assert flags(source) >= ASKED
    assert runs_only_when_asked(source)
    assert ast.get_docstring(ast.parse(source))


def test_a_script_that_lacks_a_switch_would_be_found():
    lacking = 'parser.add_argument("--quick", action="store_true")\nparser.add_argument("--json", type=int)'

    assert flags(lacking) == {"--quick"}
    assert not runs_only_when_asked(lacking)


def test_there_is_a_benchmark_of_the_store_of_reading_of_reports_and_of_imports():
    assert {"store", "reading", "report", "import_notes"} <= {script.stem for script in SCRIPTS}


def test_the_last_line_is_one_object_of_figures():
    command = [sys.executable, str(ROOT / "bench" / SOONEST), "--quick", "--json"]

    answer = subprocess.run(command, capture_output=True, text=True, check=True, cwd=ROOT)

    figures = json.loads(answer.stdout.splitlines()[-1])
    assert figures
    assert all(isinstance(value, int | float) for value in figures.values())
