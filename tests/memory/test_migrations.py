"""From an empty database and from the one before, a start leads to the tables of today, and loses nothing."""

from dataclasses import replace

import pytest
from alembic.autogenerate import compare_metadata
from alembic.config import Config
from alembic.runtime.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import Connection

from bot.memory.migrate import HEAD, bring_up_to_date
from bot.memory.problem import MemoryProblem
from bot.memory.store import open_memory
from bot.memory.tables import METADATA
from bot.told import FRESH
from tests.memory.tools import PLOVER, Clock, past_the_memory, query, tell, told_anew

BEFORE = "0001"  # the first; the steps between are passed on the way
TOLD_BEFORE = replace(PLOVER, specs=tuple(replace(spec, previous=None, previous_text=None) for spec in PLOVER.specs))


def differences(connection: Connection) -> list[object]:
    """What Alembic would change to make the database as tables.py says."""
    found: list[object] = compare_metadata(MigrationContext.configure(connection), METADATA)
    return found


def test_the_steps_make_one_line_that_ends_at_head() -> None:
    config = Config()
    config.set_main_option("script_location", "bot.memory:migrations")
    steps = [step.revision for step in ScriptDirectory.from_config(config).walk_revisions()]
    assert steps == [HEAD, "0002", BEFORE]


async def test_from_nothing(address: str) -> None:
    assert await told_anew(address, "bar") == FRESH
    assert await past_the_memory(address, differences) == []
    assert await query(address, "SELECT version_num FROM alembic_version") == [(HEAD,)]


async def test_from_the_one_before(address: str) -> None:
    """A database of the version before, filled as that version filled it."""
    await past_the_memory(address, lambda connection: bring_up_to_date(connection, BEFORE))
    assert await past_the_memory(address, differences) != []
    last = round(PLOVER.last.at.timestamp()) * 1_000_000 if PLOVER.last else None
    await query(
        address,
        "INSERT INTO chats VALUES ('bar', 1, 'imperial', 'oz', -20.5, 75.0, 0.8, '€', 'uk', :last, :body)",
        "INSERT INTO shelf VALUES ('bar', 'gin', 0, 0.462, NULL, 700.0, 28.0)",
        "INSERT INTO shelf VALUES ('bar', 'rye', 1, NULL, NULL, NULL, NULL)",
        "INSERT INTO specs VALUES ('bar', 'fog bell', 0, '50 gin, 20 dry vermouth', :fog_bell)",
        "INSERT INTO specs VALUES ('bar', 'second watch', 1, '50 rye', '{}')",
        "INSERT INTO handled VALUES ('p', 'bar', '1', :last)",
        last=last,
        body='{"serves": 8}',
        fog_bell='{"gin": 50}',
    )
    assert await told_anew(address, "bar") == TOLD_BEFORE
    assert await past_the_memory(address, differences) == []
    async with open_memory(address, Clock()) as memory:
        async with memory.conversation("bar", platform="p", message="1") as talk:
            assert talk.repeated
        await tell(memory, "bar", PLOVER)
    assert await told_anew(address, "bar") == PLOVER


async def test_a_database_of_a_newer_version_is_left_alone(address: str) -> None:
    await told_anew(address, "bar")
    await query(address, "UPDATE alembic_version SET version_num = '9999'")
    with pytest.raises(MemoryProblem, match="newer version"):
        await told_anew(address, "bar")
    assert await query(address, "SELECT version_num FROM alembic_version") == [("9999",)]


async def test_a_migration_that_fails_leaves_what_was(address: str) -> None:
    """The step to today cannot add a column that is there already; the database stays as it was, and usable."""
    await past_the_memory(address, lambda connection: bring_up_to_date(connection, BEFORE))
    await query(address, "ALTER TABLE specs ADD COLUMN previous_text TEXT")
    with pytest.raises(MemoryProblem):
        await told_anew(address, "bar")
    assert await query(address, "SELECT version_num FROM alembic_version") == [(BEFORE,)]
    await query(address, "ALTER TABLE specs DROP COLUMN previous_text")
    assert await told_anew(address, "bar") == FRESH
