"""The seal: what it binds, what it hides, and what it refuses."""

import json
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cupwright.core.reveal.seal import Key, commitment, seal, sealed_text, verify
from cupwright.errors import Refused, SealBroken

NONCE = "0f" * 32
PAIRS = {"591": "coffee-b", "274": "coffee-a"}

NONCES = st.binary(min_size=32, max_size=32).map(bytes.hex)
IDS = st.text(st.characters(codec="utf-8"), min_size=1, max_size=6)
MANY_PAIRS = st.dictionaries(IDS, IDS, min_size=1, max_size=6)


def test_a_key_is_sorted_by_code_whatever_the_order_it_was_drawn_in():
    assert seal(PAIRS, NONCE) == Key((("274", "coffee-a"), ("591", "coffee-b")), NONCE)
    assert seal(PAIRS, NONCE).coffee_of() == PAIRS


def test_the_sealed_text_is_canonical_to_the_byte():
    assert sealed_text(seal(PAIRS, NONCE)) == (
        '{"nonce":"' + NONCE + '","pairs":[["274","coffee-a"],["591","coffee-b"]],"seal":1}'
    )


def test_the_commitment_is_64_digits_and_the_same_for_the_same_key():
    first, second = commitment(seal(PAIRS, NONCE)), commitment(seal(dict(reversed(PAIRS.items())), NONCE))

    assert first == second
    assert len(first) == 64
    assert set(first) <= set("0123456789abcdef")


def test_a_kept_promise_passes():
    key = seal(PAIRS, NONCE)

    verify(key, commitment(key))


@pytest.mark.parametrize(
    "other",
    [
        Key((("274", "coffee-b"), ("591", "coffee-a")), NONCE),
        Key((("274", "coffee-a"),), NONCE),
        Key((("274", "coffee-a"), ("591", "coffee-b"), ("836", "coffee-c")), NONCE),
        Key((("274", "coffee-a"), ("592", "coffee-b")), NONCE),
        Key((("274", "coffee-a"), ("591", "coffee-b ")), NONCE),
        Key((("274", "coffee-a"), ("591", "coffee-b")), "0e" + NONCE[2:]),
    ],
)
def test_every_change_of_the_key_breaks_the_seal(other: Key):
    promised = commitment(seal(PAIRS, NONCE))

    with pytest.raises(SealBroken) as refusal:
        verify(other, promised)

    assert promised[:12] in str(refusal.value)
    assert commitment(other)[:12] in str(refusal.value)


@pytest.mark.parametrize("promised", ["", "0" * 64, "not a digest"])
def test_a_commitment_that_was_never_made_does_not_pass(promised: str):
    with pytest.raises(SealBroken):
        verify(seal(PAIRS, NONCE), promised)


@given(MANY_PAIRS, MANY_PAIRS, NONCES)
def test_different_keys_have_different_texts(a: dict[str, str], b: dict[str, str], nonce: str):
    assert (sealed_text(seal(a, nonce)) == sealed_text(seal(b, nonce))) == (a == b)


@given(MANY_PAIRS, NONCES)
def test_the_sealed_text_reads_back_as_the_key(pairs: dict[str, str], nonce: str):
    key = seal(pairs, nonce)

    read = json.loads(sealed_text(key))

    assert replace(key, pairs=tuple(map(tuple, read["pairs"])), nonce=read["nonce"]) == key


@pytest.mark.parametrize("pairs", [{}, {"": "coffee-a"}, {"274": ""}])
def test_an_empty_key_is_refused(pairs: dict[str, str]):
    with pytest.raises(Refused):
        seal(pairs, NONCE)


@pytest.mark.parametrize("nonce", ["", "0f", "0F" * 32, "0f" * 33, "0f" * 32 + "\n", "zz" * 32])
def test_a_short_or_malformed_nonce_is_refused(nonce: str):
    with pytest.raises(Refused, match="64 digits"):
        seal(PAIRS, nonce)
