"""The wire, outward: how even the serving orders of a table are. For the desk; no coffee is named."""

from cupwright.web.shape import Shown


class BalanceInShort(Shown):
    """How even the orders are, in whole sentences, and how near to the bound: cost / bound is 1 at best."""

    sentences: list[str]
    connected: bool
    cost: int
    bound: int


class FlightBalanceShown(Shown):
    """One flight: how often place i stood at position p, and how often place j came right after place i."""

    places: list[str]
    positions: list[list[int]]
    followers: list[list[int]]
    cost: int
    bound: int


class BalanceShown(BalanceInShort):
    """The same with every count; `together[i][j]` tasters get both places."""

    tasters: int
    places: list[str]
    served: list[int]
    together: list[list[int]]
    flights: list[FlightBalanceShown]
