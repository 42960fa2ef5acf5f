"""The whole house against the Bot API of botapi.py, in one process: serve, say something, wait for what is shown."""

import asyncio
import socket
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager, suppress

from bot.adapters import telegram_serve
from bot.config import Telegram, read_telegram
from bot.memory.store import open_memory
from tests.telegram.botapi import TOKEN, BotApi, Faults
from tests.telegram.world import World

SECRET = "a-secret-of-the-webhook-1"


def free_port() -> int:
    with socket.socket() as listener:
        listener.bind(("127.0.0.1", 0))
        port: int = listener.getsockname()[1]
        return port


def environment(api: BotApi, *, webhook_port: int = 0, allow: str = "", timeout_s: float = 5.0) -> dict[str, str]:
    """The variables that a bot against this API is started with."""
    found = {
        "TELEGRAM_TOKEN": TOKEN,
        "TELEGRAM_API": api.address,
        "TELEGRAM_TIMEOUT_S": str(timeout_s),
        "SHIFTMATHS_MONITOR": "off",
        "SHIFTMATHS_ALLOW": allow,
    }
    if webhook_port:
        found["TELEGRAM_WEBHOOK_URL"] = f"http://127.0.0.1:{webhook_port}/hook/x"
        found["TELEGRAM_WEBHOOK_LISTEN"] = f"127.0.0.1:{webhook_port}"
        found["TELEGRAM_WEBHOOK_SECRET"] = SECRET
    return found


@asynccontextmanager
async def serving(address: str, config: Telegram) -> AsyncIterator["asyncio.Task[None]"]:
    """A bot until the block ends, which it must do in good order."""
    async with open_memory(address) as memory:
        task = asyncio.create_task(telegram_serve.serve(memory, config))
        try:
            yield task
        finally:
            task.cancel()
            with suppress(asyncio.CancelledError):
                await task


@asynccontextmanager
async def chatting(
    address: str, *, webhook: bool = False, allow: str = "", faults: Faults | None = None, timeout_s: float = 5.0
) -> AsyncIterator[BotApi]:
    """A bot and its API."""
    async with BotApi(World(), faults).running(webhook) as api:
        port = free_port() if webhook else 0
        config = read_telegram(environment(api, webhook_port=port, allow=allow, timeout_s=timeout_s))
        async with serving(address, config):
            yield api


async def until(api: BotApi, true: Callable[[World], object], seconds: float = 8.0) -> None:
    """Wait until something holds in the world."""
    async with asyncio.timeout(seconds):
        while not true(api.world):
            await asyncio.sleep(0.005)


async def quiet(api: BotApi, seconds: float = 0.3) -> int:
    """Wait a while; returns how many messages of the bot's there are in all chats."""
    await asyncio.sleep(seconds)
    return sum(len(messages) for messages in api.world.sent.values())


async def answered(api: BotApi, chat: int, count: int) -> list[str]:
    """Wait for so many messages of the bot's in the chat; returns their texts."""
    await until(api, lambda world: len(world.sent[chat]) >= count)
    return [message.text for _, message in sorted(api.world.sent[chat].items())]
