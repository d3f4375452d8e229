"""Filled-in sheets for tests: answers by the ids of the fields alone."""

from typing import Any

from cupwright.core.taste.points import Points, points
from cupwright.core.taste.sheet import Sheet
from cupwright.core.taste.sheet_file import builtin_sheet

SEVEN = ("fragrance_aroma", "flavour", "aftertaste", "acidity", "body", "balance", "overall")
THREE = ("uniformity", "clean_cup", "sweetness")
EIGHT = ("fragrance", "aroma", "flavour", "aftertaste", "acidity", "sweetness", "mouthfeel", "overall")
CLEAN: dict[str, Any] = {key: [] for key in THREE}


def of(sheet: Sheet | str, cups: int = 5, place: str = "", averages: bool = False, **answers: Any) -> Points:
    """The points of answers given by field id."""
    form = builtin_sheet(sheet) if isinstance(sheet, str) else sheet
    parts = {field.id: part.id for part in form.passes for field in part.fields}
    by_part = {(parts[field], field): value for field, value in answers.items()}
    return points(form, by_part, cups=cups, place=place, averages=averages)


def seven(*scores: str) -> dict[str, Any]:
    """The seven judged lines of the hundred-point sheet, one score for all or seven."""
    return dict(zip(SEVEN, scores * 7 if len(scores) == 1 else scores, strict=True))


def eight(*steps: int) -> dict[str, Any]:
    """The eight impressions of the affective sheet, one step for all or eight."""
    return dict(zip(EIGHT, map(str, steps * 8 if len(steps) == 1 else steps), strict=True))
