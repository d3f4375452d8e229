"""Slow hashes of passphrases with Argon2id."""

from pwdlib import PasswordHash
from pwdlib.exceptions import UnknownHashError
from pwdlib.hashers.argon2 import Argon2Hasher


class SlowPassphrases:
    """Implements steps.ports.Passphrases."""

    def __init__(self) -> None:
        self._hashes = PasswordHash((Argon2Hasher(),))

    def hash(self, passphrase: str) -> str:
        return self._hashes.hash(passphrase)

    def fits(self, passphrase: str, slow_hash: str) -> bool:
        try:
            return self._hashes.verify(passphrase, slow_hash)
        except UnknownHashError:
            return False
