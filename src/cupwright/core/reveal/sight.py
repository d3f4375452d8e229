"""Sight: who may see what at which step. One table; whatever is not in it is not shown.

Before the key is open nobody but the pourer knows what stands under a code, and nobody sees what
others wrote: talk and knowledge shift judgements. The pourer's view is an event of its own in the record.
"""

from enum import StrEnum

from cupwright.core.flow import Step
from cupwright.errors import NotAllowed, WrongStep


class Role(StrEnum):
    """In what part somebody asks. One person may have several, each asked for by itself."""

    DESK = "desk"
    POURER = "pourer"
    TASTER = "taster"


class Thing(StrEnum):
    """What can be asked for, in the words of a refusal."""

    IDENTITIES = "which coffee stands where"
    KEY = "the key"
    OWN_NOTES = "a taster's own notes"
    OTHERS_NOTES = "what others wrote"
    PROGRESS = "how far the tasters are"
    PUBLISHED_NOTES = "the published notes"
    COMMITMENT = "the seal"
    PLACINGS = "which code stood where"
    ANALYSIS = "the analysis"


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


def require_sight(role: Role, table_step: Step, *things: Thing) -> None:
    """Refuse unless all of these things may be seen.

    Raises
    ------
    WrongStep
        If the role sees one of them at another step only.
    NotAllowed
        If the role never sees it.
    """
    for thing in things:
        if not may_see(role, thing, table_step):
            raise _refusal(role, thing, table_step)


def _refusal(role: Role, thing: Thing, step: Step) -> WrongStep | NotAllowed:
    message = f"The {role} may not see {thing} while the table is at the step '{step}'."
    if not any(may_see(role, thing, another) for another in Step):
        return NotAllowed(message, todo="Ask whoever it belongs to.")
    return WrongStep(message, todo="Seal the table first." if step is Step.PLAN else "Open the key first.")
