"""What else moved the scores: named only where the interval leaves out 0."""

from cupwright.core.analyse.fixed_terms import FixedTerm
from cupwright.core.report.document import Figure, Paragraph, TableBlock
from cupwright.core.report.effects_section import effects_section


def term(name: str, estimate: float, error: float = 0.1) -> FixedTerm:
    return FixedTerm(name, estimate, estimate - 2 * error, estimate + 2 * error, error, 20.0, 0.95)


def answer(*terms: FixedTerm) -> str:
    return next(block.text for block in effects_section(terms) if isinstance(block, Paragraph))


def test_what_moved_the_scores_is_named_with_its_interval():
    said = answer(term("position", -0.5), term("temperature", 0.05))

    assert said.startswith("A place later -0.50 (-0.70 to -0.30), in points with 95")
    assert "kelvin" not in said


def test_where_nothing_is_clear_nothing_is_named():
    assert answer(term("position", 0.1)) == "Nothing of it for sure: each may have done nothing."


def test_the_surest_come_first_and_the_rest_are_counted():
    said = answer(*(term(f"carry_over C{n}", float(n)) for n in range(1, 6)))

    assert said.startswith("After C5 +5.00")
    assert "and 2 more" in said


def test_every_term_stands_in_picture_and_table():
    blocks = effects_section([term("position", 0.1), term("table Monday", 0.4)])

    (figure,) = [block for block in blocks if isinstance(block, Figure)]
    (table,) = [block for block in blocks if isinstance(block, TableBlock)]
    assert (
        [row["label"] for row in figure.rows]
        == [row[0] for row in table.rows]
        == ["a place later", "table Monday"]
    )


def test_terms_that_could_not_be_had_leave_their_sentences():
    assert effects_section((), ["A position is unknown.", "A position is unknown."])[1] == Paragraph(
        "A position is unknown."
    )
