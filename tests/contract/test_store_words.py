"""Own words and corrections: what every store has to do with them, one file for all."""

from datetime import timedelta

import pytest
from sqlalchemy import delete, update
from sqlalchemy.exc import DBAPIError
from tests.fakes.values import NOON, a_correction

from cupwright.core.words.own_words import OwnConcept, OwnForm
from cupwright.errors import Clash, NotFound
from cupwright.steps.ports import KeptWord, Store
from cupwright.store.schema import corrections
from cupwright.store.sql import SqlStore

SODA = KeptWord("w-1", OwnConcept("quince_soda", "quince soda", ("quince",), ("quince “pop” 柚子",)), NOON)
MEMBRILLO = KeptWord("w-2", OwnForm("quince", "membrillo"), NOON + timedelta(seconds=1))
COUSIN = KeptWord("w-0", OwnConcept("rhubarb_soda", "rhubarb soda", ("rhubarb", "quince_soda")), NOON)


def test_own_words_come_back_as_they_were_kept_and_in_that_order(store: Store) -> None:
    with store.work() as work:
        work.own_words.add([SODA, MEMBRILLO])
    with store.work() as work:
        work.own_words.add([COUSIN])

    with store.reading() as work:
        assert work.own_words.all() == (SODA, MEMBRILLO, COUSIN)


def test_a_removed_own_word_is_gone_and_the_others_stay(store: Store) -> None:
    with store.work() as work:
        work.own_words.add([SODA, MEMBRILLO])
        work.own_words.remove("w-1")

    with store.reading() as work:
        assert work.own_words.all() == (MEMBRILLO,)


def test_an_own_word_that_is_not_there_is_not_found(store: Store) -> None:
    with pytest.raises(NotFound), store.work() as work:
        work.own_words.remove("w-9")


def test_corrections_come_back_in_the_order_received_each_tasters_own(store: Store) -> None:
    later, first = a_correction(1, surface="ß “Süß” 🍑", concept=None), a_correction(2)
    with store.work() as work:
        work.corrections.add([first, later, a_correction(3, taster="ben")], NOON)

    with store.reading() as work:
        assert work.corrections.of(["ada", "ada"]) == (first, later)
        assert [one.id for one in work.corrections.of(["ben", "ada"])] == [
            "correction-0002",
            "correction-0001",
            "correction-0003",
        ]
        assert work.corrections.of([]) == work.corrections.of(["cy"]) == ()


def test_a_correction_that_arrives_again_is_kept_once(store: Store) -> None:
    with store.work() as work:
        assert work.corrections.add([a_correction(1), a_correction(1)], NOON) == ("correction-0001",)
    with store.work() as work:
        kept = work.corrections.add([a_correction(1), a_correction(2)], NOON)

    assert kept == ("correction-0001", "correction-0002")
    with store.reading() as work:
        assert work.corrections.of(["ada"]) == (a_correction(1), a_correction(2))


def test_another_correction_under_a_known_id_is_refused_and_nothing_of_its_batch_is_kept(
    store: Store,
) -> None:
    with store.work() as work:
        work.corrections.add([a_correction(1)], NOON)

    with pytest.raises(Clash), store.work() as work:
        work.corrections.add([a_correction(2), a_correction(1, concept="rough")], NOON)

    with store.reading() as work:
        assert work.corrections.of(["ada"]) == (a_correction(1),)


def test_corrections_can_be_asked_for_as_they_stood_at_a_moment(store: Store) -> None:
    with store.work() as work:
        work.corrections.add([a_correction(1)], NOON)
        work.corrections.add([a_correction(2)], NOON + timedelta(microseconds=1))

    with store.reading() as work:
        assert work.corrections.of(["ada"], until=NOON) == (a_correction(1),)
        assert len(work.corrections.of(["ada"], until=NOON + timedelta(microseconds=1))) == 2


@pytest.mark.parametrize("act", ["update", "delete"])
def test_corrections_cannot_be_changed_or_deleted(sql_store: SqlStore, act: str) -> None:
    with sql_store.work() as work:
        work.corrections.add([a_correction()], NOON)
    statement = delete(corrections) if act == "delete" else update(corrections).values(concept="plum")

    with pytest.raises(DBAPIError, match="append-only"), sql_store.work() as work:
        work.connection.execute(statement)
