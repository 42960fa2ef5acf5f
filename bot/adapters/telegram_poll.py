"""Long polling: updates are acknowledged, by the next offset, only when each is dealt with.

Never here: what an update means.
"""

import asyncio
from collections import defaultdict
from collections.abc import Awaitable, Callable, Sequence

from telegram import Bot, Update
from telegram.error import Conflict, InvalidToken, RetryAfter, TelegramError

from bot.adapters.telegram_out import seconds_of
from bot.logs import logger
from bot.post.insist import insist
from bot.post.letters import CannotServe

Take = Callable[[Update], Awaitable[None]]
POLL_S = 20
LONGEST_PAUSE_S = 30.0
WANTED = [Update.MESSAGE, Update.EDITED_MESSAGE, Update.CALLBACK_QUERY, Update.INLINE_QUERY]
REFUSED = "Telegram refuses TELEGRAM_TOKEN; get the token from BotFather again"
LOG = logger(__name__)


async def by_polling(bot: Bot, note: Callable[[Update], None], take: Take, timeout_s: float) -> None:
    """Note and take updates until cancelled. CannotServe when the token is refused, or another process polls."""
    LOG.info("listening", platform="telegram", how="polling")
    offset: int | None = None
    pause = 0.5
    while True:
        try:
            got = await bot.get_updates(
                offset, timeout=POLL_S, allowed_updates=WANTED, read_timeout=timeout_s
            )
            pause = 0.5
        except Conflict:
            raise CannotServe("another process polls with the same TELEGRAM_TOKEN, or a webhook is set; stop it") from None
        except InvalidToken:
            raise CannotServe(REFUSED) from None
        except TelegramError as error:
            LOG.warning("polling failed", why=type(error).__name__)
            await asyncio.sleep(seconds_of(error) if isinstance(error, RetryAfter) else pause)
            pause = min(2.0 * pause, LONGEST_PAUSE_S)
            continue
        if got:
            for update in got:
                note(update)
            await take_all(take, got)
            offset = got[-1].update_id + 1


async def take_all(take: Take, updates: Sequence[Update]) -> None:
    """Take a batch: the updates of a chat in their order, chats side by side; returns when all are dealt with."""
    by_chat: dict[int, list[Update]] = defaultdict(list)
    for update in updates:
        chat = update.effective_chat
        by_chat[chat.id if chat is not None else -update.update_id].append(update)

    async def in_order(ours: list[Update]) -> None:
        for update in ours:
            await take_once(take, update)

    await asyncio.gather(*(in_order(ours) for ours in by_chat.values()))


async def take_once(take: Take, update: Update) -> None:
    """Take one update, again and again while the memory fails. A fault of ours is logged and passed over."""
    try:
        await insist(lambda: take(update))
    except Exception:
        LOG.exception("an update was passed over", update=update.update_id)
