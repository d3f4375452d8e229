"""What is said of first picks: the sentence, the picture, and silences."""

import numpy as np

from cupwright.core.analyse.scores import scores_of
from cupwright.core.report.document import Caveat, Figure, Heading, Paragraph, TableBlock
from cupwright.core.report.preference_section import TITLE, preference_question, preference_section

COFFEES = ("421", "422", "423")


def blocks(values: list[list[float]]) -> tuple[object, ...]:
    return preference_section(scores_of(np.array(values, dtype=float), coffees=COFFEES[: len(values)]))


def said(values: list[list[float]]) -> str:
    return next(block.text for block in blocks(values) if isinstance(block, Paragraph))


def test_a_clear_favourite_leads_the_sentence_with_its_share_and_interval():
    firsts = [
        [9, 8, 9, 7, 8, 9, 5, 9, 8, 9, 9, 6],
        [5, 5, 4, 8, 5, 6, 8, 4, 5, 3, 4, 8],
        [2, 3, 5, 2, 3, 2, 6, 5, 6, 4, 2, 2],
    ]

    answer = said(firsts)

    assert answer.startswith("Asked for one coffee, such tasters would pick 421 first in about ")
    assert "it is ahead of" in answer


def test_tasters_who_contradict_each_other_tell_no_coffees_apart():
    assert "no two coffees can be told apart for sure" in said([[3, 1, 2], [2, 3, 1], [1, 2, 3]])


def test_two_coffees_are_called_the_two():
    assert "the two coffees cannot be told apart for sure" in said([[3, 1, 3, 1, 3, 3], [2, 3, 1, 2, 1, 2]])


def test_one_taster_is_silence_in_a_sentence():
    assert blocks([[3], [2], [1]]) == (
        Heading(TITLE),
        Paragraph("Fewer than two tasters put coffees in an order: nothing to go by."),
    )


def test_orders_that_could_not_stand_out_from_chance_are_silence():
    for few in ([[3, 4, 4], [2, 1, 1]], [[3, 3], [2, 2], [1, 1]]):
        assert "could stand out from chance" in said(few)


def test_a_taster_who_finds_all_alike_is_no_order():
    assert "Fewer than two tasters" in said([[3, 5], [2, 5], [1, 5]])


def test_coffees_that_no_taster_compared_are_silence_in_a_sentence():
    nan = np.nan
    apart = scores_of(np.array([[1, 2, nan, nan], [2, 1, nan, nan], [nan, nan, 1, 2], [nan, nan, 2, 1]]))

    _, silence = preference_section(apart)

    assert "never compared" in silence.text


def test_the_picture_has_a_line_a_coffee_and_its_text():
    found = blocks([[3, 1, 2, 3], [2, 3, 1, 1], [1, 2, 3, 2]])
    figure = next(block for block in found if isinstance(block, Figure))

    assert {row["label"] for row in figure.rows} == set(COFFEES)
    assert all(0 <= row["low"] <= row["estimate"] <= row["high"] <= 1 for row in figure.rows)
    assert all(coffee in figure.alt for coffee in COFFEES)
    shares, pairs = (block for block in found if isinstance(block, TableBlock))
    assert abs(sum(row[1] for row in shares.rows) - 1) < 1e-9
    assert len(pairs.rows) == 3


def test_a_coffee_that_never_lost_has_its_caveat():
    caveats = [block.text for block in blocks([[3, 3, 3], [2, 1, 2], [1, 2, 1]]) if isinstance(block, Caveat)]

    assert any("never lost" in text for text in caveats)


def test_tasters_who_put_nearly_all_level_are_left_out_and_counted():
    values = np.tile(np.arange(8.0)[:, None], (1, 4))
    values[:, 2] = [1, 1, 1, 1, 1, 1, 1, 2]
    found = preference_section(scores_of(values))

    assert any("1 taster who put more than 6" in b.text for b in found if isinstance(b, Caveat))


def test_several_questions_have_one_heading_and_an_answer_each():
    one = scores_of(np.array([[3.0, 1, 2], [2, 3, 1], [1, 2, 3]]), coffees=COFFEES)

    found = preference_question([("Liking", one), ("Order", one)])

    assert next(block.text for block in found if isinstance(block, Heading)) == TITLE
    assert next(block.lead for block in found if isinstance(block, Paragraph)) == "Liking and Order"
    assert preference_question([]) == ()
