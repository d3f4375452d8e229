"""Complaints: what a request's shape has wrong, as one sentence: what, where, what to do."""

from collections.abc import Mapping, Sequence
from typing import Any

from cupwright.errors import Place, Refused

_SOURCES = {
    "body": "the request",
    "query": "the address",
    "path": "the address",
    "header": "the headers",
    "cookie": "the cookies",
}

# What pydantic calls the fault, and how we say it. {…} are filled from the fault's context.
_FAULTS: Mapping[str, str] = {
    "missing": "is missing",
    "extra_forbidden": "is not known here",
    "greater_than_equal": "must be at least {ge}",
    "greater_than": "must be more than {gt}",
    "less_than_equal": "must be at most {le}",
    "less_than": "must be less than {lt}",
    "string_too_long": "is longer than {max_length} characters",
    "string_too_short": "must have at least {min_length} characters",
    "too_long": "has more than {max_length} entries",
    "too_short": "needs at least {min_length} entries",
    "finite_number": "must be a finite number",
    "string_type": "must be text",
    "float_parsing": "must be a number",
    "float_type": "must be a number",
    "int_parsing": "must be a whole number",
    "int_type": "must be a whole number",
    "int_from_float": "must be a whole number",
    "bool_type": "must be true or false",
    "bool_parsing": "must be true or false",
    "list_type": "must be a list",
    "tuple_type": "must be a list",
    "dict_type": "must be an object",
    "model_attributes_type": "must be an object",
    "enum": "must be one of {expected}",
    "literal_error": "must be one of {expected}",
    "date_from_datetime_parsing": "must be a date such as 2026-03-01",
    "date_parsing": "must be a date such as 2026-03-01",
    "date_type": "must be a date such as 2026-03-01",
    "string_unicode": "must be text in Unicode",
    "string_pattern_mismatch": "is not written as expected",
}


def complaint(faults: Sequence[Any], body: Any) -> Refused:
    """One refusal for all that pydantic found.

    Parameters
    ----------
    faults : sequence of mapping
        As pydantic reports them: `type`, `loc`, `msg`, `ctx`.
    body : Any
        The body as it was read; for broken JSON the text itself.
    """
    first = faults[0]
    if first["type"] == "json_invalid":
        return _broken_json(first, body if isinstance(body, str) else "")
    name = field_of(first)
    subject = f'"{name}" in {_SOURCES[first["loc"][0]]}' if name else "The body of the request"
    more = f" ({len(faults) - 1} more are wrong too.)" if len(faults) > 1 else ""
    return Refused(
        f"{subject} {_fault(first)}.{more}",
        todo="Correct it and send it again.",
    )


def field_of(fault: Mapping[str, Any]) -> str:
    """The name of the field that a fault is about, as in "tasters.0"."""
    return ".".join(str(step) for step in fault["loc"][1:])


def _fault(fault: Mapping[str, Any]) -> str:
    text = _FAULTS.get(fault["type"])
    if text is not None:
        return text.format_map(fault.get("ctx") or {})
    # Our own validators say it in a whole clause ("must be ..."); pydantic puts a label before it.
    return str(fault["msg"]).removeprefix("Value error, ")


def _broken_json(fault: Mapping[str, Any], text: str) -> Refused:
    position = int(fault["loc"][-1])
    line = text.count("\n", 0, position) + 1
    column = position - (text.rfind("\n", 0, position) + 1) + 1
    reason = str((fault.get("ctx") or {}).get("error", "it ends too early"))
    return Refused(
        f"The body of the request is not JSON ({reason}).",
        todo="Correct it and send it again.",
        where=Place(file="request", line=line, column=column),
    )
