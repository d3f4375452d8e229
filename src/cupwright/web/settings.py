"""What the server is told when it starts; nothing here changes while it runs."""

from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from time import monotonic

MEGABYTE = 1_000_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """`lan` opens the program to the local network, and then the desk asks for its passphrase.

    `names` are host names this machine answers to beside its addresses; `addresses` finds what the
    machine is called on the local network; `word_hash` is the SHA-256 of the one-time word that lets
    somebody set the first passphrase. Sizes are bytes.
    """

    port: int = 8000
    lan: bool = False
    names: frozenset[str] = frozenset()
    addresses: Callable[[], tuple[str, ...]] = tuple
    word_hash: str = ""
    static: Path = field(default_factory=lambda: Path(__file__).parent / "static")
    largest_body: int = 2 * MEGABYTE
    largest_upload: int = 50 * MEGABYTE
    ticks: Callable[[], float] = monotonic
