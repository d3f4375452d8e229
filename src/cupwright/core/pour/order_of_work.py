"""The order of work: what the host does, step by step, with the cautions where they are needed.

It follows the table's protocol: grind, times and acts are the protocol's, so nothing is broken or skimmed
where coffee is brewed apart.
Sources: smell within 15 min of grinding and pour within 15 (covered: 30), trade pages and memory; burns at
60 °C within 5 s, a burn association's text at second hand; very hot drinks above 65 °C, [IARC116]; comfort at
about 58 °C, [BrownDiller2008]. Own spoon, own cup: trade press, 2020. Everything else: common practice, no
source.
"""

from dataclasses import dataclass
from decimal import Decimal

from cupwright.core.plan.limits import BREAK_MINUTES, sips
from cupwright.core.plan.protocol import Brewed, Protocol
from cupwright.core.plan.table import Blinding, Table
from cupwright.core.pour.boiling import kettle_in_words
from cupwright.core.pour.caffeine import A_DAY_MG, AT_ONCE_MG, PREGNANT_A_DAY_MG, brew_strength, caffeine_mg
from cupwright.core.pour.flights import poured_flights
from cupwright.core.pour.recipe import Recipe
from cupwright.core.pour.table_sheet import timing_of
from cupwright.core.pour.timing import CueKind

_BURNS_C = 60.0


@dataclass(frozen=True, slots=True)
class Task:
    """One thing to do. `caution` is empty where nothing can hurt."""

    title: str
    detail: str
    caution: str = ""


def order_of_work(table: Table, recipe: Recipe) -> tuple[Task, ...]:
    """The tasks of one sitting in order; shuffling only where the bowls hide their codes underneath.

    Of several flights each is ground and poured on its own, after the break. Bowls that are shuffled cannot
    be told apart, so those are ground together and wait covered.
    """
    protocol = table.protocol
    apart, acts = protocol.brewed is Brewed.APART, protocol.acts
    shuffled = table.plan.blinding is Blinding.SHUFFLE
    return (
        _label(table.plan.blinding),
        _weigh(table, recipe),
        _grind(table, recipe),
        *((_shuffle(apart),) if shuffled else ()),
        *(() if apart else (_smell(),)),
        _boil(recipe),
        _brew_and_serve(table, recipe) if apart else _pour(table, recipe),
        *((_break(protocol),) if CueKind.BREAK in acts else ()),
        *((_skim(),) if CueKind.SKIM in acts else ()),
        _taste(table),
        *_next_flight(table),
        _reveal(table.plan.blinding),
    )


def in_grams(grams: float, step: float) -> str:
    """A weight with as many decimals as the scale shows: 11.0 g on a scale of tenths."""
    exponent = Decimal(repr(step)).normalize().as_tuple().exponent
    decimals = max(0, -exponent) if isinstance(exponent, int) else 0
    return f"{grams:.{decimals}f} g"


def _label(blinding: Blinding) -> Task:
    details = {
        Blinding.CODES: "Let somebody who does not taste stick each code on the side of its bowls, by the "
        "pour list. From here on nobody else sees that list.",
        Blinding.SHUFFLE: "Stick one code under each bowl. The bowls must be alike: a chip or a stain is a "
        "code too.",
        Blinding.OPEN: "Write the number of each coffee on its bowls.",
    }
    return Task("Label the bowls", details[blinding])


def _weigh(table: Table, recipe: Recipe) -> Task:
    step = table.plan.scale_step_g
    spare = f", one spare bowl of each coffee ({recipe.spare_bowls})" if recipe.spare_bowls else ""
    by = "" if table.plan.blinding is Blinding.OPEN else " Go by the pour list."
    bowls = "the one bowl" if recipe.bowls == 1 else f"each of {recipe.bowls} bowls"
    goes = "for" if table.protocol.brewed is Brewed.APART else "into"
    return Task(
        "Weigh the beans",
        f"{in_grams(recipe.dose_g, step)} {goes} {bowls}{spare}{_tolerance(recipe)}. Each bowl on its own, "
        f"so that one bad bean spoils one bowl only.{by} In all {recipe.total_coffee_g:.0f} g of coffee.",
        "Ask everybody about allergies before they sit down: coffee that shared a grinder or a shelf with "
        "nuts, soy, milk powder or flavourings, and any reference samples on the table, can carry them.",
    )


