"""Labels and pour list on paper, read back from the PDF."""

import re
from dataclasses import replace

import pytest
from tests.fakes.values import a_table
from tests.unit.render.drawn import drawn, fonts, is_tagged, pages, size_mm, title, words, written

from cupwright.core.plan.coffee import Coffee
from cupwright.core.plan.table import Blinding, Plan
from cupwright.core.pour.labels import Label, LabelSheet
from cupwright.core.pour.pour_list import PourLine
from cupwright.errors import Refused
from cupwright.render.labels import labels_pdf, pour_list_pdf

SEAL = "9f2c7b1e5d4a38860c1f9b77e2aa4471d0c85e63fbb2199a7e5c33d1084f6b2e"
UNDER = LabelSheet(
    "Morning table", SEAL, tuple(Label(code, 1, 1) for code in ("204", "357", "472")), Blinding.SHUFFLE
)
SIDES = LabelSheet("Morning table", SEAL, tuple(Label(c, n, 5) for c in ("204", "357") for n in range(1, 6)))
PLAN = Plan(name="Morning table", coffees=("a", "b"), bowls_per_sample=5)
LINES = (
    PourLine("357", Coffee("a", "Harbour Lantern", roaster="Tide and Ember"), 5),
    PourLine("204", Coffee("b", "Slate Terrace"), 5),
)


def pour_list(lines: tuple[PourLine, ...] = LINES, size: str = "a4") -> bytes:
    return pour_list_pdf(a_table(plan=PLAN, commitment=SEAL), lines, size=size)


def test_every_bowl_has_one_label_with_its_code_in_large_digits():
    large = [one.text for one in written(pages(labels_pdf(SIDES))[0]) if one.size_pt >= 30]

    assert large == ["204"] * 5 + ["357"] * 5


def test_bowls_that_share_a_code_are_told_apart():
    assert (
        re.findall(r"bowl \d of 5", words(labels_pdf(SIDES))) == [f"bowl {n} of 5" for n in range(1, 6)] * 2
    )
    assert "bowl" not in [one.text.split()[0] for one in written(pages(labels_pdf(UNDER))[0])]


@pytest.mark.parametrize("sheet", [UNDER, SIDES])
def test_a_bar_stands_close_under_the_digits_of_every_label(sheet: LabelSheet):
    # given
    page = pages(labels_pdf(sheet))[0]
    codes = [one for one in written(page) if one.size_pt >= 30]
    bars = [one for one in drawn(page) if one.filled and one.width > 20]

    # then each code has the one bar that begins 3 to 7 mm below its baseline and spans it
    assert len(bars) == len(codes) > 0
    for code in codes:
        below = [b for b in bars if 3 < code.y - b.y < 7 and b.x < code.x < b.x + b.width]
        assert len(below) == 1


def test_labels_say_where_they_go_and_what_seals_the_key():
    assert "under each bowl" in words(labels_pdf(UNDER))
    assert "side of each bowl" in words(labels_pdf(SIDES))
    assert SEAL in words(labels_pdf(UNDER))


def test_an_unsealed_table_prints_labels_without_a_seal():
    assert "Seal" not in words(labels_pdf(LabelSheet("T", "", UNDER.labels)))


def test_sixty_labels_go_on_over_pages_and_none_is_lost():
    sheet = LabelSheet("T", SEAL, tuple(Label(str(code), 1, 1) for code in range(300, 360)))

    large = [one.text for page in pages(labels_pdf(sheet)) for one in written(page) if one.size_pt >= 30]

    assert large == [str(code) for code in range(300, 360)]


@pytest.mark.parametrize(("size", "mm"), [("a4", (210, 297)), ("letter", (216, 279))])
def test_paper_comes_in_both_sizes(size: str, mm: tuple[int, int]):
    assert size_mm(pages(labels_pdf(UNDER, size=size))[0]) == mm
    assert size_mm(pages(pour_list(size=size))[0]) == mm


def test_another_size_is_refused():
    with pytest.raises(Refused, match="a5"):
        labels_pdf(UNDER, size="a5")


@pytest.mark.parametrize("make", [lambda: labels_pdf(UNDER), pour_list])
def test_the_same_paper_is_the_same_to_the_byte_tagged_and_in_our_own_font(make):
    assert make() == make()
    assert is_tagged(make())
    assert fonts(make()) <= {"LibertinusSerif-Regular-Identity-H", "LibertinusSerif-Bold-Identity-H"}


def test_the_pour_list_puts_code_coffee_and_dose_side_by_side():
    text = words(pour_list())

    assert re.search(r"357 Harbour Lantern Tide and Ember 11\.0 g 204 Slate Terrace 11\.0 g", text)
    assert SEAL in text
    assert "For the pourer alone" in text
    assert title(pour_list()) == "Pour list of Morning table"


def test_the_pour_list_is_parted_by_flight_and_one_flight_has_no_name():
    parted = tuple(replace(line, flight=number) for number, line in enumerate(LINES, start=1))

    assert re.search(r"Flight 1 of 2 .*357 Harbour.* Flight 2 of 2 .*204 Slate", words(pour_list(parted)))
    assert "Flight" not in words(pour_list())


def test_the_pour_list_cautions_about_allergens_and_scalding_water():
    text = words(pour_list())

    assert "allergies" in text
    assert "scalding" in text


def test_what_a_user_typed_is_printed_as_it_is_and_never_run():
    # given names that would be code, markup or mathematics in the typesetter's language
    nasty = '#panic("x") *bold* _it_ $a^2$ `raw` <label> @ref \\ // /* "quoted" [a] {b} = Heading'
    lines = (PourLine("357", Coffee("a", nasty, roaster='#eval("1+1")'), 1),)

    # then
    text = words(pour_list(lines))
    assert nasty in text
    assert '#eval("1+1")' in text
    assert "$a^2$ *b*" in words(labels_pdf(LabelSheet("$a^2$ *b*", SEAL, UNDER.labels)))


@pytest.mark.parametrize("name", ["珈琲の朝", "☕🫘", "\ud800 torn", "\x07bell"])
def test_a_name_that_our_fonts_lack_still_prints(name: str):
    assert pages(labels_pdf(LabelSheet(name, SEAL, UNDER.labels)))


def test_greek_cyrillic_and_accented_names_need_no_other_font():
    pdf = labels_pdf(LabelSheet("Утро — Πρωί — Ñandú Åse", SEAL, UNDER.labels))

    assert "Утро — Πρωί — Ñandú Åse" in words(pdf)
    assert all("Libertinus" in font for font in fonts(pdf))
