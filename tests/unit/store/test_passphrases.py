"""Slow hashes fit their passphrase and no other."""

from cupwright.store.passphrases import SlowPassphrases


def test_a_passphrase_fits_its_own_hash_only() -> None:
    passphrases = SlowPassphrases()

    slow_hash = passphrases.hash("steep for four minutes")

    assert passphrases.fits("steep for four minutes", slow_hash)
    assert not passphrases.fits("steep for five minutes", slow_hash)
    assert "steep" not in slow_hash


def test_two_hashes_of_one_passphrase_differ() -> None:
    passphrases = SlowPassphrases()

    assert passphrases.hash("steep for four minutes") != passphrases.hash("steep for four minutes")


def test_something_that_is_no_hash_fits_nothing() -> None:
    assert not SlowPassphrases().fits("steep for four minutes", "steep for four minutes")
