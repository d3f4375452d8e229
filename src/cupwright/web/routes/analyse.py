"""Analyse: what was counted at a revealed table, and what a file of scores says."""

from typing import Any

from fastapi import APIRouter
from fastapi.concurrency import run_in_threadpool

from cupwright.steps.plan import get_table
from cupwright.steps.ports import Tools
from cupwright.web.here import ToolsNow
from cupwright.web.shown_cooling import AnswerRowShown
from cupwright.web.upload import UPLOAD_SCHEMA, Upload, UploadNow
from cupwright.web.who import DeskOnly, Sitting
from cupwright.web.wire import Id

router = APIRouter(prefix="/api/tables/{table_id}", tags=["analyse"], dependencies=[DeskOnly])
taster = APIRouter(prefix="/api/seat", tags=["seat"])
season = APIRouter(prefix="/api/season", tags=["analyse"], dependencies=[DeskOnly])
scores = APIRouter(prefix="/api/scores", tags=["analyse"], dependencies=[DeskOnly])


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
    from cupwright.core.report.table_questions import table_analyses
    from cupwright.steps import analyse as steps

    answers = steps.analysis(tools, table_id)
    beside = judged(get_table(tools, table_id), answers)
    attributes = {one.name: one.as_data() for one in table_analyses(answers, beside.totals)}
    return analysis_as_data(analyse(answers)) | judged_as_data(beside) | {"attributes": attributes}


@router.get("/questions")
def questions(tools: ToolsNow, table_id: Id) -> dict[str, Any]:
    """Each question of the analysis as a section: a sentence, a picture, the numbers, the method."""
    from cupwright.steps.questions import questions_as_data

    return questions_as_data(tools, table_id)


@scores.post("", openapi_extra=UPLOAD_SCHEMA)
async def analyse_scores(tools: ToolsNow, upload: UploadNow, wide: bool = False) -> dict[str, Any]:
    """Every statistic of a file of scores (taster, coffee, attribute, value); nothing of it is kept."""
    return await run_in_threadpool(_scores, tools, upload, wide)


@season.get("")
def season_of_tables(tools: ToolsNow) -> dict[str, Any]:
    """All opened tables together: how coffees compare across them, which changed, plain means."""
    from cupwright.steps.season import season_as_data

    return season_as_data(tools)


@taster.get("/own")
def own_performance(tools: ToolsNow, sitting: Sitting) -> dict[str, Any]:
    """How this taster scored, in sentences meant for this taster alone."""
    from cupwright.steps.questions import own_as_data

    return own_as_data(tools, sitting.table.id, sitting.seat.id)


def _scores(tools: Tools, upload: Upload, wide: bool) -> dict[str, Any]:
    from cupwright.steps.score_files import Wanted, scores_of_file

    return scores_of_file(tools, upload.data, upload.file, Wanted(wide=wide)).as_data()
