"""The paper sheet, generated from any sheet and read back from the PDF."""

import random
import re
from dataclasses import replace
from datetime import UTC, datetime
from itertools import count

import pytest
from tests.unit.render.drawn import drawn, fonts, is_tagged, pages, size_mm, title, words, written

from cupwright.core.plan.planning import laid
from cupwright.core.plan.table import Blinding, Plan, Table
from cupwright.core.taste.sheet import Field, Kind, Moment, Over, Pass, Sheet
from cupwright.core.taste.sheet_file import builtin_names, builtin_sheet
from cupwright.render.paper_sheet import paper_sheet_pdf, paper_sheets_pdf

PLACES = ("204", "357", "472")
ORDER = ("472", "204", "357")

EVERY_KIND = Sheet(
    "every",
    3,
    "Every kind",
    (
        Pass("a", "First pass", "What now?", Moment.DRY, (Field("w", Kind.WORDS, "Hidden label"),)),
        Pass(
            "b",
            "Second pass",
            "How much?",
            Moment.HOT,
            (
                Field("l", Kind.LINE, "Weight", low_label="light end", high_label="heavy end"),
                Field("few", Kind.POINTS, "Few points", low=1, high=9, step=1),
                Field("many", Kind.POINTS, "Many points", low=6, high=10, step=0.25),
                Field("t", Kind.TEXT, "Remark", hint="one line"),
            ),
            caution="The water is scalding.",
        ),
        Pass(
            "c",
            "Third pass",
            "Which?",
            Moment.COOL,
            (
                Field("o", Kind.COLOUR, "Colour"),
                Field("c", Kind.CHOICE, "Kind", choices=("dry sort", "sweet sort")),
                Field("k", Kind.TICKS, "Bowls that differ"),
                Field("w1", Kind.WORDS, "One thing"),
                Field("w2", Kind.WORDS, "Another thing"),
            ),
        ),
    ),
)


def form(sheet: Sheet = EVERY_KIND, **changes) -> bytes:
    given = {"table_name": "Morning table", "places": PLACES, "seat_name": "Wren", "order": ORDER, "bowls": 4}
    return paper_sheet_pdf(sheet, **(given | changes))


def table(
    blinding: Blinding = Blinding.CODES,
    tasters: tuple[str, ...] = ("Wren", "Ilka"),
    *,
    sheet: Sheet = EVERY_KIND,
    **changes,
) -> Table:
    plan = Plan(
        name="Morning table",
        coffees=("secret-1", "secret-2"),
        tasters=tasters,
        bowls_per_sample=3,
        blinding=blinding,
    )
    numbers = count()
    draft = laid(
        replace(plan, **changes),
        sheet,
        table_id="t",
        created=datetime(2026, 1, 1, tzinfo=UTC),
        rng=random.Random(2),
        ids=lambda: f"s{next(numbers)}",
    )
    return replace(draft, commitment="5eal" * 16)


def test_passes_come_in_the_order_of_the_sheet_with_what_they_ask():
    text = words(form())

    at = [
        text.index(part)
        for part in ("1. First pass", "What now?", "2. Second pass", "How much?", "3. Third pass")
    ]
    assert at == sorted(at)


def test_each_pass_goes_over_all_places_in_the_order_of_the_seat():
    vessels = [one.text for page in pages(form()) for one in written(page) if one.text in PLACES]

    assert vessels == list(ORDER) * 3


def test_a_place_is_a_code_or_a_position_or_a_name_too_long_for_a_bowl():
    text = words(form(places=("1", "12", "A name too long for it"), order=()))

    assert "Your order: 1, 12, A name too long for it." in text


def test_the_caution_stands_in_its_pass_before_the_first_bowl():
    text = words(form())

    assert re.search(r"2\. Second pass .*How much\? Caution\. The water is scalding\. 472", text)


