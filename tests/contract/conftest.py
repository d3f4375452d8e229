"""Stores to hold the port's tests against: in memory, on SQLite, on PostgreSQL."""

import itertools
import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from sqlalchemy import create_engine, text
from tests.contract.postgres_server import postgres_server
from tests.fakes.memory import MemoryStore

from cupwright.steps.ports import Store
from cupwright.store.engine import database_url
from cupwright.store.opening import open_store
from cupwright.store.sql import SqlStore

_numbers = itertools.count(1)
# Workers that run side by side may share the server of DATABASE_URL.
_OURS = f"cupwright_{os.environ.get('PYTEST_XDIST_WORKER', 'alone')}"


@pytest.fixture(scope="session")
def postgres() -> Iterator[str]:
    """The URL of a running PostgreSQL server. There is no skip: a machine without one fails."""
    with postgres_server() as url:
        yield url


@pytest.fixture(scope="session")
def template(postgres: str) -> str:
    """A database with the schema in it, to copy from: quicker than migrating for every test."""
    name = f"{_OURS}_template"
    open_store(_new_database(postgres, name)).close()
    return name


@pytest.fixture
def empty_postgres(postgres: str) -> Iterator[str]:
    """The URL of a database with nothing in it."""
    name = f"{_OURS}_empty_{next(_numbers)}"
    yield _new_database(postgres, name)
    _run(postgres, f"DROP DATABASE {name} WITH (FORCE)")


@pytest.fixture
def postgres_store(postgres: str, template: str) -> Iterator[SqlStore]:
    """A store of its own on PostgreSQL."""
    name = f"{_OURS}_{next(_numbers)}"
    store = open_store(_new_database(postgres, name, template))
    yield store
    store.close()
    _run(postgres, f"DROP DATABASE {name} WITH (FORCE)")


@pytest.fixture
def sqlite_store(tmp_path: Path) -> Iterator[SqlStore]:
    """A store of its own on SQLite."""
    store = open_store(tmp_path / "data")
    yield store
    store.close()


_BOTH = [
    pytest.param("sqlite_store", id="sqlite"),
    pytest.param("postgres_store", id="postgresql", marks=pytest.mark.postgres),
]


@pytest.fixture(params=_BOTH)
def sql_store(request: pytest.FixtureRequest) -> SqlStore:
    """Each real store in turn."""
    return request.getfixturevalue(request.param)


@pytest.fixture(params=[pytest.param("", id="memory"), *_BOTH])
def store(request: pytest.FixtureRequest) -> Store:
    """Each store in turn, the fake too."""
    return request.getfixturevalue(request.param) if request.param else MemoryStore()


def _new_database(server: str, name: str, template: str = "template1") -> str:
    _run(server, f"DROP DATABASE IF EXISTS {name} WITH (FORCE)")
    _run(server, f"CREATE DATABASE {name} TEMPLATE {template}")
    return database_url(server).set(database=name).render_as_string(hide_password=False)


def _run(server: str, statement: str) -> None:
    engine = create_engine(database_url(server), isolation_level="AUTOCOMMIT")
    with engine.connect() as connection:
        connection.execute(text(statement))
    engine.dispose()
