"""Statements compiled once do what SQLAlchemy's own execute does, on both databases: rows, counts, undoing and errors."""

import pytest
from sqlalchemy import Connection, bindparam, insert, select, text, update

from bot.memory.problem import MemoryProblem
from bot.memory.statement import Statement
from bot.memory.store import open_memory
from bot.memory.tables import MARKS

PUT = Statement(insert(MARKS))
NAMED = MARKS.c.name == bindparam("named")
FIND = Statement(select(MARKS).where(NAMED, MARKS.c.value != "").order_by(MARKS.c.chat).limit(bindparam("most")))
CHANGE = Statement(update(MARKS).where(NAMED).values(value="new"))


def put_three(connection: Connection) -> None:
    for chat, value in (("b", "2"), ("a", "1"), ("c", "")):
        assert PUT.execute(connection, {"platform": "p", "chat": chat, "name": "n", "value": value}) == 1


async def test_rows_by_name_and_counts(address: str) -> None:
    async with open_memory(address) as memory:
        await memory.run("a", put_three)
        rows = await memory.run("a", lambda connection: FIND.rows(connection, {"named": "n", "most": 9}))
        assert [(row.platform, row.chat, row.value) for row in rows] == [("p", "a", "1"), ("p", "b", "2")]
        first = await memory.run("a", lambda connection: FIND.first(connection, {"named": "n", "most": 1}))
        assert first is not None
        assert first.chat == "a"
        assert await memory.run("a", lambda connection: FIND.first(connection, {"named": "m", "most": 1})) is None
        assert await memory.run("a", lambda connection: CHANGE.execute(connection, {"named": "n"})) == 3
        rows = await memory.run("a", lambda connection: FIND.rows(connection, {"named": "n", "most": 9}))
        assert [row.value for row in rows] == ["new", "new", "new"]


async def test_what_fails_is_undone_and_said_in_our_words(address: str) -> None:
    async with open_memory(address) as memory:

        def twice(connection: Connection) -> None:
            put_three(connection)
            put_three(connection)

        with pytest.raises(MemoryProblem, match=r"(?i)unique"):
            await memory.run("a", twice)
        assert await memory.run("a", lambda connection: FIND.rows(connection, {"named": "n", "most": 9})) == []
        await memory.run("a", lambda connection: connection.execute(text("DROP TABLE marks")))
        with pytest.raises(MemoryProblem, match="marks"):
            await memory.run("a", put_three)
        async with memory.conversation("a") as talk:
            assert not talk.repeated  # one that failed holds up no other
