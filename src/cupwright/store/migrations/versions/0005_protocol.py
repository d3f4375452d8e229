"""A table keeps the protocol it was laid by; one laid before has none and goes by the usual one."""

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.add_column("tables", sa.Column("protocol", sa.JSON(), nullable=True))
