"""Sheets: those that come with the program, users' own, and points by any of them."""

from cupwright.core.rows import Rows
from cupwright.core.taste.points_columns import Columns
from cupwright.core.taste.points_rows import FilePoints, file_points
from cupwright.core.taste.sheet import Sheet
from cupwright.core.taste.sheet_file import builtin_names, builtin_sheet, parse_sheet
from cupwright.errors import Clash, NotFound, Refused
from cupwright.steps.ports import Form, Tools, Work

SHEET = "sheet"
MOST_CUPS = 60


def list_sheets(tools: Tools) -> tuple[Sheet, ...]:
    """The sheets that come with the program, then users' own."""
    with tools.store.reading() as work:
        own = tuple(_parsed(form) for form in work.forms.all(SHEET))
    return (*(builtin_sheet(name) for name in builtin_names()), *own)


def own_sheets(tools: Tools) -> tuple[Form, ...]:
    """Users' own sheets as they were written."""
    with tools.store.reading() as work:
        return work.forms.all(SHEET)


def get_sheet(tools: Tools, name: str) -> Sheet:
    """One sheet of either kind. Raises NotFound."""
    if name in builtin_names():
        return builtin_sheet(name)
    with tools.store.reading() as work:
        return sheet_of(work, name)


def keep_sheet(tools: Tools, text: str, file: str = "sheet") -> Sheet:
    """Keep a user's own sheet, or a newer version of it. Raises BadSheet, Clash."""
    sheet = parse_sheet(text, file=file)
    if sheet.name in builtin_names():
        raise Clash(
            f"'{sheet.name}' is the name of a sheet that comes with the program.", todo="Choose another name."
        )
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
