"""A plan as JSON-able data, and back, by hand: a field that is new has a value for plans kept before it."""

from dataclasses import asdict
from typing import Any

from cupwright.core.plan.table import Blinding, Plan

_LISTS = ("coffees", "tasters", "duplicates")


def plan_as_data(plan: Plan) -> dict[str, Any]:
    """JSON-able."""
    return asdict(plan) | {key: list(getattr(plan, key)) for key in _LISTS}


def plan_from_data(data: dict[str, Any]) -> Plan:
    """The plan that was kept."""
    lists = {key: tuple(data[key]) for key in _LISTS if key in data}
    return Plan(**(data | lists | {"blinding": Blinding(data["blinding"])}))
