"""Users' own sheets and protocols, append-only like the notes."""

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None


def upgrade() -> None:
    number = sa.BigInteger().with_variant(sa.Integer(), "sqlite")
    op.create_table(
        "forms",
        sa.Column("sequence", number, autoincrement=True, nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("version", sa.BigInteger(), nullable=False),
        sa.Column("text", sa.Text(), nullable=True),
        sa.Column("kept_us", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("sequence", name="pk_forms"),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_forms_kind_name", "forms", ["kind", "name"])
    _refuse_changes()


def _refuse_changes() -> None:
    """As for the notes in 0001, whose function for PostgreSQL serves here too."""
    if op.get_bind().dialect.name == "sqlite":
        for act in ("UPDATE", "DELETE"):
            op.execute(
                f"CREATE TRIGGER forms_no_{act.lower()} BEFORE {act} ON forms "
                "BEGIN SELECT RAISE(ABORT, 'forms is append-only'); END"
            )
        return
    op.execute(
        "CREATE TRIGGER forms_no_change BEFORE UPDATE OR DELETE OR TRUNCATE ON forms "
        "FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()"
    )
