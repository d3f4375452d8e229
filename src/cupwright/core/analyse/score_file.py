"""A file of scores: which column is what, which text is which number, and one `Scores` an attribute."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import numpy as np

from cupwright.core.analyse.score_numbers import numbers_of, ranks_of
from cupwright.core.analyse.scores import Floats, Ints, Scores, counted_repeats
from cupwright.core.analyse.text_columns import TextColumn, TextColumns
from cupwright.errors import BadFile, Place, Refused

# Role -> headings it is found under, besides its own name; the standard's and the trade's words.
ROLES: dict[str, tuple[str, ...]] = {
    "taster": ("assessor", "panelist", "panellist", "judge", "cupper"),
    "coffee": ("sample", "product"),
    "attribute": ("descriptor",),
    "value": ("score", "points", "rating"),
    "repeat": ("replicate", "replication", "rep"),
    "position": ("serving position",),
    "temperature": ("temperature c",),
    "table": ("session",),
}
_SCORED = ("attribute", "value")
_LISTED = 5


@dataclass(frozen=True, slots=True)
class ScoreFile:
    """What a file of scores holds. `empty` are attributes without a single score.

    `remarks` are sentences about what was left out or taken so: blanks, repeats, columns, names.
    """

    file: str
    attributes: dict[str, Scores]
    empty: tuple[str, ...]
    missing: dict[str, int]
    remarks: tuple[str, ...]


def score_file(
    columns: TextColumns, *, named: Mapping[str, str] | None = None, wide: bool = False
) -> ScoreFile:
    """One `Scores` for each attribute of a file.

    Parameters
    ----------
    columns : TextColumns
        Long: a line a score, with the columns taster, coffee, attribute and value. Wide: a line a taster and
        coffee, every column that is nothing else being an attribute. Either may have the columns repeat,
        position, temperature (°C) and table.
    named : mapping
        Role -> heading, where a column is called otherwise.
    wide : bool
        Which of both it is.

    Raises
    ------
    BadFile
        If a column is missing, a value is no number, a score belongs to nobody or to nothing, or two lines
        hold one and the same numbered repeat; the place names line and column.
    Refused
        If `named` names no role.

    Notes
    -----
    Blank cells and NA stand for no score. Decimals may have a point or a comma, one of them in a column.
    Names are text, whatever they look like. Without a column of repeats, further scores of one taster for
    one coffee are repeats in the order of their lines.
    """
    roles = _roles(columns, named or {}, wide)
    attributes: dict[str, Scores] = {}
    missing: dict[str, int] = {}
    for name, rows, values in _by_attribute(columns, roles, wide):
        scored = ~np.isnan(values)
        missing[name] = int(len(values) - scored.sum())
        if scored.any():
            attributes[name] = _Builder(columns, roles, name, rows[scored], values[scored]).scores()
    if not missing:
        raise BadFile("There is no line under the headings.", todo="Add scores.", where=Place(columns.file))
    empty = tuple(name for name in missing if name not in attributes)
    remarks = _remarks(columns, roles, attributes, missing, wide)
    return ScoreFile(columns.file, attributes, empty, missing, remarks)


def _roles(columns: TextColumns, named: Mapping[str, str], wide: bool) -> dict[str, TextColumn]:
    found: dict[str, TextColumn] = {}
    for role, heading in named.items():
        if role not in ROLES:
            raise Refused(f"No column of scores is called '{role}'.", todo=f"Name one of {', '.join(ROLES)}.")
        column = _column(columns, heading)
        if column is None:
            raise _no_column(columns, heading)
        found[role] = column
    taken = {column.heading for column in found.values()}
    for role, others in ROLES.items():
        for heading in (role, *others):
            column = _column(columns, heading)
            if role not in found and column is not None and column.heading not in taken:
                found[role] = column
                taken.add(column.heading)
    if wide:
        found.pop("attribute", None)
        found.pop("value", None)
    for role in ("taster", "coffee", *(() if wide else ("value",))):
        if role not in found:
            raise _no_column(columns, role)
    return found


def _column(columns: TextColumns, heading: str) -> TextColumn | None:
    wanted = _plain(heading)
    return next((column for column in columns.columns if _plain(column.heading) == wanted), None)


def _plain(heading: str) -> str:
    return " ".join(heading.replace("_", " ").split()).casefold()


def _no_column(columns: TextColumns, heading: str) -> BadFile:
    return BadFile(
        f"There is no column '{heading}'; the columns are {', '.join(columns.headings)}.",
        todo="Say which column it is with --map taster=HEADING, coffee=..., attribute=..., value=..., "
        "or --wide if every attribute has a column.",
        where=Place(columns.file, 1),
    )


def _by_attribute(
    columns: TextColumns, roles: Mapping[str, TextColumn], wide: bool
) -> Iterator[tuple[str, Ints, Floats]]:
    """(attribute, its rows, their values with NaN where blank), in the order of the file."""
    everything = np.arange(len(columns.lines))
    if wide:
        taken = {column.heading for column in roles.values()}
        for column in columns.columns:
            if column.heading not in taken:
                yield column.heading, everything, numbers_of(columns, column)
        return
    values = numbers_of(columns, roles["value"])
    attribute = roles.get("attribute")
    if attribute is None:
        if len(everything):
            yield roles["value"].heading, everything, values
        return
    order = np.argsort(attribute.codes, kind="stable")
    ends = np.searchsorted(attribute.codes[order], np.arange(len(attribute.texts) + 1))
    for code, name in enumerate(attribute.texts):
        rows = order[ends[code] : ends[code + 1]]
        if name:
            yield name, rows, values[rows]
        elif not np.isnan(values[rows]).all():
            _refuse_blank(columns, "attribute", attribute.heading, rows[~np.isnan(values[rows])][0])


def _refuse_blank(columns: TextColumns, role: str, heading: str, row: int) -> None:
    raise BadFile(
        f"This score has no {role}.", todo="Fill it in, or take the line out.", where=columns.at(row, heading)
    )


@dataclass(frozen=True, slots=True)
class _Builder:
    """One attribute's scored rows, on the way to `Scores`."""

    columns: TextColumns
    roles: Mapping[str, TextColumn]
    name: str
    rows: Ints
    values: Floats

    def scores(self) -> Scores:
        coffees, coffee = self._names("coffee")
        tasters, taster = self._names("taster")
        tables, table = self._names("table") if "table" in self.roles else ((), None)
        if "repeat" in self.roles:
            self._refuse_doubled()
        return Scores(
            coffees,
            tasters,
            coffee,
            taster,
            self.values,
            self._repeats(coffee, taster, table),
            self._numbers("position"),
            self._numbers("temperature"),
            table,
            tables,
        )

    def _names(self, role: str) -> tuple[tuple[str, ...], Ints]:
        """The names that have a score here, in the order of the file, and which row holds which."""
        column = self.roles[role]
        used = np.bincount(column.codes[self.rows], minlength=len(column.texts)) > 0
        if "" in column.texts and used[column.texts.index("")]:
            blank = column.codes[self.rows] == column.texts.index("")
            _refuse_blank(self.columns, role, column.heading, self.rows[blank][0])
        onto = np.cumsum(used) - 1
        names = tuple(text for text, is_used in zip(column.texts, used, strict=True) if is_used)
        return names, onto[column.codes[self.rows]]

    def _numbers(self, role: str) -> Floats | None:
        if role not in self.roles:
            return None
        numbers = numbers_of(self.columns, self.roles[role])[self.rows]
        return None if np.isnan(numbers).all() else numbers

    def _repeats(self, coffee: Ints, taster: Ints, table: Ints | None) -> Ints:
        """How often this taster scored this coffee before, by table, number of the repeat and line."""
        numbered = self.roles.get("repeat")
        keys = [ranks_of(numbered)[self.rows]] if numbered else []
        keys += [table] if table is not None else []
        return counted_repeats(coffee, taster, *keys)

    def _refuse_doubled(self) -> None:
        """Two lines that are alike in all that tells scores apart cannot both be meant."""
        apart = [self.roles[role] for role in ROLES if role in self.roles and role not in _SCORED]
        codes: list[Ints] = [column.codes[self.rows].astype(np.int64) for column in apart]
        order = np.lexsort((self.rows, *codes))
        same = np.all([code[order][1:] == code[order][:-1] for code in codes], axis=0)
        if not same.any():
            return
        at = int(np.argmax(same))
        first, second = (int(self.rows[order[one]]) for one in (at, at + 1))
        one, other = self.values[order[at]], self.values[order[at + 1]]
        said = ", ".join(f"{column.heading} {column.texts[column.codes[first]]}" for column in apart)
        held = f"the same score {one:g}" if one == other else f"{one:g} and {other:g}"
        raise BadFile(
            f"Lines {self.columns.lines[first]} and {self.columns.lines[second]} are one repeat ({said}) "
            f"of '{self.name}' and hold {held}.",
            todo="Take one of them out, or number the repeats.",
            where=self.columns.at(second),
        )


