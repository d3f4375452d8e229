"""The schema, one for SQLite and PostgreSQL.

Moments are whole microseconds (or, where a device or the clock counts so, milliseconds) since 1970, UTC:
both databases keep them exactly. `notes`, `events`, `keys`, `corrections` and `forms` are append-only:
triggers of the migrations refuse changes. `keys` stands alone: no query joins it, so what stood where cannot
slip into another answer.
"""

from sqlalchemy import (
    JSON,
    BigInteger,
    Column,
    Date,
    Double,
    ForeignKeyConstraint,
    Index,
    Integer,
    MetaData,
    PrimaryKeyConstraint,
    Table,
    Text,
    UniqueConstraint,
    text,
)

NAMING = {
    "ix": "ix_%(column_0_label)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_N_name)s_%(referred_table_name)s",
    "pk": "pk_%(table_name)s",
}

metadata = MetaData(naming_convention=NAMING)

# SQLite numbers rows by itself only in a column that is INTEGER to the letter.
_ROW_NUMBER = BigInteger().with_variant(Integer, "sqlite")


def _text(name: str) -> "Column[str]":
    return Column(name, Text, nullable=False)


def _whole(name: str, *, nullable: bool = False) -> "Column[int]":
    return Column(name, BigInteger, nullable=nullable)


def _json(name: str) -> "Column[object]":
    return Column(name, JSON, nullable=False)


coffees = Table(
    "coffees",
    metadata,
    _text("id"),
    _text("name"),
    _text("name_folded"),
    _text("roaster"),
    _text("origin"),
    _text("process"),
    _text("variety"),
    Column("roast_date", Date),
    _text("published_notes"),
    Column("grams_left", Double),
    PrimaryKeyConstraint("id"),
    UniqueConstraint("name_folded"),
)

tables = Table(
    "tables",
    metadata,
    _text("id"),
    _text("name"),
    _text("name_folded"),
    _whole("created_us"),
    _text("step"),
    _json("plan"),
    _json("sheet"),
    _json("codes"),
    _text("commitment"),
    _text("join_code"),
    _whole("started_at_ms", nullable=True),
    _json("pours"),
    Column("done", JSON, nullable=False, server_default="[]"),
    Column("readings", JSON, nullable=False, server_default="[]"),
    _json("placings"),
    _whole("removed_us", nullable=True),
    Column("protocol", JSON(none_as_null=True)),
    PrimaryKeyConstraint("id"),
)

# A removed table gives its name and join code back.
_IN_SIGHT = text("removed_us IS NULL")
_JOINABLE = text("removed_us IS NULL AND join_code <> ''")
Index(
    "uq_tables_name_folded",
    tables.c.name_folded,
    unique=True,
    sqlite_where=_IN_SIGHT,
    postgresql_where=_IN_SIGHT,
)
Index(
    "uq_tables_join_code", tables.c.join_code, unique=True, sqlite_where=_JOINABLE, postgresql_where=_JOINABLE
)

seats = Table(
    "seats",
    metadata,
    _text("id"),
    _text("table_id"),
    Column("position", Integer, nullable=False),
    _text("name"),
    _json("serving_order"),
    PrimaryKeyConstraint("id"),
    ForeignKeyConstraint(["table_id"], ["tables.id"]),
    UniqueConstraint("table_id", "id"),
    UniqueConstraint("table_id", "name"),
)

seat_tokens = Table(
    "seat_tokens",
    metadata,
    _text("token_hash"),
    _text("table_id"),
    _text("seat_id"),
    PrimaryKeyConstraint("token_hash"),
    ForeignKeyConstraint(["table_id", "seat_id"], ["seats.table_id", "seats.id"]),
    UniqueConstraint("seat_id"),
)

keys = Table(
    "keys",
    metadata,
    _text("table_id"),
    _json("pairs"),
    _text("nonce"),
    PrimaryKeyConstraint("table_id"),
    ForeignKeyConstraint(["table_id"], ["tables.id"]),
)

notes = Table(
    "notes",
    metadata,
    Column("sequence", _ROW_NUMBER, nullable=False, autoincrement=True),
    _text("id"),
    _text("table_id"),
    _text("seat_id"),
    _text("place"),
    _text("part"),
    _text("field"),
    _json("value"),
    _whole("counter"),
    _text("device"),
    _whole("written_at_ms"),
    _whole("received_us"),
    PrimaryKeyConstraint("sequence"),
    ForeignKeyConstraint(["table_id", "seat_id"], ["seats.table_id", "seats.id"]),
    UniqueConstraint("id"),
    sqlite_autoincrement=True,
)
Index("ix_notes_table_id_sequence", notes.c.table_id, notes.c.sequence)
Index("ix_notes_seat_id_sequence", notes.c.seat_id, notes.c.sequence)

events = Table(
    "events",
    metadata,
    Column("sequence", _ROW_NUMBER, nullable=False, autoincrement=True),
    _text("table_id"),
    _text("kind"),
    _whole("at_us"),
    _json("detail"),
    _text("digest"),
    PrimaryKeyConstraint("sequence"),
    ForeignKeyConstraint(["table_id"], ["tables.id"]),
    sqlite_autoincrement=True,
)
Index("ix_events_table_id_sequence", events.c.table_id, events.c.sequence)

desk = Table(
    "desk",
    metadata,
    Column("id", Integer, nullable=False, autoincrement=False),
    _text("passphrase_hash"),
    PrimaryKeyConstraint("id"),
)

desk_sessions = Table(
    "desk_sessions",
    metadata,
    _text("session_hash"),
    _whole("expires_us"),
    PrimaryKeyConstraint("session_hash"),
)

own_words = Table(
    "own_words",
    metadata,
    Column("sequence", _ROW_NUMBER, nullable=False, autoincrement=True),
    _text("id"),
    _text("concept"),
    _text("label"),  # empty where only a form was added to a concept
    _json("parents"),
    _json("forms"),
    _whole("added_us"),
    PrimaryKeyConstraint("sequence"),
    UniqueConstraint("id"),
    sqlite_autoincrement=True,
)

corrections = Table(
    "corrections",
    metadata,
    Column("sequence", _ROW_NUMBER, nullable=False, autoincrement=True),
    _text("id"),
    _text("taster"),
    _text("surface"),
    Column("concept", Text),
    _whole("counter"),
    _text("device"),
    _whole("written_at_ms"),
    _whole("received_us"),
    PrimaryKeyConstraint("sequence"),
    UniqueConstraint("id"),
    sqlite_autoincrement=True,
)
Index("ix_corrections_taster_sequence", corrections.c.taster, corrections.c.sequence)

forms = Table(
    "forms",
    metadata,
    Column("sequence", _ROW_NUMBER, nullable=False, autoincrement=True),
    _text("kind"),
    _text("name"),
    _whole("version"),
    Column("text", Text),  # NULL where the form was put out of sight
    _whole("kept_us"),
    PrimaryKeyConstraint("sequence"),
    sqlite_autoincrement=True,
)
Index("ix_forms_kind_name", forms.c.kind, forms.c.name)
