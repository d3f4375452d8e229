"""Pages: the built client, served so that it opens again from the browser's cache when the server is away.

index.html may be kept for half a day; everything under assets/ has its content's hash in its name and may
be kept for ever. /api/health carries the build, so a client that was opened from the cache can tell that
a newer one is there.
"""

import hashlib
from pathlib import Path

from fastapi import FastAPI
from fastapi.responses import FileResponse, HTMLResponse, Response
from starlette.exceptions import HTTPException
from starlette.staticfiles import StaticFiles
from starlette.types import Scope

_HALF_A_DAY = "max-age=43200"
_FOR_EVER = "max-age=31536000, immutable"

_NOT_BUILT = """<!doctype html>
<html lang="en"><head><meta charset="utf-8"><title>Cupwright</title></head>
<body><h1>The pages of Cupwright have not been built</h1>
<p>The program runs and its API answers, but the part that a browser shows is missing.
Run <code>make setup</code> in the folder of Cupwright, then load this page again.</p>
</body></html>
"""


def build_id(static: Path) -> str:
    """Which client is being served: the first 12 hex digits of the SHA-256 of index.html, or "none"."""
    index = static / "index.html"
    return hashlib.sha256(index.read_bytes()).hexdigest()[:12] if index.is_file() else "none"


class _Assets(StaticFiles):
    """Files whose names carry their content's hash."""

    async def get_response(self, path: str, scope: Scope) -> Response:
        response = await super().get_response(path, scope)
        response.headers["Cache-Control"] = _FOR_EVER
        return response


def install(app: FastAPI, static: Path) -> None:
    """Serve the client at / ; without one, say so in plain words.

    No mount at "/": it would match every address, and a wrong method on an API address could no longer
    be told from a wrong address.
    """
    index = static / "index.html"

    def first_page() -> Response:
        if not index.is_file():
            return HTMLResponse(_NOT_BUILT, status_code=503)
        return FileResponse(index, headers={"Cache-Control": _HALF_A_DAY})

    def beside_it(name: str) -> Response:
        # Only names that the folder lists: a name from outside never becomes a path.
        files = {file.name: file for file in static.iterdir() if file.is_file()} if static.is_dir() else {}
        if name not in files:
            raise HTTPException(404)
        return FileResponse(files[name], headers={"Cache-Control": _HALF_A_DAY})

    app.add_api_route("/", first_page, methods=["GET"], include_in_schema=False)
    app.add_api_route("/{name}", beside_it, methods=["GET"], include_in_schema=False)
    if (static / "assets").is_dir():
        app.mount("/assets", _Assets(directory=static / "assets"), name="assets")
