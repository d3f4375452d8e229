"""Who asks: the desk by its session, a taster by the token of a seat.

On loopback without --lan the desk is open: whoever sits at the machine runs it. With --lan it asks for its
passphrase always, from loopback too, and is never open while none is set.
"""

from enum import StrEnum
from typing import Annotated

from fastapi import Depends, Request, Response

from cupwright.core.taste.joining import Seated
from cupwright.errors import NotKnown
from cupwright.steps.desk import SESSION_LASTS, desk_is_entered, passphrase_is_set, token_hash
from cupwright.steps.pour import now_ms
from cupwright.steps.taste import who_sits
from cupwright.web.here import Here, HereNow


class DeskState(StrEnum):
    """How the desk stands towards whoever asks."""

    OPEN = "open"
    UNSET = "unset"
    LOCKED = "locked"
    ENTERED = "entered"


def desk_state(here: Here, request: Request) -> DeskState:
    """Whether this browser may run the desk, and if not, what is missing."""
    if not here.settings.lan:
        return DeskState.OPEN
    if not passphrase_is_set(here.tools):
        return DeskState.UNSET
    token = session_of(here, request)
    return DeskState.ENTERED if token and desk_is_entered(here.tools, token) else DeskState.LOCKED


def require_desk(here: HereNow, request: Request) -> None:
    """Refuse everybody but the desk. Raises NotKnown."""
    state = desk_state(here, request)
    if state is DeskState.UNSET:
        raise NotKnown(
            "The desk has no passphrase yet.",
            todo="Set one with the one-time word that stands in the window where Cupwright runs.",
        )
    if state is DeskState.LOCKED:
        raise NotKnown("The desk is locked.", todo="Enter its passphrase.")


def session_of(here: Here, request: Request) -> str:
    """The session token that a browser sent, or nothing."""
    return request.cookies.get(_cookie_name(here), "")


def let_in(here: Here, response: Response, token: str) -> None:
    """Give a browser its session. No Secure: on a local network there is only plain http (see docs/guide)."""
    response.set_cookie(
        _cookie_name(here),
        token,
        max_age=int(SESSION_LASTS.total_seconds()),
        httponly=True,
        samesite="strict",
        path="/api",
    )


def let_out(here: Here, response: Response) -> None:
    """Take the session from a browser. By its age alone: a date would put a clock into the answer."""
    response.set_cookie(_cookie_name(here), "", max_age=0, httponly=True, samesite="strict", path="/api")


def sitting(here: HereNow, request: Request) -> Seated:
    """The seat of the taster who asks. Raises NotKnown."""
    scheme, _, token = request.headers.get("authorization", "").partition(" ")
    if scheme.lower() != "bearer" or not token:
        raise NotKnown("This device has not taken a seat.", todo="Join with the table's code.")
    seated = who_sits(here.tools, token_hash(token))
    here.seen[seated.seat.id] = now_ms(here.tools)
    return seated


def _cookie_name(here: Here) -> str:
    # Cookies do not know ports: two programs on one machine would end each other's sessions.
    return f"cupwright_desk_{here.settings.port}"


DeskOnly = Depends(require_desk)
Sitting = Annotated[Seated, Depends(sitting)]
