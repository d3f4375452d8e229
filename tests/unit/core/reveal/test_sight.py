"""Who may see what at which step."""

import pytest

from cupwright.core.flow import Step
from cupwright.core.reveal.sight import Role, Thing, may_see, require_sight
from cupwright.errors import NotAllowed, WrongStep

BEFORE = [Step.PLAN, Step.POUR, Step.TASTE]
EVERY = [(role, thing, step) for role in Role for thing in Thing for step in Step]

# The whole rule once more, written by hand from the promises: P plan, O pour, T taste, R reveal.
EXPECTED = {
    Thing.IDENTITIES: ("R", "OTR", "R"),
    Thing.KEY: ("R", "R", "R"),
    Thing.OWN_NOTES: ("", "", "OTR"),
    Thing.OTHERS_NOTES: ("R", "R", "R"),
    Thing.PROGRESS: ("OTR", "OTR", "R"),
    Thing.PUBLISHED_NOTES: ("POTR", "R", "R"),
    Thing.COMMITMENT: ("OTR", "OTR", "OTR"),
    Thing.PLACINGS: ("R", "R", "R"),
    Thing.ANALYSIS: ("R", "R", "R"),
}
LETTER = {Step.PLAN: "P", Step.POUR: "O", Step.TASTE: "T", Step.REVEAL: "R"}


@pytest.mark.parametrize(("role", "thing", "step"), EVERY)
def test_sight_is_as_promised(role: Role, thing: Thing, step: Step):
    expected = EXPECTED[thing][list(Role).index(role)]

    assert may_see(role, thing, step) is (LETTER[step] in expected)


@pytest.mark.parametrize("step", BEFORE)
def test_before_the_reveal_a_taster_sees_only_the_seal_and_what_they_wrote(step: Step):
    seen = {thing for thing in Thing if may_see(Role.TASTER, thing, step)}

    assert seen <= {Thing.COMMITMENT, Thing.OWN_NOTES}


def test_only_the_pourer_knows_an_identity_before_the_reveal():
    assert {role for role in Role for step in BEFORE if may_see(role, Thing.IDENTITIES, step)} == {
        Role.POURER
    }


def test_nobody_reads_what_others_wrote_before_the_reveal():
    assert not any(may_see(role, Thing.OTHERS_NOTES, step) for role in Role for step in BEFORE)


@pytest.mark.parametrize(("role", "thing", "step"), EVERY)
def test_what_may_not_be_seen_is_refused_and_what_may_is_not(role: Role, thing: Thing, step: Step):
    if may_see(role, thing, step):
        require_sight(role, step, thing)
        return

    with pytest.raises((NotAllowed, WrongStep)) as refusal:
        require_sight(role, step, thing)
    assert refusal.value.message == f"The {role} may not see {thing} while the table is at the step '{step}'."
    assert refusal.value.todo


def test_one_thing_too_many_is_enough_for_a_refusal():
    with pytest.raises(WrongStep, match="what others wrote"):
        require_sight(Role.TASTER, Step.TASTE, Thing.COMMITMENT, Thing.OWN_NOTES, Thing.OTHERS_NOTES)


def test_the_refusal_says_what_opens_the_view():
    with pytest.raises(WrongStep, match=r"Open the key first\.$"):
        require_sight(Role.TASTER, Step.TASTE, Thing.IDENTITIES)
    with pytest.raises(WrongStep, match=r"Seal the table first\.$"):
        require_sight(Role.TASTER, Step.PLAN, Thing.COMMITMENT)
    with pytest.raises(WrongStep, match=r"Seal the table first\.$"):
        require_sight(Role.DESK, Step.PLAN, Thing.ANALYSIS)


@pytest.mark.parametrize("step", Step)
def test_the_desk_never_reads_a_tasters_own_notes_as_such(step: Step):
    with pytest.raises(NotAllowed, match="Ask whoever it belongs to"):
        require_sight(Role.DESK, step, Thing.OWN_NOTES)
