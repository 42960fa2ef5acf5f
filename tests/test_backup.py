"""The commands of backup and restore, run as an operator runs them, on both databases; and the service file."""

import asyncio
import os
import shutil
import stat
import subprocess
import sys
from pathlib import Path

import pytest

from bot.told import FRESH
from tests.memory.conftest import address, server
from tests.memory.server import _binaries
from tests.memory.tools import PLOVER, Clock, told_anew

__all__ = ["address", "server"]

ROOT = Path(__file__).parents[1]


def run(where: str, *words: str) -> "subprocess.CompletedProcess[str]":
    kept = {name: os.environ[name] for name in ("PATH", "HOME") if name in os.environ}
    settings = {"SHIFTMATHS_DATABASE": where, "PG_BIN": str(_binaries())}
    command = [sys.executable, "-P", "-W", "error", "-m", "bot", *words]
    return subprocess.run(
        command, env=kept | settings | {"PYTHONPATH": str(ROOT)}, capture_output=True, text=True, timeout=60
    )


async def test_a_backup_brings_everything_back(address: str, tmp_path: Path) -> None:
    from bot.memory.store import open_memory

    file = str(tmp_path / "night.backup")
    async with open_memory(address, Clock()) as memory:  # in use while the backup is made
        async with memory.conversation("bar") as talk:
            await talk.remember(PLOVER)
        done = await asyncio.to_thread(run, address, "backup", file)
        assert (done.returncode, done.stderr) == (0, "")
        async with memory.conversation("bar") as talk:
            await talk.remember(FRESH)
        async with memory.conversation("pub") as talk:
            await talk.remember(PLOVER)
    assert stat.S_IMODE(os.stat(file).st_mode) == 0o600
    again = await asyncio.to_thread(run, address, "backup", file)
    assert (again.returncode, again.stderr) == (1, f"shiftmaths: {file} is there already\n")
    done = await asyncio.to_thread(run, address, "restore", file)
    assert (done.returncode, done.stderr) == (0, "")
    assert await told_anew(address, "bar") == PLOVER
    assert await told_anew(address, "pub") == FRESH


@pytest.mark.parametrize("content", [b"", b"nothing of ours", b"SQLite format 3\0" + b"\xff" * 500])
async def test_what_is_no_backup_changes_nothing(tmp_path: Path, content: bytes) -> None:
    where = f"sqlite:///{tmp_path}/memory.db"
    from bot.memory.store import open_memory

    async with open_memory(where, Clock()) as memory, memory.conversation("bar") as talk:
        await talk.remember(PLOVER)
    (tmp_path / "file").write_bytes(content)
    done = await asyncio.to_thread(run, where, "restore", str(tmp_path / "file"))
    assert (done.returncode, done.stderr.count("\n")) == (1, 1)
    assert await told_anew(where, "bar") == PLOVER


UNITS = sorted(path.name for path in (ROOT / "deploy").glob("*.service"))
NEEDS_SYSTEMD = pytest.mark.skipif(shutil.which("systemd-analyze") is None, reason="systemd-analyze is not installed")


@NEEDS_SYSTEMD
@pytest.mark.parametrize("unit", UNITS)
def test_the_service_is_sandboxed(unit: str) -> None:
    """Exposure under 3.0 of 10, as systemd-analyze reckons it."""
    command = ["systemd-analyze", "security", "--offline=true", "--threshold=30", "--no-pager", str(ROOT / "deploy" / unit)]
    done = subprocess.run(command, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout[-300:] + done.stderr


@NEEDS_SYSTEMD
@pytest.mark.parametrize("unit", UNITS)
def test_the_service_file_is_without_fault(unit: str, tmp_path: Path) -> None:
    text = (ROOT / "deploy" / unit).read_text().replace("/opt/shiftmaths/.venv/bin/python", sys.executable)
    (tmp_path / unit).write_text(text)
    done = subprocess.run(["systemd-analyze", "verify", str(tmp_path / unit)], capture_output=True, text=True)
    assert (done.returncode, done.stderr) == (0, "")
