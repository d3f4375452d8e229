"""Labels and pour list on paper: what stands on or under the bowls, and what the pourer goes by."""

from collections.abc import Sequence
from itertools import groupby
from typing import Any

from cupwright.core.plan.table import Blinding, Table
from cupwright.core.pour.boiling import kettle_in_words
from cupwright.core.pour.labels import Label, LabelSheet
from cupwright.core.pour.order_of_work import in_grams
from cupwright.core.pour.pour_list import PourLine
from cupwright.core.pour.recipe import Recipe, recipe
from cupwright.render.typesetting import typeset, typst_paper

_WHERE = {
    Blinding.CODES: "One on the side of each bowl, all at the same height.",
    Blinding.SHUFFLE: "One under each bowl, where nobody sees it before the key is opened.",
    Blinding.OPEN: "One on the side of each bowl.",
}


def labels_pdf(sheet: LabelSheet, *, size: str = "a4") -> bytes:
    """A page of labels to cut out, one a bowl, 36 by 26 mm; it names no coffee.

    Parameters
    ----------
    size : str
        "a4" or "letter".
    """
    return typeset(
        "labels.typ",
        {
            "title": f"Labels of {sheet.table_name}",
            "paper": typst_paper(size),
            "table": sheet.table_name,
            "where": _WHERE[sheet.blinding],
            "labels": [{"code": label.code, "note": _note(label)} for label in sheet.labels],
            "seal": sheet.commitment,
        },
    )


def _note(label: Label) -> str:
    return f"bowl {label.bowl} of {label.of}" if label.of > 1 else ""


def pour_list_pdf(table: Table, lines: Sequence[PourLine], *, size: str = "a4") -> bytes:
    """Code, coffee and dose for the pourer alone, with a mark to make for each bowl weighed.

    Parameters
    ----------
    table : Table
        Sealed, so that its commitment stands on the paper and can be held against the key later.
    lines : sequence of PourLine
        In the order in which they are ground.
    size : str
        "a4" or "letter".
    """
    weighed = recipe(table.plan, len(table.plan.samples))
    dose = in_grams(weighed.dose_g, table.plan.scale_step_g)
    return typeset(
        "pour_list.typ",
        {
            "title": f"Pour list of {table.plan.name}",
            "paper": typst_paper(size),
            "table": table.plan.name,
            "amounts": _amounts(weighed),
            "flights": _by_flight(lines, dose),
            "purge": _purge(weighed),
            "seal": table.commitment,
        },
    )


def _amounts(weighed: Recipe) -> str:
    return f"{weighed.bowl_ml:g} mL a bowl at {kettle_in_words(weighed.boiling)}"


def _by_flight(lines: Sequence[PourLine], dose: str) -> list[dict[str, Any]]:
    """Lines under the name of their flight; without a name where there is only one."""
    parted = [(number, list(part)) for number, part in groupby(lines, key=lambda line: line.flight)]
    return [
        {
            "name": f"Flight {number} of {len(parted)}" if len(parted) > 1 else "",
            "lines": [_line(line, dose) for line in part],
        }
        for number, part in parted
    ]


def _line(line: PourLine, dose: str) -> dict[str, str | int]:
    coffee = line.coffee
    return {
        "code": line.code,
        "coffee": coffee.name,
        "roaster": coffee.roaster,
        "dose": dose,
        "bowls": line.bowls,
    }


def _purge(recipe: Recipe) -> str:
    spare = " One spare bowl of each coffee is weighed as well." if recipe.spare_bowls else ""
    return (
        f"Before each coffee send {recipe.purge_g:g} g of it through the grinder and throw that away. "
        f"{recipe.low_g:.2f} to {recipe.high_g:.2f} g a bowl is within tolerance.{spare}"
    )
