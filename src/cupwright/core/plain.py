"""Plain: a frozen core value as JSON-able data, field by field under its own name.

For what may be shown whole; what is shown in part goes out through listed fields (web/shown.py).
"""

import math
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from datetime import date
from enum import Enum
from typing import Any


def plain(value: object) -> Any:
    """Dataclasses become objects, sets sorted lists, arrays lists, dates text, infinite numbers null."""
    if is_dataclass(value) and not isinstance(value, type):
        return {field.name: plain(getattr(value, field.name)) for field in fields(value)}
    if isinstance(value, Mapping):
        return {str(key): plain(member) for key, member in value.items()}
    if isinstance(value, set | frozenset):
        return sorted(plain(member) for member in value)
    if isinstance(value, list | tuple):
        return [plain(member) for member in value]
    if hasattr(value, "tolist"):  # an array
        return plain(value.tolist())
    return _single(value)


def _single(value: object) -> Any:
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, float):
        return value if math.isfinite(value) else None
    return value.isoformat() if isinstance(value, date) else value
