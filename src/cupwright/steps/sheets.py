"""Sheets: those that come with the program, users' own, and points by any of them."""

from typing import TYPE_CHECKING

from cupwright.core.rows import Rows
from cupwright.core.taste.points import rule_of
from cupwright.core.taste.points_columns import Columns
from cupwright.core.taste.points_rows import FilePoints, file_points
from cupwright.core.taste.sheet import Kind, Sheet
from cupwright.core.taste.sheet_file import builtin_names, builtin_sheet, builtin_text, parse_sheet
from cupwright.errors import Clash, NotFound, Refused
from cupwright.steps.ports import Form, Tools, Work

if TYPE_CHECKING:
    from cupwright.core.analyse.totals import Total

SHEET = "sheet"
MOST_CUPS = 60
ODD_OF = 3
FEWEST_RANKED = 2
# No total counts them, and reading them takes long.
_READ = (Kind.WORDS, Kind.TEXT)


def list_sheets(tools: Tools) -> tuple[Sheet, ...]:
    """The sheets that come with the program, then users' own."""
    with tools.store.reading() as work:
        own = tuple(_parsed(form) for form in work.forms.all(SHEET))
    return (*(builtin_sheet(name) for name in builtin_names()), *own)


def own_sheets(tools: Tools) -> tuple[Form, ...]:
    """Users' own sheets as they were written."""
    with tools.store.reading() as work:
        return work.forms.all(SHEET)


def text_of_sheet(tools: Tools, name: str) -> str:
    """A sheet of either kind as it was written. Raises NotFound."""
    if name in builtin_names():
        return builtin_text(name)
    with tools.store.reading() as work:
        form = work.forms.get(SHEET, name)
    if form is None:
        raise NotFound(f"There is no sheet called '{name[:40]}'.", todo="`cupwright sheets` lists them.")
    return form.text


def get_sheet(tools: Tools, name: str) -> Sheet:
    """One sheet of either kind. Raises NotFound."""
    if name in builtin_names():
        return builtin_sheet(name)
    with tools.store.reading() as work:
        return sheet_of(work, name)


def checked_sheet(text: str, file: str = "sheet") -> Sheet:
    """The sheet of a text that could be kept, without keeping it. Raises BadSheet, Clash."""
    sheet = parse_sheet(text, file=file)
    if sheet.name in builtin_names():
        raise Clash(
            f"'{sheet.name}' is the name of a sheet that comes with the program.", todo="Choose another name."
        )
    return sheet


def keep_sheet(tools: Tools, text: str, file: str = "sheet") -> Sheet:
    """Keep a user's own sheet, or a newer version of it. Raises BadSheet, Clash."""
    sheet = checked_sheet(text, file)
    with tools.store.work() as work:
        work.forms.keep(SHEET, sheet.name, sheet.version, text, tools.now())
    return sheet


def remove_sheet(tools: Tools, name: str) -> None:
    """Put an own sheet out of sight; tables that were planned with it keep it. Raises NotFound, Refused."""
    if name in builtin_names():
        raise Refused(f"The sheet '{name}' comes with the program.", todo="Leave it; it does no harm.")
    with tools.store.work() as work:
        work.forms.remove(SHEET, name, tools.now())


def sheet_of(work: Work, name: str) -> Sheet:
    """A sheet of either kind, inside a transaction. Raises NotFound."""
    if name in builtin_names():
        return builtin_sheet(name)
    form = work.forms.get(SHEET, name)
    if form is None:
        names = (*builtin_names(), *(one.name for one in work.forms.all(SHEET)))
        raise NotFound(f"There is no sheet called '{name[:40]}'.", todo=f"Choose one of: {', '.join(names)}.")
    return _parsed(form)


def fitting_sheet(sheet: Sheet, samples: int) -> Sheet:
    """The sheet itself, if it can be asked at a table of so many samples.

    Raises
    ------
    Refused
        If it compares places and there are not as many as it compares.
    """
    kinds = {field.kind for part in sheet.passes for field in part.fields}
    if Kind.ODD in kinds and samples != ODD_OF:
        raise Refused(
            f"The sheet '{sheet.name}' asks for the odd one of {ODD_OF} bowls; the plan has {samples}.",
            todo="Plan two coffees, one of them under a second code (twice = true in a file).",
            about="sheet",
        )
    if Kind.RANK in kinds and samples < FEWEST_RANKED:
        raise Refused(
            f"The sheet '{sheet.name}' asks for an order; the plan has one sample.",
            todo=f"Plan at least {FEWEST_RANKED} coffees.",
            about="sheet",
        )
    return sheet


def points_of_table(tools: Tools, table_id: str) -> "tuple[Total, ...]":
    """Everybody's totals at a revealed table. Raises NotFound, WrongStep, Refused without points."""
    with tools.store.reading() as work:
        table = work.tables.get(table_id)
    found = totals_of_table(tools, table_id)
    rule_of(table.sheet)
    return found


def totals_of_table(tools: Tools, table_id: str) -> "tuple[Total, ...]":
    """The same, but nothing where the sheet makes no points. Raises NotFound, WrongStep."""
    from cupwright.core.analyse.totals import totals
    from cupwright.steps.analyse import answers_of

    with tools.store.reading() as work:
        return totals(work.tables.get(table_id), answers_of(work, table_id, without=_READ))


def points_of_file(
    tools: Tools,
    sheet: Sheet,
    data: bytes,
    file: str,
    columns: Columns,
    *,
    cups: int = 5,
    averages: bool = False,
) -> FilePoints:
    """The points of every sheet in a file (CSV, TSV, XLSX). Raises BadFile, TooLarge, Refused."""
    if not 1 <= cups <= MOST_CUPS:
        raise Refused(f"A sample has {cups} cups.", todo=f"Give 1 to {MOST_CUPS}.")
    rows: Rows = tools.spreadsheets.read(data, file)
    return file_points(rows, sheet, columns, cups=cups, averages=averages)


def _parsed(form: Form) -> Sheet:
    return parse_sheet(form.text, file=f"{form.name} {form.version}")
