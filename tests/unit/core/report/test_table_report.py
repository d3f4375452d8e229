"""The report: what it says at small, large and empty tables. Its numbers are the analysis's."""

import dataclasses
import re
from datetime import date
from itertools import pairwise

import pytest
from tests.unit.core.analyse.tables import (
    NORTH,
    SOUTH,
    TWO_CODES,
    answers_of,
    note,
    small_table_answers,
    table_of,
)

from cupwright.core.plan.coffee import Coffee
from cupwright.core.plan.table import Blinding
from cupwright.core.report.document import (
    Caveat,
    Document,
    Figure,
    FigureKind,
    Heading,
    Paragraph,
    TableBlock,
)
from cupwright.core.report.record_section import Record
from cupwright.core.report.table_report import table_report
from cupwright.core.reveal.seal import commitment, seal

RECORD = Record(
    day=date(2026, 11, 26),
    key=seal(TWO_CODES, "5a" * 32),
    looks=1,
    diary_lines=7,
    diary_digest="cd" * 32,
)


def small_report(**changes) -> Document:
    table, answers = small_table_answers()
    coffees = [dataclasses.replace(coffee, **changes) for coffee in (NORTH, SOUTH)]
    answers = dataclasses.replace(answers, coffees=tuple(coffees))
    return table_report(table, coffees, TWO_CODES, answers, record=RECORD)


def report_of(notes, *, tasters, place_coffee=TWO_CODES, blinding=Blinding.CODES) -> Document:
    table = table_of(tasters, tuple(place_coffee), blinding=blinding)
    return table_report(table, (NORTH, SOUTH), place_coffee, answers_of(table, notes, place_coffee))


def large_report() -> Document:
    """Forty tasters: thirty found lemon in the north, two in the south; all like the north better."""
    notes = []
    for seat in range(1, 41):
        notes.append(note(seat, "241", "flavour/words", "lemon" if seat <= 30 else "cocoa"))
        notes.append(note(seat, "573", "flavour/words", "lemon" if seat <= 2 else "roasty chocolate"))
        notes.append(note(seat, "241", "verdict/liking", 60.0 + seat % 5))
        notes.append(note(seat, "573", "verdict/liking", 40.0 + seat % 7))
    return report_of(notes, tasters=40)


def prose(document: Document) -> str:
    texts = (Heading, Paragraph, Caveat)
    return "\n".join(f"{getattr(b, 'lead', '')} {b.text}" for b in document.blocks if isinstance(b, texts))


def headings(document: Document, level: int = 1) -> list[str]:
    return [b.text for b in document.blocks if isinstance(b, Heading) and b.level == level]


def table_named(document: Document, name: str) -> TableBlock:
    return next(b for b in document.blocks if isinstance(b, TableBlock) and b.name == name)


def figures(document: Document, kind: FigureKind) -> list[Figure]:
    return [b for b in document.blocks if isinstance(b, Figure) and b.kind is kind]


def test_the_answers_come_first_and_the_cautions_last():
    assert headings(small_report()) == [
        "In short",
        "On the table",
        "Which coffee stands highest, and by how much?",
        "Did order, warmth or the table move the scores?",
        "Can we rely on this panel?",
        "Do the coffees differ in rank?",
        "What there is too little for",
        "What tasters wrote",
        "Scales",
        "Colours",
        "What could not be read",
        "The record",
        "Method and limits",
        "Before tasting these again",
    ]


def test_the_facts_name_date_tasters_sheet_and_seal():
    document = small_report()

    facts = dict(document.facts)
    assert document.title == "Invented table"
    assert facts["Date"] == "26 November 2026"
    assert facts["Tasters"] == "3: Taster 1, Taster 2 and Taster 3"
    assert facts["Sheet"] == "Small sheet, version 1"
    assert facts["Seal"] == "ab" * 32


def test_the_seal_can_be_computed_again_from_the_report_alone():
    document = small_report()

    pairs = {code: coffee_id for code, _, coffee_id in table_named(document, "key").rows}
    (nonce,) = re.findall(r"\b[0-9a-f]{64}\b", prose(document).split("The table's diary")[0])
    assert commitment(seal(pairs, nonce)) == commitment(RECORD.key)


def test_the_record_says_who_looked_and_how_the_diary_ends():
    text = prose(small_report())

    assert "looked at 1 time before the key was opened" in text
    assert f"has 7 lines; the digest of the last one is {'cd' * 32}." in text


