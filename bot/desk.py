"""The desk: one message in, one reply out. Recall what the chat told us, answer, remember.

The only shell round the pure core: clock and memory are given to it, so a test needs no patching. Adapters know the
desk and nothing behind it. Nothing here knows a chat platform, a word of the language, or a number.
"""

import logging
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Any

from bot.answer.asked import answered_before
from bot.answer.turn import Turn, start_quickly, turn
from bot.core.facts import Answer, Problem
from bot.reply import words_post
from bot.reply.json_answer import to_json
from bot.reply.say import say
from bot.reply.spans import Reply, line
from bot.told import FRESH, Last, Told

__all__ = ["Desk", "Said", "answer_once", "now_utc", "open_desk", "said", "start_quickly"]

if TYPE_CHECKING:
    from bot.memory.store import Memory, Talk


@dataclass(frozen=True, slots=True)
class Said:
    """A reply with the facts it says, and what a next step builds on.

    body: the request it answers, as the memory keeps one; "" when nothing can follow. specs: house specs there are now.
    """

    answer: Answer
    reply: Reply
    body: str = ""
    specs: tuple[str, ...] = ()

    def json(self) -> dict[str, Any]:
        """The JSON answer of the README."""
        return to_json(self.answer, self.reply)


def now_utc() -> datetime:
    return datetime.now(UTC)


def said(made: Turn) -> Said:
    """The reply of a turn."""
    return Said(made.answer, say(made.answer))


def answer_once(text: str, clock: Callable[[], datetime] = now_utc) -> Said:
    """Answer a message that belongs to no chat: nothing is recalled, nothing kept."""
    return safely(text, FRESH, clock(), remembers=False)[0]


def safely(text: str, told: Told, now: datetime, *, remembers: bool = True) -> tuple[Said, Turn]:
    """The turn of a message and its reply. A bug of ours is logged and becomes a question; nothing is kept of it."""
    try:
        made = turn(text, told, now, remembers=remembers)
        return said(made), made
    except Exception:
        logging.getLogger(__name__).exception("a message could not be answered")
        made = Turn(Answer("question", problem=Problem("unread", (0, len(text)), clip(text))), told)
        return said(made), made


def clip(text: str) -> str:
    """The first words of a message, for a question about it."""
    flat = " ".join(text.split())
    return flat if len(flat) <= 40 else flat[:39] + "…"


class Desk:
    """Answers the messages of chats, with their memory."""

    def __init__(self, memory: "Memory", clock: Callable[[], datetime] = now_utc) -> None:
        self._memory = memory
        self._clock = clock

    async def handle(self, chat: str, text: str, *, platform: str = "", message: str = "") -> Said | None:
        """Answer one message of a chat, and keep what it told us before the reply is given.

        message is the platform's id of it: None is returned when it was answered before. Raises what the memory raises.
        """
        async with self._memory.conversation(chat, platform=platform, message=message) as talk:
            return None if talk.repeated else await self.answer(talk, text)

    async def answer(
        self, talk: "Talk", text: str, *, base: str | None = None, may_change: bool = True, is_last: bool = True
    ) -> Said:
        """Answer one message inside a conversation; what it told us is kept when that ends.

        base: the request to work from in the place of the last one ("" for none). may_change False: house specs,
        shelf and settings stay as they are, and the reply says so. is_last False: follow-ups go on from where they were.
        """
        now = self._clock()
        told = talk.told
        if base is not None:
            told = replace(told, last=Last(now, base) if base else None)
        reply, made = safely(text, told, now)
        if not may_change and (made.forget or _kept(made.told) != _kept(told)):
            refused = Answer("question", problem=Problem("locked"))
            return Said(refused, Reply((line("text", words_post.ONLY_ADMINS),)))
        answered = made.told.last is not told.last and made.told.last is not None
        last = made.told.last if answered and is_last else talk.told.last
        if made.forget or _kept(made.told) != _kept(told) or last is not talk.told.last:
            await talk.remember(replace(made.told, last=last), forget=made.forget)
        body = made.told.last.body if answered and made.answer.kind != "question" and made.told.last is not None else ""
        return replace(reply, body=body, specs=tuple(spec.name for spec in made.told.specs))

    async def glance(self, chat: str, text: str) -> Said:
        """Answer a message with what a chat told us, and keep nothing of it."""
        async with self._memory.conversation(chat) as talk:
            return safely(text, talk.told, self._clock(), remembers=False)[0]


def follows_nothing_later(told: Told, base: str, body: str) -> bool:
    """Whether nothing was answered since a reply that worked from base and left body; "" for a question back."""
    last = told.last.body if told.last is not None else ""
    return last == body or (not body and answered_before(last) == answered_before(base))


def _kept(told: Told) -> tuple[object, ...]:
    return told.settings, told.shelf, told.specs


@asynccontextmanager
async def open_desk() -> AsyncIterator[Desk]:
    """A desk with the memory that SHIFTMATHS_DATABASE names. Raises MemoryProblem when it cannot be opened."""
    from bot.memory.store import open_memory  # a message without a chat never loads the database library

    async with open_memory() as memory:
        yield Desk(memory)
