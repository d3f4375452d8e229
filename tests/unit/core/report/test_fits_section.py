"""Whether notes pick out the coffees, as a report says it."""

from dataclasses import replace

from tests.unit.core.analyse.tables import NORTH, SOUTH, TWO_CODES, answers_of, note, table_of

from cupwright.core.analyse.answers import Answers
from cupwright.core.plan.table import Blinding
from cupwright.core.report.document import Block, Caveat, Heading, Paragraph
from cupwright.core.report.fits_section import fits_section
from cupwright.core.report.table_report import table_report

PRINTED = (replace(NORTH, published_notes="lemon"), replace(SOUTH, published_notes="cocoa"))


def answered(tasters: int, *, coffees=PRINTED) -> Answers:
    """Everybody says of each coffee what is printed on its bag."""
    notes = [
        note(seat, place, "flavour/words", words)
        for seat in range(1, tasters + 1)
        for place, words in (("241", "lemon"), ("573", "cocoa"))
    ]
    return answers_of(table_of(tasters, tuple(TWO_CODES)), notes, TWO_CODES, coffees=coffees)


def said(blocks: tuple[Block, ...]) -> list[str]:
    return [block.text for block in blocks if isinstance(block, Paragraph)]


def test_of_few_tasters_each_is_told_by_the_bags_and_by_the_others():
    blocks = fits_section(answered(2))

    titles = [block.text for block in blocks if isinstance(block, Heading)]
    assert titles[1:] == ["By the roasters' words", "By the other tasters' words"]
    assert len(said(blocks)) == 4
    assert said(blocks)[0].startswith(
        "Taster 1's notes pick out the two coffees on the table better than 1 of 2 ways of shuffling them. "
        "With two coffees even the best possible fit comes about by luck once in 2."
    )
    assert isinstance(blocks[-1], Caveat)


def test_without_printed_words_and_others_there_is_no_such_part():
    assert fits_section(answered(1, coffees=(NORTH, SOUTH))) == ()


def test_of_many_tasters_none_is_named_and_few_coffees_are_no_proof():
    blocks = fits_section(answered(20))

    assert (
        said(blocks) == ["Too few coffees have words on both sides: even the best notes could be luck."] * 2
    )
    assert "Taster 7" not in repr(blocks)


def test_of_many_tasters_at_many_coffees_the_report_says_how_many_beat_luck():
    words = ("lemon", "orange", "cocoa", "smoke")
    coffees = tuple(
        replace(NORTH, id=f"c{n}", name=f"Slope {n}", published_notes=word) for n, word in enumerate(words)
    )
    places = {str(241 + n): coffee.id for n, coffee in enumerate(coffees)}
    notes = [
        note(seat, place, "flavour/words", words[at if seat <= 15 else 0])
        for seat in range(1, 21)
        for at, place in enumerate(places)
    ]
    answers = answers_of(table_of(20, tuple(places)), notes, places, coffees=coffees)

    (by_bags, _) = said(fits_section(answers))

    assert by_bags.startswith("The notes of 15 of 20 tasters pick out the coffees better than 19 of 20 ways")
    assert by_bags.endswith("luck alone would give about 1.")


def test_the_report_says_so_at_a_blind_table_only():
    answers, headings = answered(2), []
    for blinding in (Blinding.CODES, Blinding.OPEN):
        table = table_of(2, tuple(TWO_CODES), blinding=blinding)
        blocks = table_report(table, PRINTED, TWO_CODES, answers).blocks
        headings.append([block.text for block in blocks if isinstance(block, Heading)])

    assert "Do the notes pick out the coffees?" in headings[0]
    assert "Do the notes pick out the coffees?" not in headings[1]
