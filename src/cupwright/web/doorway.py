"""The doorway: what every request must satisfy before any route sees it (pure ASGI, no buffering).

Host: only names of this machine, so that a page elsewhere whose name was pointed here gets nothing.
Origin: every request that changes something must come from our own page; a missing one is refused too.
Another page may not even ask, where the browser says that it did (Fetch Metadata, W3C).
Form: what changes something is JSON, except where a file is uploaded, so no plain HTML form can do it.
Size: a body over the cap is refused before it is read.
"""

import re
from collections.abc import Mapping

from starlette.datastructures import Headers
from starlette.exceptions import HTTPException
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from cupwright.errors import CupwrightError, NotAllowed, TooLarge
from cupwright.web.problems import answer
from cupwright.web.settings import MEGABYTE, Settings

SAFE_METHODS = frozenset({"GET", "HEAD", "OPTIONS"})
UPLOADS = frozenset({"/api/coffees/import", "/api/scores", "/api/tables/{table_id}/notes-file"})
_UPLOAD = re.compile("|".join(re.sub(r"\{\w+\}", "[^/]+", path) for path in sorted(UPLOADS)))
LOOPBACK = frozenset({"localhost", "127.0.0.1", "[::1]"})


class Doorway:
    """ASGI middleware around the whole application."""

    def __init__(self, app: ASGIApp, settings: Settings) -> None:
        self.app = app
        self.settings = settings

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        headers = Headers(scope=scope)
        cap = self._cap(scope["path"])
        refusal = self._refusal(scope, headers, cap)
        if refusal is not None:
            await answer(refusal)(scope, receive, send)
            return
        await self.app(scope, _capped(receive, cap), send)

    def _refusal(self, scope: Scope, headers: Headers, cap: int) -> CupwrightError | None:
        host = headers.get("host", "")
        if not self._is_ours(host, scope.get("server")):
            return NotAllowed(
                "Cupwright does not answer to this host name.", todo="Use the address that Cupwright printed."
            )
        if headers.get("sec-fetch-site") == "cross-site" and scope["path"].startswith("/api"):
            return NotAllowed("Another page asked for this.", todo="Open Cupwright's own page instead.")
        if scope["method"] not in SAFE_METHODS:
            return _foreign(headers, host, scope["path"]) or _oversized(headers, cap)
        return None

    def _is_ours(self, host: str, server: tuple[str, int | None] | None) -> bool:
        name = _name_of(host)
        if name in LOOPBACK or name in self.settings.names:
            return True
        # The address on which this very connection arrived is one of the machine's own, whatever
        # the network calls it today.
        arrived = server[0] if server else ""
        return self.settings.lan and name in (arrived, f"[{arrived}]")

    def _cap(self, path: str) -> int:
        return self.settings.largest_upload if _takes_files(path) else self.settings.largest_body


def _takes_files(path: str) -> bool:
    return _UPLOAD.fullmatch(path) is not None


def _name_of(host: str) -> str:
    """The host name without its port, in lower case; an IPv6 address keeps its brackets."""
    if host.startswith("["):
        return host.partition("]")[0].lower() + "]"
    return host.partition(":")[0].lower()


def _foreign(headers: Headers, host: str, path: str) -> NotAllowed | None:
    if headers.get("origin", "") not in (f"http://{host}", f"https://{host}"):
        return NotAllowed(
            "This request did not come from Cupwright's own page.",
            todo=f"Programs send the header 'Origin: http://{host}'; people open the page first.",
        )
    form = headers.get("content-type", "").partition(";")[0].strip().lower()
    if form in ("", "application/json") or (form == "multipart/form-data" and _takes_files(path)):
        return None
    return NotAllowed(f"A body of the kind '{form}' is not taken here.", todo="Send application/json.")


def _oversized(headers: Headers, cap: int) -> TooLarge | None:
    length = headers.get("content-length", "0")
    if length.isascii() and length.isdigit() and int(length) <= cap:
        return None
    return too_large(cap)


def too_large(cap: int) -> TooLarge:
    """The refusal of a body over the cap of `cap` bytes."""
    return TooLarge(
        f"The request is larger than the {cap // MEGABYTE} MB that are taken here.",
        todo="Send it in smaller parts.",
    )


def _capped(receive: Receive, cap: int) -> Receive:
    """Count what arrives without a declared length, and stop at the cap."""
    seen = 0

    async def counted() -> Message:
        nonlocal seen
        message = await receive()
        seen += len(message.get("body", b""))
        if seen > cap:
            # The framework passes its own exception through while it reads a body, and no other.
            raise HTTPException(413)
        return message

    return counted


class Headed:
    """ASGI middleware that puts the same protective headers on every answer."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        async def headed(message: Message) -> None:
            if message["type"] == "http.response.start":
                names = {name.lower() for name, _ in message["headers"]}
                message["headers"] = [
                    *message["headers"],
                    *((name, value) for name, value in _HEADERS.items() if name not in names),
                ]
            await send(message)

        await self.app(scope, receive, headed)


_HEADERS: Mapping[bytes, bytes] = {
    b"content-security-policy": (
        b"default-src 'self'; img-src 'self' data: blob:; object-src 'none'; base-uri 'none'; "
        b"form-action 'self'; frame-ancestors 'none'"
    ),
    b"x-content-type-options": b"nosniff",
    b"referrer-policy": b"no-referrer",
    b"cross-origin-resource-policy": b"same-origin",
    b"permissions-policy": b"camera=(), geolocation=(), microphone=()",
    b"cache-control": b"no-store",
}

# Nothing in a PDF runs in the page; a browser's own viewer is a plugin to some and must not be shut out.
PAPER_POLICY = "base-uri 'none'; frame-ancestors 'self'"

# A report carries its own style and stands alone in a frame of the desk; it may run nothing and load nothing.
REPORT_POLICY = (
    "default-src 'none'; style-src 'unsafe-inline'; img-src 'self' data:; font-src 'self' data:; "
    "base-uri 'none'; form-action 'none'; frame-ancestors 'self'; sandbox allow-popups allow-modals"
)
