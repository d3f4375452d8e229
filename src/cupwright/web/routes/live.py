"""Live: the desk's stream of what changed. Phones ask every few seconds instead."""

from collections.abc import AsyncIterator
from typing import Annotated

from fastapi import APIRouter, Query
from fastapi.sse import EventSourceResponse, ServerSentEvent

from cupwright.web.here import HereNow
from cupwright.web.who import DeskOnly
from cupwright.web.wire import Id

router = APIRouter(prefix="/api", tags=["live"], dependencies=[DeskOnly])


@router.get("/live", response_class=EventSourceResponse)
async def live(here: HereNow, table: Annotated[Id | None, Query()] = None) -> AsyncIterator[ServerSentEvent]:
    """Events {table, kind} of one table, or of all; the first is always `hello`."""
    with here.hub.listening(table) as listener:
        yield ServerSentEvent(data={"table": table, "kind": "hello"}, retry=2000)
        async for table_id, kind in listener.events():
            yield ServerSentEvent(data={"table": table_id, "kind": kind})
