"""Coffees: the shelf."""

from fastapi import APIRouter
from fastapi.concurrency import run_in_threadpool

from cupwright.steps import coffees as steps
from cupwright.web.here import ToolsNow
from cupwright.web.shown import CoffeeShown, ImportShown
from cupwright.web.upload import UPLOAD_SCHEMA, UploadNow
from cupwright.web.who import DeskOnly
from cupwright.web.wire import CoffeeIn, Id

router = APIRouter(prefix="/api/coffees", tags=["coffees"], dependencies=[DeskOnly])


@router.get("")
def list_coffees(tools: ToolsNow) -> list[CoffeeShown]:
    """Every coffee, by name."""
    return [CoffeeShown.model_validate(coffee) for coffee in steps.list_coffees(tools)]


@router.post("", status_code=201)
def add_coffee(tools: ToolsNow, body: CoffeeIn) -> CoffeeShown:
    """Put a coffee on the shelf."""
    return CoffeeShown.model_validate(steps.add_coffee(tools, body.coffee()))


@router.post("/import", openapi_extra=UPLOAD_SCHEMA)
async def import_coffees(tools: ToolsNow, upload: UploadNow) -> ImportShown:
    """Put the coffees of a CSV or XLSX file, or of pasted text, on the shelf: all of them, or none."""
    result = await run_in_threadpool(steps.import_coffees_file, tools, upload.data, upload.file)
    return ImportShown.model_validate(result)


@router.put("/{coffee_id}")
def change_coffee(tools: ToolsNow, coffee_id: Id, body: CoffeeIn) -> CoffeeShown:
    """Replace a coffee."""
    return CoffeeShown.model_validate(steps.change_coffee(tools, body.coffee(coffee_id)))


@router.delete("/{coffee_id}", status_code=204)
def remove_coffee(tools: ToolsNow, coffee_id: Id) -> None:
    """Take a coffee off the shelf."""
    steps.remove_coffee(tools, coffee_id)
