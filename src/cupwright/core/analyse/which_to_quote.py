"""Which of the coefficients of agreement to quote for a purpose, and why."""

from dataclasses import dataclass
from enum import StrEnum

from cupwright.core.analyse.tabular import Tabular
from cupwright.errors import Refused


class Purpose(StrEnum):
    """What the scores are wanted for."""

    COMPARE = "compare the coffees of this table by the panel's means"
    PUBLISH = "publish the panel's mean points as they stand"
    COMPARE_ALONE = "compare coffees by one taster's scores"
    PUBLISH_ALONE = "publish one taster's points as they stand"
    OTHER_TASTERS = "compare coffees that were scored by different tasters"
    ORDER = "know whether the tasters put the coffees in one order"
    HOLES = "use all scores where some are missing"
    TWO_CATEGORIES = "compare two tasters' categories"
    CATEGORIES = "compare several tasters' categories"


@dataclass(frozen=True, slots=True)
class Quote(Tabular):
    """The coefficient for a purpose, by the name of its function or field, and the reason."""

    purpose: Purpose
    coefficient: str
    reason: str


_QUOTES = {
    Purpose.COMPARE: (
        "icc3k",
        "A taster's level is in all coffees alike and falls out of their differences; the mean counts.",
    ),
    Purpose.PUBLISH: (
        "icc2k",
        "Who reads a number takes the tasters' levels with it; another panel would have other levels.",
    ),
    Purpose.COMPARE_ALONE: ("icc3", "One taster's level falls out of that taster's differences."),
    Purpose.PUBLISH_ALONE: ("icc2", "One taster's level is part of that taster's points."),
    Purpose.OTHER_TASTERS: (
        "icc1",
        "Where each coffee has its own tasters, their levels cannot be told from the coffees.",
    ),
    Purpose.ORDER: (
        "kendall_w",
        "It looks at the order alone, so levels and use of the scale do not matter.",
    ),
    Purpose.HOLES: (
        "krippendorff_alpha",
        "It takes every coffee with two scores; the six correlations leave out whoever has a hole.",
    ),
    Purpose.TWO_CATEGORIES: (
        "cohen_kappa",
        "It allows for each taster's own habit; with weights if the categories have an order.",
    ),
    Purpose.CATEGORIES: (
        "fleiss_kappa",
        "It takes any number of tasters; randolph_kappa where one category is far commoner than the rest.",
    ),
}


def which_to_quote(purpose: Purpose | str) -> Quote:
    """The coefficient of agreement for a purpose, with its reason.

    Parameters
    ----------
    purpose : Purpose, or its name in small letters, such as "compare"

    Raises
    ------
    Refused
        If there is no such purpose.

    Notes
    -----
    Source: the forms, [ShroutFleiss1979] and [McGrawWong1996]; alpha, [Krippendorff2004].
    """
    if not isinstance(purpose, Purpose):
        purpose = _named(purpose)
    return Quote(purpose, *_QUOTES[purpose])


def _named(name: str) -> Purpose:
    for purpose in Purpose:
        if name.lower() in (purpose.name.lower(), purpose.value):
            return purpose
    names = ", ".join(purpose.name.lower() for purpose in Purpose)
    raise Refused(f"There is no purpose '{name}'.", todo=f"Take one of {names}.")