def _tolerance(recipe: Recipe) -> str:
    if recipe.low_g == recipe.high_g:  # the protocol leaves the dose open
        return ""
    return f"; {recipe.low_g:.2f} to {recipe.high_g:.2f} g is within tolerance"


def _grind(table: Table, recipe: Recipe) -> Task:
    send = f"Send {recipe.purge_g:g} g of the same coffee through the grinder first and throw it away. "
    purge = send if recipe.purge_g else ""
    apart = table.protocol.brewed is Brewed.APART
    each, then = ("each brew on its own", "") if apart else ("bowl by bowl", " Cover the bowls.")
    return Task(
        "Grind",
        f"{_one_flight(table)}{purge}Grind {each}{_fineness(table.protocol)}.{then}",
        "Unplug the grinder before you reach into it.",
    )


def _one_flight(table: Table) -> str:
    """Which bowls are ground now, where there are several flights."""
    flights = poured_flights(table)
    if len(flights) < 2:
        return ""
    if table.plan.blinding is Blinding.SHUFFLE:
        # Cups of coffee that is brewed apart are shuffled empty: nothing has to be ground before its turn.
        apart = table.protocol.brewed is Brewed.APART
        return "" if apart else "All flights, since the bowls are shuffled together; cover them well. "
    named = "; ".join(f"flight {number}: {', '.join(flight)}" for number, flight in enumerate(flights, 1))
    return f"Only the flight that comes next ({named}). "


def _fineness(protocol: Protocol) -> str:
    """As the protocol's rule of that name has it."""
    rule = next((rule for rule in protocol.rules if rule.what == "Grind"), None)
    return f": {rule.sentence.rstrip('.')}" if rule else ""


def _shuffle(apart: bool) -> Task:
    when = "Shuffle before anything hot goes in, never after."
    bowls = "empty cups" if apart else "dry bowls"
    return Task(
        "Shuffle the bowls",
        f"Move the {bowls} about until you have lost track, best while looking away. Put them in their "
        "places from 1 on and do not turn one over before the key is opened.",
        when,
    )


def _smell() -> Task:
    return Task(
        "Smell the dry grounds",
        "Within 15 minutes of grinding: lift the cover, smell, write. Nobody speaks.",
        "Whoever smells nothing in any bowl and has no cold, or on one side only, or since a blow to the "
        "head, should see a clinician.",
    )


def _boil(recipe: Recipe) -> Task:
    return Task(
        "Heat the water",
        f"{_water(recipe.water_to_heat_ml)} to {kettle_in_words(recipe.boiling)}: "
        f"{_water(recipe.water_poured_ml)} for the bowls, the rest for the kettle and the spoons. "
        "Fresh water without smell, neither distilled nor softened.",
        "Scalding water: a stable kettle, its lead out of the way, no child and no elbow near it.",
    )


def _water(millilitres: float) -> str:
    # Tenths of a litre would print the same figure for a small table's bowls and for all that is heated.
    return f"{int(millilitres / 10 + 0.5)}0 mL" if millilitres < 1000 else f"{millilitres / 1000:.1f} L"


def _pour(table: Table, recipe: Recipe) -> Task:
    return Task(
        "Pour",
        f"Start the clock with the first drop. {recipe.bowl_ml:g} mL into each bowl{_of_flight(table)}, in "
        "order, all grounds wet; mark each bowl as you pour it. At most 15 minutes after grinding (30 if "
        f"covered){_those_that_wait(table)}.",
        "Scalding water: pour slowly, close to the bowl, and nobody leans over the table meanwhile.",
    )


def _brew_and_serve(table: Table, recipe: Recipe) -> Task:
    return Task(
        "Brew and serve",
        f"Brew each sample{_of_flight(table)} by its recipe, all within a few minutes, and write down what "
        f"you did. Start the clock with the first cup: {recipe.bowl_ml:g} mL into each, in order, all cups "
        "alike and as warm; mark each as you pour it.",
        "Scalding water and coffee: pour slowly, close to the cup, and nobody leans over the table.",
    )


