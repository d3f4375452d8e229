"""A plan as JSON-able data, and back, by hand: a field that is new has a value for plans kept before it."""

from dataclasses import asdict
from typing import Any

from cupwright.core.plan.table import Blinding, Plan


def plan_as_data(plan: Plan) -> dict[str, Any]:
    """JSON-able."""
    return {**asdict(plan), "coffees": list(plan.coffees), "tasters": list(plan.tasters)}


def plan_from_data(data: dict[str, Any]) -> Plan:
    """The plan that was kept."""
    return Plan(
        **{
            **data,
            "coffees": tuple(data["coffees"]),
            "tasters": tuple(data["tasters"]),
            "blinding": Blinding(data["blinding"]),
        }
    )
