"""The map in a report: a sentence first, the figure with its text equivalent, and what it does not show."""

import numpy as np

from cupwright.core.analyse.map_answers import POINTS, WORDS, AnswerKind, MapAnswers
from cupwright.core.report.document import Caveat, Figure, FigureKind, Heading, Paragraph, TableBlock
from cupwright.core.report.map_section import map_section
from cupwright.core.report.word_map_section import word_map_section

RNG = np.random.default_rng(30)
COFFEES = ("421", "708", "533", "915")
TRUE = np.array([[0.0, 0], [0, 0], [6, 1], [-5, 4]])
SCORES = TRUE @ np.array([[1.0, -1, 0.5], [0.3, 0.2, 1]]) + 0.5 * RNG.normal(size=(8, 4, 3))
NAMES = ("acidity", "body", "sweetness")
HABITS = np.array([[3.0, -3, -3, 0, 0, 1], [3, -3, -3, 0, 0, 1], [-3, 3, -3, 0, 1, 0], [-3, -3, 3, 1, 0, 0]])
USED = (RNG.random((9, 4, 6)) < 1 / (1 + np.exp(-HABITS))).astype(float)
SAID = ("floral", "cocoa", "nutty", "sweet", "dry", "long")


def scored(values=SCORES, coffees=COFFEES):
    tasters = tuple(f"Taster {one}" for one in range(1, len(values) + 1))
    return MapAnswers(coffees, tasters, (AnswerKind(POINTS, NAMES, ("",) * 3, values, scaled=True),))


def wrote(values=USED):
    tasters = tuple(f"Taster {one}" for one in range(1, len(values) + 1))
    return MapAnswers(COFFEES, tasters, (AnswerKind(WORDS, SAID, ("",) * 6, values, scaled=False),))


def of(blocks, kind):
    return [block for block in blocks if isinstance(block, kind)]


def sentence(blocks):
    return of(blocks, Paragraph)[0].text


def test_the_sentence_says_who_lies_together_and_who_apart_and_toward_what():
    told = sentence(map_section(scored()))

    assert "421 and 708 lie together" in told
    assert "533 lies apart, toward" in told


def test_section_goes_from_sentence_over_picture_and_numbers_to_caveats():
    blocks = map_section(scored())
    order = [type(block) for block in blocks]

    assert order[:3] == [Heading, Paragraph, Figure]
    assert order[-1] is Caveat
    figure = of(blocks, Figure)[0]
    assert figure.kind is FigureKind.MAP
    assert sentence(blocks) in figure.alt
    assert {row["role"] for row in figure.rows} == {"coffee", "word", "region"}
    assert "%" in figure.x_title


def test_table_has_every_coffee_with_full_numbers():
    table = next(block for block in of(map_section(scored()), TableBlock) if block.name == "map-places")

    assert [row[0] for row in table.rows] == list(COFFEES)
    assert np.isclose(sum(row[4] for row in table.rows), 100)


def test_three_tasters_are_told_what_lies_near_and_that_nobody_knows_how_sure():
    blocks = map_section(scored(SCORES[:3]))

    assert "cannot say how sure these places are" in sentence(blocks)
    assert not [row for row in of(blocks, Figure)[0].rows if row["role"] == "region"]
    assert any("4 tasters" in caveat.text for caveat in of(blocks, Caveat))


def test_chance_is_called_chance():
    blocks = map_section(scored(RNG.normal(size=(5, 4, 3))))
    figure = of(blocks, Figure)[0]

    assert "picture of chance" in sentence(blocks)
    assert figure.x_title.startswith("axis 1")
    assert {row["role"] for row in figure.rows} == {"coffee"}


def test_one_taster_and_coffees_in_one_direction_are_drawn_without_fail():
    line = np.arange(4.0)[None, :, None] * np.ones((1, 1, 3))

    assert of(map_section(scored(line)), Figure)[0].y_title == ""


def test_two_coffees_get_a_sentence_instead_of_a_map():
    blocks = map_section(scored(SCORES[:, :2], COFFEES[:2]))

    assert [type(block) for block in blocks] == [Heading, Paragraph]
    assert "needs 3 coffees" in sentence(blocks)


def test_kinds_of_answers_are_held_against_each_other():
    both = MapAnswers(COFFEES, scored().tasters, (*scored().kinds, *wrote(USED[:8]).kinds))
    table = next(block for block in of(map_section(both), TableBlock) if block.name == "map-kinds")

    assert table.rows[0][0] == "points and words"
    assert 0 <= table.rows[0][1] <= 1


def test_words_are_mapped_beside_the_coffees_that_have_them():
    blocks = word_map_section(wrote())
    figure = of(blocks, Figure)[0]
    places = {row["label"]: (row["x"], row["y"]) for row in figure.rows if row["role"] != "region"}

    assert "533: cocoa" in sentence(blocks)
    assert "915: nutty" in sentence(blocks)
    assert np.dot(places["533"], places["cocoa"]) > 0
    assert {row["role"] for row in figure.rows} == {"coffee", "word", "region"}


def test_words_by_lot_are_called_chance():
    blocks = word_map_section(wrote((RNG.random((7, 4, 6)) < 0.5).astype(float)))

    assert "picture of chance" in sentence(blocks)
    assert any("may be chance" in caveat.text for caveat in of(blocks, Caveat))


def test_few_words_get_a_sentence_and_none_nothing():
    few = np.zeros((3, 4, 6))
    few[:2, 0, 0] = 1

    assert "3 words" in sentence(word_map_section(wrote(few)))
    assert word_map_section(scored()) == ()