def test_a_line_scale_is_100_millimetres_long_and_names_its_ends():
    # given
    lines = [one for page in pages(form()) for one in drawn(page) if abs(one.width - 100) < 0.01]

    # then one a place, and the sheet says so for the ruler
    assert len(lines) == len(PLACES)
    assert words(form()).count("light end heavy end") == len(PLACES)
    assert "100 mm" in words(form())


def test_words_get_lines_to_write_on_across_the_page():
    # given the one pass of words alone: two ruled lines for each place
    alone = replace(EVERY_KIND, passes=EVERY_KIND.passes[:1])

    ruled = [one for page in pages(form(alone)) for one in drawn(page) if 150 < one.width < 170]

    assert len(ruled) == 2 * len(PLACES)


def test_a_single_field_of_words_needs_no_label_but_two_do():
    text = words(form())

    assert "Hidden label" not in text
    assert text.count("One thing") == text.count("Another thing") == len(PLACES)


def test_few_points_are_ringed_and_many_are_written():
    text = words(form())

    assert "1 2 3 4 5 6 7 8 9" in text
    assert text.count("6 to 10, steps of 0.25") == len(PLACES)


def test_choices_ticks_and_colour_have_their_room():
    text = words(form())

    assert text.count("dry sort") == text.count("sweet sort") == len(PLACES)
    assert text.count("Bowls that differ 1 2 3 4") == len(PLACES)
    assert text.count("colour it in, or describe it") == len(PLACES)


MARKED = Sheet(
    "marked",
    1,
    "Marked",
    (
        Pass(
            "a",
            "Cups",
            "Which?",
            Moment.COOL,
            (
                Field("u", Kind.CUPS, "Uniform", high=10, high_label="alike"),
                Field("d", Kind.FAULTS, "Faults"),
                Field("t", Kind.TAGS, "Smells", choices=("floral", "brown sugar"), most=5),
            ),
        ),
        Pass(
            "b",
            "Order",
            "Which first?",
            Moment.COOL,
            (Field("r", Kind.RANK, "Order of all"), Field("o", Kind.ODD, "The odd one")),
            over=Over.TABLE,
        ),
    ),
)


def test_cups_faults_and_lists_have_their_room_at_each_bowl():
    text = words(form(MARKED))

    assert text.count("Uniform 1 2 3 4 cross out those that are not alike all alike") == len(PLACES)
    assert text.count("Faults 1 2 3 4 clean taint fault none in any cup") == len(PLACES)
    assert text.count("floral brown sugar 5 at most") == len(PLACES)


def test_a_question_to_the_whole_table_is_asked_once_and_stands_by_no_bowl():
    text = words(form(MARKED))

    assert text.count("Order of all 1. 2. 3.") == 1
    assert text.count("The odd one 472 204 357") == 1
    assert [one.text for page in pages(form(MARKED)) for one in written(page) if one.text in PLACES][:3] == [
        *ORDER
    ]


def test_a_form_without_a_name_leaves_room_for_one():
    named, bare = form(), form(seat_name="")

    assert "Taster Wren" in words(named)
    assert "Wren" not in words(bare)
    assert sum(len(drawn(page)) for page in pages(bare)) == sum(len(drawn(page)) for page in pages(named)) + 1


def test_a_round_that_goes_over_the_page_names_itself_again():
    pdf = form(places=tuple(map(str, range(300, 330))), order=())

    for page in pages(pdf):
        assert re.search(r"\d\. (First|Second|Third) pass", page.extract_text())


