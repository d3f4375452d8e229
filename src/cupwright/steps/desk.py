"""Desk: who may run the tables when the program listens on a network."""

import hashlib
from datetime import timedelta

from cupwright.errors import NotAllowed, NotKnown, Refused
from cupwright.steps.ports import Tools

SHORTEST_PASSPHRASE = 8
LONGEST_PASSPHRASE = 200
SESSION_LASTS = timedelta(hours=12)
TOKEN_BITS = 256


def passphrase_is_set(tools: Tools) -> bool:
    """Whether the desk has a passphrase."""
    with tools.store.reading() as work:
        return work.desk.passphrase_hash() is not None


def set_passphrase(tools: Tools, passphrase: str) -> None:
    """Give the desk a passphrase, or a new one; every browser has to enter anew."""
    if not SHORTEST_PASSPHRASE <= len(passphrase) <= LONGEST_PASSPHRASE:
        raise Refused(
            f"The passphrase has {len(passphrase)} characters.",
            todo=f"Choose one of {SHORTEST_PASSPHRASE} to {LONGEST_PASSPHRASE}.",
        )
    slow_hash = tools.passphrases.hash(passphrase)
    with tools.store.work() as work:
        work.desk.put_passphrase_hash(slow_hash)


def enter_desk(tools: Tools, passphrase: str) -> str:
    """A new session's token for the right passphrase; only its hash is kept. Raises NotAllowed, NotKnown."""
    with tools.store.reading() as work:
        slow_hash = work.desk.passphrase_hash()
    if slow_hash is None:
        raise NotKnown("The desk has no passphrase yet.", todo="Set one first.")
    if len(passphrase) > LONGEST_PASSPHRASE or not tools.passphrases.fits(passphrase, slow_hash):
        raise NotAllowed("That is not the desk's passphrase.", todo="Try again.")
    token = new_token(tools)
    with tools.store.work() as work:
        work.desk.open_session(token_hash(token), tools.now() + SESSION_LASTS)
    return token


def desk_is_entered(tools: Tools, token: str) -> bool:
    """Whether a session's token is good now."""
    with tools.store.reading() as work:
        return work.desk.session_is_open(token_hash(token), tools.now())


def leave_desk(tools: Tools, token: str) -> None:
    """End a session."""
    with tools.store.work() as work:
        work.desk.close_session(token_hash(token))


def new_token(tools: Tools) -> str:
    """A secret nobody can guess: 256 random bits in hex. Seats and sessions use the same."""
    return f"{tools.rng.getrandbits(TOKEN_BITS):064x}"


def token_hash(token: str) -> str:
    """What is kept of a token. A fast hash is enough: there is nothing to guess in 256 random bits."""
    return hashlib.sha256(token.encode("utf-8", "surrogatepass")).hexdigest()
