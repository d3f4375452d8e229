"""Sight: who may see what at which step. One table; whatever is not in it is not shown.

Before the key is open nobody but the pourer knows what stands under a code, and nobody sees what
others wrote: talk and knowledge shift judgements. The pourer's view is an event of its own in the record.
"""

from enum import StrEnum

from cupwright.core.flow import Step
from cupwright.errors import NotAllowed


class Role(StrEnum):
    """In what part somebody asks. One person may have several, each asked for by itself."""

    DESK = "desk"
    POURER = "pourer"
    TASTER = "taster"


class Thing(StrEnum):
    """What can be asked for."""

    IDENTITIES = "identities"
    KEY = "key"
    OWN_NOTES = "own notes"
    OTHERS_NOTES = "others' notes"
    PROGRESS = "progress"
    PUBLISHED_NOTES = "published notes"
    COMMITMENT = "commitment"
    PLACINGS = "placings"
    ANALYSIS = "analysis"


_NEVER = frozenset[Step]()
_OPEN = frozenset({Step.REVEAL})
_SEALED = frozenset({Step.POUR, Step.TASTE, Step.REVEAL})
_ALWAYS = frozenset(Step)

_SIGHT: dict[Thing, dict[Role, frozenset[Step]]] = {
    Thing.IDENTITIES: {Role.DESK: _OPEN, Role.POURER: _SEALED, Role.TASTER: _OPEN},
    # The nonce makes the seal provable, and useless if it is known too early.
    Thing.KEY: {Role.DESK: _OPEN, Role.POURER: _OPEN, Role.TASTER: _OPEN},
    Thing.OWN_NOTES: {Role.DESK: _NEVER, Role.POURER: _NEVER, Role.TASTER: _SEALED},
    Thing.OTHERS_NOTES: {Role.DESK: _OPEN, Role.POURER: _OPEN, Role.TASTER: _OPEN},
    # A taster who sees that the others are further ahead hurries.
    Thing.PROGRESS: {Role.DESK: _SEALED, Role.POURER: _SEALED, Role.TASTER: _OPEN},
    # The desk keeps the list of coffees and with it the words on their bags.
    Thing.PUBLISHED_NOTES: {Role.DESK: _ALWAYS, Role.POURER: _OPEN, Role.TASTER: _OPEN},
    Thing.COMMITMENT: {Role.DESK: _SEALED, Role.POURER: _SEALED, Role.TASTER: _SEALED},
    Thing.PLACINGS: {Role.DESK: _OPEN, Role.POURER: _OPEN, Role.TASTER: _OPEN},
    Thing.ANALYSIS: {Role.DESK: _OPEN, Role.POURER: _OPEN, Role.TASTER: _OPEN},
}


def may_see(role: Role, thing: Thing, table_step: Step) -> bool:
    """Whether somebody in that role may see that thing while the table is at that step."""
    return table_step in _SIGHT[thing][role]


def require_sight(role: Role, thing: Thing, table_step: Step) -> None:
    """Refuse what may not be seen.

    Raises
    ------
    NotAllowed
        If the role may not see the thing at this step.
    """
    if may_see(role, thing, table_step):
        return
    later = any(may_see(role, thing, step) for step in Step)
    todo = "Open the key first." if later and table_step is not Step.PLAN else "Seal the table first."
    raise NotAllowed(
        f"The {role} may not see the {thing} while the table is at the step '{table_step}'.",
        todo=todo if later else "Ask whoever they belong to.",
    )
