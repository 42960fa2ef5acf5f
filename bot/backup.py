"""python -m bot backup FILE and restore FILE: the whole memory to one file, and back.

SQLite: a consistent copy while the bot runs. PostgreSQL: pg_dump and pg_restore, from PG_BIN or PATH, whose password
goes by the environment, never by their words. Restoring is for a bot that is stopped.
"""

import os
import sqlite3
import subprocess
import sys
from collections.abc import Callable, Mapping
from contextlib import closing
from pathlib import Path

from bot.config import ConfigProblem, read_common
from bot.memory.place import libpq, make_private_file, read_url
from bot.memory.problem import MemoryProblem


class BackupProblem(Exception):
    """A backup was not made or not put back; says why in one line."""


def backup(file: str, environment: Mapping[str, str] = os.environ) -> int:
    """Write the memory to a new file that only its owner may read. Returns the exit code."""
    return _said(lambda: _backup(Path(file), environment), f"the memory is in {file}")


def restore(file: str, environment: Mapping[str, str] = os.environ) -> int:
    """Put what a backup holds in the place of the memory. Returns the exit code."""
    return _said(lambda: _restore(Path(file), environment), f"the memory is as it was in {file}")


def _said(work: Callable[[], None], done: str) -> int:
    try:
        work()
    except (BackupProblem, ConfigProblem, MemoryProblem) as problem:
        print(f"shiftmaths: {problem}", file=sys.stderr)
        return 1
    except (OSError, sqlite3.Error) as problem:
        print(f"shiftmaths: that did not work: {problem}", file=sys.stderr)
        return 1
    print(done)
    return 0


def _address(environment: Mapping[str, str]) -> str | None:
    database = read_common(environment).database
    return database.reveal() if database else None


def _backup(file: Path, environment: Mapping[str, str]) -> None:
    if file.exists():
        raise BackupProblem(f"{file} is there already")
    url = read_url(_address(environment), environment)
    if url.get_backend_name() == "postgresql":
        os.close(os.open(file, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))
        try:
            _tool("pg_dump", ["--format=custom", "--no-owner", f"--file={file}"], {**environment, **libpq(url)})
        except BaseException:
            file.unlink()
            raise
        return
    source = Path(url.database or "")
    if not source.is_file():
        raise BackupProblem(f"there is no memory at {source}")
    os.close(os.open(file, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))
    _copy(source, file)


def _restore(file: Path, environment: Mapping[str, str]) -> None:
    if not file.is_file():
        raise BackupProblem(f"there is no file {file}")
    url = read_url(_address(environment), environment)
    with file.open("rb") as opened:
        sqlite = opened.read(16) == b"SQLite format 3\0"
    if url.get_backend_name() == "postgresql":
        if sqlite:
            raise BackupProblem(f"{file} is of an SQLite memory, and SHIFTMATHS_DATABASE names PostgreSQL")
        server = {**environment, **libpq(url)}
        words = ["--clean", "--if-exists", "--no-owner", "--single-transaction", "--exit-on-error"]
        _tool("pg_restore", [*words, f"--dbname={url.database or ''}", str(file)], server)
        return
    if not sqlite:
        raise BackupProblem(f"{file} is no backup of an SQLite memory")
    with closing(sqlite3.connect(f"file:{file}?mode=ro", uri=True)) as source:
        if source.execute("PRAGMA integrity_check").fetchone() != ("ok",):
            raise BackupProblem(f"{file} is damaged")
    make_private_file(url)
    _copy(file, Path(url.database or ""))


def _copy(source: Path, target: Path) -> None:
    with closing(sqlite3.connect(f"file:{source}?mode=ro", uri=True)) as one, closing(sqlite3.connect(target)) as other:
        one.backup(other)


def _tool(name: str, words: list[str], environment: dict[str, str]) -> None:
    folder = environment.get("PG_BIN")
    command = str(Path(folder) / name) if folder else name
    try:
        done = subprocess.run([command, *words], env=environment, capture_output=True, text=True)
    except FileNotFoundError:
        raise BackupProblem(f"{name} is not installed; install PostgreSQL's client, or set PG_BIN to its folder") from None
    if done.returncode:
        raise BackupProblem(f"{name} failed: {(done.stderr.strip().splitlines() or ['no reason given'])[-1]}")
