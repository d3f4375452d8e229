"""The wire, inward, about the clock."""

from typing import Annotated

from pydantic import Field, StringConstraints

from cupwright.web.wire import MANY, Amount, Millis, Name, Wire


class MarkIn(Wire):
    """An act on one bowl is done; without `at`, now."""

    kind: Annotated[str, StringConstraints(max_length=20)]
    bowl: Millis
    at: Millis | None = None


class ScheduleIn(Wire):
    """Hands, and the bowls of each flight."""

    flights: Annotated[list[Millis], Field(max_length=MANY)]
    people: Millis = 1
    pour_s: Amount = 15.0
    break_s: Amount = 10.0
    skim_s: Amount = 15.0
    protocol: Name = "cupping"
