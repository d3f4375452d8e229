"""A question over several attributes: one heading, answers first, method once, names apart."""

from cupwright.core.report.document import Caveat, Column, Figure, FigureKind, Heading, Paragraph, TableBlock
from cupwright.core.report.question import question

METHOD = Caveat("Normal residuals are assumed.")
TITLE = "Which coffee is better, and by how much?"


def section(answer: str, *more):
    table = TableBlock((Column("Coffee"),), (("A",),), name="coffees")
    figure = Figure(FigureKind.INTERVALS, ({"label": "A", "estimate": 1.0},), "One line.", name="coffees")
    return (Heading("Which coffee is better?"), Paragraph(answer), figure, table, *more, METHOD)


def test_of_one_attribute_everything_stays_as_it_came():
    assert question(TITLE, [("Body", section("A."))])[1:] == section("A.")[1:]


def test_no_attribute_makes_no_section():
    assert question(TITLE, []) == ()
    assert question(TITLE, [("Body", ())]) == ()


def test_the_answers_of_several_come_first_led_by_their_attributes():
    blocks = question(TITLE, [("Body", section("A.")), ("Acidity", section("Nobody knows."))])

    assert blocks[:3] == (
        Heading(TITLE),
        Paragraph("A.", "Body"),
        Paragraph("Nobody knows.", "Acidity"),
    )


def test_what_is_said_of_all_alike_is_said_once_at_the_end():
    blocks = question(
        TITLE, [("Body", section("A.")), ("Acidity", section("B.", Caveat("Two tasters left.")))]
    )

    assert blocks.count(METHOD) == 1
    assert set(blocks[-2:]) == {METHOD, Caveat("Acidity: Two tasters left.")}
    assert blocks.count(Caveat("Acidity: Two tasters left.")) == 1


def test_equal_answers_are_said_once_led_by_all_their_attributes():
    parts = [("Body", section("A.")), ("Acidity", section("B.")), ("Sweetness", section("A."))]

    blocks = question(TITLE, parts)

    assert blocks[1:3] == (Paragraph("A.", "Body and Sweetness"), Paragraph("B.", "Acidity"))
    assert Paragraph("A.") not in blocks


def test_pictures_and_tables_of_one_name_go_together():
    blocks = question(TITLE, [("Body", section("A.")), ("Acidity", section("B."))])

    (figure,) = [block for block in blocks if isinstance(block, Figure)]
    (table,) = [block for block in blocks if isinstance(block, TableBlock)]
    assert [row["group"] for row in figure.rows] == ["Body", "Acidity"]
    assert figure.alt == "Body: One line. Acidity: One line."
    assert [column.title for column in table.columns] == ["Attribute", "Coffee"]
    assert table.rows == (("Body", "A"), ("Acidity", "A"))


def test_pictures_on_scales_far_apart_stay_apart_with_names_of_their_own():
    def on(high: float):
        rows = ({"label": "A", "estimate": 0.0}, {"label": "B", "estimate": high})
        return (Heading("?"), Paragraph("A."), Figure(FigureKind.INTERVALS, rows, "Two.", name="coffees"))

    blocks = question(TITLE, [("Liking", on(100)), ("Body", on(10))])

    assert [block.name for block in blocks if isinstance(block, Figure)] == ["coffees-1", "coffees-2"]


def test_a_table_that_nobody_would_read_is_left_to_the_data():
    def long(name: str):
        table = TableBlock((Column("Coffee"),), (("A",),) * 200, "All pairs. Each one.", name="pairs")
        return (name, (Heading("?"), Paragraph("A."), table))

    blocks = question(TITLE, [long("Body"), long("Acidity")])

    assert Paragraph("Left out here, in full in the data: 400 lines (All pairs).") in blocks
    assert not any(isinstance(block, TableBlock) for block in blocks)


def test_an_attribute_with_an_answer_alone_has_no_heading_below():
    blocks = question(
        TITLE, [("Body", section("A.")), ("Acidity", (Heading("Which?"), Paragraph("Too few.")))]
    )

    assert Heading("Acidity", 2) not in blocks
    assert Paragraph("Too few.", "Acidity") in blocks
