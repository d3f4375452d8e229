"""What every store has to do, one file for all of them."""

import threading
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest
from tests.fakes.values import NOON, a_coffee, a_note, a_table

from cupwright.core.flow import Step
from cupwright.core.plan.protocol_file import builtin_protocol
from cupwright.core.plan.table import Blinding, Plan, Seat
from cupwright.core.pour.clock import Clock
from cupwright.core.reveal.diary import BEGINNING, digest
from cupwright.core.reveal.seal import Key
from cupwright.core.taste.stamp import Stamp
from cupwright.errors import Clash, NotFound
from cupwright.steps.ports import Holder, Store

KEY = Key((("412", "coffee-2"), ("735", "coffee-1")), "ab" * 32)


def with_table(store: Store) -> Store:
    with store.work() as work:
        work.coffees.add([a_coffee(1), a_coffee(2)])
        work.tables.add(a_table())
    return store


# coffees


def test_a_coffee_comes_back_as_it_was_kept(store: Store) -> None:
    full = a_coffee(
        origin="Hill Country",
        process="washed",
        variety="field blend",
        roast_date=date(2026, 11, 20),
        published_notes="plum · “brown sugar”\nпомело 柚子 🍑",
        grams_left=0.1 + 0.2,
    )

    with store.work() as work:
        work.coffees.add([full, a_coffee(2, grams_left=None)])

    with store.reading() as work:
        assert work.coffees.get(full.id) == full
        assert work.coffees.all() == (full, a_coffee(2, grams_left=None))


def test_coffees_are_listed_by_name_whatever_the_letter_case(store: Store) -> None:
    with store.work() as work:
        work.coffees.add([a_coffee(1, name="b"), a_coffee(2, name="A"), a_coffee(3, name="C")])

    with store.reading() as work:
        assert [coffee.name for coffee in work.coffees.all()] == ["A", "b", "C"]


def test_a_name_on_the_shelf_is_taken_whatever_the_letter_case(store: Store) -> None:
    with store.work() as work:
        work.coffees.add([a_coffee(1, name="Morning Lot"), a_coffee(2)])

    with pytest.raises(Clash), store.work() as work:
        work.coffees.add([a_coffee(3, name="MORNING lot")])
    with pytest.raises(Clash), store.work() as work:
        work.coffees.replace(a_coffee(2, name="morning LOT"))
    with pytest.raises(Clash), store.work() as work:
        work.coffees.add([a_coffee(4, name="Twice"), a_coffee(5, name="twice")])


def test_a_coffee_can_be_changed_and_keep_its_name(store: Store) -> None:
    with store.work() as work:
        work.coffees.add([a_coffee(1)])

    with store.work() as work:
        work.coffees.replace(a_coffee(1, grams_left=12.5))

    with store.reading() as work:
        assert work.coffees.get("coffee-1").grams_left == 12.5


def test_a_coffee_that_is_not_there_is_not_found(store: Store) -> None:
    with store.work() as work:
        for act in (
            lambda: work.coffees.get("none"),
            lambda: work.coffees.remove("none"),
            lambda: work.coffees.replace(a_coffee(9)),
        ):
            with pytest.raises(NotFound):
                act()


def test_a_removed_coffee_is_gone_and_its_name_is_free(store: Store) -> None:
    with store.work() as work:
        work.coffees.add([a_coffee(1)])
        work.coffees.remove("coffee-1")
        work.coffees.add([a_coffee(2, name="Lot 1")])

    with store.reading() as work:
        assert [coffee.id for coffee in work.coffees.all()] == ["coffee-2"]


# tables


def test_a_table_comes_back_as_it_was_kept(store: Store) -> None:
    plan = Plan(
        name="Bowls shuffled",
        coffees=("coffee-1", "coffee-2"),
        tasters=("Ada",),
        bowls_per_sample=2,
        bowl_ml=187.5,
        blinding=Blinding.SHUFFLE,
        seed=7,
    )
    full = a_table(
        plan=plan,
        step=Step.REVEAL,
        seats=(Seat("seat-1-1", "Ada", ("2", "1")),),
        commitment="c0ffee",
        clock=Clock(
            1_790_000_000_123,
            ((0, 1_790_000_000_124), (3, 1_790_000_060_000)),
            (("break", 0, 1_790_000_240_000),),
            ((0, 1_790_000_600_000, 68.5),),
        ),
        placings=(("1", "735"), ("2", "412")),
        protocol=builtin_protocol("brew"),
    )

    with store.work() as work:
        work.tables.add(full)

    with store.reading() as work:
        assert work.tables.get(full.id) == full