def test_every_section_starts_with_a_plain_sentence():
    blocks = small_report().blocks

    for block, follower in pairwise(blocks):
        if isinstance(block, Heading) and block.text != "On the table":
            assert isinstance(follower, Heading | Paragraph | Caveat), block.text


def test_a_small_table_is_told_in_counts_rounds_and_own_words():
    document = small_report()

    assert "Most of the 3 tasters who wrote about it used “lemon” (2 of 3)." in prose(document)
    rounds = figures(document, FigureKind.DOTS)
    assert rounds[0].rows == ({"label": "lemon", "value": 2, "of": 3},)
    assert "Used by one taster each: fruit and orange." in prose(document)
    assert ("Taster 2", "Aroma", "Lemon, orange") in table_named(document, "notes-1").rows
    assert ("Taster 3", "Verdict", "The last one I would finish.") in table_named(document, "notes-2").rows


def test_a_word_that_nobody_shares_is_called_so():
    assert "No word was used by more than one of the 2 tasters who wrote about it." in prose(small_report())


def test_half_of_the_tasters_are_not_most_of_them():
    said = {1: "lemon", 2: "lemon cocoa", 3: "cocoa", 4: "orange"}
    notes = [note(seat, "241", "aroma/words", text) for seat, text in said.items()]

    text = prose(report_of(notes, tasters=4))

    assert (
        "No word was used by most of the 4 tasters who wrote about it; the commonest were “cocoa” (2 of 4)"
        in text
    )


def test_a_word_that_can_name_a_fault_comes_with_cause_and_remedy():
    document = report_of([note(1, "241", "aroma/words", "smoky")], tasters=1)

    (caveat,) = [b.text for b in document.blocks if isinstance(b, Caveat) and "fault" in b.text]
    assert caveat.endswith("Usually dried over a wood fire. Ask how it was dried.")


def test_a_denied_fault_is_no_fault():
    document = report_of([note(1, "241", "aroma/words", "not smoky")], tasters=1)

    assert not [b for b in document.blocks if isinstance(b, Caveat) and "fault" in b.text]


def test_published_words_stand_beside_the_tasters_own():
    document = small_report(published_notes="Lemon and smoke")

    rows = table_named(document, "published-1").rows
    assert ("lemon", "shared", "", 2) in rows
    assert ("smoke", "missed", "", 0) in rows


def test_without_published_words_nothing_is_compared():
    assert not [
        b for b in small_report().blocks if isinstance(b, TableBlock) and b.name.startswith("published")
    ]


def test_published_words_that_cannot_be_read_are_printed_and_not_compared():
    document = small_report(published_notes="gribble")

    assert "The roaster's published words: “gribble”." in prose(document)
    assert "they are not compared" in prose(document)


def test_liking_leads_the_scales():
    document = small_report()

    assert "North Slope was liked most: 80 on average on a scale of 0 to 100" in prose(document)
    assert headings(document, 2)[-1] == "Liking"
    table = table_named(document, "verdict-liking")
    assert table.rows[0][:2] == ("North Slope", 3)
    assert table.rows[0][2] == pytest.approx(80.333, abs=0.001)


def test_a_scale_nobody_answered_is_left_out():
    assert "Weight" not in headings(small_report(), 2)


def test_colours_are_shown_as_picked_with_their_text_equivalent():
    swatches, middles = figures(small_report(), FigureKind.SWATCHES)

    assert [row["label"] for row in swatches.rows] == ["Taster 2", "Taster 1"]
    assert [row["group"] for row in middles.rows] == ["North Slope"]
    assert middles.rows[0]["colour"] not in [row["colour"] for row in swatches.rows]
    assert all(str(row["colour"]).startswith("#") for row in swatches.rows)
    assert "North Slope, Taster 2: #" in swatches.alt


def test_what_could_not_be_read_is_counted_and_shown():
    document = small_report()

    assert "5 notes were written; in 1 of them (20\N{NO-BREAK SPACE}%) no known word was found." in prose(
        document
    )
    assert ("gribble", 1) in table_named(document, "unread-notes").rows
    assert ("zesty", 1) in table_named(document, "unread-words").rows


def test_a_large_table_is_told_in_shares_and_names_no_taster():
    document = large_report()

    everything = repr(document)
    assert "Taster 7" not in everything
    assert dict(document.facts)["Tasters"] == "40"
    assert table_named(document, "words-1").rows[0][:4] == ("lemon", 30, 40, 75.0)
    assert not [b for b in document.blocks if isinstance(b, TableBlock) and b.name.startswith("notes")]


