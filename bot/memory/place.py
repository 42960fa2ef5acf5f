"""Where the memory is: reading the address, and making a private file for it.

Never here: opening the database.
"""

import os
from collections.abc import Mapping
from pathlib import Path

from sqlalchemy import URL, make_url
from sqlalchemy.exc import ArgumentError

from bot.memory.problem import MemoryProblem

VARIABLE = "SHIFTMATHS_DATABASE"


def default_url(environment: Mapping[str, str]) -> URL:
    """A file in the user's data folder, by the XDG Base Directory Specification 0.8 (relative values ignored)."""
    data = Path(environment.get("XDG_DATA_HOME") or "")
    if not data.is_absolute():
        data = Path.home() / ".local" / "share"
    return URL.create("sqlite", database=str(data / "shiftmaths" / "shiftmaths.db"))


def read_url(address: str | None, environment: Mapping[str, str]) -> URL:
    """The database's URL with the driver we use, whichever driver the address names.

    address None: the environment's SHIFTMATHS_DATABASE, or the default file. MemoryProblem if it is no URL, or
    names another kind of database.
    """
    address = address or environment.get(VARIABLE)
    if not address:
        return default_url(environment).set(drivername="sqlite+pysqlite")
    try:
        url = make_url(address)
    except (ArgumentError, ValueError):  # their words would repeat the address, password included
        raise MemoryProblem(f"{VARIABLE} is not a database URL; try sqlite:////path/to/file.db") from None
    match url.drivername.partition("+")[0]:
        case "sqlite":
            return url.set(drivername="sqlite+pysqlite")
        case "postgresql" | "postgres":
            return url.set(drivername="postgresql+asyncpg")
        case other:
            raise MemoryProblem(f"{VARIABLE} names {other}; the memory needs sqlite or postgresql")


def libpq(url: URL) -> dict[str, str]:
    """A PostgreSQL URL as the environment of PostgreSQL's own tools, so that no process shows its password."""
    named = {
        "PGHOST": url.host or url.query.get("host"),
        "PGPORT": url.port,
        "PGUSER": url.username,
        "PGPASSWORD": url.password,
        "PGDATABASE": url.database,
    }
    return {name: str(value) for name, value in named.items() if value}


def make_private_file(url: URL) -> None:
    """Create an SQLite file that only its owner may read, and the folders above it that are missing.

    What exists is left as it is. OSError when the place cannot be written.
    """
    name = url.database
    if not name or name == ":memory:" or name.startswith("file:"):
        return
    path = Path(name)
    missing = [folder for folder in path.parents if not folder.exists()]
    for folder in reversed(missing):
        folder.mkdir(mode=0o700, exist_ok=True)
    os.close(os.open(path, os.O_CREAT | os.O_RDWR | os.O_CLOEXEC, 0o600))
