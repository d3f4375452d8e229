"""The base of every shape that goes out."""

from pydantic import BaseModel, ConfigDict


class Shown(BaseModel):
    """Base of all that goes out; read from a core value by attribute names."""

    model_config = ConfigDict(from_attributes=True, frozen=True)
