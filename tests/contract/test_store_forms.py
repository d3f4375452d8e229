"""Users' own sheets and protocols: what every store has to do with them, one file for all."""

from datetime import timedelta

import pytest
from sqlalchemy import delete, update
from sqlalchemy.exc import DBAPIError
from tests.fakes.values import NOON

from cupwright.errors import Clash, NotFound
from cupwright.steps.ports import Form, Store
from cupwright.store.schema import forms
from cupwright.store.sql import SqlStore

LATER = NOON + timedelta(microseconds=1)
FIRST = Form("sheet", "house", 1, "name = 'house' # é “柚子”\r\n\tversion = 1\n", NOON)
SECOND = Form("sheet", "house", 2, "version = 2", LATER)


def _keep(store: Store, *kept: Form) -> None:
    with store.work() as work:
        for form in kept:
            work.forms.keep(form.kind, form.name, form.version, form.text, form.kept)


def test_a_form_comes_back_as_it_was_written_and_the_newest_version_counts(store: Store) -> None:
    _keep(store, FIRST)
    with store.reading() as work:
        assert work.forms.get("sheet", "house") == FIRST

    _keep(store, SECOND)

    with store.reading() as work:
        assert work.forms.get("sheet", "house") == SECOND
        assert work.forms.all("sheet") == (SECOND,)


def test_sheets_and_protocols_stand_apart_and_come_by_name(store: Store) -> None:
    protocol = Form("protocol", "house", 1, "p", NOON)
    other = Form("sheet", "club", 7, "c", NOON)

    _keep(store, FIRST, protocol, other)

    with store.reading() as work:
        assert work.forms.all("sheet") == (other, FIRST)
        assert work.forms.all("protocol") == (protocol,)
        assert work.forms.get("protocol", "club") is None


def test_the_same_version_word_for_word_is_kept_once(store: Store) -> None:
    _keep(store, FIRST)

    with store.work() as work:
        work.forms.keep("sheet", "house", 1, FIRST.text, LATER)

    with store.reading() as work:
        assert work.forms.get("sheet", "house") == FIRST


@pytest.mark.parametrize(("version", "text"), [(2, "version = 2, changed"), (1, "version = 1, late")])
def test_a_version_kept_with_another_text_and_one_older_than_what_stands_are_refused(
    store: Store, version: int, text: str
) -> None:
    _keep(store, SECOND)

    with pytest.raises(Clash), store.work() as work:
        work.forms.keep("sheet", "house", version, text, LATER)

    with store.reading() as work:
        assert work.forms.get("sheet", "house") == SECOND


def test_a_removed_form_is_out_of_sight_and_its_versions_cannot_be_taken_for_others(store: Store) -> None:
    _keep(store, FIRST)
    with store.work() as work:
        work.forms.remove("sheet", "house", LATER)

    with store.reading() as work:
        assert work.forms.get("sheet", "house") is None
        assert work.forms.all("sheet") == ()
    with pytest.raises(Clash), store.work() as work:
        work.forms.keep("sheet", "house", 1, "something else", LATER)
    _keep(store, FIRST)
    with store.reading() as work:
        assert work.forms.get("sheet", "house") == FIRST


def test_a_form_that_is_not_there_cannot_be_removed(store: Store) -> None:
    with pytest.raises(NotFound), store.work() as work:
        work.forms.remove("sheet", "house", NOON)


@pytest.mark.parametrize("act", ["update", "delete"])
def test_kept_versions_cannot_be_changed_or_deleted(sql_store: SqlStore, act: str) -> None:
    _keep(sql_store, FIRST)
    statement = delete(forms) if act == "delete" else update(forms).values(text="changed")

    with pytest.raises(DBAPIError, match="append-only"), sql_store.work() as work:
        work.connection.execute(statement)
