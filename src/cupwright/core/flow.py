"""The steps of a table and the legal moves between them.

    plan ──seal──> pour ──start clock──> taste ──open key──> reveal
                    │  ^──────take back────────┘              ^
                    └────────────────open key─────────────────┘

`plan` is a draft and may change. From `pour` on the key is sealed and notes are taken (the dry
grounds are smelled before water is poured). A start pressed by mistake can be taken back. `reveal` is
final: the key is open, nothing that counts is written any more, and `analyse` and `report` read what is
there. What a phone's file brings after that is kept and shown (taste/late.py).
"""

from enum import StrEnum

from cupwright.errors import WrongStep


class Step(StrEnum):
    """Where a table stands."""

    PLAN = "plan"
    POUR = "pour"
    TASTE = "taste"
    REVEAL = "reveal"


_MOVES = {
    Step.PLAN: {Step.POUR},
    Step.POUR: {Step.TASTE, Step.REVEAL},
    Step.TASTE: {Step.REVEAL, Step.POUR},
    Step.REVEAL: frozenset[Step](),
}

_WHAT_NOW = {
    Step.PLAN: "Seal the table first.",
    Step.POUR: "The key is sealed; start the clock or open the key.",
    Step.TASTE: "The table is being tasted; open the key when all are done.",
    Step.REVEAL: "The key is open and the table is closed; plan a new table.",
}


def move(now: Step, to: Step) -> Step:
    """The next step, if the flow allows it.

    Raises
    ------
    WrongStep
        If there is no such move.
    """
    if to not in _MOVES[now]:
        raise WrongStep(f"A table at the step '{now}' cannot go to '{to}'.", todo=_WHAT_NOW[now])
    return to


def is_sealed(step: Step) -> bool:
    """Whether the key is sealed and not open yet: tasters may write, and nobody may know."""
    return step in (Step.POUR, Step.TASTE)


def require(step: Step, *allowed: Step, to_do: str) -> None:
    """Refuse an act that does not belong to the step a table is at.

    Parameters
    ----------
    to_do : str
        The act in words, as in "start the clock".

    Raises
    ------
    WrongStep
        If `step` is not one of `allowed`.
    """
    if step not in allowed:
        raise WrongStep(f"You cannot {to_do} while the table is at the step '{step}'.", todo=_WHAT_NOW[step])