def test_a_large_table_says_what_sets_a_coffee_apart():
    document = large_report()

    more = "More often than for the others “lemon” (75\N{NO-BREAK SPACE}% against 5\N{NO-BREAK SPACE}%)"
    assert more in prose(document)
    (figure,) = [f for f in figures(document, FigureKind.INTERVALS) if f.name == "apart"]
    assert {row["group"] for row in figure.rows} == {"North Slope", "South Slope"}
    first = table_named(document, "apart").rows[0]
    assert first[:5] == ("North Slope", "lemon", 75.0, 5.0, pytest.approx(70.0))


def test_names_of_pictures_and_tables_fit_an_address_and_differ():
    for document in (small_report(name="A/B ? # <x>"), large_report()):
        for kind in (Figure, TableBlock):
            names = [block.name for block in document.blocks if isinstance(block, kind)]

            assert all(re.fullmatch(r"[a-z0-9-]+", name) for name in names)
            assert len(set(names)) == len(names)


def test_a_clear_lead_is_called_clear():
    assert "Its lead over South Slope is larger than chance would make." in prose(large_report())


def test_an_unclear_lead_is_called_unclear():
    liking = {("241", 1): 80.0, ("241", 2): 40.0, ("573", 1): 60.0, ("573", 2): 50.0}
    notes = [note(seat, place, "verdict/liking", value) for (place, seat), value in liking.items()]

    text = prose(report_of(notes, tasters=2))

    assert "Its lead over South Slope is not larger than chance could make." in text


def test_a_table_without_notes_says_so_everywhere():
    text = prose(report_of([], tasters=2))

    assert "Nobody wrote anything about this coffee." in text
    assert "Nobody answered a scale." in text
    assert "Nobody said how much a coffee was liked." in text
    assert "Nobody picked a colour." in text
    assert "Nobody wrote anything in words." in text


def test_a_table_without_seats_makes_a_report():
    assert dict(report_of([], tasters=0).facts)["Tasters"] == "none"


def test_one_taster_alone_is_not_turned_into_a_statistic():
    notes = [note(1, "241", "flavour/words", "lemon"), note(1, "241", "verdict/liking", 70.0)]

    document = report_of(notes, tasters=1)

    assert "One taster wrote: “lemon”." in prose(document)
    assert "Too few tasters used the same words" in prose(document).split("On the table")[0]
    assert "what chance could do" not in prose(document)
    assert "from one taster; of others this says nothing" in prose(document)
    assert table_named(document, "verdict-liking").rows[0] == ("North Slope", 1, 70.0, None, None)


def test_too_little_for_agreement_is_a_sentence_in_place_of_a_number():
    notes = [note(1, "241", "verdict/liking", 70.0), note(2, "573", "verdict/liking", 20.0)]

    document = report_of(notes, tasters=2)

    assert Heading("What there is too little for") in document.blocks
    assert "“Can we rely on this panel?”" in prose(document)
    assert "Reliability is the part" not in prose(document)


def test_several_places_of_one_coffee_are_named_among_the_limits():
    place_coffee = {"1": NORTH.id, "2": SOUTH.id, "3": NORTH.id}

    document = report_of([], tasters=1, place_coffee=place_coffee, blinding=Blinding.SHUFFLE)

    assert "North Slope stood at several places." in prose(document)
    assert ("North Slope", "1 and 3") in table_named(document, "coffees").rows


def test_a_note_on_a_coffee_with_two_codes_says_under_which_it_was_written():
    # given one coffee under a hidden second code
    place_coffee = {"241": NORTH.id, "573": SOUTH.id, "836": NORTH.id}
    notes = [note(1, code, "flavour/words", "lemon") for code in place_coffee]

    document = report_of(notes, tasters=1, place_coffee=place_coffee)

    assert table_named(document, "notes-1").rows == (
        ("Taster 1", "Flavour, 241", "lemon"),
        ("Taster 1", "Flavour, 836", "lemon"),
    )
    assert table_named(document, "notes-2").rows == (("Taster 1", "Flavour", "lemon"),)


def test_a_table_at_which_not_everybody_had_everything_says_what_that_means():
    table = table_of(2, tuple(TWO_CODES))
    part = dataclasses.replace(
        table, seats=(dataclasses.replace(table.seats[0], order=("241",)), table.seats[1])
    )

    def limits(one):
        return prose(table_report(one, (NORTH, SOUTH), TWO_CODES, answers_of(one, [], TWO_CODES)))

    assert "Not every taster was given every coffee." in limits(part)
    assert "Not every taster was given every coffee." not in limits(table)


