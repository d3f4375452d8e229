"""Analyse and report: only after the reveal, in every form."""

import json
import time
from dataclasses import replace
from datetime import UTC, datetime

import pytest
from tests.fakes.tools import bench
from tests.unit.steps.laying import sealed, tasting, written

from cupwright.core.analyse.summary import analyse
from cupwright.core.plan.table import Table
from cupwright.core.report.document import Paragraph
from cupwright.errors import NotFound, Refused, SealBroken, WrongStep
from cupwright.steps.analyse import analysis
from cupwright.steps.diary import diary
from cupwright.steps.plan import plan_table, seal_table
from cupwright.steps.ports import Tools
from cupwright.steps.pour import pour_list, start_clock
from cupwright.steps.report import figure_svg, report, report_as
from cupwright.steps.reveal import open_key, opened
from cupwright.steps.taste import write_notes


def revealed(tools: Tools) -> str:
    table = tasting(tools)
    for seat in table.seats:
        liking = {"part": "verdict", "field": "liking"}
        notes = [written(table, seat, n + 1, place=p) for n, p in enumerate(table.places)]
        notes += [
            written(table, seat, n + 9, place=p, value=10 * n, **liking) for n, p in enumerate(table.places)
        ]
        write_notes(tools, table.id, seat.id, notes)
    return open_key(tools, table.id).id


def test_nothing_is_analysed_or_reported_before_the_reveal() -> None:
    tools = bench().tools
    table = tasting(tools)

    for act in (analysis, report):
        with pytest.raises(WrongStep):
            act(tools, table.id)


def test_the_analysis_counts_what_was_written() -> None:
    tools = bench().tools

    counted = analyse(analysis(tools, revealed(tools)))

    assert [coffee.name for coffee in counted.answers.coffees] == ["Lot 1", "Lot 2", "Lot 3"]
    assert [[word.concept for word in words] for words in counted.words] == [["cherry"]] * 3
    assert counted.wrote == (2, 2, 2)


def test_the_report_comes_as_page_paper_and_data() -> None:
    tools = bench().tools
    table_id = revealed(tools)
    title = report(tools, table_id).title

    assert report_as(tools, table_id, "html") == f"html of {title}".encode()
    assert report_as(tools, table_id, "pdf") == f"pdf of {title}".encode()
    assert json.loads(report_as(tools, table_id, "json")) == {"title": title}
    with pytest.raises(Refused, match="docx"):
        report_as(tools, table_id, "docx")


def test_a_picture_of_the_report_is_drawn_by_its_name() -> None:
    tools = bench().tools
    table_id = revealed(tools)
    names = [
        name for block in report(tools, table_id).blocks if (name := getattr(block, "alt", "") and block.name)
    ]

    assert figure_svg(tools, table_id, names[0]) == f"<svg>{names[0]}</svg>"
    with pytest.raises(NotFound):
        figure_svg(tools, table_id, "none")


def test_words_and_colours_go_together_over_all_opened_tables_each_taster_once() -> None:
    tools = bench().tools
    first = coloured(tools, tasting(tools))
    again = coloured(tools, another(tools, first, "Tuesday", tasters=("ADA", "Cy")))
    another(tools, first, "Wednesday", tasters=("Dee", "Eve"))

    told = [block.text for block in report(tools, again.id).blocks if isinstance(block, Paragraph)]

    assert "3 tasters picked a colour; what goes together needs 5. Wait for more tables." in told


def coloured(tools: Tools, table: Table) -> Table:
    """Everybody writes about one cup and gives it a colour; then the key is opened."""
    for seat in table.seats:
        shade = written(table, seat, 2, part="colour", field="colour", value={"l": 0.5, "a": 0.1, "b": 0.1})
        write_notes(tools, table.id, seat.id, [written(table, seat, 1), shade])
    return open_key(tools, table.id)


def another(tools: Tools, like: Table, name: str, tasters: tuple[str, ...]) -> Table:
    plan = replace(like.plan, name=name, tasters=tasters)
    return start_clock(tools, seal_table(tools, plan_table(tools, plan).id).id)


def facts_of(tools: Tools, table_id: str) -> dict[str, str]:
    return dict(report(tools, table_id).facts)


@pytest.mark.skipif(not hasattr(time, "tzset"), reason="the zone can only be set on Unix")
@pytest.mark.parametrize(("zone", "day"), [("Etc/GMT+12", "24"), ("Etc/GMT-14", "26")])
def test_the_day_of_a_report_is_that_of_the_first_pour_where_the_table_stands(
    monkeypatch: pytest.MonkeyPatch, zone: str, day: str
) -> None:
    poured = datetime(2026, 11, 25, 10, 30, tzinfo=UTC)
    planned = bench().tools
    table = sealed(planned)
    tasted = replace(planned, now=lambda: poured)
    start_clock(tasted, table.id)
    open_key(tasted, table.id)
    monkeypatch.setenv("TZ", zone)
    time.tzset()

    said = facts_of(tasted, table.id)["Date"]

    monkeypatch.undo()
    time.tzset()
    assert said == f"{day} November 2026"


def test_the_record_of_a_report_holds_its_key_its_looks_and_its_diary() -> None:
    tools = bench().tools
    table = sealed(tools)
    pour_list(tools, table.id)
    open_key(tools, table.id)
    pour_list(tools, table.id)

    text = " ".join(b.text for b in report(tools, table.id).blocks if isinstance(b, Paragraph))

    lines = diary(tools, table.id)
    assert opened(tools, table.id).key.nonce in text
    assert "looked at 1 time before" in text
    assert f"has {len(lines)} lines; the digest of the last one is {lines[-1].digest}" in text


def test_a_key_changed_after_it_was_opened_is_not_reported() -> None:
    tools = bench().tools
    table_id = revealed(tools)
    with tools.store.work() as work:
        work.tables.save(replace(work.tables.get(table_id), commitment="0" * 64))

    with pytest.raises(SealBroken):
        report(tools, table_id)
