"""Labels: what is written under (or on) the bowls so that the key can be opened by hand."""

from dataclasses import dataclass

from cupwright.core.plan.table import Blinding, Table


@dataclass(frozen=True, slots=True)
class Label:
    """One bowl's label: its code, and which bowl of the sample it is (from 1, of `of`)."""

    code: str
    bowl: int
    of: int


@dataclass(frozen=True, slots=True)
class LabelSheet:
    """The labels of a table. Nothing on it says which coffee a code is; `blinding` says where they go."""

    table_name: str
    commitment: str
    labels: tuple[Label, ...]
    blinding: Blinding = Blinding.CODES


def label_sheet(table: Table) -> LabelSheet:
    """One label a bowl: after a shuffle each bowl has its own code, else a sample's bowls share one."""
    of = 1 if table.plan.blinding is Blinding.SHUFFLE else table.plan.bowls_per_sample
    labels = tuple(Label(code, bowl, of) for code in table.codes for bowl in range(1, of + 1))
    return LabelSheet(table.plan.name, table.commitment, labels, table.plan.blinding)
