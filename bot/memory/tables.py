"""The tables, as they are now. A change here needs a migration beside it; a test compares the two.

Times are whole microseconds since 1970 UTC: exact, and the same in every database.
"""

from sqlalchemy import BigInteger, Boolean, Column, Double, ForeignKey, Index, Integer, MetaData, Table, Text

METADATA = MetaData()

CHATS = Table(
    "chats",
    METADATA,
    Column("chat", Text, primary_key=True),
    Column("stamp", BigInteger, nullable=False),  # new and random whenever settings, shelf or specs change
    Column("ounce", Text, nullable=False),
    Column("first", Text, nullable=False),
    Column("freezer_c", Double, nullable=False),
    Column("serve_ml", Double, nullable=False),
    Column("dash_ml", Double, nullable=False),
    Column("currency", Text, nullable=False),
    Column("country", Text, nullable=False),
    Column("last_at", BigInteger),
    Column("last_body", Text),
)


def _chat() -> Column[str]:
    return Column("chat", Text, ForeignKey("chats.chat", ondelete="CASCADE"), primary_key=True)


SHELF = Table(
    "shelf",
    METADATA,
    _chat(),
    Column("name", Text, primary_key=True),
    Column("place", Integer, nullable=False),  # order within the chat; gaps are fine
    Column("abv", Double),
    Column("sugar_g_per_l", Double),
    Column("size_ml", Double),
    Column("price", Double),
)

SPECS = Table(
    "specs",
    METADATA,
    _chat(),
    Column("name", Text, primary_key=True),
    Column("place", Integer, nullable=False),
    Column("text", Text, nullable=False),
    Column("body", Text, nullable=False),
    Column("previous", Text),
    Column("previous_text", Text),
)

# Messages already answered, so that one that is delivered again after a crash is not answered twice.
HANDLED = Table(
    "handled",
    METADATA,
    Column("platform", Text, primary_key=True),
    Column("chat", Text, primary_key=True),
    Column("message", Text, primary_key=True),
    Column("at", BigInteger, nullable=False),
    Index("handled_at", "at"),
)

# Letters that wait to be sent. Ids rise in the order in which a chat's questions were answered; a sent letter is gone.
LETTERS = Table(
    "letters",
    METADATA,
    Column("id", BigInteger().with_variant(Integer, "sqlite"), primary_key=True, autoincrement=True),
    Column("platform", Text, nullable=False),
    Column("chat", Text, nullable=False),
    Column("kind", Text, nullable=False),  # reply, back
    Column("question", Text, nullable=False),  # the platform's id of the message it answers
    Column("thread", Text, nullable=False),
    Column("target", Text, nullable=False),  # our message that it changes; empty: a new one
    Column("payload", Text, nullable=False),  # as the platform packed it
    Column("begun", Boolean, nullable=False),  # sending it has begun: it may be there although we never heard
    Column("floor", Text, nullable=False),  # the newest message the platform was known to hold before it began
    Column("attempts", Integer, nullable=False),
    Column("at", BigInteger, nullable=False),
    Column("due", BigInteger, nullable=False),  # not to be sent before
    Index("letters_chat", "platform", "chat", "id"),
    sqlite_autoincrement=True,  # an id never comes back
)

# What each reply answers, so that a button under it, an answer to it or an edit of its question works from there.
REPLIES = Table(
    "replies",
    METADATA,
    Column("platform", Text, primary_key=True),
    Column("chat", Text, primary_key=True),
    Column("question", Text, primary_key=True),
    Column("reply", Text, nullable=False),  # the platform's id of our message; empty until it was sent
    Column("base", Text, nullable=False),  # the last answer that was there before, for a question that is edited
    Column("body", Text, nullable=False),  # the request it answers, as a last answer is kept; empty: none
    Column("at", BigInteger, nullable=False),
    Index("replies_reply", "platform", "chat", "reply"),
    Index("replies_at", "at"),
)

# Small things a platform must know after a restart: where it stopped reading, which chats are locked.
MARKS = Table(
    "marks",
    METADATA,
    Column("platform", Text, primary_key=True),
    Column("chat", Text, primary_key=True),  # empty: of the platform as a whole
    Column("name", Text, primary_key=True),
    Column("value", Text, nullable=False),
)
