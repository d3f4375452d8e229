"""Problems: every refusal as one sentence, in the form of RFC 9457 (application/problem+json).

`detail` is the same sentence that the command line prints; `todo` and `where` are its parts for a
screen that shows them apart.
"""

from collections.abc import Mapping
from http import HTTPStatus
from typing import Any

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from fastapi.responses import JSONResponse
from starlette.exceptions import HTTPException

from cupwright.errors import (
    BadFile,
    BadProtocol,
    BadSheet,
    Clash,
    CupwrightError,
    IncompleteTable,
    NoSpread,
    NotAllowed,
    NotFound,
    NotKnown,
    Place,
    Refused,
    SealBroken,
    TooFewObservations,
    TooLarge,
    TooManyTries,
    Unavailable,
    WrongStep,
)
from cupwright.web.complaints import complaint, field_of

MEDIA_TYPE = "application/problem+json"

STATUS: Mapping[type[CupwrightError], HTTPStatus] = {
    Refused: HTTPStatus.UNPROCESSABLE_ENTITY,
    TooFewObservations: HTTPStatus.UNPROCESSABLE_ENTITY,
    IncompleteTable: HTTPStatus.UNPROCESSABLE_ENTITY,
    NoSpread: HTTPStatus.UNPROCESSABLE_ENTITY,
    BadSheet: HTTPStatus.UNPROCESSABLE_ENTITY,
    BadProtocol: HTTPStatus.UNPROCESSABLE_ENTITY,
    BadFile: HTTPStatus.UNPROCESSABLE_ENTITY,
    TooLarge: HTTPStatus.REQUEST_ENTITY_TOO_LARGE,
    SealBroken: HTTPStatus.CONFLICT,
    NotFound: HTTPStatus.NOT_FOUND,
    WrongStep: HTTPStatus.CONFLICT,
    Clash: HTTPStatus.CONFLICT,
    Unavailable: HTTPStatus.SERVICE_UNAVAILABLE,
    NotAllowed: HTTPStatus.FORBIDDEN,
    TooManyTries: HTTPStatus.TOO_MANY_REQUESTS,
    NotKnown: HTTPStatus.UNAUTHORIZED,
}

TITLE: Mapping[type[CupwrightError], str] = {
    Refused: "The input was refused",
    TooFewObservations: "Too few observations",
    IncompleteTable: "The table is incomplete",
    NoSpread: "All values are the same",
    BadSheet: "The sheet cannot be used",
    BadProtocol: "The protocol cannot be used",
    BadFile: "The file cannot be read",
    TooLarge: "Too large",
    SealBroken: "The seal is broken",
    NotFound: "Not found",
    WrongStep: "Not at this step",
    Clash: "It exists already or was changed",
    Unavailable: "The store cannot be used now",
    NotAllowed: "Not allowed",
    TooManyTries: "Too many tries",
    NotKnown: "Please identify yourself",
}

# What the standard asks for beside a status: RFC 9110, 15.5.2 (a way to identify oneself) and 10.2.3.
_HEADERS: Mapping[type[CupwrightError], Mapping[str, str]] = {
    NotKnown: {"WWW-Authenticate": "Bearer"},
    TooManyTries: {"Retry-After": "60"},
}

# What an answer to a refusal holds, for the OpenAPI document.
SCHEMA: dict[str, Any] = {
    "type": "object",
    "required": ["type", "title", "status", "detail", "todo", "where", "about"],
    "properties": {
        "type": {"type": "string"},
        "title": {"type": "string"},
        "status": {"type": "integer"},
        "detail": {"type": "string", "description": "The whole complaint: where, what, what to do"},
        "todo": {"type": "string"},
        "about": {"type": "string", "description": "The field that is wrong, where one is"},
        "where": {
            "type": ["object", "null"],
            "properties": {
                "file": {"type": "string"},
                "line": {"type": ["integer", "null"]},
                "column": {"type": ["integer", "string", "null"]},
            },
        },
    },
}

# What the framework itself refuses, in our words.
_FRAMEWORK: Mapping[int, tuple[str, str]] = {
    400: ("The body of the request cannot be read.", "Send JSON in UTF-8."),
    404: ("There is nothing at this address.", "Start again from the first page."),
    405: ("This address does not take that kind of request.", "See /api/openapi.json for what it takes."),
    413: ("The request is larger than Cupwright takes.", "Send less at a time."),
}


def problem_of(error: CupwrightError) -> dict[str, Any]:
    """The body of the answer to a refusal."""
    kind = type(error)
    slug = "".join(f"-{c.lower()}" if c.isupper() else c for c in kind.__name__).lstrip("-")
    return {
        "type": f"/problems/{slug}",
        "title": TITLE[kind],
        "status": int(STATUS[kind]),
        "detail": error.sentence(),
        "todo": error.todo,
        "where": _where(error.where),
        "about": error.about,
    }


def answer(error: CupwrightError) -> JSONResponse:
    """The whole answer to a refusal."""
    body = problem_of(error)
    headers = dict(_HEADERS.get(type(error), {}))
    return JSONResponse(body, status_code=body["status"], headers=headers, media_type=MEDIA_TYPE)


def install(app: FastAPI) -> None:
    """Answer every refusal of the steps, of the wire and of the framework in the one form."""
    app.add_exception_handler(CupwrightError, _refused)
    app.add_exception_handler(RequestValidationError, _not_valid)
    app.add_exception_handler(HTTPException, _framework)
    app.add_exception_handler(Exception, _unexpected)


def _where(place: Place | None) -> dict[str, Any] | None:
    if place is None:
        return None
    return {"file": place.file, "line": place.line, "column": place.column}


# Starlette hands each handler the class it was registered for; its type says only Exception.
async def _refused(_request: Request, error: Exception) -> JSONResponse:
    if not isinstance(error, CupwrightError):
        raise error
    return answer(error)


async def _not_valid(_request: Request, error: Exception) -> JSONResponse:
    if not isinstance(error, RequestValidationError):
        raise error
    faults = error.errors()
    body = problem_of(complaint(faults, error.body))
    # The sentence names the field already; a form needs the name apart, to mark it.
    body["where"] = body["where"] or {"file": "", "line": None, "column": field_of(faults[0])}
    return JSONResponse(body, status_code=body["status"], media_type=MEDIA_TYPE)


async def _framework(_request: Request, error: Exception) -> JSONResponse:
    if not isinstance(error, HTTPException):
        raise error
    status = HTTPStatus(error.status_code)
    message, todo = _FRAMEWORK.get(status, (f"The request was refused: {status.phrase}.", ""))
    body = {
        "type": "about:blank",
        "title": status.phrase,
        "status": int(status),
        "detail": f"{message} {todo}".strip(),
        "todo": todo,
        "where": None,
        "about": "",
    }
    return JSONResponse(body, status_code=status, headers=error.headers, media_type=MEDIA_TYPE)


async def _unexpected(_request: Request, _error: Exception) -> JSONResponse:
    message = "Something went wrong inside Cupwright; nothing of this request was kept."
    todo = "Try again; the details stand in the window where Cupwright runs."
    body = {
        "type": "about:blank",
        "title": HTTPStatus.INTERNAL_SERVER_ERROR.phrase,
        "status": 500,
        "detail": f"{message} {todo}",
        "todo": todo,
        "where": None,
        "about": "",
    }
    return JSONResponse(body, status_code=500, media_type=MEDIA_TYPE)
