"""Desk: how the server is, and how the desk is entered when it listens on a network."""

import hmac

from fastapi import APIRouter, Request, Response

from cupwright import __version__
from cupwright.errors import Clash, NotAllowed
from cupwright.steps import desk as steps
from cupwright.steps.pour import now_ms
from cupwright.web.here import Here, HereNow
from cupwright.web.shown import HealthShown
from cupwright.web.who import DeskState, desk_state, let_in, let_out, session_of
from cupwright.web.wire import EnterIn

router = APIRouter(prefix="/api", tags=["desk"])


@router.get("/health")
def health(here: HereNow, request: Request) -> HealthShown:
    """Whether the server is there, which client it serves, and how the desk stands towards this browser."""
    return _health(here, desk_state(here, request))


@router.post("/desk/enter")
def enter_desk(here: HereNow, request: Request, response: Response, body: EnterIn) -> HealthShown:
    """Enter with the passphrase; the first time, set it with the one-time word of the terminal."""
    if desk_state(here, request) is DeskState.OPEN:
        raise Clash("The desk is open on this machine and has no passphrase.", todo="Just use it.")
    with here.desk_tries.counted(NotAllowed):
        # Asked in here, where one enters at a time: two who hold the word must not both set a passphrase.
        if desk_state(here, request) is DeskState.UNSET:
            _require_word(here, body.word)
            steps.set_passphrase(here.tools, body.passphrase)
        token = steps.enter_desk(here.tools, body.passphrase)
    let_in(here, response, token)
    return _health(here, DeskState.ENTERED)


@router.post("/desk/leave", status_code=204)
def leave_desk(here: HereNow, request: Request, response: Response) -> None:
    """Lock the desk for this browser."""
    token = session_of(here, request)
    if token:
        steps.leave_desk(here.tools, token)
    let_out(here, response)


def _health(here: Here, desk: DeskState) -> HealthShown:
    return HealthShown(
        version=__version__,
        build=here.build,
        now_ms=now_ms(here.tools),
        lan=here.settings.lan,
        desk=desk,
    )


def _require_word(here: Here, word: str) -> None:
    given = steps.token_hash("".join(word.split()).upper())
    if not here.settings.word_hash or not hmac.compare_digest(given, here.settings.word_hash):
        raise NotAllowed(
            "That is not the one-time word.", todo="It stands in the window where Cupwright was started."
        )
