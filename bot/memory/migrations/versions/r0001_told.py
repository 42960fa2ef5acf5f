"""What a chat tells us: settings and the last answer, the shelf, house specs, and messages already answered."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None


def upgrade() -> None:
    op.create_table(
        "chats",
        sa.Column("chat", sa.Text, primary_key=True),
        sa.Column("stamp", sa.BigInteger, nullable=False),
        sa.Column("ounce", sa.Text, nullable=False),
        sa.Column("first", sa.Text, nullable=False),
        sa.Column("freezer_c", sa.Double, nullable=False),
        sa.Column("serve_ml", sa.Double, nullable=False),
        sa.Column("dash_ml", sa.Double, nullable=False),
        sa.Column("currency", sa.Text, nullable=False),
        sa.Column("country", sa.Text, nullable=False),
        sa.Column("last_at", sa.BigInteger),
        sa.Column("last_body", sa.Text),
    )
    op.create_table(
        "shelf",
        sa.Column("chat", sa.Text, sa.ForeignKey("chats.chat", ondelete="CASCADE"), primary_key=True),
        sa.Column("name", sa.Text, primary_key=True),
        sa.Column("place", sa.Integer, nullable=False),
        sa.Column("abv", sa.Double),
        sa.Column("sugar_g_per_l", sa.Double),
        sa.Column("size_ml", sa.Double),
        sa.Column("price", sa.Double),
    )
    op.create_table(
        "specs",
        sa.Column("chat", sa.Text, sa.ForeignKey("chats.chat", ondelete="CASCADE"), primary_key=True),
        sa.Column("name", sa.Text, primary_key=True),
        sa.Column("place", sa.Integer, nullable=False),
        sa.Column("text", sa.Text, nullable=False),
        sa.Column("body", sa.Text, nullable=False),
    )
    op.create_table(
        "handled",
        sa.Column("platform", sa.Text, primary_key=True),
        sa.Column("chat", sa.Text, primary_key=True),
        sa.Column("message", sa.Text, primary_key=True),
        sa.Column("at", sa.BigInteger, nullable=False),
    )
    op.create_index("handled_at", "handled", ["at"])
