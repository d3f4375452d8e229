"""Protocols as files: what is read, and what each complaint says and where."""

import json
import re
from pathlib import Path

import pytest

from cupwright.core.plan.protocol import Band, Brewed, Protocol
from cupwright.core.plan.protocol_file import (
    builtin_names,
    builtin_protocol,
    builtin_text,
    parse_protocol,
    protocol_as_data,
    protocol_from_data,
)
from cupwright.core.pour.timing import CueKind
from cupwright.errors import BadProtocol, NotFound

MINE = """\
name = "mine"
version = 2
title = "My table"
brewed = "bowl"

[ratio]
grams = 6
per_ml = 100
tolerance_g = 0.2
source = "ours"

[pace]
every_s = 15
source = "ours"

[break]
at_s = 240
earliest_s = 200
latest_s = 280
source = "ours"

[skim]
at_s = 300
source = "ours"

[taste]
from_s = 600
to_s = 900
source = "ours"

[[vessel]]
edition = "small"
low_ml = 100
high_ml = 150
source = "ours"

[[vessel]]
edition = "large"
low_ml = 200
high_ml = 300
source = "ours"
"""


def complaint(text: str) -> str:
    with pytest.raises(BadProtocol) as refusal:
        parse_protocol(text, file="mine.toml")
    return str(refusal.value)


def test_what_is_written_is_what_is_read() -> None:
    mine = parse_protocol(MINE)

    assert (mine.name, mine.version, mine.brewed) == ("mine", 2, Brewed.BOWL)
    assert mine.ratio is not None
    assert mine.ratio.grams_per_litre == 60
    assert [vessel.edition for vessel in mine.vessels] == ["small", "large"]


def test_what_is_left_out_is_free() -> None:
    mine = parse_protocol(MINE)

    assert (mine.water, mine.rest, mine.bowls, mine.session, mine.rules) == (None, None, None, None, ())


def test_times_and_acts_go_to_the_run_sheet() -> None:
    timing = parse_protocol(MINE).timing

    assert (timing.break_at_s, timing.break_latest_s) == (240, 280)
    assert (timing.skim_at_s, timing.taste_from_s, timing.taste_to_s) == (300, 600, 900)
    assert timing.acts == tuple(CueKind)


def test_a_protocol_without_break_and_skim_has_neither_act() -> None:
    brew = builtin_protocol("brew")

    assert brew.acts == brew.timing.acts == (CueKind.POUR, CueKind.TASTE)


def test_the_recipes_standard_is_the_protocols() -> None:
    standard = parse_protocol(MINE).standard

    assert (standard.grams_per_litre, standard.tolerance_g, standard.tolerance_ml) == (60, 0.2, 100)
    assert standard.bowl_ml == (100, 300)
    assert standard.pour_c is None


def test_a_protocol_that_leaves_the_ratio_open_holds_the_recipe_to_none() -> None:
    standard = builtin_protocol("brew").standard

    assert (standard.grams_per_litre, standard.tolerance_g) == (None, None)
    assert (standard.pour_c, standard.bowl_ml) == (None, None)


@pytest.mark.parametrize("name", builtin_names())
def test_every_protocol_of_the_program_survives_being_kept(name: str) -> None:
    protocol = builtin_protocol(name)

    kept = json.loads(json.dumps(protocol_as_data(protocol)))

    assert protocol_from_data(kept) == protocol
    assert protocol.name == name


def test_an_open_end_survives_being_kept() -> None:
    mine = parse_protocol(f'{MINE}\n[rest]\nlow_h = 8\nsource = "ours"\n')

    assert mine.rest == Band(8.0, None, "ours")
    assert protocol_from_data(protocol_as_data(mine)) == mine


