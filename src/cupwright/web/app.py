"""The application: doorway, routes, pages and problems put together."""

from dataclasses import replace

from fastapi import FastAPI

from cupwright import __version__
from cupwright.steps.ports import Tools
from cupwright.web import pages, problems
from cupwright.web.doorway import Doorway, Headed
from cupwright.web.here import Here
from cupwright.web.limits import Tries
from cupwright.web.live import Hub
from cupwright.web.routes import (
    analyse,
    clock,
    coffees,
    desk,
    live,
    plan,
    pour,
    protocols,
    report,
    reveal,
    sheets,
    size,
    taste,
    water,
    words,
)
from cupwright.web.settings import Settings

ROUTERS = (
    desk.router,
    coffees.router,
    plan.router,
    size.router,
    pour.router,
    clock.of_table,
    clock.router,
    water.router,
    sheets.router,
    protocols.router,
    taste.desk,
    taste.taster,
    reveal.desk,
    reveal.taster,
    analyse.router,
    analyse.scores,
    analyse.season,
    analyse.taster,
    report.router,
    words.router,
    live.router,
)


def make_app(tools: Tools, settings: Settings) -> FastAPI:
    """The whole web side of one running program."""
    hub = Hub()
    app = FastAPI(
        title="Cupwright",
        version=__version__,
        openapi_url="/api/openapi.json",
        # Their pages load scripts from elsewhere.
        docs_url=None,
        redoc_url=None,
        responses=_PROBLEMS,
    )
    app.state.here = Here(
        tools=replace(tools, announce=hub.announce),
        settings=settings,
        hub=hub,
        build=pages.build_id(settings.static),
        join_tries=Tries(settings.ticks),
        desk_tries=Tries(settings.ticks),
    )
    for router in ROUTERS:
        app.include_router(router)
    problems.install(app)
    pages.install(app, settings.static)
    app.add_middleware(Doorway, settings=settings)
    # Added last, so it is outermost and also dresses what the doorway refuses.
    app.add_middleware(Headed)
    return app


_PROBLEMS: dict[int | str, dict[str, object]] = {
    "4XX": {
        "description": "Refused, with the sentence that says why (RFC 9457)",
        "content": {problems.MEDIA_TYPE: {"schema": problems.SCHEMA}},
    },
}
