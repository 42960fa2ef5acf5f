"""The memory as the rest of the bot sees it: open it, and hold one conversation a message.

Lives here: which database, when things are written, swept and forgotten, and what was read lately.
Never here: what a spec, a setting or an answer means.
"""

import os
from collections import OrderedDict
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager, suppress
from datetime import UTC, datetime, timedelta
from typing import TypeVar

from sqlalchemy import Connection

from bot.memory import letters, rows
from bot.memory.back import HOUSE, Back, Transaction
from bot.memory.place import read_url
from bot.memory.problem import MemoryProblem
from bot.told import FRESH, LONGEST_NAME, Told

T = TypeVar("T")

SWEEP_EVERY = timedelta(hours=1)
CHATS_AT_HAND = 256  # chats whose lists are held in this process, so that a message need not read them


def now_utc() -> datetime:
    return datetime.now(UTC)


class Talk:
    """One message's view of the memory.

    told: what the chat told us, without a last answer that is past its time.
    repeated: the message was answered before; say nothing.
    """

    __slots__ = ("_forget", "_new", "_transaction", "repeated", "told")

    def __init__(self, told: Told, repeated: bool, transaction: Transaction) -> None:
        self.told = told
        self.repeated = repeated
        self._transaction = transaction
        self._new: Told | None = None
        self._forget = False

    async def do(self, work: Callable[[Connection], T]) -> T:
        """Do work in the conversation's transaction: it is kept or undone with the rest. MemoryProblem."""
        return await self._transaction.step(work)

    async def remember(self, told: Told, *, forget: bool = False) -> None:
        """Have told written when the conversation ends; the last call counts.

        forget: the chat asked for everything to be forgotten, so its message ids go too.
        """
        self._new = FRESH if forget else told
        self._forget = forget


class Memory:
    """An open memory. Made by open_memory."""

    def __init__(self, back: Back, clock: Callable[[], datetime]) -> None:
        self._back = back
        self._clock = clock
        self._known: OrderedDict[str, rows.Kept] = OrderedDict()
        self._swept: datetime | None = None

    @asynccontextmanager
    async def conversation(
        self, chat: str, *, platform: str = "", message: str = ""
    ) -> AsyncIterator[Talk]:
        """One message, one transaction: committed when the block ends, undone when it raises.

        A chat's conversations come one after the other. Send the reply after the block: only then is what it
        says was saved saved. Do nothing slow inside: other chats may be waiting.
        platform and message: the message's id, to answer it once although it may be delivered again.
        MemoryProblem when the database fails; ValueError for an empty, too long or unwritable chat name.
        """
        if not 0 < len(chat) <= LONGEST_NAME or rows.storable(chat) != chat:
            raise ValueError(f"a chat's name must have 1 to {LONGEST_NAME} characters that UTF-8 can write")
        now = self._clock()

        def recall(connection: Connection) -> tuple[rows.Kept, bool]:
            repeated = bool(message) and not rows.claim(connection, platform, chat, message, now)
            return rows.recall(connection, chat, self._known.get(chat, rows.NOTHING)), repeated

        async with self._back.transaction(chat) as transaction:
            kept, repeated = await transaction.step(recall)
            talk = Talk(_without_stale(kept.told, now), repeated, transaction)
            yield talk
            told = talk.told if talk._new is None else talk._new

            def write(connection: Connection) -> rows.Kept:
                if talk._forget:
                    rows.forget_handled(connection, chat, now)
                    letters.forget(connection, chat, now)
                return rows.write(connection, chat, kept, told)

            # Kept in hand only once it is committed: what was undone must not be believed.
            self._known.pop(chat, None)
            kept = await transaction.last(write, to_disk=rows.lasting(told) != rows.lasting(kept.told))
            self._hold(chat, kept)
        if talk._forget:
            await self._back.after_forgetting()
        await self._sweep(now)

    async def run(self, chat: str, work: Callable[[Connection], T]) -> T:
        """Do work on rows that are not what a chat told us, in a transaction of its own. MemoryProblem."""
        async with self._back.transaction(chat) as transaction:
            return await transaction.last(work)

    @property
    def shared(self) -> bool:
        """Whether other processes may be serving the same chats."""
        return self._back.shared

    async def take_turn(self, chat: str) -> bool:
        """Be the one that sends to this chat, until give_turn; False while someone else is, in any process."""
        return await self._back.take_turn(chat)

    async def give_turn(self, chat: str) -> None:
        """Let others send to this chat. A process that dies has given all its turns."""
        await self._back.give_turn(chat)

    async def move(self, old: str, new: str) -> None:
        """Give what one chat told us to another, which keeps what it was told itself. MemoryProblem."""

        def work(connection: Connection) -> None:
            was, now = rows.recall(connection, old), rows.recall(connection, new)
            rows.write(connection, new, now, _joined(was.told, now.told))
            rows.write(connection, old, was, FRESH)
            letters.move(connection, old, new)

        async with self._back.transaction(new) as transaction:
            self._known.pop(old, None)
            self._known.pop(new, None)
            await transaction.last(work, to_disk=True)

    def _hold(self, chat: str, kept: rows.Kept) -> None:
        self._known[chat] = kept
        if len(self._known) > CHATS_AT_HAND:
            self._known.popitem(last=False)

    async def _sweep(self, now: datetime) -> None:
        """Once an hour, drop what is past its time in any chat. A failure waits for the next hour."""
        if self._swept is not None and now - self._swept < SWEEP_EVERY:
            return
        self._swept = now
        with suppress(MemoryProblem):
            async with self._back.transaction(HOUSE) as transaction:
                await transaction.step(lambda connection: letters.sweep(connection, now))
                await transaction.last(lambda connection: rows.sweep(connection, now))

    async def close(self) -> None:
        await self._back.close()


def _joined(was: Told, now: Told) -> Told:
    """What a chat was told, and where it was told nothing, what another was."""
    bottles = {bottle.name: bottle for bottle in (*was.shelf, *now.shelf)}
    specs = {spec.name: spec for spec in (*was.specs, *now.specs)}
    settings = was.settings if now.settings == FRESH.settings else now.settings
    return Told(settings, tuple(bottles.values()), tuple(specs.values()), now.last or was.last)


def _without_stale(told: Told, now: datetime) -> Told:
    if told.last is None or now - told.last.at <= rows.LAST_KEPT:
        return told
    return Told(told.settings, told.shelf, told.specs)


@asynccontextmanager
async def open_memory(
    address: str | None = None, clock: Callable[[], datetime] = now_utc
) -> AsyncIterator[Memory]:
    """The memory at the address, an SQLAlchemy URL; by default SHIFTMATHS_DATABASE, or a file of the user's.

    Makes what is missing and brings it up to date. clock: the time now, aware. MemoryProblem if it cannot be.
    """
    url = read_url(address, os.environ)
    back: Back
    if url.get_backend_name() == "postgresql":
        from bot.memory.postgres import Postgres

        back = await Postgres.open(url)
    else:
        from bot.memory.sqlite import Sqlite

        back = Sqlite.open(url)
    memory = Memory(back, clock)
    try:
        await memory._sweep(clock())
        yield memory
    finally:
        await memory.close()
