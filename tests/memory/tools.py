"""What the memory's tests share: an invented bar, a clock to move by hand, and a look past the memory."""

from collections.abc import Callable
from datetime import UTC, datetime
from typing import Any, TypeVar

from sqlalchemy import Connection, create_engine, make_url, text
from sqlalchemy.ext.asyncio import create_async_engine
from sqlalchemy.pool import NullPool

from bot.memory.store import Memory, open_memory
from bot.told import HouseSpec, Last, Settings, ShelfBottle, Told

T = TypeVar("T")

NOON = datetime(2026, 5, 1, 12, 0, tzinfo=UTC)
FOG_BELL = HouseSpec("fog bell", "50 gin, 20 dry vermouth", '{"gin": 50}')
PLOVER = Told(
    Settings("imperial", "oz", -20.5, 75.0, 0.8, "€", "uk"),
    (ShelfBottle("gin", 0.462, None, 700.0, 28.0), ShelfBottle("rye")),
    (FOG_BELL, HouseSpec("second watch", "50 rye", "{}", '{"old": 1}', "45 rye")),
    Last(NOON, '{"serves": 8}'),
)


class Clock:
    """A clock that stands still until it is moved."""

    def __init__(self, now: datetime = NOON) -> None:
        self.now = now

    def __call__(self) -> datetime:
        return self.now


async def tell(memory: Memory, chat: str, told: Told) -> None:
    async with memory.conversation(chat) as talk:
        await talk.remember(told)


async def told_by(memory: Memory, chat: str) -> Told:
    async with memory.conversation(chat) as talk:
        return talk.told


async def told_anew(address: str, chat: str, clock: Clock | None = None) -> Told:
    """What a process that starts now is told, with nothing at hand."""
    async with open_memory(address, clock or Clock()) as memory:
        return await told_by(memory, chat)


async def query(address: str, *statements: str, **values: object) -> list[tuple[Any, ...]]:
    """Run statements past the memory, in one transaction; returns the rows of the last."""

    def ask(connection: Connection) -> list[tuple[Any, ...]]:
        rows: list[tuple[Any, ...]] = []
        for statement in statements:
            result = connection.execute(text(statement), values)
            rows = [tuple(row) for row in result] if result.returns_rows else []
        return rows

    return await past_the_memory(address, ask)


async def past_the_memory(address: str, work: Callable[[Connection], T]) -> T:
    """Do work on a connection of its own, in one transaction."""
    url = make_url(address)
    if url.get_backend_name() == "sqlite":
        engine = create_engine(url.set(drivername="sqlite+pysqlite"), poolclass=NullPool)
        with engine.begin() as connection:
            return work(connection)
    server = create_async_engine(url.set(drivername="postgresql+asyncpg"), poolclass=NullPool)
    async with server.begin() as transaction:
        return await transaction.run_sync(work)
