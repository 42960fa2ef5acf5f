"""A house spec keeps the one it replaced, so that it can be brought back."""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"


def upgrade() -> None:
    op.add_column("specs", sa.Column("previous", sa.Text))
    op.add_column("specs", sa.Column("previous_text", sa.Text))
