"""Users' own words, and their corrections of readings, which are append-only."""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "own_words",
        _row_number("sequence"),
        *map(_text, ("id", "concept", "label")),
        *map(_json, ("parents", "forms")),
        _whole("added_us"),
        sa.PrimaryKeyConstraint("sequence", name="pk_own_words"),
        sa.UniqueConstraint("id", name="uq_own_words_id"),
        sqlite_autoincrement=True,
    )
    op.create_table(
        "corrections",
        _row_number("sequence"),
        *map(_text, ("id", "taster", "surface")),
        sa.Column("concept", sa.Text(), nullable=True),
        _whole("counter"),
        _text("device"),
        *map(_whole, ("written_at_ms", "received_us")),
        sa.PrimaryKeyConstraint("sequence", name="pk_corrections"),
        sa.UniqueConstraint("id", name="uq_corrections_id"),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_corrections_taster_sequence", "corrections", ["taster", "sequence"])
    _refuse_changes()


def _text(name: str) -> "sa.Column[str]":
    return sa.Column(name, sa.Text(), nullable=False)


def _whole(name: str) -> "sa.Column[int]":
    return sa.Column(name, sa.BigInteger(), nullable=False)


def _json(name: str) -> "sa.Column[object]":
    return sa.Column(name, sa.JSON(), nullable=False)


def _row_number(name: str) -> "sa.Column[int]":
    kind = sa.BigInteger().with_variant(sa.Integer(), "sqlite")
    return sa.Column(name, kind, autoincrement=True, nullable=False)


def _refuse_changes() -> None:
    """As for the notes in 0001, whose function for PostgreSQL serves here too."""
    if op.get_bind().dialect.name == "sqlite":
        for act in ("UPDATE", "DELETE"):
            op.execute(
                f"CREATE TRIGGER corrections_no_{act.lower()} BEFORE {act} ON corrections "
                "BEGIN SELECT RAISE(ABORT, 'corrections is append-only'); END"
            )
        return
    op.execute(
        "CREATE TRIGGER corrections_no_change BEFORE UPDATE OR DELETE OR TRUNCATE ON corrections "
        "FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()"
    )
