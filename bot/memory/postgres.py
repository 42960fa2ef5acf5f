"""PostgreSQL: a pool of connections, chats side by side, one chat's messages in order by a lock in the database."""

import asyncio
from collections.abc import AsyncIterator, Callable, Iterator
from contextlib import asynccontextmanager, contextmanager
from hashlib import blake2b
from typing import TypeVar
from weakref import WeakValueDictionary

from sqlalchemy import URL, BigInteger, Connection, Executable, bindparam, func, select
from sqlalchemy.exc import DBAPIError, SQLAlchemyError
from sqlalchemy.ext.asyncio import AsyncConnection, AsyncEngine, create_async_engine

from bot.memory.back import HOUSE
from bot.memory.migrate import bring_up_to_date
from bot.memory.problem import MemoryProblem

T = TypeVar("T")

_LOCK = select(func.pg_advisory_xact_lock(bindparam("key", type_=BigInteger)))  # until the transaction ends


class Postgres:
    """An open PostgreSQL database."""

    shared = True

    def __init__(self, engine: AsyncEngine) -> None:
        self._engine = engine
        # Waiting here, not in the database, keeps a chat that floods from taking every connection of the pool.
        self._turns: WeakValueDictionary[str, asyncio.Lock] = WeakValueDictionary()
        self._sending = SendingTurns(engine)

    @classmethod
    async def open(cls, url: URL) -> "Postgres":
        """Connect and bring the database up to date. MemoryProblem when that cannot be done."""
        back = cls(create_async_engine(url, pool_pre_ping=True))
        try:
            async with back.transaction(HOUSE) as doing:
                await doing.last(bring_up_to_date)
        except BaseException:
            await back.close()
            raise
        return back

    @asynccontextmanager
    async def transaction(self, chat: str) -> AsyncIterator["_Transaction"]:
        turn = self._turns.setdefault(chat, asyncio.Lock())
        async with turn:
            with _in_our_words():
                connection = await self._engine.connect()
            try:
                with _in_our_words():
                    await connection.execute(_LOCK, {"key": _key(chat)})
                yield _Transaction(connection)
            finally:
                await connection.close()  # undoes what was not committed

    async def take_turn(self, chat: str) -> bool:
        return await self._sending.take(chat)

    async def give_turn(self, chat: str) -> None:
        await self._sending.give(chat)

    async def after_forgetting(self) -> None:
        """Nothing to do: vacuuming is the server's, and its files are not ours to scrub."""

    async def close(self) -> None:
        await self._sending.close()
        await self._engine.dispose()


_TAKE = select(func.pg_try_advisory_lock(bindparam("key", type_=BigInteger)))  # until given, or the session ends
_GIVE = select(func.pg_advisory_unlock(bindparam("key", type_=BigInteger)))


class _Transaction:
    def __init__(self, connection: AsyncConnection) -> None:
        self._connection = connection

    async def step(self, work: Callable[[Connection], T]) -> T:
        with _in_our_words():
            return await self._connection.run_sync(work)

    async def last(self, work: Callable[[Connection], T], to_disk: bool = False) -> T:
        with _in_our_words():  # to_disk: PostgreSQL's commit waits for the disk unless its owner chose otherwise
            result = await self._connection.run_sync(work)
            await self._connection.commit()
        return result


class SendingTurns:
    """Who may send to which chat: one session holds a lock for each, so they all fall when this process dies."""

    def __init__(self, engine: AsyncEngine) -> None:
        self._engine = engine
        self._session: AsyncConnection | None = None
        self._one = asyncio.Lock()  # a session does one thing at a time
        self._held: set[str] = set()

    async def take(self, chat: str) -> bool:
        if chat in self._held:
            return False
        async with self._one:
            taken = await self._ask(_TAKE, chat)
        if taken:
            self._held.add(chat)
        return taken

    async def give(self, chat: str) -> None:
        if chat not in self._held:
            return
        self._held.discard(chat)
        async with self._one:
            if self._session is not None:  # without it the lock has fallen already
                await self._ask(_GIVE, chat)

    async def _ask(self, statement: Executable, chat: str) -> bool:
        with _in_our_words():
            if self._session is None:
                self._session = await (await self._engine.connect()).execution_options(isolation_level="AUTOCOMMIT")
            try:
                return bool((await self._session.execute(statement, {"key": _key("send " + chat)})).scalar())
            except BaseException:
                await self._lose()
                raise

    async def _lose(self) -> None:
        session, self._session = self._session, None
        self._held.clear()
        if session is not None:
            await session.invalidate()
            await session.close()

    async def close(self) -> None:
        if self._session is not None:
            await self._session.close()


def _key(chat: str) -> int:
    """A chat's lock. Two chats with the same one would only wait for each other."""
    return int.from_bytes(blake2b(chat.encode(), digest_size=8).digest(), signed=True)


@contextmanager
def _in_our_words() -> Iterator[None]:
    try:
        yield
    except DBAPIError as error:
        raise MemoryProblem(f"the memory failed: {error.orig}") from error
    except (SQLAlchemyError, OSError) as error:
        raise MemoryProblem(f"the memory cannot be reached: {error}") from error
