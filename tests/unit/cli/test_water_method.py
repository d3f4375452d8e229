"""The worked example of the method page is what the program answers."""

import re
import shlex
from pathlib import Path

DOCS = Path(__file__).parents[3] / "docs"
PAGE = (DOCS / "methods" / "water.md").read_text(encoding="utf-8")
GUIDE = (DOCS / "guide" / "command_line.md").read_text(encoding="utf-8")


def test_the_worked_example_gives_what_the_page_prints(cli):
    command = re.search(r"```\ncupwright (water .*?)```", PAGE, re.DOTALL)[1].replace("\\\n", " ")
    printed = re.search(r"```\n\n((?:    .*\n)+)", PAGE)[1]

    answer = cli(*shlex.split(command))

    assert answer.code == 0, answer.err
    assert answer.out.splitlines()[:2] == [line.strip() for line in printed.splitlines()]


def test_the_factors_of_the_page_are_those_of_the_program():
    from cupwright.core.pour.water_units import read_amount

    rows = re.findall(r"^\| 1 (\S+(?: Ca| Mg| HCO3)?)(?: \(°e\))? \| ([\d.]+) \|", PAGE, re.MULTILINE)

    assert len(rows) == 9
    for unit, factor in rows:
        parameter = {"mg/L Ca": "calcium", "mg/L Mg": "magnesium", "mg/L HCO3": "alkalinity"}.get(
            unit, "hardness"
        )
        assert f"{read_amount(f'1 {unit}', parameter):.3f}" == factor


def test_the_water_file_of_the_guide_can_be_mixed(cli, tmp_path):
    file = tmp_path / "water.toml"
    file.write_text(re.search(r"```toml\n(litres = .*?)```", GUIDE, re.DOTALL)[1], encoding="utf-8")

    answer = cli("water", str(file))

    assert answer.code == 0, answer.err
    assert answer.out.splitlines()[1] == "That meets all that was asked."
