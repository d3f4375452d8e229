"""Upload: the bytes of a file that came as a form, or text that was pasted."""

import json
from typing import Annotated

from fastapi import Depends, Request
from pydantic import ValidationError
from starlette.datastructures import UploadFile

from cupwright.errors import Refused
from cupwright.web.complaints import complaint
from cupwright.web.wire import PastedIn

LONGEST_FILE_NAME = 100


class Upload:
    """A file's bytes and what to call it in a complaint; the name is never used as a path."""

    def __init__(self, data: bytes, file: str) -> None:
        self.data = data
        self.file = file


async def _upload(request: Request) -> Upload:
    kind = request.headers.get("content-type", "").partition(";")[0].strip().lower()
    if kind == "multipart/form-data":
        return await _from_form(request)
    return _from_text(await request.body())


async def _from_form(request: Request) -> Upload:
    async with request.form(max_files=1, max_fields=10) as form:
        part = form.get("file")
        if not isinstance(part, UploadFile):
            raise Refused("The form holds no file called 'file'.", todo="Choose a file.")
        # Only the end of a name matters: how the file is called, and .csv or .xlsx.
        return Upload(await part.read(), (part.filename or "file")[-LONGEST_FILE_NAME:])


def _from_text(body: bytes) -> Upload:
    try:
        pasted = PastedIn.model_validate(json.loads(body))
    except ValidationError as error:
        faults = [{**fault, "loc": ("body", *fault["loc"])} for fault in error.errors()]
        raise complaint(faults, body) from error
    except (UnicodeDecodeError, ValueError, RecursionError) as error:
        raise Refused(
            "The body of the request is not JSON.", todo='Send {"text": "..."} or a form.'
        ) from error
    return Upload(pasted.text.encode("utf-8", "replace"), "pasted.csv")


UploadNow = Annotated[Upload, Depends(_upload)]

# FastAPI derives no schema from a request that is read by hand.
UPLOAD_SCHEMA = {
    "requestBody": {
        "required": True,
        "content": {
            "application/json": {"schema": PastedIn.model_json_schema()},
            "multipart/form-data": {
                "schema": {
                    "type": "object",
                    "required": ["file"],
                    "properties": {"file": {"type": "string", "format": "binary"}},
                }
            },
        },
    }
}
