"""Sending: the letters of a chat one after the other, chats side by side, each until it is sent or cannot be.

A letter is begun in the database before it is sent, so after a crash or a lost answer it is looked for before it is
sent again. Never here: answering, or what a platform is.
"""

import asyncio
from collections.abc import Callable
from dataclasses import replace
from datetime import datetime, timedelta
from functools import partial
from random import random

from bot.logs import logger
from bot.memory import letters
from bot.memory.problem import MemoryProblem
from bot.memory.store import Memory
from bot.post.counts import Counts
from bot.post.letters import Later, Letter, Moved, NotSent, Platform, Undeliverable, Unsure

LATE = timedelta(minutes=15)  # a question or an answer older than this gets no worked answer
LOOK_EVERY_S = 2.0
MOST_FAULTS = 5  # times that our own code may fail on a letter before it is dropped
FIRST_PAUSE_S, LONGEST_PAUSE_S = 0.5, 20.0


class Delivery:
    """Sends what waits. pack_back makes the payload that says we are back."""

    def __init__(
        self, memory: Memory, platform: Platform, clock: Callable[[], datetime], counts: Counts, pack_back: str
    ) -> None:
        self._memory = memory
        self._platform = platform
        self._clock = clock
        self._counts = counts
        self._pack_back = pack_back
        self._at_work: dict[str, asyncio.Task[None]] = {}
        self._slots = asyncio.Semaphore(platform.at_once)
        self._reserved: set[str] = set()
        self._more: set[str] = set()
        self._looked = False
        self._stopping = asyncio.Event()
        self._looking: asyncio.Task[None] | None = None
        self._log = logger(__name__).bind(platform=platform.name)

    async def reserve(self, chat: str) -> bool:
        """Be the one that sends to the chat next, until wake or let_go; False while someone else is."""
        if chat in self._at_work or chat in self._reserved:
            return False
        self._reserved.add(chat)
        taken = False
        try:
            taken = await self._memory.take_turn(chat)
        finally:
            if not taken:
                self._reserved.discard(chat)
        return taken

    async def let_go(self, chat: str) -> None:
        """Give up what was reserved."""
        self._reserved.discard(chat)
        await self._memory.give_turn(chat)

    def ready(self) -> bool:
        """Whether a letter would be sent at once."""
        return not self._slots.locked()

    def may_wait(self, chat: str) -> bool:
        """Whether letters may wait for a chat that we reserved: only if some were left, by us before or by others."""
        return self._memory.shared or not self._looked

    def wake(self, chat: str, first: Letter | None = None) -> None:
        """Send what waits for the chat. first: the only letter that waits, and we reserved the chat."""
        if first is not None:
            self._reserved.discard(chat)
        if chat in self._at_work or chat in self._reserved:
            self._more.add(chat)
            return
        if self._stopping.is_set() and first is None:
            return
        task = asyncio.create_task(self._work(chat, first))
        self._at_work[chat] = task
        task.add_done_callback(lambda done: self._ended(chat))

    async def wait(self, chat: str, seconds: float) -> None:
        """Wait until nothing is being sent to the chat, so many seconds at most."""
        if task := self._at_work.get(chat):
            await asyncio.wait((task,), timeout=seconds)

    def _ended(self, chat: str) -> None:
        self._at_work.pop(chat, None)
        if chat in self._more:
            self._more.discard(chat)
            self.wake(chat)

    async def open(self) -> None:
        """Begin with what is left from before, then look now and then for what another process left."""
        self._looking = asyncio.create_task(self._look())

    async def _look(self) -> None:
        while not self._stopping.is_set():
            try:
                chats = await self._memory.run("", lambda c: letters.waiting_chats(c, self._platform.name))
                for chat in chats:
                    self.wake(chat)
                self._looked = True
            except MemoryProblem as problem:
                self._log.error("the memory failed", error=str(problem))
            await self._pause(LOOK_EVERY_S)

    async def _pause(self, seconds: float) -> None:
        try:
            async with asyncio.timeout(seconds):
                await self._stopping.wait()
        except TimeoutError:
            return

    async def close(self, grace_s: float) -> None:
        """Finish what is being sent, for so many seconds at most; what is left is sent after the next start."""
        self._stopping.set()
        tasks = [*self._at_work.values(), *([self._looking] if self._looking else [])]
        if tasks:
            await asyncio.wait(tasks, timeout=grace_s)
        for task in tasks:
            task.cancel()
        await asyncio.gather(*tasks, return_exceptions=True)

    async def _work(self, chat: str, first: Letter | None) -> None:
        while True:
            try:
                if first is None and not await self._memory.take_turn(chat):
                    return  # who has the turn looks again after giving it
                try:
                    pause = await self._send_waiting(chat, first)
                finally:
                    first = None
                    await self._memory.give_turn(chat)
                if pause is None and chat not in self._more and not await self._missed(chat):
                    return
            except MemoryProblem as problem:
                self._log.error("the memory failed", error=str(problem))
                pause = FIRST_PAUSE_S
            if self._stopping.is_set():
                return
            if pause:
                await self._pause(pause)
                if self._stopping.is_set():
                    return

    async def _missed(self, chat: str) -> bool:
        """Whether another process left a letter for us because we had the turn."""
        if not self._memory.shared:
            return False
        return await self._memory.run(chat, lambda c: letters.waits(c, self._platform.name, chat))

    async def _send_waiting(self, chat: str, first: Letter | None) -> float | None:
        """Send until nothing waits (None), or until the next letter must wait: for how many seconds."""
        if first is not None:
            async with self._slots:
                pause = await self._one(first, begun_now=first.begun)
            if pause is not None or chat not in self._more:
                return pause
        while waiting := await self._waiting(chat):
            for at, letter in enumerate(waiting):
                wait = (letter.due - self._clock()).total_seconds()
                if wait > 0:
                    return wait
                async with self._slots:
                    pause = await self._one(letter, newest=at == len(waiting) - 1)
                if pause is not None:
                    return pause
                if self._stopping.is_set():
                    return 0.0
        return None

    async def _waiting(self, chat: str) -> list[Letter]:
        self._more.discard(chat)  # before looking: what comes after it is looked for again
        return await self._memory.run(chat, lambda c: letters.pending(c, self._platform.name, chat))

    async def _one(self, letter: Letter, *, begun_now: bool = False, newest: bool = True) -> float | None:
        """Send one letter; None when it is done with, else the seconds until it may be tried again."""
        try:
            if letter.begun and not begun_now:
                known = await self._memory.run(letter.chat, lambda c: letters.newest_replies(c, letter))
                found = await self._platform.find(replace(letter, known=known))
                if found is not None:
                    await self._done(letter, found, "found")
                    return None
            if self._clock() - letter.at > LATE and letter.kind in ("reply", "again"):
                if not newest:
                    await self._drop(letter, "late")
                    return None
                letter = replace(letter, payload=self._pack_back, kind="back")
            if not begun_now:
                floor = self._platform.floor(letter.chat)
                letter = replace(letter, begun=True, floor=floor)
                await self._memory.run(letter.chat, lambda c: letters.begin(c, letter, floor))
            if letter.kind == "edit" and not letter.target:
                letter = await self._aimed(letter)
            await self._done(letter, await self._platform.send(letter), "sent")
        except NotSent as problem:
            return await self._not_sent(letter, problem)
        except MemoryProblem:
            raise
        except Exception:  # a fault of ours must not stop the chat for ever
            self._log.exception("sending failed", letter=letter.id)
            hopeless = letter.attempts >= MOST_FAULTS
            return await self._not_sent(letter, Undeliverable("fault") if hopeless else Unsure())
        return None

    async def _aimed(self, letter: Letter) -> Letter:
        """The edit with the message it changes: the reply to its question, which was sent before."""
        was = await self._memory.run(
            letter.chat, lambda c: letters.replied(c, letter.platform, letter.chat, question=letter.question)
        )
        return replace(letter, target=was.reply if was else "")

    async def _done(self, letter: Letter, reply: str, how: str) -> None:
        await self._memory.run(letter.chat, lambda c: letters.sent(c, letter, reply))
        self._counts.letter(how, (self._clock() - letter.at).total_seconds())
        self._log.debug("letter", how=how, letter=letter.id, attempts=letter.attempts + 1)

    async def _drop(self, letter: Letter, reason: str) -> None:
        await self._memory.run(letter.chat, lambda c: letters.drop(c, letter))
        self._counts.letter("dropped", 0.0)
        self._log.warning("a reply was dropped", chat=letter.chat, reason=reason, letter=letter.id)

    async def _not_sent(self, letter: Letter, problem: NotSent) -> float | None:
        match problem:
            case Undeliverable():
                await self._drop(letter, str(problem))
                return None
            case Moved(chat=chat):
                await self._memory.move(letter.chat, chat)
                self._log.info("a chat has a new name", chat=letter.chat, now=chat)
                self.wake(chat)
                return None
            case Later(seconds=(float() | int()) as seconds) | Unsure(seconds=(float() | int()) as seconds):
                pause, begun = seconds, isinstance(problem, Unsure)
            case _:
                pause, begun = self._backoff(letter.attempts), isinstance(problem, Unsure)
        self._counts.again(type(problem).__name__)
        self._log.info("sending again later", letter=letter.id, why=type(problem).__name__, seconds=round(pause, 2))
        due = self._clock() + timedelta(seconds=pause)
        asked_to_wait = isinstance(problem, Later | Unsure) and problem.seconds is not None
        attempts = letter.attempts + (not asked_to_wait)  # a wait that was asked for makes the next no longer
        await self._memory.run(
            letter.chat, partial(letters.later, letter=letter, due=due, begun=begun, attempts=attempts)
        )
        return pause

    @staticmethod
    def _backoff(attempts: int) -> float:
        return min(LONGEST_PAUSE_S, FIRST_PAUSE_S * 2.0 ** min(attempts, 10)) * (0.75 + 0.5 * random())
