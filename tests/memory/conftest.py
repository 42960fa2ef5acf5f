"""The databases that the memory is tried on: each test with an address runs on SQLite and on PostgreSQL."""

import asyncio
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.memory.server import postgres
from tests.memory.tools import query


@pytest.fixture(scope="session")
def server() -> Iterator[str]:
    with postgres() as url:
        yield url


@pytest.fixture(params=["sqlite", "postgresql"])
def address(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    """The URL of an empty database."""
    if request.param == "sqlite":
        return f"sqlite+aiosqlite:///{tmp_path}/memory.db"
    url: str = request.getfixturevalue("server")
    asyncio.run(query(url, "DROP SCHEMA public CASCADE", "CREATE SCHEMA public"))
    return url
