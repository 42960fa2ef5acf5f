"""The post room: letters that wait to be sent, what each sent reply answers, and a platform's marks."""

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"


def upgrade() -> None:
    op.create_table(
        "letters",
        sa.Column("id", sa.BigInteger().with_variant(sa.Integer, "sqlite"), primary_key=True, autoincrement=True),
        sa.Column("platform", sa.Text, nullable=False),
        sa.Column("chat", sa.Text, nullable=False),
        sa.Column("kind", sa.Text, nullable=False),
        sa.Column("question", sa.Text, nullable=False),
        sa.Column("thread", sa.Text, nullable=False),
        sa.Column("target", sa.Text, nullable=False),
        sa.Column("payload", sa.Text, nullable=False),
        sa.Column("begun", sa.Boolean, nullable=False),
        sa.Column("floor", sa.Text, nullable=False),
        sa.Column("attempts", sa.Integer, nullable=False),
        sa.Column("at", sa.BigInteger, nullable=False),
        sa.Column("due", sa.BigInteger, nullable=False),
        sqlite_autoincrement=True,
    )
    op.create_index("letters_chat", "letters", ["platform", "chat", "id"])
    op.create_table(
        "replies",
        sa.Column("platform", sa.Text, primary_key=True),
        sa.Column("chat", sa.Text, primary_key=True),
        sa.Column("question", sa.Text, primary_key=True),
        sa.Column("reply", sa.Text, nullable=False),
        sa.Column("base", sa.Text, nullable=False),
        sa.Column("body", sa.Text, nullable=False),
        sa.Column("at", sa.BigInteger, nullable=False),
    )
    op.create_index("replies_reply", "replies", ["platform", "chat", "reply"])
    op.create_index("replies_at", "replies", ["at"])
    op.create_table(
        "marks",
        sa.Column("platform", sa.Text, primary_key=True),
        sa.Column("chat", sa.Text, primary_key=True),
        sa.Column("name", sa.Text, primary_key=True),
        sa.Column("value", sa.Text, nullable=False),
    )
