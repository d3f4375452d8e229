"""One deviation, and the words in which amounts are put."""

from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class Deviation:
    """Where a plan leaves its protocol.

    `size` is signed and in `unit`, None where the plan does not tell; `tolerance` is what the protocol allows
    in the same unit, None where it names no figure. `sentence` says all of it in words.
    """

    what: str
    sentence: str
    size: float | None
    tolerance: float | None
    unit: str
    source: str

    @property
    def known(self) -> bool:
        """Whether it is a deviation, rather than something that nobody can tell from the plan."""
        return self.size is not None


def amount(value: float | Fraction, decimals: int = 1) -> str:
    """A number without idle digits: 52, 5.5, 91.2."""
    text = f"{float(value):.{decimals}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def apart(first: Fraction, second: Fraction) -> tuple[str, str]:
    """Two amounts with as many decimals as it takes to tell them apart (at most 6), but at least 1."""
    for decimals in range(1, 7):
        texts = amount(first, decimals), amount(second, decimals)
        if texts[0] != texts[1]:
            return texts
    return texts


def counted(number: int, thing: str) -> str:
    """1 bowl, 2 bowls."""
    return f"{number} {thing}" if number == 1 else f"{number} {thing}s"


def named(names: list[str]) -> str:
    """A, B and C."""
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
