"""The post room's rows: letters that wait, what each reply answers, and marks. Read and written here only.

Plain functions on one SQLAlchemy connection, inside a transaction of the caller's. Never here: what a letter says,
when it is sent, or which platform takes it.
"""

from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from typing import Any

from sqlalchemy import Connection, bindparam, delete, insert, literal, select, update
from sqlalchemy.dialects import postgresql, sqlite

from bot.memory.rows import EPOCH, MICROSECOND, storable
from bot.memory.statement import Statement
from bot.memory.tables import LETTERS, MARKS, REPLIES

REPLIES_KEPT = timedelta(days=30)  # how long a button under a reply works from that reply
LETTERS_KEPT = timedelta(days=7)  # of a platform that is no longer served


@dataclass(frozen=True, slots=True)
class Letter:
    """One thing to send. kind: reply, again (a changed answer as a new message), edit (of target), back, line.

    begun: sending it began before, so it may have arrived. id 0: not kept, sent once or never.
    """

    platform: str
    chat: str
    question: str
    payload: str
    at: datetime
    due: datetime
    kind: str = "reply"
    thread: str = ""
    target: str = ""
    begun: bool = False
    floor: str = ""
    attempts: int = 0
    id: int = 0
    known: tuple[str, ...] = ()  # not kept: our newest messages in the chat, for finding this one among them


_NOT_KEPT = ("id", "known")


@dataclass(frozen=True, slots=True)
class Replied:
    """A reply and what it answers. reply is empty until it was sent; body is empty when nothing can follow it."""

    question: str
    reply: str
    base: str
    body: str


def _stamp(at: datetime) -> int:
    return (at - EPOCH) // MICROSECOND


def _letter(row: Any) -> Letter:
    kept = {name: getattr(row, name) for name in Letter.__dataclass_fields__ if name != "known"}
    at, due = EPOCH + row.at * MICROSECOND, EPOCH + row.due * MICROSECOND
    return Letter(**kept | {"begun": bool(row.begun), "at": at, "due": due})


_PUT = Statement(insert(LETTERS))
_OF_CHAT = (LETTERS.c.platform == bindparam("of_platform")) & (LETTERS.c.chat == bindparam("of_chat"))
_PENDING = Statement(select(LETTERS).where(_OF_CHAT).order_by(LETTERS.c.id).limit(bindparam("most")))
_ALL = Statement(
    select(LETTERS).where(LETTERS.c.platform == bindparam("of_platform")).order_by(LETTERS.c.id).limit(bindparam("most"))
)
_WAITS = Statement(select(literal(1).label("one")).where(_OF_CHAT).limit(1))
_CHATS = Statement(select(LETTERS.c.chat).where(LETTERS.c.platform == bindparam("of_platform")).distinct())
_ONE = LETTERS.c.id == bindparam("of")
_DROP = Statement(delete(LETTERS).where(_ONE))
_BEGIN = Statement(update(LETTERS).where(_ONE).values(begun=True, floor=bindparam("new_floor")))
_LATER = Statement(
    update(LETTERS).where(_ONE).values(
        begun=bindparam("now_begun"), due=bindparam("now_due"), attempts=bindparam("now_attempts")
    )
)  # fmt: skip
_DROP_BACK = Statement(delete(LETTERS).where(_OF_CHAT, LETTERS.c.kind == "back", LETTERS.c.begun.is_(False)))
_REPLY_OF = (REPLIES.c.platform == bindparam("of_platform")) & (REPLIES.c.chat == bindparam("of_chat"))
_BY_QUESTION = _REPLY_OF & (REPLIES.c.question == bindparam("of_question"))
_FIND_QUESTION = Statement(select(REPLIES).where(_BY_QUESTION))
_FIND_REPLY = Statement(select(REPLIES).where(_REPLY_OF, REPLIES.c.reply == bindparam("of_reply")))
_NEWEST = Statement(
    select(REPLIES.c.reply).where(_REPLY_OF, REPLIES.c.reply != "").order_by(REPLIES.c.at.desc()).limit(bindparam("most"))
)
_SENT = Statement(update(REPLIES).where(_BY_QUESTION).values(reply=bindparam("new_reply")))
_ANSWERED_ANEW = Statement(
    update(REPLIES).where(_BY_QUESTION).values(base=bindparam("new_base"), body=bindparam("new_body"))
)
_NEW = ("reply", "base", "body", "at")
_KEY = [REPLIES.c.platform, REPLIES.c.chat, REPLIES.c.question]
_note_lite, _note_post = sqlite.insert(REPLIES), postgresql.insert(REPLIES)
_NOTE = Statement(  # a platform whose ids begin anew takes the place of what it said before
    _note_lite.on_conflict_do_update(_KEY, set_={name: _note_lite.excluded[name] for name in _NEW}),
    _note_post.on_conflict_do_update(index_elements=_KEY, set_={name: _note_post.excluded[name] for name in _NEW}),
)
_OF_MARK = (
    (MARKS.c.platform == bindparam("of_platform"))
    & (MARKS.c.chat == bindparam("of_chat"))
    & (MARKS.c.name == bindparam("of_name"))
)
_MARK = Statement(select(MARKS.c.value).where(_OF_MARK))


def put(connection: Connection, letter: Letter) -> Letter:
    """Keep a letter until it is sent; returns it with its id."""
    row = {name: getattr(letter, name) for name in Letter.__dataclass_fields__ if name not in _NOT_KEPT}
    row |= {"payload": storable(letter.payload), "at": _stamp(letter.at), "due": _stamp(letter.due)}
    return replace(letter, id=_PUT.insert(connection, row))


