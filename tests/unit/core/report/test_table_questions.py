"""The questions of a table: in their order, silent in one line; a taster's own page with nobody else's."""

from tests.unit.core.analyse.tables import NORTH, SOUTH, TWO_CODES, answers_of, note, table_of

from cupwright.core.plan.coffee import Coffee
from cupwright.core.report.document import Figure, Heading, Paragraph
from cupwright.core.report.table_questions import bowls_of, own_question, table_questions

EAST = Coffee("c-east", "East Slope")
ORDER = (
    "Which coffee stands highest, and by how much?",
    "Did order, warmth or the table move the scores?",
    "Can we rely on this panel?",
    "How is each taster doing?",
    "Which words hold?",
    "What does the table look like in two dimensions?",
    "Do the coffees differ in rank?",
    "Which coffee would be picked first?",
    "What happens as it cools?",
    "What there is too little for",
)


def liked(tasters: int = 5):
    """Everybody likes the first coffee better, by a bit more or less, with a level of their own."""
    places = {**TWO_CODES, "860": EAST.id}
    table = table_of(tasters, tuple(places))
    notes = [
        note(seat, place, "verdict/liking", level + better * (20 + seat % 3))
        for seat in range(1, tasters + 1)
        for level in [40.0 + 3 * seat]
        for place, better in (("241", 1.0), ("573", 0.0), ("860", 0.4))
    ]
    return table, answers_of(table, notes, places, coffees=(NORTH, SOUTH, EAST))


def titles(blocks):
    return [block.text for block in blocks if isinstance(block, Heading) and block.level == 1]


def test_questions_come_in_their_order_each_with_its_answer_first():
    _, answers = liked()

    blocks = table_questions(answers)

    asked = titles(blocks)
    assert asked == [title for title in ORDER if title in asked]
    assert isinstance(blocks[1], Paragraph)
    assert "North Slope probably stands highest" in blocks[1].text
    assert len({block.name for block in blocks if isinstance(block, Figure)}) == sum(
        isinstance(block, Figure) for block in blocks
    )


def test_a_table_without_answers_says_in_one_line_what_it_cannot_say():
    blocks = table_questions(answers_of(table_of(2, tuple(TWO_CODES)), [], TWO_CODES))

    assert titles(blocks) == ["What there is too little for"]
    assert len(blocks) == 2


def test_the_own_page_names_and_numbers_nobody_else():
    table, answers = liked()

    said = str(own_question(answers, "s2"))

    assert "You set these coffees" in said
    assert not [seat.name for seat in table.seats if seat.name in said]


def test_the_own_page_of_somebody_without_scores_says_so():
    table = table_of(2, tuple(TWO_CODES))
    answers = answers_of(table, [note(1, "241", "verdict/liking", 50.0)], TWO_CODES)

    assert "no scores of yours" in str(own_question(answers, "s2"))


def test_a_table_of_single_bowls_has_one_a_sample():
    assert bowls_of(table_of(1, tuple(TWO_CODES))) == 1
