"""The wire, outward: protocols, where a plan leaves one, what a table asks of its people. For the desk."""

from cupwright.core.plan.protocol import Brewed
from cupwright.core.plan.protocol_words import asks, suggested
from cupwright.core.pour.timing import CueKind
from cupwright.steps.protocols import ListedProtocol
from cupwright.web.shape import Shown


class AskShown(Shown):
    """One thing a protocol asks for, and where that comes from."""

    what: str
    asks: str
    source: str


class ProtocolShown(Shown):
    """A protocol; `own` is a user's, `text` its file, `suggested` values of a plan that keep to it."""

    name: str
    version: int
    title: str
    about: str
    own: bool
    brewed: Brewed
    acts: list[CueKind]
    asks: list[AskShown]
    suggested: dict[str, float]
    text: str


class DeviationShown(Shown):
    """Where a plan leaves its protocol; `size` (signed, in `unit`) is null where the plan does not tell."""

    what: str
    sentence: str
    size: float | None
    tolerance: float | None
    unit: str
    source: str
    known: bool


class CautionShown(Shown):
    """What a table asks of its people: `size` in `unit`, between `low` and `high`, against `limit`."""

    about: str
    sentence: str
    size: float
    low: float
    high: float
    limit: float | None
    unit: str
    source: str
    exceeded: bool


def protocol_shown(listed: ListedProtocol) -> ProtocolShown:
    """A protocol with all it asks."""
    protocol = listed.protocol
    return ProtocolShown(
        name=protocol.name,
        version=protocol.version,
        title=protocol.title,
        about=protocol.about,
        own=listed.own,
        brewed=protocol.brewed,
        acts=list(protocol.acts),
        asks=[AskShown.model_validate(one) for one in asks(protocol)],
        suggested=suggested(protocol),
        text=listed.text,
    )
