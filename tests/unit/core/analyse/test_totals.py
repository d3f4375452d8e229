"""Totals of an opened table, and what compared its places."""

from decimal import Decimal

from tests.unit.core.analyse.tables import NORTH, SOUTH, TWO_CODES, answers_of, note, table_of
from tests.unit.core.taste.points_sheets import SEVEN, THREE

from cupwright.core.analyse.totals import mean_of, totals
from cupwright.core.report.compared_section import compared_section, midranks
from cupwright.core.report.document import Caveat, Paragraph, TableBlock
from cupwright.core.report.points_section import points_section
from cupwright.core.taste.note import Note
from cupwright.core.taste.sheet_file import builtin_sheet

SHEET = builtin_sheet("hundred-point")
PARTS = {field.id: part.id for part in SHEET.passes for field in part.fields}


def _filled(seat: int, place: str, score: str, **changes: object) -> list[Note]:
    answers: dict[str, object] = dict.fromkeys(SEVEN, score) | {field: [] for field in THREE} | changes
    asked = {field: value for field, value in answers.items() if value is not None}
    return [note(seat, place, f"{PARTS[field]}/{field}", value) for field, value in asked.items()]  # type: ignore[arg-type]


def _answers(notes: list[Note]):
    table = table_of(2, tuple(TWO_CODES), sheet=SHEET)
    return table, answers_of(table, notes, TWO_CODES)


def test_every_sheet_has_its_total_by_coffee_and_taster():
    found = totals(*_answers(_filled(1, "241", "8") + _filled(2, "241", "7") + _filled(1, "573", "6")))

    assert [(one.coffee, one.seat, one.points.total) for one in found] == [
        (NORTH.id, "s1", Decimal("86.00")),
        (NORTH.id, "s2", Decimal("79.00")),
        (SOUTH.id, "s1", Decimal("72.00")),
    ]
    assert mean_of(found[:2]) == 82.5


def test_samples_of_one_bowl_share_ten_points_over_that_one():
    (total,) = totals(*_answers(_filled(1, "241", "8", sweetness=[1])))

    assert total.points.total == Decimal("76.00")


def test_the_report_tells_means_totals_lines_and_what_is_open():
    notes = (
        _filled(1, "241", "8") + _filled(2, "241", "7", body=None) + _filled(1, "573", "6", defects={"1": 4})
    )

    blocks = points_section(*_answers(notes))

    means, each, lines = (block for block in blocks if isinstance(block, TableBlock))
    assert means.rows == (("North Slope", 86.0, 1), ("South Slope", 68.0, 1))
    assert each.rows[1] == ("North Slope", "241", "Taster 2", None, 78.0, 82.0)
    assert ("Taster 1, North Slope (241)", "Sweetness: 1 of 1 cups sweet: 1 x 10 = 10") in lines.rows
    said = [block.text for block in blocks if isinstance(block, Caveat)]
    assert said == [
        "Taster 1 on South Slope (573): Cup 1 is marked under Taints and faults, "
        "but counts as good under Clean cup."
    ]


def test_a_sheet_that_makes_no_points_has_no_such_section_and_no_totals():
    table = table_of(1, tuple(TWO_CODES))
    answers = answers_of(table, [], TWO_CODES)

    assert totals(table, answers) == ()
    assert points_section(table, answers) == ()


def test_nobody_gave_points_is_said_in_a_sentence():
    blocks = points_section(*_answers([]))

    assert blocks[-1] == Paragraph("Nobody gave any points.")


def test_orders_become_sums_of_ranks_with_ties_shared():
    table = table_of(2, tuple(TWO_CODES), sheet=builtin_sheet("ranking"))
    notes = [
        note(1, "table", "order/rank", {"241": 1, "573": 2}),
        note(2, "table", "order/rank", {"241": 1, "573": 1}),
        note(1, "table", "order/why", "The first went on."),
        note(1, "241", "taste/words", "lemon"),
    ]

    blocks = compared_section(answers_of(table, notes, TWO_CODES))

    (ranks,) = (block for block in blocks if isinstance(block, TableBlock))
    assert ranks.rows == (("North Slope", "241", 2.5, 1.25, 2), ("South Slope", "573", 3.5, 1.75, 2))


def test_an_order_without_all_places_is_left_out_and_said():
    table = table_of(2, tuple(TWO_CODES), sheet=builtin_sheet("ranking"))
    notes = [note(1, "table", "order/rank", {"241": 1, "573": 2}), note(2, "table", "order/rank", {"241": 1})]

    blocks = compared_section(answers_of(table, notes, TWO_CODES))

    assert "1 order without all places left out" in " ".join(
        b.text for b in blocks if isinstance(b, Paragraph)
    )


def test_ranks_that_are_shared_are_the_mean_of_those_taken_up():
    assert midranks({"a": 1, "b": 2, "c": 2, "d": 3}) == {"a": 1, "b": 2.5, "c": 2.5, "d": 4}


def test_who_picked_the_odd_one_is_counted_against_guessing():
    place_coffee = {"234": NORTH.id, "345": SOUTH.id, "456": NORTH.id}
    table = table_of(3, tuple(place_coffee), sheet=builtin_sheet("odd-one-out"))
    notes = [note(n, "table", "odd/odd", place) for n, place in ((1, "345"), (2, "345"), (3, "234"))]

    blocks = compared_section(answers_of(table, notes, place_coffee))

    said = next(block.text for block in blocks if isinstance(block, Paragraph))
    assert said == "2 of 3 tasters picked 345, which was the odd one; by guessing alone one in 3 would."
