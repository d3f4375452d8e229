"""The analysis as plain data, the same for the API and the command line."""

from typing import Any

from cupwright.core.analyse.summary import Analysis, ScaleSummary
from cupwright.core.plain import plain


def analysis_as_data(analysis: Analysis) -> dict[str, Any]:
    """Counts, contrasts, scales and coverage as JSON-able data; a number that cannot be had is null."""
    answers = analysis.answers
    return {
        "level": analysis.level,
        "looks": analysis.contrasts.looks,
        "tasters": len(answers.seats),
        "late": plain(answers.late),
        "coffees": [
            {
                "id": coffee.id,
                "name": coffee.name,
                "places": list(answers.places[row]),
                "wrote": analysis.wrote[row],
                "had": analysis.had[row],
                "words": plain(analysis.words[row]),
                "families": plain(analysis.families[row]),
                "contrasts": plain(analysis.contrasts.per_coffee[row]),
            }
            for row, coffee in enumerate(answers.coffees)
        ],
        "scales": [_scale(analysis, summary) for summary in analysis.scales],
        "coverage": plain(analysis.coverage),
    }


def _scale(analysis: Analysis, summary: ScaleSummary) -> dict[str, Any]:
    """One scale; `means` and the rows of `differences` follow the order of the coffees."""
    part, field = summary.scale.part, summary.scale.field
    return {
        "pass": part.id,
        "field": field.id,
        "pass_title": part.title,
        "label": field.label,
        "low": field.low,
        "high": field.high,
        "ends_known": summary.scale.ends is not None,
        "low_label": field.low_label,
        "high_label": field.high_label,
        "liking": analysis.answers.sheet.liking == (part.id, field.id),
        "means": plain(summary.means),
        "differences": plain(summary.differences),
        "agreement": plain(summary.agreement),
        "why_not": summary.why_not,
    }
