"""The first schema: shelf, tables, seats, keys apart, notes and diary append-only, desk."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None

_APPLICATION_ID = 0x43555057  # "CUPW"
_APPEND_ONLY = ("notes", "events", "keys")


def upgrade() -> None:
    _shelf_and_desk()
    _tables_and_seats()
    _keys_and_events()
    _notes()
    if op.get_bind().dialect.name == "sqlite":
        op.execute(f"PRAGMA application_id = {_APPLICATION_ID}")
        _refuse_changes_sqlite()
    else:
        _refuse_changes_postgresql()


def _text(name: str) -> "sa.Column[str]":
    return sa.Column(name, sa.Text(), nullable=False)


def _whole(name: str, *, nullable: bool = False) -> "sa.Column[int]":
    return sa.Column(name, sa.BigInteger(), nullable=nullable)


def _json(name: str) -> "sa.Column[object]":
    return sa.Column(name, sa.JSON(), nullable=False)


def _row_number(name: str) -> "sa.Column[int]":
    kind = sa.BigInteger().with_variant(sa.Integer(), "sqlite")
    return sa.Column(name, kind, autoincrement=True, nullable=False)


def _shelf_and_desk() -> None:
    op.create_table(
        "coffees",
        _text("id"),
        _text("name"),
        _text("name_folded"),
        _text("roaster"),
        _text("origin"),
        _text("process"),
        _text("variety"),
        sa.Column("roast_date", sa.Date(), nullable=True),
        _text("published_notes"),
        sa.Column("grams_left", sa.Double(), nullable=True),
        sa.PrimaryKeyConstraint("id", name="pk_coffees"),
        sa.UniqueConstraint("name_folded", name="uq_coffees_name_folded"),
    )
    op.create_table(
        "desk",
        sa.Column("id", sa.Integer(), autoincrement=False, nullable=False),
        _text("passphrase_hash"),
        sa.PrimaryKeyConstraint("id", name="pk_desk"),
    )
    op.create_table(
        "desk_sessions",
        _text("session_hash"),
        _whole("expires_us"),
        sa.PrimaryKeyConstraint("session_hash", name="pk_desk_sessions"),
    )


def _tables_and_seats() -> None:
    op.create_table(
        "tables",
        _text("id"),
        _text("name"),
        _text("name_folded"),
        _whole("created_us"),
        _text("step"),
        *map(_json, ("plan", "sheet", "codes")),
        _text("commitment"),
        _text("join_code"),
        _whole("started_at_ms", nullable=True),
        *map(_json, ("pours", "placings")),
        _whole("removed_us", nullable=True),
        sa.PrimaryKeyConstraint("id", name="pk_tables"),
    )
    _unique_while("name_folded", "removed_us IS NULL")
    _unique_while("join_code", "removed_us IS NULL AND join_code <> ''")
    op.create_table(
        "seats",
        _text("id"),
        _text("table_id"),
        sa.Column("position", sa.Integer(), nullable=False),
        _text("name"),
        _json("serving_order"),
        sa.ForeignKeyConstraint(["table_id"], ["tables.id"], name="fk_seats_table_id_tables"),
        sa.PrimaryKeyConstraint("id", name="pk_seats"),
        sa.UniqueConstraint("table_id", "id", name="uq_seats_table_id_id"),
        sa.UniqueConstraint("table_id", "name", name="uq_seats_table_id_name"),
    )
    op.create_table(
        "seat_tokens",
        _text("token_hash"),
        _text("table_id"),
        _text("seat_id"),
        _to_seat("seat_tokens"),
        sa.PrimaryKeyConstraint("token_hash", name="pk_seat_tokens"),
        sa.UniqueConstraint("seat_id", name="uq_seat_tokens_seat_id"),
    )


def _unique_while(column: str, condition: str) -> None:
    where = sa.text(condition)
    op.create_index(
        f"uq_tables_{column}", "tables", [column], unique=True, sqlite_where=where, postgresql_where=where
    )


def _to_seat(table: str) -> sa.ForeignKeyConstraint:
    return sa.ForeignKeyConstraint(
        ["table_id", "seat_id"], ["seats.table_id", "seats.id"], name=f"fk_{table}_table_id_seat_id_seats"
    )


def _keys_and_events() -> None:
    op.create_table(
        "keys",
        _text("table_id"),
        _json("pairs"),
        _text("nonce"),
        sa.ForeignKeyConstraint(["table_id"], ["tables.id"], name="fk_keys_table_id_tables"),
        sa.PrimaryKeyConstraint("table_id", name="pk_keys"),
    )
    op.create_table(
        "events",
        _row_number("sequence"),
        _text("table_id"),
        _text("kind"),
        _whole("at_us"),
        _json("detail"),
        _text("digest"),
        sa.ForeignKeyConstraint(["table_id"], ["tables.id"], name="fk_events_table_id_tables"),
        sa.PrimaryKeyConstraint("sequence", name="pk_events"),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_events_table_id_sequence", "events", ["table_id", "sequence"])


def _notes() -> None:
    op.create_table(
        "notes",
        _row_number("sequence"),
        *map(_text, ("id", "table_id", "seat_id", "place", "part", "field")),
        _json("value"),
        _whole("counter"),
        _text("device"),
        _whole("written_at_ms"),
        _whole("received_us"),
        _to_seat("notes"),
        sa.PrimaryKeyConstraint("sequence", name="pk_notes"),
        sa.UniqueConstraint("id", name="uq_notes_id"),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_notes_table_id_sequence", "notes", ["table_id", "sequence"])
    op.create_index("ix_notes_seat_id_sequence", "notes", ["seat_id", "sequence"])


def _refuse_changes_sqlite() -> None:
    for table in _APPEND_ONLY:
        for act in ("UPDATE", "DELETE"):
            op.execute(
                f"CREATE TRIGGER {table}_no_{act.lower()} BEFORE {act} ON {table} "
                f"BEGIN SELECT RAISE(ABORT, '{table} is append-only'); END"
            )


def _refuse_changes_postgresql() -> None:
    op.execute(
        "CREATE FUNCTION refuse_change() RETURNS trigger LANGUAGE plpgsql AS "
        "$$ BEGIN RAISE EXCEPTION '% is append-only', TG_TABLE_NAME; END $$"
    )
    for table in _APPEND_ONLY:
        op.execute(
            f"CREATE TRIGGER {table}_no_change BEFORE UPDATE OR DELETE OR TRUNCATE ON {table} "
            "FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()"
        )
