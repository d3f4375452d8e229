"""No tracked file names a package registry or a folder of somebody's machine."""

import json
import re
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]

# Written in pieces, or this file would be the first to break the rule.
REGISTRY_HOSTS = [
    "pypi" + r"\.org",
    "python" + "hosted",
    "npm" + r"js\.(org|com)",
    "deb" + r"ian\.org",
    "yarn" + r"pkg\.com",
]
MACHINE_FOLDERS = ["work", "farm", "root", "tmp", "home/[a-z]+", "Users/[A-Za-z]+"]
FORBIDDEN = re.compile(
    rf"{'|'.join(REGISTRY_HOSTS)}|(^|[^A-Za-z0-9_.])/({'|'.join(MACHINE_FOLDERS)})/", re.IGNORECASE
)


def tracked_files() -> list[Path]:
    listed = subprocess.run(["git", "ls-files", "-z"], cwd=ROOT, capture_output=True, text=True, check=True)
    return [ROOT / name for name in listed.stdout.split("\0") if name and (ROOT / name).is_file()]


def complaints(path: Path) -> list[str]:
    try:
        text = path.read_text(encoding="utf-8")
    except UnicodeDecodeError:
        return []  # a picture or a font
    return [
        f"{path.relative_to(ROOT)}:{number}: {line.strip()[:120]}"
        for number, line in enumerate(text.splitlines(), start=1)
        if FORBIDDEN.search(line)
    ]


def test_no_tracked_file_names_a_registry_or_a_machine_folder():
    found = [complaint for path in tracked_files() for complaint in complaints(path)]

    assert found == []


def test_the_client_lock_pins_every_package_by_hash_and_none_by_address():
    lock = json.loads((ROOT / "client/package-lock.json").read_text(encoding="utf-8"))
    packages = {name: entry for name, entry in lock["packages"].items() if name}

    assert len(packages) > 50
    assert [name for name, entry in packages.items() if "resolved" in entry] == []
    assert [name for name, entry in packages.items() if "integrity" not in entry] == []


@pytest.mark.parametrize("name", ["dev.lock", "run.lock", "uv.txt"])
def test_a_python_lock_pins_every_package_by_hash_and_names_no_address(name: str):
    text = (ROOT / "requirements" / name).read_text(encoding="utf-8")
    requirements = [entry for entry in re.split(r"(?<!\\)\n", text) if entry and not entry.startswith("#")]

    assert requirements
    assert [entry for entry in requirements if "==" not in entry or "--hash=sha256:" not in entry] == []
    assert "://" not in text


def test_the_run_lock_is_part_of_the_dev_lock():
    def pins(name: str) -> set[str]:
        text = (ROOT / "requirements" / name).read_text(encoding="utf-8")
        return set(re.findall(r"^([a-z0-9-]+==\S+)", text, re.MULTILINE))

    assert pins("run.lock") <= pins("dev.lock")


BREACHES = ["see https://" + "py" + "pi.org/x", "open('/" + "tmp" + "/x')", "/" + "work/main"]


@pytest.mark.parametrize("line", BREACHES)
def test_the_check_sees_what_it_is_for(line: str):
    assert FORBIDDEN.search(line)
