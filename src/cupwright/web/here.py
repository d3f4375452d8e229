"""Here: what a running server holds, and how a route reaches it."""

from dataclasses import dataclass, field
from typing import Annotated

from fastapi import Depends, Request

from cupwright.steps.ports import Tools
from cupwright.web.limits import Tries
from cupwright.web.live import Hub
from cupwright.web.settings import Settings


@dataclass(frozen=True, slots=True)
class Here:
    """`seen` is when each seat last asked, in ms since 1970: for display, lost when the server stops."""

    tools: Tools
    settings: Settings
    hub: Hub
    build: str
    join_tries: Tries
    desk_tries: Tries
    seen: dict[str, int] = field(default_factory=dict)


async def _here(request: Request) -> Here:
    here: Here = request.app.state.here
    return here


async def _tools(request: Request) -> Tools:
    here: Here = request.app.state.here
    return here.tools


HereNow = Annotated[Here, Depends(_here)]
ToolsNow = Annotated[Tools, Depends(_tools)]
