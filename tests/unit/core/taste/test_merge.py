"""Merging notes: the laws that make every device agree, and which note holds."""

from dataclasses import replace
from itertools import permutations

from hypothesis import given
from hypothesis import strategies as st
from tests.unit.core.taste.builders import a_note

from cupwright.core.taste.merge import answers, merge, standing
from cupwright.core.taste.note import Note
from cupwright.core.taste.stamp import Stamp, next_stamp

VALUES = (
    st.none() | st.text(max_size=3) | st.floats(allow_nan=False) | st.lists(st.integers(1, 5), max_size=3)
)
# Few ids, seats, places and counters, so that twins and rivals are common. Bodies of one id may differ,
# which only a broken device would send: the laws must hold even then.
NOTES = st.builds(
    Note,
    id=st.sampled_from([f"n{i}" for i in range(8)]),
    seat=st.sampled_from(["s1", "s2"]),
    place=st.sampled_from(["274", "591"]),
    part=st.sampled_from(["aroma", "flavour"]),
    field=st.just("words"),
    value=VALUES,
    stamp=st.builds(Stamp, st.integers(1, 4), st.sampled_from(["a", "b", "B"])),
    written_at=st.integers(0, 2**53 - 1),
)
SETS = st.lists(NOTES, max_size=10)


@given(SETS, SETS)
def test_merging_is_commutative(a: list[Note], b: list[Note]):
    assert merge(a, b) == merge(b, a)


@given(SETS, SETS, SETS)
def test_merging_is_associative(a: list[Note], b: list[Note], c: list[Note]):
    assert merge(merge(a, b), c) == merge(a, merge(b, c))


@given(SETS, SETS)
def test_merging_is_idempotent(a: list[Note], b: list[Note]):
    merged = merge(a, b)

    assert merge(merged, b) == merged
    assert merge(merged, merged) == merged


@given(SETS, SETS)
def test_merging_loses_and_invents_no_note(a: list[Note], b: list[Note]):
    merged = merge(a, b)

    assert {note.id for note in merged} == {note.id for note in (*a, *b)}
    assert all(note in (*a, *b) for note in merged)


@given(SETS, st.randoms())
def test_what_stands_does_not_depend_on_the_order_of_arrival(notes: list[Note], rng):  # type: ignore[no-untyped-def]
    shuffled = list(notes)
    rng.shuffle(shuffled)

    assert standing(merge(shuffled, ())) == standing(merge(notes, ()))


@given(SETS, st.lists(st.integers(0, 2**53 - 1), min_size=10, max_size=10))
def test_no_clock_of_any_device_matters(notes: list[Note], clocks: list[int]):
    kept = merge(notes, ())
    skewed = [replace(note, written_at=clock) for note, clock in zip(kept, clocks, strict=False)]

    held = {question: note.id for question, note in standing(kept).items()}
    assert {question: note.id for question, note in standing(merge(skewed, ())).items()} == held


def test_the_greater_counter_holds_whatever_the_clocks_say():
    first = a_note("plum", id="n1", counter=1, written_at=9_999_999_999_999)
    second = a_note("peach", id="n2", counter=2, written_at=0)

    for order in permutations((first, second)):
        assert standing(order)[first.question] is second


def test_of_equal_counters_the_greater_device_holds_and_of_equal_stamps_the_greater_id():
    from_a = a_note("plum", id="n9", counter=2, device="a")
    from_b = a_note("peach", id="n1", counter=2, device="b")
    twin = a_note("pear", id="n2", counter=2, device="b")

    for order in permutations((from_a, from_b, twin)):
        assert standing(order)[from_a.question] is twin
        assert [note.id for note in merge(order, ())] == ["n9", "n1", "n2"]


def test_seats_places_passes_and_fields_are_questions_of_their_own():
    notes = [
        a_note(id="n1"),
        a_note(id="n2", seat="seat-2"),
        a_note(id="n3", place="591"),
        a_note(id="n4", part="aroma"),
        a_note(id="n5", field="other"),
    ]

    assert sorted(note.id for note in standing(notes).values()) == ["n1", "n2", "n3", "n4", "n5"]


def test_an_answer_taken_back_stands_but_is_no_answer():
    written, taken_back = a_note("plum", id="n1", counter=1), a_note(None, id="n2", counter=2)

    assert standing([taken_back, written])[written.question] is taken_back
    assert answers([taken_back, written]) == {}


def test_an_empty_text_and_zero_and_no_ticks_are_answers():
    for value in ("", 0.0, []):
        assert list(answers([a_note(value)])) == [a_note().question]


def test_a_note_written_after_seeing_another_holds_over_it():
    seen = Stamp(7, "z")

    assert next_stamp(seen.counter, "a") > seen
