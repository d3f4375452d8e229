"""Labels: one a bowl, and nothing on them but the code."""

import random
from dataclasses import fields
from datetime import UTC, datetime

import pytest

from cupwright.core.plan.planning import laid
from cupwright.core.plan.table import Blinding, Plan, Table
from cupwright.core.pour.labels import Label, label_sheet
from cupwright.core.taste.sheet import Sheet


def table(blinding: Blinding) -> Table:
    plan = Plan(name="Morning table", coffees=("c1", "c2"), bowls_per_sample=3, blinding=blinding)
    sheet = Sheet("s", 1, "S", ())
    return laid(
        plan,
        sheet,
        table_id="t",
        created=datetime(2026, 1, 1, tzinfo=UTC),
        rng=random.Random(4),
        ids=lambda: "s",
    )


@pytest.mark.parametrize("blinding", list(Blinding))
def test_there_are_as_many_labels_as_bowls(blinding: Blinding):
    one = table(blinding)

    assert len(label_sheet(one).labels) == len(one.bowls) == 6
    assert label_sheet(one).blinding is blinding


def test_bowls_of_a_sample_share_its_code_and_are_numbered():
    one = table(Blinding.CODES)

    assert label_sheet(one).labels == tuple(Label(code, bowl, 3) for code in one.codes for bowl in (1, 2, 3))


def test_shuffled_bowls_have_a_code_each_and_no_number_that_would_pair_them():
    labels = label_sheet(table(Blinding.SHUFFLE)).labels

    assert len({label.code for label in labels}) == 6
    assert {(label.bowl, label.of) for label in labels} == {(1, 1)}


def test_a_label_has_no_room_for_a_coffee():
    assert [field.name for field in fields(Label)] == ["code", "bowl", "of"]