def test_a_whole_table_gets_one_form_a_seat_each_with_its_order_and_its_own_page_numbers():
    # given
    laid_table = table()
    text = words(paper_sheets_pdf(laid_table))

    # then
    for seat in laid_table.seats:
        assert f"Taster {seat.name}" in text
        assert f"Your order: {', '.join(seat.order)}." in text
    numbers = re.findall(r"page (\d+) of (\d+)", text)
    assert numbers == [(str(n), str(len(numbers) // 2)) for n in range(1, len(numbers) // 2 + 1)] * 2


SIX = tuple(f"secret-{number}" for number in range(1, 7))


def test_paper_goes_flight_by_flight_with_the_break_between_and_the_whole_tables_question_at_the_end():
    # given six samples in two flights, four of them for each taster
    laid_table = table(tasters=("Wren", "Ilka"), sheet=MARKED, coffees=SIX, flight=3, samples_each=4)
    first, second = laid_table.flights

    for seat in laid_table.seats:
        # when
        pdf = paper_sheets_pdf(replace(laid_table, seats=(seat,)))
        text = words(pdf)
        mine = [[place for place in seat.order if place in flight] for flight in (first, second)]

        # then
        assert f"Your order: flight 1: {', '.join(mine[0])}; a break; flight 2: {', '.join(mine[1])}." in text
        parts = ("Flight 1 of 2:", "1. Cups", "Break. Leave the table", "Flight 2 of 2:", "2. Order")
        assert text.count("Break.") == text.count("Flight 1 of 2:") == text.count("Flight 2 of 2:") == 1
        at = [text.index(part) for part in parts]
        assert at == sorted(at)
        assert text.index("1. Cups", at[3]) < at[4]
        vessels = [one.text for page in pages(pdf) for one in written(page) if one.text in seat.order]
        assert vessels[:4] == mine[0] + mine[1]
        assert text.count("Order of all 1. 2. 3. 4.") == 1


def test_a_taster_who_has_no_place_in_a_flight_reads_of_no_break():
    laid_table = table(tasters=("Wren",), coffees=SIX, flight=3)
    seat = replace(laid_table.seats[0], order=laid_table.flights[1])

    text = words(paper_sheets_pdf(replace(laid_table, seats=(seat,))))

    assert "Break." not in text
    assert "Flight 2 of 2:" in text


def test_one_flight_is_not_called_a_flight():
    text = words(paper_sheets_pdf(table()))

    assert "light 1" not in text
    assert "Break." not in text


def test_a_sheet_without_lines_speaks_of_no_ruler():
    assert "100 mm" not in words(form(MARKED))
    assert "Sheet marked 1." in words(form(MARKED))


def test_a_table_without_seats_gets_one_form_without_a_name():
    bare = table(tasters=())

    text = words(paper_sheets_pdf(bare))

    assert text.count("Your order") == 1
    assert f"Your order: {', '.join(bare.places)}." in text


@pytest.mark.parametrize("blinding", list(Blinding))
def test_the_form_gives_away_no_coffee_and_shows_the_seal(blinding: Blinding):
    text = words(paper_sheets_pdf(table(blinding)))

    assert "secret" not in text
    assert "5eal" * 16 in text


def test_ticks_after_a_shuffle_are_for_the_one_bowl_of_a_place():
    text = words(paper_sheets_pdf(table(Blinding.SHUFFLE)))

    assert "Bowls that differ 1 " in text
    assert "Bowls that differ 1 2" not in text


@pytest.mark.parametrize("name", builtin_names())
@pytest.mark.parametrize(("size", "mm"), [("a4", (210, 297)), ("letter", (216, 279))])
def test_every_sheet_of_the_program_prints_in_both_sizes(name: str, size: str, mm: tuple[int, int]):
    sheet = builtin_sheet(name)

    pdf = form(sheet, size=size)

    assert {size_mm(page) for page in pages(pdf)} == {mm}
    assert title(pdf) == f"{sheet.title}, Morning table"
    assert all(part.title in words(pdf) for part in sheet.passes)


def test_the_same_form_is_the_same_to_the_byte_tagged_and_in_our_own_font():
    assert form() == form()
    assert is_tagged(form())
    assert all("Libertinus" in font for font in fonts(form()))


def test_what_a_sheet_or_a_name_holds_is_printed_as_it_is_and_never_run():
    nasty = '#panic("x") *bold* $a^2$ <label>'
    sheet = replace(EVERY_KIND, passes=(replace(EVERY_KIND.passes[0], ask=nasty, title=nasty),))

    text = words(form(sheet, table_name=nasty, seat_name=nasty))

    assert text.count(nasty) >= 4
