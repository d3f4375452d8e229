"""Beside the pours of a table: which acts were done with which bowl, and readings of a thermometer."""

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None


def upgrade() -> None:
    for name in ("done", "readings"):
        # Tables kept before have none.
        op.add_column("tables", sa.Column(name, sa.JSON(), nullable=False, server_default="[]"))
