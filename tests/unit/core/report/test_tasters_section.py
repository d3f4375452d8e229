"""What is said of tasters: to whoever leads the panel, and to themselves."""

import numpy as np
from tests.unit.core.analyse.test_taster_record import record
from tests.unit.core.analyse.test_tasters import drifting, panel

from cupwright.core.analyse.taster_record import pool_records
from cupwright.core.analyse.tasters import taster_performance
from cupwright.core.report.document import Caveat, Figure, Heading, Paragraph, TableBlock
from cupwright.core.report.own_performance import own_over_tables, own_performance
from cupwright.core.report.tasters_section import tasters_section
from cupwright.render.figures import figure_svg


def lower(points):
    values = panel()
    values[:, 2] += -points - (values[:, 2] - np.delete(values, 2, 1).mean(axis=1)).mean()
    return taster_performance(values)


def text(blocks):
    return " ".join(block.text for block in blocks if isinstance(block, Paragraph | Caveat))


def test_the_section_answers_first_then_draws_then_counts():
    blocks = tasters_section(lower(1.5), label="Flavour")

    kinds = [type(block) for block in blocks]
    assert kinds[:3] == [Heading, Paragraph, Figure]
    assert "3 scores about 1.5 points lower" in blocks[1].text
    assert kinds.index(TableBlock) > kinds.index(Figure)
    assert isinstance(blocks[-1], Caveat)


def test_tasters_keep_their_order_whatever_they_scored():
    found = lower(1.5)
    (table,) = (block for block in tasters_section(found) if isinstance(block, TableBlock))

    levels = [row[1] for row in table.rows if row[0] == "Level against the rest"]

    assert levels == [one.taster for one in found]


def test_every_picture_has_its_numbers_in_words_and_can_be_drawn():
    for block in tasters_section(lower(1.5)):
        if isinstance(block, Figure):
            assert all(str(row["label"]) in block.alt for row in block.rows)
            assert figure_svg(block).startswith("<svg")


def test_three_coffees_without_repeats_are_answered_with_sentences():
    blocks = tasters_section(taster_performance(panel(3, 3, 1)))

    assert "Without repeats nobody's scatter is known." in text(blocks)
    assert "it takes 4" in text(blocks)


def test_one_taster_alone_gets_no_picture_and_no_empty_table():
    blocks = tasters_section(taster_performance(panel(3, 1, 1)))

    assert not [block for block in blocks if isinstance(block, Figure | TableBlock)]
    assert "Levels cannot be compared: nobody else" in text(blocks)


def test_nobody_at_all_is_a_sentence():
    assert "Nobody scored" in text(tasters_section(()))


def test_a_taster_is_told_kindly_and_never_called_good_or_bad():
    said = text(own_performance([("Flavour", lower(0.9)[2])]))

    assert "about 0.9 points lower than the others" in said
    assert "a habit, not a fault" in said
    assert not {"bad", "poor", "wrong", "best", "worst", "error"} & set(said.lower().replace(".", "").split())


def test_a_level_that_cannot_be_told_is_not_called_lower():
    said = text(own_performance([("Flavour", lower(0.0)[2])]))

    assert "about where the others did" in said
    assert "lower than" not in said


def test_own_page_says_how_the_scores_drift():
    said = text(own_performance([("Flavour", taster_performance(drifting(-0.5))[0])]))

    assert "points lower with each cup" in said


def test_own_page_names_no_other_taster():
    values = panel(tasters=3)
    found = taster_performance(values)

    assert own_performance([("Flavour", found[0])])[1].text.count("You") >= 2


def test_too_little_data_is_said_on_the_own_page():
    said = text(own_performance([("Flavour", taster_performance(panel(1, 1, 1))[0])]))

    assert said.startswith("Too little data to say")
    assert "no scores of yours" in text(own_performance([]))


def test_own_page_over_tables_says_how_far_the_level_moves():
    pooled = pool_records([record(n, -1.0) for n in range(6)])

    said = text(own_over_tables([pooled]))

    assert "Over 6 tables and 30 coffees" in said
    assert "From table to table your level moves" in said
    assert "no opened table" in text(own_over_tables([]))