@pytest.mark.parametrize("name", builtin_names())
def test_every_section_of_the_programs_protocols_says_where_its_numbers_come_from(name: str) -> None:
    sections = re.split(r"^\[", builtin_text(name), flags=re.MULTILINE)[1:]

    assert len(sections) >= 5
    for section in sections:
        assert re.search(r'^source = ".+"$', section, re.MULTILINE), section


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ('name = "mine"', 'name = "My Table"', "mine.toml, line 1: The protocol has the name 'My Table'."),
        ("version = 2", "version = 0", "mine.toml, line 2: The protocol needs a whole number from 1"),
        ('brewed = "bowl"', 'brewed = "pot"', "mine.toml, line 4: The protocol has the brewed 'pot'."),
        ("grams = 6\n", "gramms = 6\n", "line 7: The section 'ratio' has an unknown entry 'gramms'. Did you"),
        ("grams = 6\n", "", "mine.toml, line 6: The section 'ratio' has no 'grams'."),
        ("grams = 6\n", "grams = 600\n", "mine.toml, line 7: The section 'ratio' asks for 6e+03 g/L."),
        (
            "grams = 6\n",
            "grams = nan\n",
            "mine.toml, line 7: The section 'ratio' needs a number as its 'grams'.",
        ),
        ("tolerance_g = 0.2", "tolerance_g = -1", "line 9: The section 'ratio' has the tolerance_g -1."),
        ("tolerance_g = 0.2", 'tolerance_g = "few"', "line 9: The section 'ratio' needs a number"),
        (
            '= 0.2\nsource = "ours"',
            "= 0.2",
            "line 6: The section 'ratio' does not say where its numbers come",
        ),
        ("every_s = 15", "every_s = 15.5", "mine.toml, line 13: The section 'pace' needs whole seconds"),
        ("every_s = 15", "every_s = -15", "mine.toml, line 13: The section 'pace' has the every_s -15."),
        (
            "earliest_s = 200",
            "earliest_s = 250",
            "line 17: The section 'break' is due at 240 s, outside 250 to",
        ),
        ("at_s = 300", "at_s = 100", "mine.toml, line 23: The skim is due before the break."),
        ("from_s = 600", "from_s = 290", "mine.toml, line 27: The first taste is due before break and skim."),
        ("to_s = 900", "to_s = 600", "mine.toml, line 28: The section 'taste' runs from 600 to 600 s."),
        ("low_ml = 200", "low_ml = 400", "mine.toml, line 40: Number 2 of 'vessel' runs from 400 to 300."),
        ("high_ml = 300\n", "", "mine.toml, line 37: Number 2 of 'vessel' has no 'high_ml'."),
        ("[pace]", "[speed]", "line 12: The protocol has an unknown entry 'speed'."),
        ('brewed = "bowl"', 'brewed = "apart"', "line 16: Coffee that is brewed apart has nothing to break."),
        ("version = 2", "version = = 2", "mine.toml, line 2, column 11: This is not valid TOML"),
    ],
)
def test_a_complaint_is_one_sentence_with_its_line(old: str, new: str, says: str) -> None:
    assert MINE.count(old) == 1

    assert says in complaint(MINE.replace(old, new))


def test_a_section_that_has_to_be_there_is_asked_for() -> None:
    without = re.sub(r"\[pace\]\n.*\n.*\n", "", MINE)

    assert "The protocol has no section 'pace'. Add a section [pace]." in complaint(without)


def test_a_stage_in_which_cups_warm_is_refused() -> None:
    stage = '[[stage]]\ntitle = "Late"\nfrom_c = 30\nto_c = 40\nsource = "ours"\n'

    assert "Number 1 of 'stage' warms from 30 to 40 °C." in complaint(f"{MINE}\n{stage}")


def test_a_number_in_place_of_a_section_is_refused() -> None:
    assert "The protocol has no section 'bowls'." in complaint(MINE.replace("version", "bowls = 5\nversion"))


def test_a_text_of_a_whole_book_is_refused() -> None:
    assert "This protocol has" in complaint(MINE + "#" * 200_001)


def test_a_protocol_that_is_not_there_is_refused_with_those_that_are() -> None:
    with pytest.raises(NotFound, match="brew, cupping, home"):
        builtin_protocol("../protocols/home")


def test_the_protocol_of_the_guide_is_one(tmp_path: Path) -> None:
    page = (Path(__file__).parents[4] / "docs" / "methods" / "protocols.md").read_text(encoding="utf-8")
    text = re.search(r"```toml\n(.*?)```", page, re.DOTALL)
    assert text is not None

    protocol: Protocol = parse_protocol(text[1], file="house.toml")

    assert protocol.name == "house"
    assert protocol.ratio is not None
    assert protocol.ratio.exact == 62