def put_back(connection: Connection, letter: Letter) -> Letter:
    """Keep a letter that says we are back, in the place of one that waits in the same chat."""
    _DROP_BACK.execute(connection, {"of_platform": letter.platform, "of_chat": letter.chat})
    return put(connection, letter)


def pending(connection: Connection, platform: str, chat: str, most: int = 50) -> list[Letter]:
    """The chat's letters, oldest first."""
    rows = _PENDING.rows(connection, {"of_platform": platform, "of_chat": chat, "most": most})
    return [_letter(row) for row in rows]


def waiting(connection: Connection, platform: str, most: int = 1000) -> list[Letter]:
    """The letters of all chats, oldest first."""
    return [_letter(row) for row in _ALL.rows(connection, {"of_platform": platform, "most": most})]


def waits(connection: Connection, platform: str, chat: str) -> bool:
    """Whether the chat has a letter that waits."""
    return bool(_WAITS.rows(connection, {"of_platform": platform, "of_chat": chat}))


def waiting_chats(connection: Connection, platform: str) -> list[str]:
    """The chats that have letters waiting."""
    return [row.chat for row in _CHATS.rows(connection, {"of_platform": platform})]


def begin(connection: Connection, letter: Letter, floor: str) -> None:
    """Note that sending begins: from here on the letter may have arrived."""
    _BEGIN.execute(connection, {"of": letter.id, "new_floor": floor})


def later(connection: Connection, letter: Letter, due: datetime, begun: bool, attempts: int) -> None:
    """Note that it is to be sent again, not before due. begun: it may have arrived."""
    new = {"now_due": _stamp(due), "now_begun": begun, "now_attempts": attempts}
    _LATER.execute(connection, {"of": letter.id, **new})


def sent(connection: Connection, letter: Letter, reply: str) -> None:
    """The letter has arrived as the message `reply`."""
    _DROP.execute(connection, {"of": letter.id})
    if reply and letter.kind in ("reply", "again", "edit"):
        key = {"of_platform": letter.platform, "of_chat": letter.chat, "of_question": letter.question}
        _SENT.execute(connection, {**key, "new_reply": reply})


def drop(connection: Connection, letter: Letter) -> None:
    """The letter is not to be sent."""
    _DROP.execute(connection, {"of": letter.id})


def note_reply(connection: Connection, letter: Letter, base: str, body: str) -> None:
    """Note what the letter answers: the request `body`, asked when `base` was the last answer."""
    _NOTE.execute(
        connection,
        {
            "platform": letter.platform, "chat": letter.chat, "question": letter.question, "reply": "",
            "base": storable(base), "body": storable(body), "at": _stamp(letter.at),
        },
    )  # fmt: skip


def answered_anew(connection: Connection, letter: Letter, base: str, body: str) -> None:
    """Note that the reply to the letter's question now answers the request `body`."""
    key = {"of_platform": letter.platform, "of_chat": letter.chat, "of_question": letter.question}
    _ANSWERED_ANEW.execute(connection, {**key, "new_base": storable(base), "new_body": storable(body)})


def replied(connection: Connection, platform: str, chat: str, *, question: str = "", reply: str = "") -> Replied | None:
    """What was replied to a question, or what our message `reply` answers; None when it is not known (any more)."""
    key = {"of_platform": platform, "of_chat": chat}
    if question:
        row = _FIND_QUESTION.first(connection, {**key, "of_question": question})
    else:
        row = _FIND_REPLY.first(connection, {**key, "of_reply": reply}) if reply else None
    return None if row is None else Replied(row.question, row.reply, row.base, row.body)


def newest_replies(connection: Connection, letter: Letter, most: int = 50) -> tuple[str, ...]:
    """The ids of our newest messages in the letter's chat."""
    key = {"of_platform": letter.platform, "of_chat": letter.chat, "most": most}
    return tuple(row.reply for row in _NEWEST.rows(connection, key))


def mark(connection: Connection, platform: str, chat: str, name: str) -> str:
    """A mark's value; empty when it was never set."""
    row = _MARK.first(connection, {"of_platform": platform, "of_chat": chat, "of_name": name})
    return "" if row is None else str(row.value)


def set_mark(connection: Connection, platform: str, chat: str, name: str, value: str) -> None:
    """Set a mark; an empty value takes it away."""
    connection.execute(delete(MARKS).where(_OF_MARK), {"of_platform": platform, "of_chat": chat, "of_name": name})
    if value:
        row = {"platform": platform, "chat": chat, "name": name, "value": storable(value)}
        connection.execute(insert(MARKS), row)


def forget(connection: Connection, chat: str, now: datetime) -> None:
    """Delete what the chat's replies answer, but for those of this very moment."""
    connection.execute(delete(REPLIES).where(REPLIES.c.chat == chat, REPLIES.c.at != _stamp(now)))


def move(connection: Connection, old: str, new: str) -> None:
    """Letters and marks of a chat that has a new name. Its messages have new ids, so what its replies answer goes."""
    connection.execute(delete(REPLIES).where(REPLIES.c.chat == old))
    connection.execute(update(LETTERS).where(LETTERS.c.chat == old, LETTERS.c.target == "").values(chat=new))
    connection.execute(delete(LETTERS).where(LETTERS.c.chat == old))
    had = select(MARKS.c.name).where(MARKS.c.chat == new)
    connection.execute(update(MARKS).where(MARKS.c.chat == old, MARKS.c.name.not_in(had)).values(chat=new))


def sweep(connection: Connection, now: datetime) -> None:
    """Delete what is past its time."""
    connection.execute(delete(REPLIES).where(REPLIES.c.at < _stamp(now - REPLIES_KEPT)))
    connection.execute(delete(LETTERS).where(LETTERS.c.at < _stamp(now - LETTERS_KEPT)))
