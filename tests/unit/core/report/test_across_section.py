"""Across tables, as sentences, pictures and numbers; silence is a sentence."""

from tests.unit.core.analyse.seasons import drawn_season, season_of

from cupwright.core.analyse.score_analysis import analyse_file
from cupwright.core.analyse.score_file import ScoreFile
from cupwright.core.report.across_section import across_section
from cupwright.core.report.document import Caveat, Figure, FigureKind, Heading, Paragraph, TableBlock
from cupwright.core.report.score_report import score_report


def blocks_of(kind, blocks):
    return [block for block in blocks if isinstance(block, kind)]


def answer(rows) -> str:
    return blocks_of(Paragraph, across_section(season_of(rows)))[0].text


def test_the_highest_coffee_is_named_with_those_it_cannot_be_told_from():
    said = answer(drawn_season(noise=0.3))

    assert said.startswith("Of 10 coffees on linked tables ")
    assert " stands highest (" in said
    assert "it cannot be told for sure from T0-1, " in said


def test_a_coffee_far_above_all_is_told_from_all_others():
    rows = [(*row[:3], row[3] + 20 * (row[2] == "T1-0")) for row in drawn_season(noise=0.3)]

    assert "T1-0 stands highest" in answer(rows)
    assert "is told from all others" in answer(rows)


def test_a_coffee_that_fades_is_said_to_lose_points_a_table():
    rows = drawn_season(tables=6, tasters=6, linking=3, noise=0.5, drift=-1.0)

    said = answer(rows)

    assert "L1 loses " in said
    assert "points a table" in said


def test_groups_that_nothing_links_are_named_and_what_would_link_them():
    rows = [*drawn_season(), *(("far", f"taster {n}", one, 80.0 + n) for n in range(3) for one in "XY")]

    said = [block.text for block in blocks_of(Caveat, across_section(season_of(rows)))]

    assert any("; X and Y." in text and "at one table would link them" in text for text in said)


def test_one_link_alone_is_said_not_to_show_how_coffees_differ_between_tables():
    assert "cannot be told: too few come back" in answer(drawn_season(linking=1))


def test_every_coffee_is_in_the_table_and_every_figure_has_its_text():
    blocks = across_section(season_of(drawn_season(linking=3)), "sweetness")

    season, courses, tasters = blocks_of(TableBlock, blocks)
    assert len(season.rows) == 11
    assert {row[0] for row in courses.rows} == {"L1", "L2", "L3"}
    assert len(tasters.rows) == 3
    figures = blocks_of(Figure, blocks)
    assert [figure.kind for figure in figures] == [FigureKind.INTERVALS, FigureKind.LINES]
    assert all(figure.alt and figure.name.endswith("-sweetness") for figure in figures)


def test_tables_that_share_no_coffee_are_compared_table_by_table_only():
    blocks = across_section(season_of(drawn_season(linking=0)))

    assert any("Nothing links these" in block.text for block in blocks_of(Caveat, blocks))


def test_too_little_is_a_sentence():
    blocks = across_section(season_of([("t1", "Ada", "A", 1.0), ("t2", "Ada", "A", 2.0)]))

    assert [type(block).__name__ for block in blocks] == ["Heading", "Paragraph"]
    assert blocks[1].text.startswith("Too little to compare coffees across tables.")


def report_of(rows, attributes: tuple[str, ...]):
    scores = {name: season_of(rows) for name in attributes}
    file = ScoreFile("season.csv", scores, (), dict.fromkeys(attributes, 0), ())
    return analyse_file(file, draws=100)


def test_a_file_of_several_tables_is_asked_how_its_coffees_compare_across_them():
    found = report_of(drawn_season(linking=3), ("body", "acidity"))

    blocks = score_report(found).blocks

    titles = [block.text for block in blocks_of(Heading, blocks)]
    assert titles.count("How do coffees compare across tables?") == 1
    seasons = [block for block in blocks_of(Figure, blocks) if block.name.startswith("season")]
    assert seasons
    data = found.as_data()["attributes"]["body"]["across_tables"]
    assert len(data["values"]) == 11


def test_a_file_of_one_table_is_not_asked():
    one_table = [row for row in drawn_season() if row[0] == "t0"]
    found = report_of(one_table, ("body",))

    titles = [block.text for block in blocks_of(Heading, score_report(found).blocks)]

    assert "How do coffees compare across tables?" not in titles
    assert found.as_data()["attributes"]["body"]["across_tables"] is None