def test_a_table_is_found_by_name_and_by_join_code(store: Store) -> None:
    with_table(store)

    with store.reading() as work:
        assert work.tables.by_name("  TABLE 1 ") == a_table()
        assert work.tables.by_join_code("AAAAA1") == a_table()
        assert work.tables.by_name("Table 2") is None
        assert work.tables.by_join_code("aaaaa2") is None


def test_a_table_without_a_join_code_cannot_be_joined(store: Store) -> None:
    with store.work() as work:
        work.tables.add(a_table(1, join_code=""))
        work.tables.add(a_table(2, join_code=""))

    with store.reading() as work:
        assert work.tables.by_join_code("") is None


def test_tables_are_listed_the_newest_first(store: Store) -> None:
    with store.work() as work:
        work.tables.add(a_table(1))
        work.tables.add(a_table(2, created=NOON + timedelta(seconds=1)))

    with store.reading() as work:
        assert [table.id for table in work.tables.all()] == ["table-2", "table-1"]


def test_a_tables_name_is_taken_until_the_table_is_removed(store: Store) -> None:
    with_table(store)

    with pytest.raises(Clash), store.work() as work:
        work.tables.add(a_table(2, plan=replace(a_table(2).plan, name="TABLE 1")))
    with store.work() as work:
        work.tables.add(a_table(2))
    with pytest.raises(Clash), store.work() as work:
        work.tables.save(a_table(2, plan=replace(a_table(2).plan, name="table 1")))
    with store.work() as work:
        work.tables.remove("table-1", NOON)
        work.tables.save(a_table(2, plan=replace(a_table(2).plan, name="table 1")))

    with store.reading() as work:
        assert [table.id for table in work.tables.all()] == ["table-2"]


def test_a_saved_table_is_changed_in_every_part(store: Store) -> None:
    with_table(store)
    changed = a_table(
        step=Step.TASTE,
        commitment="abc",
        clock=Clock(5),
        seats=(
            Seat("seat-1-2", "Ben", ("412", "735")),
            Seat("seat-1-3", "Cleo", ("735", "412")),
        ),
    )

    with store.work() as work:
        work.tables.save(changed)

    with store.reading() as work:
        assert work.tables.get("table-1") == changed


def test_a_table_that_is_not_there_is_not_found(store: Store) -> None:
    with store.work() as work:
        for act in (
            lambda: work.tables.get("none"),
            lambda: work.tables.save(a_table(9)),
            lambda: work.tables.remove("none", NOON),
        ):
            with pytest.raises(NotFound):
                act()


def test_a_removed_table_is_out_of_sight_and_its_notes_stay(store: Store) -> None:
    with_table(store)
    with store.work() as work:
        work.notes.add("table-1", [a_note()], NOON)
        work.tables.remove("table-1", NOON)

    with store.reading() as work:
        assert work.tables.all() == ()
        assert work.tables.by_join_code("AAAAA1") is None
        with pytest.raises(NotFound):
            work.tables.get("table-1")
        assert [numbered.note for numbered in work.notes.of("table-1")] == [a_note()]


# keys


def test_a_key_comes_back_as_it_was_kept_and_is_never_replaced(store: Store) -> None:
    with_table(store)
    with store.work() as work:
        work.keys.put("table-1", KEY)

    with pytest.raises(Clash), store.work() as work:
        work.keys.put("table-1", replace(KEY, nonce="cd" * 32))

    with store.reading() as work:
        assert work.keys.get("table-1") == KEY


def test_a_table_without_a_key_says_so(store: Store) -> None:
    with_table(store)
    with store.reading() as work, pytest.raises(NotFound):
        work.keys.get("table-1")


# notes


VALUES = [
    "plain words",
    "  blanks \t kept\n\nas written  ",
    "",
    "“curly” ’ 柚子 🍑 e\u0301",
    0,
    61.5,
    0.1 + 0.2,
    1e-9,
    [1, 3, 5],
    {"l": 0.62, "a": -0.0031, "b": 0.117},
    None,
]


def test_a_note_comes_back_word_for_word(store: Store) -> None:
    with_table(store)
    notes = [a_note(number, value=value) for number, value in enumerate(VALUES, start=1)]

    with store.work() as work:
        work.notes.add("table-1", notes, NOON)

    with store.reading() as work:
        assert [numbered.note for numbered in work.notes.of("table-1")] == notes


