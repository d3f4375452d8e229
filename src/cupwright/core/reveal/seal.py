"""The seal: which coffee stands under which code, fixed before the first sip and provable after.

The commitment is SHA-256 over the key and a nonce. It is shown and printed when the table is sealed and
checked again when the key is opened: nobody can have changed the key in between without being found out.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Key:
    """`pairs` are (code, coffee id) sorted by code; `nonce` is 32 random bytes in hex."""

    pairs: tuple[tuple[str, str], ...]
    nonce: str

    def coffee_of(self) -> dict[str, str]:
        """code -> coffee id."""
        return dict(self.pairs)
