"""Labels and pour list on paper: what stands on or under the bowls, and what the pourer goes by."""

from collections.abc import Sequence

from cupwright.core.plan.table import Blinding
from cupwright.core.pour.labels import Label, LabelSheet
from cupwright.core.pour.order_of_work import in_grams
from cupwright.core.pour.pour_list import PourLine
from cupwright.core.pour.recipe import Recipe
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


def pour_list_pdf(
    lines: Sequence[PourLine],
    recipe: Recipe,
    *,
    table_name: str,
    scale_step_g: float,
    commitment: str,
    size: str = "a4",
) -> bytes:
    """Code, coffee and dose for the pourer alone, with a mark to make for each bowl weighed.

    Parameters
    ----------
    lines : sequence of PourLine
        In the order in which they are ground.
    scale_step_g : float
        How finely the dose is written.
    commitment : str
        The seal, so that the paper can be checked against the key later.
    size : str
        "a4" or "letter".
    """
    dose = in_grams(recipe.dose_g, scale_step_g)
    return typeset(
        "pour_list.typ",
        {
            "title": f"Pour list of {table_name}",
            "paper": typst_paper(size),
            "table": table_name,
            "amounts": f"{recipe.bowl_ml:g} mL a bowl at {recipe.kettle_c:g} °C ({recipe.kettle_f:.1f} °F)",
            "lines": [_line(line, dose) for line in lines],
            "purge": _purge(recipe),
            "seal": commitment,
        },
    )


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