def test_the_same_note_sent_again_is_kept_once(store: Store) -> None:
    with_table(store)
    notes = [a_note(1), a_note(2)]
    with store.work() as work:
        first = work.notes.add("table-1", notes, NOON)

    for _ in range(100):
        with store.work() as work:
            again = work.notes.add("table-1", [*notes, a_note(1)], NOON + timedelta(hours=1))

    assert (first.ids, first.new) == (("note-0001", "note-0002"), 2)
    assert (again.ids, again.new) == (("note-0001", "note-0002"), 0)
    assert again.sequence == first.sequence
    with store.reading() as work:
        assert [numbered.note for numbered in work.notes.of("table-1")] == notes


def test_a_batch_with_old_and_new_notes_keeps_the_new_ones(store: Store) -> None:
    with_table(store)
    with store.work() as work:
        work.notes.add("table-1", [a_note(1)], NOON)

    with store.work() as work:
        kept = work.notes.add("table-1", [a_note(2), a_note(1), a_note(3)], NOON)

    assert kept.new == 2
    with store.reading() as work:
        assert [numbered.note.id for numbered in work.notes.of("table-1")] == [
            "note-0001",
            "note-0002",
            "note-0003",
        ]


@pytest.mark.parametrize(
    "other",
    [
        a_note(1, value="something else"),
        a_note(1, value=None),
        a_note(1, place="735"),
        a_note(1, stamp=Stamp(2, "phone-a")),
        a_note(1, stamp=Stamp(1, "phone-b")),
        a_note(1, written_at=5),
        a_note(1, seat="seat-1-2"),
    ],
    ids=["value", "taken back", "place", "counter", "device", "written at", "seat"],
)
def test_another_note_under_the_same_id_is_refused_and_nothing_of_its_batch_is_kept(
    store: Store, other: object
) -> None:
    with_table(store)
    with store.work() as work:
        work.notes.add("table-1", [a_note(1)], NOON)

    with pytest.raises(Clash), store.work() as work:
        work.notes.add("table-1", [a_note(2), other], NOON)

    with store.reading() as work:
        assert [numbered.note for numbered in work.notes.of("table-1")] == [a_note(1)]


def test_the_same_id_at_another_table_is_refused(store: Store) -> None:
    with_table(store)
    with store.work() as work:
        work.tables.add(a_table(2))
        work.notes.add("table-1", [a_note(1)], NOON)

    with pytest.raises(Clash), store.work() as work:
        work.notes.add("table-2", [a_note(1)], NOON)


def test_numbers_rise_and_a_reader_can_ask_for_what_is_new(store: Store) -> None:
    with_table(store)
    with store.work() as work:
        first = work.notes.add("table-1", [a_note(1), a_note(2, seat="seat-1-2")], NOON)
    with store.work() as work:
        second = work.notes.add("table-1", [a_note(3), a_note(4, seat="seat-1-2")], NOON)

    assert second.sequence > first.sequence
    with store.reading() as work:
        new = work.notes.of("table-1", after=first.sequence)
        assert [numbered.note.id for numbered in new] == ["note-0003", "note-0004"]
        assert new[-1].sequence == second.sequence
        mine = work.notes.of("table-1", seat="seat-1-2")
        assert [numbered.note.id for numbered in mine] == ["note-0002", "note-0004"]
        assert work.notes.of("table-1", seat="seat-1-2", after=second.sequence) == ()


def test_a_large_batch_is_kept_whole(store: Store) -> None:
    with_table(store)
    notes = [a_note(number) for number in range(6000)]

    with store.work() as work:
        work.notes.add("table-1", notes[:5990], NOON)
    with store.work() as work:
        kept = work.notes.add("table-1", notes, NOON)

    assert (len(kept.ids), kept.new) == (6000, 10)


# tokens


def test_a_token_leads_to_its_seat_until_the_seat_is_freed(store: Store) -> None:
    with_table(store)
    with store.work() as work:
        work.tokens.put("hash-a", Holder("table-1", "seat-1-1"))

    with pytest.raises(Clash), store.work() as work:
        work.tokens.put("hash-b", Holder("table-1", "seat-1-1"))
    with store.reading() as work:
        assert work.tokens.find("hash-a") == Holder("table-1", "seat-1-1")
        assert work.tokens.find("hash-b") is None
        assert work.tokens.taken("table-1") == {"seat-1-1"}
    with store.work() as work:
        work.tokens.free("table-1", "seat-1-1")
        work.tokens.put("hash-b", Holder("table-1", "seat-1-1"))

    with store.reading() as work:
        assert work.tokens.find("hash-a") is None
        assert work.tokens.find("hash-b") == Holder("table-1", "seat-1-1")


