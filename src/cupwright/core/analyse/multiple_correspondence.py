"""Multiple correspondence analysis: coffees or tasters described by several questions of choice.

Letters as in [AbdiValentin2007]: I rows, K questions; the complete table holds one column a category.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import isnan

import numpy as np
from numpy.typing import NDArray

from cupwright.core.analyse.axes import checked_names
from cupwright.core.analyse.correspondence import correspondence
from cupwright.core.analyse.pca import point_rows
from cupwright.core.analyse.tabular import Record, Tabular
from cupwright.errors import IncompleteTable, NoSpread, Refused, TooFewObservations

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class MultipleCorrespondence(Tabular):
    """Rows and categories in principal coordinates; k axes.

    points (I, k), category_points (J, k); categories are (question, answer)
    eigenvalues (k,), shares (k,)    of the complete table; far too low as a measure of what is shown
    corrected, corrected_shares      Benzécri's correction: only axes above 1/K count, and K/(K-1) times more
    """

    named: tuple[str, ...]
    categories: tuple[tuple[str, str], ...]
    points: Floats
    category_points: Floats
    eigenvalues: Floats
    shares: Floats
    corrected: Floats
    corrected_shares: Floats
    contributions: Floats
    category_contributions: Floats

    def rows(self) -> list[Record]:
        """A row for each row of the table: its place on every axis."""
        return point_rows(self.named, self.points)


def multiple_correspondence(
    answers: Sequence[Sequence[object]],
    *,
    named: Sequence[str] = (),
    questions: Sequence[str] = (),
) -> MultipleCorrespondence:
    """Which rows answer alike, and which answers go together?

    Parameters
    ----------
    answers : sequence of rows, each with one answer a question
        Answers are compared as text. A question that all rows answer alike says nothing and is left out.
    named, questions : sequences of str
        Names of rows and questions; counted from 1 if left out.

    Raises
    ------
    TooFewObservations
        If there are fewer than two rows or two questions whose answers differ.
    IncompleteTable
        If an answer is None or an empty text.
    Refused
        If rows differ in length.
    NoSpread
        If all rows answer alike.

    Notes
    -----
    Source: [AbdiValentin2007]; the correction [Benzecri1979]. Checked against the wines of the former.
    """
    table = _checked(answers)
    asked = checked_names(questions, len(table[0]), "question")
    categories: list[tuple[str, str]] = []
    columns: list[list[float]] = []
    telling = 0
    for place, question in enumerate(asked):
        given = [row[place] for row in table]
        found = sorted(set(given))
        if len(found) > 1:
            telling += 1
            categories += [(question, answer) for answer in found]
            columns += [[float(one == answer) for one in given] for answer in found]
    if not telling:
        raise NoSpread("All rows answer alike.", todo="There is no map to draw.")
    if telling < 2:
        raise TooFewObservations(
            "A map of answers needs two questions whose answers differ.", todo="Count the answers instead."
        )
    return _map(np.array(columns).T, telling, tuple(categories), checked_names(named, len(table), "row"))


def _map(
    complete: Floats, questions: int, categories: tuple[tuple[str, str], ...], named: tuple[str, ...]
) -> MultipleCorrespondence:
    found = correspondence(complete)
    least = 1 / questions
    # [Benzecri1979], as [AbdiValentin2007] give it.
    above = np.clip(found.inertias - least, 0, None)
    corrected = (questions / (questions - 1) * above) ** 2
    kept = corrected.sum()
    return MultipleCorrespondence(
        named=named,
        categories=categories,
        points=found.row_points,
        category_points=found.column_points,
        eigenvalues=found.inertias,
        shares=found.shares,
        corrected=corrected,
        corrected_shares=corrected / kept if kept > 0 else corrected,
        contributions=found.row_contributions,
        category_contributions=found.column_contributions,
    )


def _checked(answers: Sequence[Sequence[object]]) -> list[list[str]]:
    table = [list(row) for row in answers]
    if len(table) < 2 or not table[0]:
        raise TooFewObservations("A map of answers needs two rows.", todo="Read the answers as they are.")
    for number, row in enumerate(table, 1):
        if len(row) != len(table[0]):
            raise Refused(
                f"Row {number} has {len(row)} answers, row 1 has {len(table[0])}.",
                todo="Give all rows as many.",
            )
        for place, answer in enumerate(row, 1):
            if answer is None or answer == "" or (isinstance(answer, float) and isnan(answer)):
                raise IncompleteTable(
                    f"Row {number} has no answer to question {place}.", todo="Drop that row or that question."
                )
    return [[str(answer) for answer in row] for row in table]
