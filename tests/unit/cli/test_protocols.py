"""`cupwright protocols`, and what `plan` prints of a protocol."""

import json

import pytest

from cupwright.core.plan.protocol_file import builtin_text

HOUSE = builtin_text("home").replace('name = "home"', 'name = "house"')


@pytest.fixture
def house(tmp_path):
    path = tmp_path / "house.toml"
    path.write_text(HOUSE, encoding="utf-8")
    return str(path)


def test_the_protocols_are_listed(cli):
    out = cli("protocols").out

    assert [line.split()[0] for line in out.splitlines()] == ["name", "brew", "cupping", "home"]


def test_one_is_shown_with_the_source_of_each_number(cli):
    out = cli("protocols", "--show", "cupping").out

    assert "Rest: 8 to 24 h since the roast\n    SCAA, Cupping Standards [SCAA-standards], read\n" in out


def test_a_file_to_begin_with_is_printed_as_it_is(cli):
    assert cli("protocols", "--file", "home").out == builtin_text("home")


def test_an_own_one_is_checked_kept_used_and_removed(cli, house, table_file):
    assert "Rest: 4 to 42 days since the roast" in cli("protocols", "--check", house).out
    assert cli("protocols", "--show", "house").code == 1

    assert "Kept 'house', version 1." in cli("protocols", "--keep", house).out
    file = table_file('name = "Thursday"', 'protocol = "house"')
    planned = cli("plan", file)
    assert "Protocol   Short table at home (house, version 1)" in planned.out

    assert "Removed 'house'." in cli("protocols", "--remove", "house").out
    assert "(house, version 1)" in cli("brief", "Thursday").out


def test_a_wrong_line_is_named_and_nothing_is_kept(cli, house, tmp_path):
    (tmp_path / "house.toml").write_text(HOUSE.replace("every_s = 20", "every_s = -20"), encoding="utf-8")

    answer = cli("protocols", "--keep", house)

    assert answer.code == 1
    assert answer.err.startswith("house.toml, line ")
    assert "The section 'pace' has the every_s -20. Give 0 to 7200." in answer.err
    assert len(json.loads(cli("protocols", "--json").out)) == 3


def test_an_unknown_protocol_of_a_table_file_is_refused_with_those_there_are(cli, table_file):
    answer = cli("plan", table_file('name = "Thursday"', 'protocol = "cuping"'))

    assert answer.code == 1
    assert answer.err == "There is no protocol called 'cuping'. Choose one of: brew, cupping, home.\n"


def test_plan_prints_deviations_what_it_cannot_tell_and_cautions(cli, table_file):
    out = cli("plan", table_file('name = "Thursday"', "bowl_ml = 250", "grams_per_litre = 52")).out

    off, unknown, people = (
        out.index(heading)
        for heading in ("Off the protocol:", "does not tell;", "For the people at the table:")
    )
    assert off < out.index("5.5 % under 55 g/L; the tolerance is 3 %.") < unknown
    assert unknown < out.index("it is not known when they were roasted") < people
    assert "mg of caffeine" in out[people:]


def test_a_plan_that_keeps_to_its_protocol_is_told_so(cli, table_file):
    out = cli("plan", table_file('name = "Thursday"', "bowls_per_sample = 5")).out

    assert "The plan keeps to its protocol as far as it tells." in out


def test_a_table_of_brews_has_nothing_to_break_or_skim(cli, table_file):
    out = cli("plan", table_file('name = "Thursday"', 'protocol = "brew"')).out

    assert "Brew and serve" in out
    assert "Break the crust" not in out
    assert " Skim:" not in out


def test_data_come_whole(cli, house, table_file):
    brief = json.loads(cli("plan", table_file(), "--json").out)["brief"]
    assert {"what", "sentence", "size", "tolerance", "unit", "source"} == brief["deviations"][0].keys()
    assert {"about", "sentence", "size", "low", "high", "limit", "unit", "source"} == brief["limits"][
        0
    ].keys()

    cli("protocols", "--keep", house)
    kept = json.loads(cli("protocols", "--show", "house", "--json").out)
    assert (kept["own"], kept["protocol"]["ratio"]["grams"], kept["suggested"]["bowls_per_sample"]) == (
        True,
        6,
        2,
    )
