"""`cupwright points`: what filled-in sheets add up to."""

import argparse
from pathlib import Path
from typing import TYPE_CHECKING, Any

from cupwright.cli.asking import Commands, command, with_json
from cupwright.cli.data_folder import data_folder
from cupwright.cli.joint import Joint
from cupwright.cli.said import read_file, read_text, say, say_json

if TYPE_CHECKING:
    from cupwright.core.taste.points_rows import FilePoints, RowPoints
    from cupwright.core.taste.sheet import Sheet
    from cupwright.steps.ports import Tools

LARGEST_POINTS_FILE = 50_000_000
LARGEST_SHEET_FILE = 1_000_000
# More rows than this are not explained line by line unless it is asked for.
MOST_EXPLAINED = 10


def add_to(commands: Commands) -> None:
    """Make the command known."""
    says = "Add up filled-in sheets from a file, explain each total, and name the rows that do not add up."
    parser = command(commands, "points", points, says=says)
    parser.add_argument("sheet", metavar="SHEET", help="a sheet's name, as hundred-point, or a sheet file")
    parser.add_argument(
        "file",
        metavar="FILE",
        type=Path,
        help="CSV, TSV or XLSX; wide (a line a sheet, a column a field) or long (columns row, field, value)",
    )
    parser.add_argument(
        "--map",
        metavar="FIELD=COLUMN",
        action="append",
        default=[],
        help="which column holds a field; faults may also come as defects.taint and defects.fault, in cups",
    )
    parser.add_argument("--given", metavar="COLUMN", default="", help="a column with totals to compare with")
    parser.add_argument("--cups", metavar="N", type=int, default=5, help="cups of each sample (5)")
    parser.add_argument(
        "--averages", action="store_true", help="the numbers are averages (else found out from the file)"
    )
    parser.add_argument("--lines", action="store_true", help="explain every total, however many there are")
    parser.epilog = (
        "A row is called by what stands in the column 'row' or, without one, by its line in the file, "
        "the headings being line 1. Exit code 0 also if rows do not add up: they are named, and in the data "
        "they have complaints. 1: the file or the sheet was refused."
    )
    with_json(parser)


def points(joint: Joint, chosen: argparse.Namespace) -> None:
    """Every row with its total; complaints beneath it."""
    from cupwright.core.taste.points_columns import Columns
    from cupwright.steps.sheets import points_of_file

    columns = Columns(_named(chosen), chosen.given)
    data = read_file(chosen.file, largest=LARGEST_POINTS_FILE)
    with joint.open_tools(data_folder(chosen.data)) as tools:
        found = points_of_file(
            tools,
            _sheet(tools, chosen.sheet),
            data,
            chosen.file.name,
            columns,
            cups=chosen.cups,
            averages=chosen.averages,
        )
    if chosen.json:
        say_json(_data(found))
    else:
        _say(found, explained=chosen.lines or len(found.rows) <= MOST_EXPLAINED, compared=bool(chosen.given))


def _named(chosen: argparse.Namespace) -> dict[str, str]:
    named: dict[str, str] = {}
    for pair in chosen.map:
        field, sign, heading = pair.partition("=")
        if not sign or not field.strip() or not heading.strip():
            chosen.wrong_use(f"--map takes FIELD=COLUMN, not '{pair}'")
        named[field.strip()] = heading.strip()
    return named


def _sheet(tools: "Tools", named: str) -> "Sheet":
    from cupwright.core.taste.sheet_file import parse_sheet
    from cupwright.steps.sheets import get_sheet

    if named.endswith(".toml"):
        path = Path(named)
        return parse_sheet(read_text(path, largest=LARGEST_SHEET_FILE), file=path.name)
    return get_sheet(tools, named)


def _data(found: "FilePoints") -> dict[str, Any]:
    return {
        "rows": [_row_data(row) for row in found.rows],
        "remarks": list(found.remarks),
        "averages": found.averages,
        "tolerance": float(found.tolerance),
    }


def _row_data(row: "RowPoints") -> dict[str, Any]:
    """Totals as numbers: up to 15 digits they are printed exactly as they were computed."""
    made = row.points
    return {
        "row": int(row.row) if row.row.isascii() and row.row.isdigit() and len(row.row) < 16 else row.row,
        "total": None if made.total is None else float(made.total),
        "band": row.band,
        "low": float(made.low),
        "high": float(made.high),
        "lines": list(made.lines),
        "given": None if row.given is None else float(row.given),
        "difference": None if row.difference is None else float(row.difference),
        "complaints": list(row.complaints),
    }


def _say(found: "FilePoints", *, explained: bool, compared: bool) -> None:
    lines: list[str] = []
    for row in found.rows:
        lines.append(_headline(row))
        if explained:
            lines += [f"    {line}" for line in row.points.lines]
            lines += [f"    The trade calls this {row.band}."] if row.band else []
        lines += [f"    ! {complaint}" for complaint in row.complaints]
    lines += ["", _summary(found, compared), *found.remarks]
    say("\n".join(lines))


def _headline(row: "RowPoints") -> str:
    made = row.points
    total = f"{made.low} to {made.high}" if made.total is None else f"{made.total}"
    if row.given is None:
        return f"row {row.row}: {total}"
    difference = "" if row.difference is None else f", difference {row.difference:+f}"
    return f"row {row.row}: {total} (in the file {row.given:f}{difference})"


def _summary(found: "FilePoints", compared: bool) -> str:
    from cupwright.core.report.wording import counted

    wrong = sum(bool(row.complaints) for row in found.rows)
    said = f"{counted(len(found.rows), 'row')}, {wrong} with something to mend."
    if not compared:
        return said
    apart = [
        row.row for row in found.rows if row.difference is not None and abs(row.difference) > found.tolerance
    ]
    alike = sum(row.difference is not None for row in found.rows) - len(apart)
    within = f"{alike} agree with the file to within {found.tolerance.normalize():f}"
    named = f"rows that do not add up: {', '.join(apart)}" if apart else "every total adds up"
    return f"{said} {within}; {named}."
