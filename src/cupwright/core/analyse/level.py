"""Level: the coverage that an interval is asked for."""

from cupwright.errors import Refused


def checked_level(level: float) -> float:
    """The level as it is. Raises Refused where it is not between 0 and 1."""
    if not 0 < level < 1:
        raise Refused(f"A level of {level} is not between 0 and 1.", todo="Use 0.95 for a 95 % interval.")
    return level
