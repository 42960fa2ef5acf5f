"""Bots in processes of their own, started as a service starts them, to be killed."""

import asyncio
import os
import signal
import sys
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path

ROOT = Path(__file__).parents[2]


class BotProcess:
    """python -m bot serve telegram, with everything it writes kept in a file."""

    words: tuple[str, ...] = ("-W", "error", "-m", "bot", "serve", "telegram")

    def __init__(self, environment: dict[str, str], log: Path) -> None:
        kept = {name: os.environ[name] for name in ("PATH", "HOME", "LANG") if name in os.environ}
        self._environment = kept | {"PYTHONDONTWRITEBYTECODE": ""} | environment
        self.log = log
        self._process: asyncio.subprocess.Process | None = None
        self._read_from = 0

    async def start(self) -> None:
        with self.log.open("ab") as log:
            self._read_from = log.tell()
            command, nothing = (sys.executable, *self.words), asyncio.subprocess.DEVNULL
            self._process = await asyncio.create_subprocess_exec(
                *command, cwd=ROOT, env=self._environment, stdout=log, stderr=log, stdin=nothing
            )

    @property
    def process(self) -> asyncio.subprocess.Process:
        assert self._process is not None
        return self._process

    async def listening(self, seconds: float = 15.0) -> None:
        """Wait until it says that it listens, for the last of its starts."""
        async with asyncio.timeout(seconds):
            while b'"listening"' not in self.log.read_bytes()[self._read_from :]:
                assert self.process.returncode is None, self.log.read_text()
                await asyncio.sleep(0.05)

    async def kill(self) -> None:
        """SIGKILL. It must not have ended by itself before."""
        assert self.process.returncode is None, self.log.read_text()[-3000:]
        os.kill(self.process.pid, signal.SIGKILL)
        await self.process.wait()

    async def stop(self) -> int:
        """SIGTERM; returns the exit code."""
        self.process.terminate()
        async with asyncio.timeout(20):
            return await self.process.wait()


@asynccontextmanager
async def running(*bots: BotProcess) -> AsyncIterator[None]:
    """Start the bots; none is left when the block ends, however it ends."""
    try:
        for bot in bots:
            await bot.start()
        yield
    finally:
        for bot in bots:
            if bot.process.returncode is None:
                bot.process.kill()
                await bot.process.wait()
