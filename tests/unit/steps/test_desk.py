"""Desk: the passphrase, sessions that end, and tokens nobody can guess."""

import pytest
from tests.fakes.tools import bench

from cupwright.errors import NotAllowed, NotKnown, Refused
from cupwright.steps.desk import (
    SESSION_LASTS,
    desk_is_entered,
    enter_desk,
    leave_desk,
    new_token,
    passphrase_is_set,
    set_passphrase,
    token_hash,
)


def test_the_right_passphrase_opens_a_session_that_ends() -> None:
    on = bench()
    assert not passphrase_is_set(on.tools)
    set_passphrase(on.tools, "break the crust")

    token = enter_desk(on.tools, "break the crust")

    assert passphrase_is_set(on.tools)
    assert desk_is_entered(on.tools, token)
    on.clock.forward(seconds=SESSION_LASTS.total_seconds())
    assert not desk_is_entered(on.tools, token)


def test_a_wrong_or_missing_passphrase_lets_nobody_in() -> None:
    tools = bench().tools
    with pytest.raises(NotKnown):
        enter_desk(tools, "break the crust")
    set_passphrase(tools, "break the crust")

    for wrong in ("", "break the crus", "Break the crust", "x" * 100_000):
        with pytest.raises(NotAllowed):
            enter_desk(tools, wrong)
    assert not desk_is_entered(tools, new_token(tools))


@pytest.mark.parametrize("passphrase", ["", "short", "x" * 201])
def test_a_passphrase_too_short_or_too_long_is_refused_and_the_old_one_stays(passphrase: str) -> None:
    tools = bench().tools
    set_passphrase(tools, "break the crust")

    with pytest.raises(Refused):
        set_passphrase(tools, passphrase)

    assert enter_desk(tools, "break the crust")


def test_leaving_and_a_new_passphrase_end_sessions() -> None:
    tools = bench().tools
    set_passphrase(tools, "break the crust")
    first, second = enter_desk(tools, "break the crust"), enter_desk(tools, "break the crust")

    leave_desk(tools, first)
    assert (desk_is_entered(tools, first), desk_is_entered(tools, second)) == (False, True)
    set_passphrase(tools, "skim the foam")

    assert not desk_is_entered(tools, second)


def test_tokens_have_256_bits_and_only_their_hash_is_kept() -> None:
    on = bench()
    set_passphrase(on.tools, "break the crust")
    tokens = {new_token(on.tools) for _ in range(100)}

    entered = enter_desk(on.tools, "break the crust")

    assert len(tokens) == 100
    assert all(len(token) == 64 for token in tokens)
    assert entered not in repr(on.tools.store.kept)
    assert token_hash(entered) in repr(on.tools.store.kept)
