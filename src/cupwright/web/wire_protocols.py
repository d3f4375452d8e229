"""The wire, inward: protocols as users write them."""

from typing import Annotated

from pydantic import StringConstraints

from cupwright.core.toml_reader import LARGEST_FILE
from cupwright.web.wire import Wire


class ProtocolTextIn(Wire):
    """The text of a protocol file. Twice the length that is read, so that the complaint names the bound."""

    text: Annotated[str, StringConstraints(max_length=2 * LARGEST_FILE)]
