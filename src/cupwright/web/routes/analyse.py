"""Analyse: what was counted at a revealed table."""

from typing import Any

from fastapi import APIRouter

from cupwright.steps.plan import get_table
from cupwright.web.here import ToolsNow
from cupwright.web.shown_cooling import AnswerRowShown
from cupwright.web.who import DeskOnly
from cupwright.web.wire import Id

router = APIRouter(prefix="/api/tables/{table_id}", tags=["analyse"], dependencies=[DeskOnly])


@router.get("/answers")
def answers(tools: ToolsNow, table_id: Id) -> list[AnswerRowShown]:
    """Every answer of a revealed table, in the order written, with how warm its cup was."""
    from cupwright.core.analyse.answer_rows import answer_rows
    from cupwright.steps import analyse as steps

    return [AnswerRowShown.model_validate(row) for row in answer_rows(steps.analysis(tools, table_id))]


@router.get("/analysis")
def analysis(tools: ToolsNow, table_id: Id) -> dict[str, Any]:
    """Words, scales, agreement and coverage, each with its interval."""
    # The numerical libraries take longer to load than the whole rest of the server.
    from cupwright.core.analyse.as_data import analysis_as_data
    from cupwright.core.analyse.summary import analyse
    from cupwright.core.report.judged import judged, judged_as_data
    from cupwright.steps import analyse as steps

    answers = steps.analysis(tools, table_id)
    beside = judged(get_table(tools, table_id), answers)
    return analysis_as_data(analyse(answers)) | judged_as_data(beside)
