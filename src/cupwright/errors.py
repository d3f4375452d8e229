"""Everything that can be refused, as one tree.

    CupwrightError                 what happened, and what to do about it
    ├── Refused                    the input cannot be taken as it is        (exit 1, HTTP 422)
    │   ├── TooFewObservations     a statistic has too little to stand on
    │   ├── IncompleteTable        a cell is missing where all are needed
    │   ├── NoSpread               all values are the same
    │   ├── BadSheet               a sheet file does not describe a sheet
    │   ├── BadProtocol            a protocol file does not describe a protocol
    │   ├── BadFile                a file cannot be read, or a line of it    (file, line, column)
    │   ├── TooLarge               more than the program takes               (HTTP 413)
    │   └── SealBroken             a key does not match its commitment       (HTTP 409)
    ├── NotFound                   no such table, seat, coffee, sheet        (HTTP 404)
    ├── WrongStep                  the table is not at the step for that     (HTTP 409)
    ├── Clash                      it exists already, or was changed         (HTTP 409)
    ├── Unavailable                the store cannot be read or written now   (HTTP 503)
    ├── NotAllowed                 who asks may not see or do that           (HTTP 403)
    ├── TooManyTries               a code or passphrase was guessed too often (HTTP 429)
    └── NotKnown                   who asks has not said who they are        (HTTP 401)

The doors (web, cli) turn each class into a status or an exit code by one table each;
a test checks that the tables are complete.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Place:
    """Where in an input something is wrong. Lines and columns count from 1."""

    file: str = ""
    line: int | None = None
    column: str | int | None = None

    def __str__(self) -> str:
        parts = [self.file] if self.file else []
        parts += [f"line {self.line}"] if self.line is not None else []
        parts += [f"column {self.column}"] if self.column is not None else []
        return ", ".join(parts)


class CupwrightError(Exception):
    """Base of all: one clear sentence, what to do, and where.

    `about` is the field of a value that is wrong, where there is no file yet: whoever has read the value from
    a file knows its line.
    """

    def __init__(self, message: str, *, todo: str = "", where: Place | None = None, about: str = "") -> None:
        self.message = message
        self.todo = todo
        self.where = where
        self.about = about
        super().__init__(self.sentence())

    def sentence(self) -> str:
        """The whole complaint as a user reads it: where, what, what to do."""
        place = f"{self.where}: " if self.where and str(self.where) else ""
        return f"{place}{self.message} {self.todo}".strip()


class Refused(CupwrightError):
    """The input cannot be taken as it is."""


class TooFewObservations(Refused):
    """A statistic has too little to stand on."""


class IncompleteTable(Refused):
    """A cell is missing where all are needed."""


class NoSpread(Refused):
    """All values are the same, so the question has no answer."""


class BadSheet(Refused):
    """A sheet file does not describe a sheet."""


class BadProtocol(Refused):
    """A protocol file does not describe a protocol."""


class BadFile(Refused):
    """A file, or a line of it, cannot be read."""


class TooLarge(Refused):
    """More than the program takes."""


class SealBroken(Refused):
    """A key does not match the commitment made before the first sip."""


class NotFound(CupwrightError):
    """There is no such thing."""


class WrongStep(CupwrightError):
    """The table is not at the step where that can be done."""


class Clash(CupwrightError):
    """It exists already, or somebody changed it meanwhile."""


class Unavailable(CupwrightError):
    """The store cannot be read or written now: a full disk, a server that is away."""


class NotAllowed(CupwrightError):
    """Whoever asks may not see or do that."""


class TooManyTries(CupwrightError):
    """A code or a passphrase was typed wrongly too often in a short time."""


class NotKnown(CupwrightError):
    """Whoever asks has not said who they are."""
