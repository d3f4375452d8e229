"""Tabular: results that show themselves as a table in a notebook and go to data frames on request."""

from dataclasses import fields
from html import escape
from typing import Any

from cupwright.core.plain import plain

Record = dict[str, Any]


class Tabular:
    """Mixed into frozen results; by itself a result is one row of its plain fields.

    A result that holds many things of one sort overrides `rows`.
    """

    __slots__ = ()

    def rows(self) -> list[Record]:
        """The result as flat records, in the order of their columns."""
        return [
            {
                field.name: value
                for field in fields(self)  # type: ignore[arg-type] # mixed into dataclasses only
                if isinstance(value := getattr(self, field.name), str | int | float | None)
            }
        ]

    def as_data(self) -> Any:
        """The whole result as JSON-able data; numbers that are not finite become None."""
        return plain(self)

    def to_pandas(self) -> Any:
        """The rows as a pandas DataFrame. Raises ImportError where pandas is not installed."""
        import pandas

        return pandas.DataFrame(self.rows())

    def to_polars(self) -> Any:
        """The rows as a polars DataFrame. Raises ImportError where polars is not installed."""
        import polars

        return polars.DataFrame(self.rows())

    def _repr_html_(self) -> str:
        rows = self.rows()
        if not rows:
            return "<table></table>"
        head = "".join(f"<th>{escape(str(name))}</th>" for name in rows[0])
        body = "".join(
            "<tr>" + "".join(f"<td>{_shown(value)}</td>" for value in row.values()) + "</tr>" for row in rows
        )
        return f"<table><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>"


def _shown(value: object) -> str:
    return f"{value:.4g}" if isinstance(value, float) else escape("" if value is None else str(value))
