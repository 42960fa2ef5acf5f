"""SQLite: one connection, used where the message is answered; only waiting is done elsewhere.

A message's reading and writing takes less time than handing it to a thread and back (an asynchronous driver
does so for every cursor call), so it is done at once. What may take long never holds up the event loop: the
wait for another process that writes is a sleep, and syncing to the disk is done in a thread.
"""

import asyncio
import sqlite3
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from time import monotonic
from typing import TypeVar

from sqlalchemy import URL, Connection, create_engine
from sqlalchemy.exc import DBAPIError

from bot.memory.migrate import bring_up_to_date
from bot.memory.place import make_private_file
from bot.memory.problem import MemoryProblem

T = TypeVar("T")

PATIENCE_S = 5.0  # how long to wait for another process that writes
PRAGMAS = (
    f"busy_timeout = {PATIENCE_S * 1000:.0f}",  # while opening; see _set_up
    "journal_mode = WAL",
    "synchronous = NORMAL",  # a killed process loses nothing; for power cuts see to_disk
    "foreign_keys = ON",
    "secure_delete = ON",  # what a chat had forgotten is overwritten
    "wal_autocheckpoint = 0",  # it would sync in the event loop; see COMMITS_A_CHECKPOINT
)
COMMITS_A_CHECKPOINT = 256  # commits after which the write-ahead log goes into the file: about 6 MB of log


class Sqlite:
    """An open SQLite database."""

    shared = False  # one process serves a file's chats; others may read it and write to it

    def __init__(self, connection: Connection, driver: sqlite3.Connection) -> None:
        self.connection = connection
        self.driver = driver
        self._turn = asyncio.Lock()  # SQLite has one writer at a time
        self._commits = 0
        self._sending: set[str] = set()

    @classmethod
    def open(cls, url: URL) -> "Sqlite":
        """Create the file if need be and bring it up to date. MemoryProblem when that cannot be done."""
        try:
            make_private_file(url)
            # The connection also goes to the thread that syncs, one at a time.
            engine = create_engine(url, connect_args={"check_same_thread": False})
            connection = engine.connect()
        except OSError as error:
            raise MemoryProblem(f"cannot write the memory at {url.database}: {error.strerror}") from error
        except DBAPIError as error:
            raise MemoryProblem(f"cannot open the memory at {url.database}: {error.orig}") from error
        driver = connection.connection.dbapi_connection
        assert isinstance(driver, sqlite3.Connection)
        back = cls(connection, driver)
        try:
            back._set_up()
        except (DBAPIError, sqlite3.Error) as error:
            back._disconnect()
            said = error.orig if isinstance(error, DBAPIError) else error
            raise MemoryProblem(f"cannot open the memory at {url.database}: {said}") from error
        except BaseException:
            back._disconnect()
            raise
        return back

    def _set_up(self) -> None:
        self.driver.isolation_level = None  # the driver begins nothing by itself
        for pragma in PRAGMAS:
            self.pragma(pragma)
        self.driver.execute("BEGIN IMMEDIATE")  # of two that start at once, one waits and finds it done
        bring_up_to_date(self.connection)
        self.connection.commit()
        self.pragma("busy_timeout = 0")

    def pragma(self, text: str) -> None:
        self.driver.execute(f"PRAGMA {text}").fetchall()

    @asynccontextmanager
    async def transaction(self, chat: str) -> AsyncIterator["_Transaction"]:
        async with self._turn:
            doing = _Transaction(self)
            try:
                yield doing
            finally:
                self.connection.rollback()
                self.driver.rollback()  # also when nothing came after BEGIN; neither does anything after a commit

    async def checkpoint(self, how: str = "PASSIVE") -> None:
        """Sync the write-ahead log and copy it into the file; TRUNCATE also empties it."""
        self._commits = 0
        await asyncio.to_thread(self.pragma, f"wal_checkpoint({how})")

    async def committed(self, to_disk: bool) -> None:
        self._commits += 1
        if to_disk or self._commits >= COMMITS_A_CHECKPOINT:
            await self.checkpoint()

    async def take_turn(self, chat: str) -> bool:
        if chat in self._sending:
            return False
        self._sending.add(chat)
        return True

    async def give_turn(self, chat: str) -> None:
        self._sending.discard(chat)

    async def after_forgetting(self) -> None:
        """Empty the write-ahead log, in which earlier versions of what was deleted may still stand."""
        async with self._turn:
            await self.checkpoint("TRUNCATE")

    async def close(self) -> None:
        async with self._turn:
            self._disconnect()

    def _disconnect(self) -> None:
        self.connection.close()
        self.connection.engine.dispose()


class _Transaction:
    def __init__(self, back: Sqlite) -> None:
        self._back = back
        self._begun = False

    async def step(self, work: Callable[[Connection], T]) -> T:
        if not self._begun:
            await self._begin()
        try:
            return work(self._back.connection)
        except (DBAPIError, sqlite3.Error) as error:
            said = error.orig if isinstance(error, DBAPIError) else error
            raise MemoryProblem(f"the memory failed: {said}") from error

    async def last(self, work: Callable[[Connection], T], to_disk: bool = False) -> T:
        def work_and_commit(connection: Connection) -> T:
            result = work(connection)
            connection.commit()
            self._back.driver.commit()  # of what went to the driver only, SQLAlchemy knows nothing
            return result

        result = await self.step(work_and_commit)
        await self._back.committed(to_disk)
        return result

    async def _begin(self) -> None:
        """Become the writer, or wait until whoever is has done."""
        give_up = monotonic() + PATIENCE_S
        pause = 0.001
        while True:
            try:
                self._back.driver.execute("BEGIN IMMEDIATE")
            except sqlite3.OperationalError as error:
                if error.sqlite_errorcode & 0xFF != sqlite3.SQLITE_BUSY or monotonic() > give_up:
                    raise MemoryProblem(f"the memory failed: {error}") from error
                await asyncio.sleep(pause)
                pause = min(2 * pause, 0.05)
            else:
                self._begun = True
                return
