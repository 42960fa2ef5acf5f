"""The post room: what arrives is answered and its reply kept, in one transaction; then it is sent.

When receive returns, the platform may be told that the message is dealt with: it is answered once, whatever happens.
What Telegram and Matrix share is here and beside it. Never here: a chat library, an answer, a sentence.
"""

from collections.abc import Callable
from dataclasses import replace
from datetime import datetime, timedelta
from functools import partial
from time import perf_counter

from bot.desk import Desk, Said, follows_nothing_later, now_utc
from bot.logs import logger
from bot.memory import letters
from bot.memory.letters import Letter, Replied
from bot.memory.problem import MemoryProblem
from bot.memory.store import Memory, Talk
from bot.post.counts import Counts
from bot.post.delivery import LATE, Delivery
from bot.post.letters import Incoming, Platform, Receipt
from bot.post.steps import steps
from bot.reply import words_post
from bot.reply.spans import Reply, line

BACK_AFTER = timedelta(seconds=3)  # so that of a backlog only the newest question gets the line
LEAVES_FIRST_S = 0.02  # how long a letter may take to be sent before the platform hears that we are done: our own choice
CHANGES_ONLY = ("saved", "forgotten", "setting", "question")  # kinds that would wipe out the answer a button is under


class PostRoom:
    """Takes what arrives on one platform, and sends what is to be said there."""

    def __init__(
        self,
        memory: Memory,
        platform: Platform,
        clock: Callable[[], datetime] = now_utc,
        counts: Counts | None = None,
    ) -> None:
        self._memory = memory
        self._desk = Desk(memory, clock)
        self._platform = platform
        self._clock = clock
        self._counts = counts or Counts()
        self._delivery = Delivery(memory, platform, clock, self._counts, self._packed_line(words_post.BACK))
        self._log = logger(__name__).bind(platform=platform.name)

    async def open(self) -> None:
        """Start sending, with what is left from before."""
        await self._delivery.open()

    async def waiting(self) -> list[Letter]:
        """What is left from before: the letters that wait to be sent."""
        return await self._memory.run("", lambda c: letters.waiting(c, self._platform.name))

    async def close(self, grace_s: float = 10.0) -> None:
        """Finish what is in hand; what is left is sent after the next start."""
        await self._delivery.close(grace_s)

    async def receive(self, incoming: Incoming) -> Receipt:
        """Deal with one thing that arrived: when this returns it may be acknowledged.

        MemoryProblem when the database fails: then nothing is kept, and it must be delivered again.
        """
        chat = incoming.chat
        began = perf_counter()
        mine = await self._delivery.reserve(chat)
        first: Letter | None = None
        try:
            what, receipt = await self._received(incoming, alone=mine)
            if mine and receipt.alone:
                first = receipt.letter
        finally:
            if mine and first is None:
                await self._delivery.let_go(chat)
            self._delivery.wake(chat, first)
        took = perf_counter() - began
        if first is not None:
            await self._delivery.wait(chat, LEAVES_FIRST_S)
        self._counts.received(what, took)
        self._log.info("received", what=what, chat=chat, ms=round(took * 1000.0, 1))
        return receipt

    async def _received(self, incoming: Incoming, alone: bool) -> tuple[str, Receipt]:
        try:
            return await self._answered(incoming, alone, sorry=False)
        except MemoryProblem:
            raise
        except Exception:  # a fault of ours: nothing of it was kept; say so, once, and go on
            self._log.exception("answering failed", chat=incoming.chat)
            return await self._answered(incoming, alone, sorry=True)

    async def _answered(self, incoming: Incoming, alone: bool, sorry: bool) -> tuple[str, Receipt]:
        name, chat = self._platform.name, incoming.chat
        async with self._memory.conversation(chat, platform=name, message=incoming.key) as talk:
            if talk.repeated:
                return "repeated", Receipt(repeated=True)
            if sorry:
                letter = self._line(incoming, words_post.SORRY)
                return "sorry", await self._keep(talk, letter, alone)
            if incoming.line:
                return "line", await self._keep(talk, self._line(incoming, incoming.line), alone)
            if not incoming.press and self._clock() - incoming.sent_at > LATE:
                letter = self._line(incoming, words_post.BACK)
                letter = replace(letter, kind="back", due=letter.at + BACK_AFTER)
                await talk.do(partial(letters.put_back, letter=letter))
                return "late", Receipt()
            return await self._worked_out(talk, incoming, alone)

    async def _worked_out(self, talk: Talk, incoming: Incoming, alone: bool) -> tuple[str, Receipt]:
        was = await self._works_from(talk, incoming)
        if incoming.press and (was is None or not was.body):
            return "too old", Receipt()
        base, is_last = None, True
        if was is not None:
            base = was.base if incoming.edits else was.body
            is_last = not incoming.edits or follows_nothing_later(talk.told, was.base, was.body)
        before = base if base is not None else talk.told.last.body if talk.told.last else ""
        said = await self._desk.answer(
            talk, incoming.text, base=base, may_change=incoming.may_change, is_last=is_last
        )
        what = "asked" if said.answer.kind == "question" else "answered"
        if incoming.press and said.answer.kind in CHANGES_ONLY:
            return what, Receipt(None, said)
        letter = self._letter(incoming, said, was)
        kept = await self._keep(talk, letter, alone)
        if (incoming.edits or incoming.press) and was is not None:
            base = was.base
            await talk.do(partial(letters.answered_anew, letter=letter, base=base, body=said.body))
        else:
            await talk.do(partial(letters.note_reply, letter=letter, base=before, body=said.body))
        return what, replace(kept, said=said)

    async def _works_from(self, talk: Talk, incoming: Incoming) -> Replied | None:
        """The reply this works from: the one under its button, the one it replies to, or the one to what it edits."""
        name, chat = self._platform.name, incoming.chat
        if incoming.edits:
            return await talk.do(lambda c: letters.replied(c, name, chat, question=incoming.question))
        if not incoming.about:
            return None
        was = await talk.do(lambda c: letters.replied(c, name, chat, reply=incoming.about))
        return was if was is not None and (was.body or incoming.press) else None

    def _letter(self, incoming: Incoming, said: Said, was: Replied | None) -> Letter:
        payload = self._platform.pack(said, steps(said.answer, said.specs) if said.body else ())
        question, kind, target = incoming.question, "reply", ""
        if incoming.press and was is not None:
            question, kind, target = was.question, "edit", incoming.about
        elif incoming.edits and was is not None:
            kind, target = ("edit" if self._platform.edits else "again"), was.reply
        return self._made(incoming, payload, question, kind, target)

    def _line(self, incoming: Incoming, text: str) -> Letter:
        return self._made(incoming, self._packed_line(text), incoming.question, "line", "")

    def _packed_line(self, text: str) -> str:
        from bot.core.facts import Answer

        return self._platform.pack(Said(Answer("help"), Reply((line("text", text),))), ())

    def _made(self, incoming: Incoming, payload: str, question: str, kind: str, target: str) -> Letter:
        now = self._clock()
        return Letter(
            self._platform.name, incoming.chat, question, payload, now, now, kind, incoming.thread, target
        )

    async def _keep(self, talk: Talk, letter: Letter, alone: bool) -> Receipt:
        """Keep the letter; begun, when nothing is before it and it is sent as soon as it is kept."""
        alone = alone and (letter.kind != "edit" or bool(letter.target))
        if alone and self._delivery.may_wait(letter.chat):
            alone = not await talk.do(lambda c: letters.waits(c, letter.platform, letter.chat))
        if alone and self._delivery.ready():
            letter = replace(letter, begun=True, floor=self._platform.floor(letter.chat))
        return Receipt(await talk.do(partial(letters.put, letter=letter)), alone=alone)

    async def glance(self, chat: str, text: str) -> Said:
        """Answer a message with what the chat told us, keeping nothing of it: for a preview."""
        return await self._desk.glance(chat, text)

    async def move(self, old: str, new: str) -> None:
        """A chat has a new name: its memory and its letters go there."""
        await self._memory.move(old, new)
        self._delivery.wake(new)

    async def mark(self, name: str, chat: str = "") -> str:
        """A small text that is kept, of the platform or of a chat; "" when it was never set."""
        return await self._memory.run(chat, lambda c: letters.mark(c, self._platform.name, chat, name))

    async def set_mark(self, name: str, value: str, chat: str = "") -> None:
        """Keep a small text; an empty one takes it away."""
        await self._memory.run(chat, lambda c: letters.set_mark(c, self._platform.name, chat, name, value))

    async def locked(self, chat: str) -> bool:
        """Whether only admins may change the chat's house specs and settings."""
        return bool(await self.mark("locked", chat))

    async def set_locked(self, chat: str, yes: bool) -> None:
        """Lock or open a chat's house specs and settings."""
        await self.set_mark("locked", "yes" if yes else "", chat)