# events


def test_events_are_listed_in_order_and_chained(store: Store) -> None:
    with_table(store)
    detail = {"commitment": "c0ffee", "n": 3, "ratio": 0.1, "név": "ő"}
    with store.work() as work:
        work.tables.add(a_table(2))
        first = work.events.append("table-1", "sealed", NOON, detail)
        work.events.append("table-2", "planned", NOON, {})
        second = work.events.append("table-1", "clock started", NOON, {})

    with store.reading() as work:
        assert work.events.of("table-1") == (first, second)
    assert (first.kind, first.at, dict(first.detail)) == ("sealed", NOON, detail)
    assert first.digest == digest(BEGINNING, "table-1", "sealed", NOON, detail)
    assert second.digest == digest(first.digest, "table-1", "clock started", NOON, {})


# desk


def test_a_session_is_open_until_it_ends(store: Store) -> None:
    with store.work() as work:
        assert work.desk.passphrase_hash() is None
        work.desk.put_passphrase_hash("slow-1")
        work.desk.open_session("session-a", NOON + timedelta(hours=1))
        work.desk.open_session("session-b", NOON + timedelta(hours=1))
        work.desk.close_session("session-b")

    with store.reading() as work:
        assert work.desk.passphrase_hash() == "slow-1"
        assert work.desk.session_is_open("session-a", NOON)
        assert not work.desk.session_is_open("session-a", NOON + timedelta(hours=1))
        assert not work.desk.session_is_open("session-b", NOON)
        assert not work.desk.session_is_open("session-c", NOON)


def test_a_new_passphrase_ends_every_session(store: Store) -> None:
    with store.work() as work:
        work.desk.put_passphrase_hash("slow-1")
        work.desk.open_session("session-a", NOON + timedelta(hours=1))
        work.desk.put_passphrase_hash("slow-2")

    with store.reading() as work:
        assert work.desk.passphrase_hash() == "slow-2"
        assert not work.desk.session_is_open("session-a", NOON)


# transactions


def test_nothing_of_a_transaction_that_fails_is_kept(store: Store) -> None:
    with_table(store)

    def fail() -> None:
        with store.work() as work:
            work.coffees.add([a_coffee(3)])
            work.tables.save(a_table(step=Step.POUR))
            work.keys.put("table-1", KEY)
            work.notes.add("table-1", [a_note()], NOON)
            work.events.append("table-1", "sealed", NOON, {})
            raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        fail()

    with store.reading() as work:
        assert [coffee.id for coffee in work.coffees.all()] == ["coffee-1", "coffee-2"]
        assert work.tables.get("table-1").step is Step.PLAN
        assert work.notes.of("table-1") == ()
        assert work.events.of("table-1") == ()
        with pytest.raises(NotFound):
            work.keys.get("table-1")


def test_a_reader_sees_one_moment_while_a_writer_goes_on(sql_store: Store) -> None:
    store = with_table(sql_store)

    with store.reading() as reading:
        before = reading.notes.of("table-1")
        with store.work() as writing:
            writing.notes.add("table-1", [a_note()], NOON)
        assert reading.notes.of("table-1") == before == ()

    with store.reading() as work:
        assert len(work.notes.of("table-1")) == 1


def test_writers_come_one_after_the_other_and_none_is_lost(sql_store: Store) -> None:
    store = with_table(sql_store)
    faults: list[Exception] = []

    def write(writer: int) -> None:
        try:
            for turn in range(10):
                with store.work() as work:
                    table = work.tables.get("table-1")
                    pours = Clock(0, (*table.clock.pours, (len(table.clock.pours), writer)))
                    work.tables.save(replace(table, clock=pours))
                    work.notes.add("table-1", [a_note(writer * 100 + turn)], datetime.now(UTC))
        except Exception as fault:  # carried over to the main thread, which fails the test
            faults.append(fault)

    threads = [threading.Thread(target=write, args=(writer,)) for writer in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()

    assert faults == []
    with store.reading() as work:
        assert len(work.tables.get("table-1").clock.pours) == 40
        assert len(work.notes.of("table-1")) == 40
