"""Joint: what the command line needs from the parts it may not import; `main.py` fills it in."""

from collections.abc import Callable
from contextlib import AbstractContextManager
from dataclasses import dataclass
from typing import TYPE_CHECKING, Protocol

if TYPE_CHECKING:
    from cupwright.steps.ports import Tools


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """How the server is to run. `word_hash` is the SHA-256 of the one-time word, if one was printed."""

    host: str
    port: int
    lan: bool
    word_hash: str = ""


@dataclass(frozen=True, slots=True)
class Listening:
    """Where the server listens: the address for this machine, and those for others on the network."""

    here: str
    elsewhere: tuple[str, ...]


class OpenTools(Protocol):
    """Opens the tools on a data folder or database address for as long as the block lasts.

    `alone` refuses while a server runs on that data. Raises Refused, Clash.
    """

    def __call__(self, data: str, *, alone: bool = False) -> "AbstractContextManager[Tools]": ...


@dataclass(frozen=True, slots=True)
class Joint:
    """`serve` calls back once it listens, and returns when it was stopped."""

    open_tools: OpenTools
    serve: "Callable[[Tools, Wish, Callable[[Listening], None]], None]"