def _remarks(
    columns: TextColumns,
    roles: Mapping[str, TextColumn],
    attributes: Mapping[str, Scores],
    missing: Mapping[str, int],
    wide: bool,
) -> tuple[str, ...]:
    remarks: list[str] = []
    if blank := {name: count for name, count in missing.items() if count}:
        each = ", ".join(f"{name} {count}" for name, count in list(blank.items())[:_LISTED])
        more = ", ..." if len(blank) > _LISTED else ""
        total = sum(blank.values())
        remarks.append(f"{total:,} blank {_scores(total)} left out ({each}{more}).")
    again = sum(int((scores.repeat > 0).sum()) for scores in attributes.values())
    if again and "repeat" not in roles:
        remarks.append(
            f"No column numbers the repeats: {again:,} {_scores(again)} taken for repeats, because the same "
            "taster had scored the same coffee before."
        )
    remarks += [said for role in ("taster", "coffee", "attribute") for said in _alike(role, roles.get(role))]
    taken = {column.heading for column in roles.values()}
    unused = [heading for heading in columns.headings if heading not in taken]
    if unused and not wide:
        named = ", ".join(f"'{heading}'" for heading in unused[:_LISTED])
        more = ", ..." if len(unused) > _LISTED else ""
        remarks.append(f"Not used: the column{'s' * (len(unused) > 1)} {named}{more}.")
    return tuple(remarks)


def _scores(count: int) -> str:
    return "score is" if count == 1 else "scores are"


def _alike(role: str, column: TextColumn | None) -> Iterator[str]:
    """Names that only letter case or inner blanks tell apart: probably one, but that is not ours to say."""
    seen: dict[str, str] = {}
    for text in column.texts if column else ():
        first = seen.setdefault(" ".join(text.split()).casefold(), text)
        if first != text:
            yield f"The {role}s '{first}' and '{text}' count as two."
