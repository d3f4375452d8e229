"""The steps of a table."""

import pytest

from cupwright.core.flow import Step, is_sealed, move, require
from cupwright.errors import WrongStep

LEGAL = {
    (Step.PLAN, Step.POUR),
    (Step.POUR, Step.TASTE),
    (Step.POUR, Step.REVEAL),
    (Step.TASTE, Step.REVEAL),
    (Step.TASTE, Step.POUR),
}
ALL = [(now, to) for now in Step for to in Step]


@pytest.mark.parametrize(("now", "to"), ALL)
def test_only_the_drawn_moves_are_legal(now: Step, to: Step):
    if (now, to) in LEGAL:
        assert move(now, to) is to
        return

    with pytest.raises(WrongStep, match=f"at the step '{now}' cannot go to '{to}'"):
        move(now, to)


def test_nothing_leads_out_of_the_reveal():
    assert not any(now is Step.REVEAL for now, _ in LEGAL)
    with pytest.raises(WrongStep, match="plan a new table"):
        move(Step.REVEAL, Step.PLAN)


def test_the_key_is_sealed_between_seal_and_reveal_only():
    assert [step for step in Step if is_sealed(step)] == [Step.POUR, Step.TASTE]


def test_an_act_passes_at_its_steps_and_is_refused_at_others_with_a_way_on():
    require(Step.TASTE, Step.POUR, Step.TASTE, to_do="write notes")

    with pytest.raises(WrongStep) as refusal:
        require(Step.PLAN, Step.POUR, Step.TASTE, to_do="write notes")

    assert str(refusal.value) == (
        "You cannot write notes while the table is at the step 'plan'. Seal the table first."
    )


def test_every_step_says_what_now():
    for step in Step:
        with pytest.raises(WrongStep) as refusal:
            require(step, to_do="do that")
        assert refusal.value.todo
