"""Every run-time dependency may be shipped with a program under the Apache License 2.0.

Licence names are SPDX identifiers (SPDX License List, https://spdx.org/licenses/) where a package states one;
older packages state a trove classifier instead, which CLASSIFIERS translates, or the identifier as free text.
"""

import re
from importlib import metadata
from pathlib import Path

import pytest
from packaging.requirements import Requirement

ROOT = Path(__file__).resolve().parents[2]

# Permissive; all but the last approved by the Open Source Initiative. They ask at most to keep their notice.
PERMISSIVE = {
    "0BSD",
    "Apache-2.0",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "ISC",
    "MIT",
    "MIT-0",
    "PSF-2.0",
    "Zlib",
    "CC0-1.0",  # a dedication to the public domain
}
# Weak copyleft, used as an installed, unchanged and replaceable library: its terms do not reach our code.
LIBRARY_COPYLEFT: dict[str, str] = {"psycopg": "LGPL-3.0-only", "psycopg-binary": "LGPL-3.0-only"}

CLASSIFIERS = {
    "Apache Software License": "Apache-2.0",
    "BSD License": "BSD-3-Clause",
    "ISC License (ISCL)": "ISC",
    "MIT License": "MIT",
    "Python Software Foundation License": "PSF-2.0",
}


def locked_packages() -> list[str]:
    """Names in the run lock that apply to this machine, and the driver of the postgres extra."""
    lines = (ROOT / "requirements/run.lock").read_text(encoding="utf-8").splitlines()
    pinned = [Requirement(line.rstrip(" \\")) for line in lines if re.match(r"[a-z]", line)]
    names = {entry.name for entry in pinned if entry.marker is None or entry.marker.evaluate()}
    return sorted(names | LIBRARY_COPYLEFT.keys())


def stated_licence(name: str) -> str:
    """The licence expression of an installed package, or what its older metadata amount to."""
    stated = metadata.metadata(name)
    if expression := stated.get("License-Expression"):
        return str(expression)
    classifiers = [
        entry.rpartition(" :: ")[2]
        for entry in stated.get_all("Classifier") or []
        if entry.startswith("License :: OSI Approved :: ")
    ]
    if classifiers:
        return " AND ".join(CLASSIFIERS.get(entry, entry.replace(" ", "-")) for entry in classifiers)
    return (stated.get("License") or "none stated").strip()


def is_allowed(expression: str) -> bool:
    """An expression of AND, OR and brackets: one acceptable choice for every part."""
    return all(
        any(choice.strip("() ") in PERMISSIVE for choice in re.split(r"\s+OR\s+", part))
        for part in re.split(r"\s+AND\s+", expression)
    )


@pytest.mark.parametrize("name", locked_packages())
def test_licence_allows_distribution_with_apache_2(name: str):
    licence = stated_licence(name)

    assert is_allowed(licence) or LIBRARY_COPYLEFT.get(name) == licence, f"{name}: {licence}"


@pytest.mark.parametrize("expression", ["GPL-3.0-only", "MIT AND AGPL-3.0-only", "none stated", "SSPL-1.0"])
def test_the_check_refuses_what_apache_2_cannot_be_shipped_with(expression: str):
    assert not is_allowed(expression)


def test_the_project_states_its_own_licence():
    assert metadata.metadata("cupwright")["License-Expression"] == "Apache-2.0"
    assert "Apache License" in (ROOT / "LICENSE").read_text(encoding="utf-8")
