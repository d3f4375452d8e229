"""Protocols: those there are, and users' own."""

from fastapi import APIRouter

from cupwright.steps import protocols as steps
from cupwright.web.here import ToolsNow
from cupwright.web.shown_protocols import ProtocolShown, protocol_shown
from cupwright.web.who import DeskOnly
from cupwright.web.wire import Id
from cupwright.web.wire_protocols import ProtocolTextIn

router = APIRouter(prefix="/api/protocols", tags=["plan"], dependencies=[DeskOnly])


@router.get("")
def list_protocols(tools: ToolsNow) -> list[ProtocolShown]:
    """The protocols that come with the program, then users' own."""
    return [protocol_shown(one) for one in steps.list_protocols(tools)]


@router.post("", status_code=201)
def keep_protocol(tools: ToolsNow, body: ProtocolTextIn) -> ProtocolShown:
    """Keep a protocol of one's own, or its next version, from the text of its file."""
    kept = steps.keep_protocol(tools, body.text)
    return protocol_shown(steps.find_protocol(tools, kept.name))


@router.post("/check")
def check_protocol(body: ProtocolTextIn) -> ProtocolShown:
    """Read a protocol without keeping it; a complaint names the line."""
    return protocol_shown(steps.read_protocol(body.text))


@router.delete("/{name}", status_code=204)
def remove_protocol(tools: ToolsNow, name: Id) -> None:
    """Put one's own protocol out of sight; tables that were laid by it keep it."""
    steps.remove_protocol(tools, name)
