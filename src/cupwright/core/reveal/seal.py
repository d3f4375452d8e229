"""The seal: which coffee stands under which code, fixed before the first sip and provable after.

The commitment is SHA-256 over the key and a nonce. It is shown and printed when the table is sealed and
checked again when the key is opened: nobody can have changed the key in between without being found out.
Anybody can check it with common tools (docs/methods/seal.md).
"""

import hashlib
import json
import re
from collections.abc import Mapping
from dataclasses import dataclass

from cupwright.errors import Refused, SealBroken

# 32 random bytes: with fewer, the few possible keys of a small table could be tried one by one.
_NONCE = re.compile(r"[0-9a-f]{64}")
_FORM = 1


@dataclass(frozen=True, slots=True)
class Key:
    """`pairs` are (code, coffee id) sorted by code; `nonce` is 32 random bytes in hex."""

    pairs: tuple[tuple[str, str], ...]
    nonce: str

    def coffee_of(self) -> dict[str, str]:
        """code -> coffee id."""
        return dict(self.pairs)


def seal(pairs: Mapping[str, str], nonce: str) -> Key:
    """The key of a table.

    Parameters
    ----------
    pairs : code -> coffee id
    nonce : str
        32 random bytes as 64 digits of 0-9a-f, new for every table.

    Raises
    ------
    Refused
        If there is no pair, a code or coffee is empty, or the nonce has another form.
    """
    if not pairs:
        raise Refused("There is nothing to seal.", todo="Put at least one coffee on the table.")
    if not all(pairs.keys()) or not all(pairs.values()):
        raise Refused("A code or a coffee of the key is empty.", todo="Plan the table again.")
    if not _NONCE.fullmatch(nonce):
        raise Refused("The nonce of a key is 64 digits of 0-9a-f.", todo="Draw 32 random bytes.")
    return Key(tuple(sorted(pairs.items())), nonce)


def sealed_text(key: Key) -> str:
    """What the commitment is the digest of: canonical JSON in the sense of [RFC8785].

    Entries sorted by name, no white space, characters beyond ASCII as they are; pairs sorted by code.
    """
    body = {"nonce": key.nonce, "pairs": sorted(key.pairs), "seal": _FORM}
    return json.dumps(body, sort_keys=True, separators=(",", ":"), ensure_ascii=False)


def commitment(key: Key) -> str:
    """SHA-256 [FIPS180-4] of the sealed text in UTF-8, as 64 digits of 0-9a-f.

    Error: two keys with one commitment cannot be found in practice; the nonce hides a key whose
    coffees could be guessed.
    """
    return hashlib.sha256(sealed_text(key).encode("utf-8")).hexdigest()


def verify(key: Key, promised: str) -> None:
    """Hold a key against the commitment made when the table was sealed.

    Raises
    ------
    SealBroken
        If the key is another one.
    """
    found = commitment(key)
    if found != promised:
        raise SealBroken(
            f"The key does not match the seal: it gives {found[:12]}…, promised was {promised[:12]}….",
            todo="Do not use this table's results; compare the printed seal and restore a backup.",
        )
