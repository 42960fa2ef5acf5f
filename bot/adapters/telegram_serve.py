"""Serving Telegram from start to end: sign in, say what we can do, take updates by polling or by webhook, stop.

An update is acknowledged (the next offset, or 200) only after the post room has kept its reply.
"""

import asyncio
from collections.abc import Awaitable, Callable
from contextlib import suppress
from typing import Any, TypeVar

from telegram import Bot, BotCommand, Update
from telegram.error import InvalidToken, RetryAfter, TelegramError

from bot.adapters.telegram import Listener
from bot.adapters.telegram_hook import listening
from bot.adapters.telegram_http import CallingBot, Calls
from bot.adapters.telegram_out import Telegram, seconds_of
from bot.adapters.telegram_poll import LONGEST_PAUSE_S, REFUSED, WANTED, by_polling
from bot.config import Telegram as Config
from bot.config import Webhook
from bot.logs import logger
from bot.memory.problem import MemoryProblem
from bot.memory.store import Memory
from bot.post.counts import Counts
from bot.post.letters import CannotServe
from bot.post.room import PostRoom
from bot.reply import words_post

T = TypeVar("T")
GRACE_S = 10.0
LOG = logger(__name__)


def make_bot(config: Config) -> CallingBot:
    """A bot that calls the API of the configuration."""
    return CallingBot(
        config.token.reveal(),
        base_url=config.api + "/bot",
        base_file_url=config.api + "/file/bot",
        request=Calls(config.timeout_s, 64),
        get_updates_request=Calls(config.timeout_s, 2),
    )


async def serve(memory: Memory, config: Config, counts: Counts | None = None) -> None:
    """Serve until cancelled. CannotServe when Telegram does not let us in, or another process polls."""
    bot = make_bot(config)
    try:
        await until_done(bot.initialize)
        platform = Telegram(bot)
        room = PostRoom(memory, platform, counts=counts)
        listener = Listener(bot, platform, room, config.common.allow)
        commands = asyncio.create_task(say_commands(bot))
        await _look_round(bot, platform, room, listener, polls=config.webhook is None)
        await room.open()
        try:
            if config.webhook is not None:
                await _by_webhook(bot, listener, config.webhook)
            else:
                await by_polling(bot, listener.note, listener.take, config.timeout_s)
        finally:
            commands.cancel()
            await room.close(GRACE_S)
    finally:
        await close(bot)


async def _look_round(bot: Bot, platform: Telegram, room: PostRoom, listener: Listener, polls: bool) -> None:
    """Before anything is sent, learn which messages exist: a letter that may have arrived is looked for after them."""
    for letter in await room.waiting():
        platform.saw(letter.chat, max(int(letter.floor or 0), int(letter.question or 0)))
    if polls:
        with suppress(TelegramError):  # polling says what is wrong
            await bot.delete_webhook(drop_pending_updates=False)
            for update in await bot.get_updates(timeout=0, allowed_updates=WANTED):  # seen, not acknowledged
                listener.note(update)


async def say_commands(bot: Bot) -> None:
    """Set the command menu: worth a try, not worth failing for."""
    try:
        await bot.set_my_commands([BotCommand(name, does) for name, does in words_post.COMMANDS])
    except TelegramError as error:
        LOG.warning("the command menu was not set", why=type(error).__name__)


async def until_done(call: Callable[[], Awaitable[T]], most: int | None = None) -> T:
    """Call until it works: the network may be later than we are. most: times, then the error. CannotServe."""
    pause, tries = 0.5, 0
    while True:
        try:
            return await call()
        except InvalidToken:
            raise CannotServe(REFUSED) from None
        except TelegramError as error:
            tries += 1
            if most is not None and tries >= most:
                raise
            LOG.warning("Telegram cannot be reached", why=type(error).__name__)
            pause = min(2.0 * pause, LONGEST_PAUSE_S)
            await asyncio.sleep(seconds_of(error) if isinstance(error, RetryAfter) else pause)


async def _by_webhook(bot: Bot, listener: Listener, webhook: Webhook) -> None:
    async def take(data: dict[str, Any]) -> None:
        try:
            await listener.take(Update.de_json(data, bot))
        except MemoryProblem:
            raise
        except Exception:
            LOG.exception("an update was passed over", update=data["update_id"])

    async with listening(webhook, take):
        secret = webhook.secret.reveal()
        await until_done(lambda: bot.set_webhook(webhook.url, webhook.certificate, allowed_updates=WANTED, secret_token=secret))
        LOG.info("listening", platform="telegram", how="webhook", port=webhook.port)
        await asyncio.Event().wait()


async def close(bot: Bot) -> None:
    """Close the bot's connections, also when it never got as far as signing in."""
    await bot.shutdown()
    await bot.request.shutdown()


async def who_we_are(config: Config) -> str:
    """Try the token: the name of the bot it belongs to. CannotServe when it cannot be tried or is refused."""
    bot = make_bot(config)
    try:
        await until_done(bot.initialize, most=2)
        return f"@{bot.username}"
    except TelegramError as error:
        raise CannotServe(f"Telegram cannot be reached at {config.api}: {type(error).__name__}") from None
    finally:
        await close(bot)
