"""Season: all opened tables together; columns are made once for each state of the store."""

from dataclasses import dataclass, field, replace

import pytest
from tests.fakes.tools import bench
from tests.unit.steps.laying import tasting
from tests.unit.steps.test_analyse import opened_table

from cupwright.core.analyse.season_columns import SeasonColumns
from cupwright.core.report.document import Heading
from cupwright.errors import TooFewObservations
from cupwright.steps.plan import plan_table, seal_table
from cupwright.steps.ports import Tools
from cupwright.steps.pour import start_clock
from cupwright.steps.season import season, season_as_data, season_document


@dataclass
class FakeColumns:
    kept: dict[str, SeasonColumns] = field(default_factory=dict)
    made: int = 0

    def read(self, state: str) -> SeasonColumns | None:
        return self.kept.get(state)

    def keep(self, state: str, columns: SeasonColumns) -> None:
        self.made += 1
        self.kept = {state: columns}


def two_tables(tools: Tools) -> None:
    monday = opened_table(tools, tasting(tools))
    tuesday = seal_table(tools, plan_table(tools, replace(monday.plan, name="Tuesday")).id)
    opened_table(tools, start_clock(tools, tuesday.id))


def test_opened_tables_are_put_together_the_oldest_first():
    tools = bench().tools
    two_tables(tools)

    found = season(tools)

    assert found.tables == ("Monday", "Tuesday")
    assert set(found.scores.tasters) == {"Ada", "Ben"}
    assert len(found.scores) == 12


def test_columns_are_made_once_and_again_when_a_table_was_opened():
    columns = FakeColumns()
    tools = replace(bench().tools, columns=columns)
    monday = opened_table(tools, tasting(tools))

    season(tools)
    season(tools)
    assert columns.made == 1

    tuesday = seal_table(tools, plan_table(tools, replace(monday.plan, name="Tuesday")).id)
    start_clock(tools, tuesday.id)
    season(tools)
    assert columns.made == 1

    opened_table(tools, tuesday)
    assert len(season(tools).tables) == 2
    assert columns.made == 2


def test_a_coffee_that_got_another_name_has_it_in_the_season():
    columns = FakeColumns()
    tools = replace(bench().tools, columns=columns)
    opened_table(tools, tasting(tools))
    before = season(tools).scores.coffees
    with tools.store.work() as work:
        (first, *_) = work.coffees.all()
        work.coffees.replace(replace(first, name="Renamed"))

    assert "Renamed" not in before
    assert "Renamed" in season(tools).scores.coffees


def test_the_season_is_told_with_its_means():
    tools = bench().tools
    two_tables(tools)

    document = season_document(tools)

    assert dict(document.facts)["Tables"] == "2"
    titles = [block.text for block in document.blocks if isinstance(block, Heading)]
    assert titles[0] == "How do coffees compare across tables?"
    means = season_as_data(tools)["overview"]
    assert sum(row["scores"] for row in means) == 12


def test_of_one_table_alone_nothing_is_compared():
    tools = bench().tools
    opened_table(tools, tasting(tools))

    assert "one opened table only" in season_document(tools).blocks[1].text


def test_without_an_opened_table_there_is_a_sentence():
    tools = bench().tools
    tasting(tools)

    with pytest.raises(TooFewObservations, match="No opened table"):
        season(tools)