def _of_flight(table: Table) -> str:
    return " of the flight" if len(poured_flights(table)) > 1 else ""


def _those_that_wait(table: Table) -> str:
    """Ground coffee that stands through a break loses its smell."""
    if len(poured_flights(table)) < 2 or table.plan.blinding is not Blinding.SHUFFLE:
        return ""
    return "; bowls of a later flight stand longer, so compare their dry smell within the flight only"


def _next_flight(table: Table) -> tuple[Task, ...]:
    """The break, and what begins again after it."""
    flights = len(poured_flights(table))
    if flights < 2:
        return ()
    brews = "brew" if table.protocol.brewed is Brewed.APART else "pour"
    acts = brews if table.plan.blinding is Blinding.SHUFFLE else f"grind and {brews}"
    return (
        Task(
            "Break, then the next flight",
            f"There are {flights} flights. After each but the last everybody leaves the table for "
            f"{BREAK_MINUTES:g} minutes or more. Then heat fresh water, {acts} the next flight, and go on "
            "as with the first.",
        ),
    )


def _break(protocol: Protocol) -> Task:
    timing = protocol.timing
    return Task(
        "Break the crust",
        f"{_clock(timing.break_at_s)} after a bowl's own pour ({_clock(timing.break_earliest_s)} to "
        f"{_clock(timing.break_latest_s)}), in the order of the pours. Nose over the bowl, push the crust "
        "back with the spoon three times, smell, write. Rinse the spoon in hot water before the next bowl.",
        "The steam is hot: come near slowly. One person breaks for all, with spoons that touch no mouth.",
    )


def _clock(seconds: int) -> str:
    return f"{seconds // 60}:{seconds % 60:02d}"


def _skim() -> Task:
    return Task("Skim", "Take foam and floating grounds off with two spoons; rinse them between bowls.")


def _taste(table: Table) -> Task:
    begin, end = map(_clock, timing_of(table).first_taste_s)
    return Task(
        "Taste",
        f"From {begin} to {end} after the pour, and again as the bowls cool; each taster in their own order, "
        "writing alone. Talk after the key is open.",
        f"{_heat(table.plan.taste_from_c)} {_spoons(table.protocol)} {_caffeine(table)}",
    )


def _heat(first_taste_c: float) -> str:
    if first_taste_c > _BURNS_C:
        return (
            f"At the first taste coffee is near {first_taste_c:g} °C, and {_BURNS_C:g} °C burns within "
            f"seconds: take little, or wait until it is below {_BURNS_C:g} °C."
        )
    return (
        f"Wait until coffee is at {first_taste_c:g} °C; {_BURNS_C:g} °C burns within seconds, so take little "
        "at first."
    )


def _spoons(protocol: Protocol) -> str:
    vessel = "cup" if protocol.brewed is Brewed.APART else "bowl"
    return (
        "A clean spoon carries coffee to your own cup or spoon and never goes from mouth to "
        f"{vessel}; stay away when ill."
    )


def _caffeine(table: Table) -> str:
    taken = sips(table.plan, table.sheet, table.protocol)
    strength = brew_strength(table.plan.grams_per_litre).usual
    milligrams = caffeine_mg(taken.bowls, taken.rounds, spoon_ml=taken.spoon_ml, strength=strength)
    return (
        f"Spit: swallowed, one spoon of every bowl in every pass holds about {milligrams:.0f} mg of "
        f"caffeine; {AT_ONCE_MG:.0f} mg at once and {A_DAY_MG:.0f} mg a day are the usual limits for adults, "
        f"{PREGNANT_A_DAY_MG:.0f} mg a day in pregnancy, less for whoever is sensitive."
    )


def _reveal(blinding: Blinding) -> Task:
    details = {
        Blinding.CODES: "When all are done, open the key; the program checks it against the seal.",
        Blinding.SHUFFLE: "When all are done, turn each bowl over and enter the code of each place; "
        "the program checks the key against the seal.",
        Blinding.OPEN: "When all are done, close the table.",
    }
    caution = "Empty the bowls before you turn them over." if blinding is Blinding.SHUFFLE else ""
    return Task("Open the key", details[blinding], caution)