def test_an_open_table_has_no_seal_and_no_brew():
    labels = [label for label, _ in report_of([], tasters=1, blinding=Blinding.OPEN).facts]

    assert "Seal" not in labels
    assert "Brewed" not in labels


def test_cautions_are_part_of_every_report():
    text = prose(report_of([], tasters=0))

    for word in ("60 °C", "caffeine", "allergic", "clinician", "local rules"):
        assert word in text


def test_coffee_names_with_commas_are_kept_apart_in_lists():
    commas = (Coffee("a", "One, washed"), Coffee("b", "Two, natural"), Coffee("c", "Three"))
    place_coffee = {"241": "a", "358": "b", "573": "c"}
    table = table_of(2, tuple(place_coffee))
    values = {"241": (90.0, 70.0), "358": (40.0, 60.0), "573": (30.0, 50.0)}
    notes = [note(seat, p, "verdict/liking", v[seat - 1]) for p, v in values.items() for seat in (1, 2)]

    document = table_report(
        table, commas, place_coffee, answers_of(table, notes, place_coffee, coffees=commas)
    )

    assert "Its lead over Two, natural and Three is" in prose(document)


def test_answers_that_came_late_are_named_as_left_out_with_the_reason():
    notes = [note(1, "241", "flavour/words", "lemon"), note(2, "241", "flavour/words", "cocoa")]
    table = table_of(2, tuple(TWO_CODES))
    answers = answers_of(table, notes, TWO_CODES, late={notes[1].id})

    text = prose(table_report(table, (NORTH, SOUTH), TWO_CODES, answers))

    assert "Left out 1 answer of 1 taster came in after the key had been opened; it is kept" in text
    assert "the clock of a device can be set" in text
    assert "1 taster answered on 2 coffees. 1 note was written" in text
    assert "came in after the key" not in prose(small_report())


def test_of_two_coffees_liked_the_same_none_is_called_the_most_liked():
    notes = [
        note(seat, place, "verdict/liking", 70.0 + lead)
        for place, leads in (("241", (5, -5)), ("573", (-3, 3)))
        for seat, lead in enumerate(leads, start=1)
    ]

    text = prose(report_of(notes, tasters=2))

    assert "North Slope and South Slope have the same highest liking: 70 on average" in text
    assert "liked most" not in text


def test_a_sheet_of_several_scales_says_that_each_is_judged_by_itself():
    notes = [note(1, "241", "verdict/liking", 70.0), note(1, "241", "flavour/weight", 20.0)]

    assert "Each of the 2 scales is judged by itself" in prose(report_of(notes, tasters=1))
    assert "judged by itself" not in prose(report_of(notes[:1], tasters=1))


def many_coffees_report(count: int) -> Document:
    """As a file of notes may hold them: three tasters, who like later coffees better."""
    coffees = [Coffee(f"c{n}", f"Lot {n}") for n in range(count)]
    places = {str(200 + n): coffee.id for n, coffee in enumerate(coffees)}
    table = table_of(3, tuple(places), blinding=Blinding.OPEN)
    notes = [
        written
        for n, place in enumerate(places)
        for seat in (1, 2, 3)
        for written in (
            note(seat, place, "flavour/words", "lemon"),
            note(seat, place, "verdict/liking", float(n + seat % 2)),
        )
    ]
    answers = answers_of(table, notes, places, coffees=coffees)
    return table_report(table, coffees, places, answers)


def test_beyond_the_coffees_of_a_table_words_are_said_and_not_drawn():
    drawn, said = many_coffees_report(40), many_coffees_report(41)

    assert sum(figure.name.startswith("words-") for figure in figures(drawn, FigureKind.DOTS)) == 40
    assert figures(said, FigureKind.DOTS) == []
    assert prose(said).count("Used by several: lemon (3 of 3).") == 41


def test_own_words_and_corrections_by_which_notes_were_read_are_told():
    table, answers = small_table_answers()
    plain = prose(table_report(table, (NORTH, SOUTH), TWO_CODES, answers))
    lexicon = dataclasses.replace(answers.lexicon, own=2)
    changed = dataclasses.replace(answers, lexicon=lexicon, corrected=1)

    told = prose(table_report(table, (NORTH, SOUTH), TWO_CODES, changed))

    assert "of this house's own" not in plain
    assert "2 words of this house's own stood in the list." in told
    assert "The notes of 1 taster were read by corrections of their own." in told
