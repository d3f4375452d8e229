"""Balance: how evenly places stand, follow each other and are served, as the orders of a table have them.

Position and succession count inside a flight: after a break nothing is carried over, and all tasters meet
the flights in the same order because the bowls are poured so.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from cupwright.core.plan.block_search import Together, is_connected
from cupwright.core.plan.order_search import bound, tallied
from cupwright.core.plan.serving_order import within
from cupwright.core.plan.table import Blinding, Table

Counts = tuple[tuple[int, ...], ...]


@dataclass(frozen=True, slots=True)
class Spread:
    """The lowest and the highest of some counts."""

    low: int
    high: int

    @classmethod
    def of(cls, counts: Iterable[int]) -> "Spread":
        """The spread of some counts; of none it is 0 to 0."""
        several = tuple(counts)
        return cls(min(several, default=0), max(several, default=0))

    @property
    def in_words(self) -> str:
        """The counts as a phrase: never, once, twice, 3 times, 0 to 2 times."""
        if self.low == self.high:
            return _times(self.low)
        return f"{self.low}{' or ' if self.high - self.low == 1 else ' to '}{self.high} times"


@dataclass(frozen=True, slots=True)
class FlightBalance:
    """One flight. `positions[i][p]`: how often place i stood at position p (from 0); `followers[i][j]`: how
    often place j came right after place i. `cost` is the sum of the squares of both, `bound` a sum that no
    orders of the same places for the same tasters can be below.
    """

    places: tuple[str, ...]
    positions: Counts
    followers: Counts
    cost: int
    bound: int


@dataclass(frozen=True, slots=True)
class Balance:
    """How even the orders of a table are.

    `served[i]` tasters get place i and `together[i][j]` get both i and j, in the order of `places`;
    `connected` says whether any two places are linked through tasters. `cost` and `bound` are summed over
    the flights; cost / bound is 1 where nothing could be more even.
    """

    tasters: int
    places: tuple[str, ...]
    served: tuple[int, ...]
    together: Counts
    connected: bool
    flights: tuple[FlightBalance, ...]
    cost: int
    bound: int
    sentences: tuple[str, ...]

    @property
    def in_words(self) -> str:
        """All there is to say, in one paragraph."""
        return " ".join(self.sentences)


def table_balance(table: Table) -> Balance:
    """How even the orders of a table's seats are."""
    single = table.plan.blinding is not Blinding.SHUFFLE or table.plan.bowls_per_sample == 1
    return balance([seat.order for seat in table.seats], table.flights, called="sample" if single else "bowl")


def balance(
    orders: Sequence[Sequence[str]], flights: Sequence[Sequence[str]] = (), *, called: str = "sample"
) -> Balance:
    """How even some orders are.

    Parameters
    ----------
    orders : sequence of sequence of str
        One a taster. Places that no flight has are passed over.
    flights : sequence of sequence of str
        The places, parted into what is tasted without a break; all places that occur as one flight if none
        are given.
    called : str
        What a place is called in the sentences: several bowls of one sample may stand apart.
    """
    parted = flights or (sorted({place for order in orders for place in order}),)
    places = tuple(place for flight in parted for place in flight)
    numbered = within(places, orders)
    count = Together(len(places), numbered)
    each = tuple(_of_flight(flight, orders) for flight in parted if flight)
    linked = is_connected(len(places), numbered)
    return Balance(
        tasters=len(orders),
        places=places,
        served=tuple(count.served),
        together=_frozen(count.pairs),
        connected=linked,
        flights=each,
        cost=sum(flight.cost for flight in each),
        bound=sum(flight.bound for flight in each),
        sentences=_sentences(count, each, len(orders), called),
    )


def _of_flight(flight: Sequence[str], orders: Sequence[Sequence[str]]) -> FlightBalance:
    numbered = within(flight, orders)
    tally = tallied(len(flight), numbered)
    longest = max(map(len, numbered), default=0)
    return FlightBalance(
        places=tuple(flight),
        positions=_frozen(row[:longest] for row in tally.positions),
        followers=_frozen(tally.followers),
        cost=tally.cost,
        bound=bound(len(flight), numbered),
    )


def _frozen(counts: Iterable[Iterable[int]]) -> Counts:
    return tuple(tuple(row) for row in counts)


def _sentences(
    count: Together, flights: Sequence[FlightBalance], tasters: int, called: str
) -> tuple[str, ...]:
    if not tasters or not flights:
        return ("Nobody has a serving order yet.",)
    everybody_all = min(count.served) == tasters
    served = () if everybody_all else _who_gets_what(count, called)
    return (*served, *_of_flights(flights, called), _how_near(flights))


def _who_gets_what(count: Together, called: str) -> tuple[str, ...]:
    pairs = [times for one, row in enumerate(count.pairs) for times in row[one + 1 :]]
    said = (
        f"Every {called} goes to {_tasters(Spread.of(count.served))}; "
        f"every two {called}s go to the same taster {Spread.of(pairs).in_words}."
    )
    if is_connected(len(count.served), _pairs_met(count)):
        return (said,)
    return (said, f"No chain of tasters links all {called}s yet, so some cannot be compared.")


def _pairs_met(count: Together) -> list[tuple[int, int]]:
    return [(i, j) for i, row in enumerate(count.pairs) for j, times in enumerate(row) if times]


def _tasters(spread: Spread) -> str:
    if spread.low == spread.high:
        return "1 taster" if spread.low == 1 else f"{spread.low} tasters"
    return f"{spread.low}{' or ' if spread.high - spread.low == 1 else ' to '}{spread.high} tasters"


def _of_flights(flights: Sequence[FlightBalance], called: str) -> list[str]:
    """One sentence a flight, or one for all where the same holds for all."""
    said = [_of_one(flight, called) for flight in flights]
    if len(said) == 1:
        return [f"{said[0][0].upper()}{said[0][1:]}."]
    if len(set(said)) == 1:
        return [f"In each of the {len(said)} flights {said[0]}."]
    return [f"In flight {number} {sentence}." for number, sentence in enumerate(said, start=1)]


def _of_one(flight: FlightBalance, called: str) -> str:
    stands = Spread.of([times for row in flight.positions for times in row])
    said = f"every {called} stands in every place {stands.in_words}"
    steps = [n for i, row in enumerate(flight.followers) for j, n in enumerate(row) if i != j]
    return f"{said}; each follows each other {Spread.of(steps).in_words}" if steps else said


def _how_near(flights: Sequence[FlightBalance]) -> str:
    cost, least = sum(flight.cost for flight in flights), sum(flight.bound for flight in flights)
    if cost == least:
        return "No orders of these could be more even."
    return f"That is within {100 * (cost / least - 1):.1f} % of a bound that no orders can be below."


def _times(number: int) -> str:
    return ("never", "once", "twice")[number] if number < 3 else f"{number} times"
