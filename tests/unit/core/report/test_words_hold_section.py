"""Words that hold: a sentence for each question, also where the answer is none."""

from tests.unit.core.analyse.tables import NORTH, SOUTH, TWO_CODES, answers_of, note, table_of

from cupwright.core.report.document import Figure, Heading, Paragraph, TableBlock
from cupwright.core.report.words_hold_section import words_hold_section


def section(notes, tasters=12):
    return words_hold_section(answers_of(table_of(tasters, tuple(TWO_CODES)), notes, TWO_CODES))


def after(blocks, heading):
    at = next(i for i, block in enumerate(blocks) if isinstance(block, Heading) and block.text == heading)
    assert isinstance(blocks[at + 1], Paragraph)
    return blocks[at + 1].text


def words(north, south, tasters=12):
    notes = [note(seat, "241", "aroma/words", north(seat)) for seat in range(1, tasters + 1)]
    return notes + [note(seat, "573", "aroma/words", south(seat)) for seat in range(1, tasters + 1)]


CLEAR = words(
    lambda seat: "lemon, cocoa" if seat < 7 else "lemon", lambda seat: "cocoa" if seat < 7 else "smoke"
)


def test_a_word_that_holds_is_told_with_its_coffee_its_tasters_and_its_chance():
    said = after(section(CLEAR), "Which words hold?")

    assert said.startswith(f"“Lemon” holds for {NORTH.name}: 12 of 12 tasters, who use it for none of their")
    assert "p < 0.001 after allowing for 3 words" in said


def test_a_habit_does_not_hold_but_splits_the_panel():
    blocks = section(CLEAR)

    assert not any("“Cocoa” holds" in block.text for block in blocks if isinstance(block, Paragraph))
    assert after(blocks, "Which words split the panel?").startswith("“Cocoa”: Taster 1, Taster 2")


def test_the_words_that_tell_coffees_apart_name_the_pair():
    said = after(section(CLEAR), "Which words tell the coffees apart?")

    assert f"“lemon” puts {NORTH.name} above {SOUTH.name} (p < 0.001)" in said


def test_a_table_of_three_says_that_little_could_stand_out():
    blocks = section(words(lambda _: "lemon", lambda _: "orange", tasters=3), tasters=3)

    assert after(blocks, "Which words hold?").startswith("No word holds for a coffee")
    assert "no proof" in after(blocks, "Which words hold?")
    assert after(blocks, "Which words split the panel?") == "None that could be told from chance."


def test_words_used_twice_are_not_weighed():
    blocks = section(
        [note(1, "241", "aroma/words", "lemon"), note(2, "573", "aroma/words", "lemon")], tasters=2
    )

    assert "No word was used three times" in after(blocks, "Which words hold?")


def test_notes_on_one_coffee_are_no_comparison():
    blocks = section([note(seat, "241", "aroma/words", "lemon") for seat in (1, 2, 3)], tasters=3)

    assert "No word can be weighed." in after(blocks, "Which words hold?")


def test_words_that_go_with_liking_are_told_in_points_of_the_same_taster():
    notes = words(lambda seat: "lemon", lambda seat: "lemon, smoke" if seat % 2 else "orange")
    for seat in range(1, 13):
        notes.append(note(seat, "241", "verdict/liking", 70.0 + seat))
        notes.append(note(seat, "573", "verdict/liking", (20.0 if seat % 2 else 68.0) + 1.1 * seat))

    blocks = section(notes)

    said = after(blocks, "Which words go with liking?")
    assert "“smoke”" in said
    assert "less by the same taster" in said
    figure = next(block for block in blocks if isinstance(block, Figure) and block.name == "words-liking")
    assert "smoke -" in figure.alt


def test_every_table_has_a_caption_and_a_name_of_its_own():
    tables = [block for block in section(CLEAR) if isinstance(block, TableBlock)]

    assert all(table.caption for table in tables)
    assert len({table.name for table in tables}) == len(tables)
