"""Telegram's updates, each taken to the post room: messages, buttons, inline queries, a group that moved.

Never here: what a message is to us (telegram_in.py), how a reply is sent (telegram_out.py), where updates come from
(telegram_serve.py), any arithmetic or wording.
"""

from collections import OrderedDict
from contextlib import suppress
from hashlib import blake2b
from time import monotonic
from typing import Any

from telegram import (
    Bot,
    CallbackQuery,
    InlineQuery,
    InlineQueryResultArticle,
    InputTextMessageContent,
    ReplyParameters,
    Update,
)
from telegram.constants import ChatMemberStatus, ParseMode
from telegram.error import TelegramError

from bot.adapters.telegram_in import Asked, asked, chat_id, chat_name, pressed
from bot.adapters.telegram_out import Telegram
from bot.logs import logger
from bot.post.allow import Allow
from bot.post.letters import Incoming
from bot.post.lock import under_lock
from bot.post.room import PostRoom
from bot.reply import words_post
from bot.reply.render_telegram import to_html
from bot.reply.render_text import to_text

ADMIN_KNOWN_S = 60.0
MOST_REMEMBERED = 1000  # strangers, albums and admins that are held in this process
TOAST = 200  # characters of the notice after a button (Bot API, answerCallbackQuery)
ADMINS = (ChatMemberStatus.OWNER, ChatMemberStatus.ADMINISTRATOR)


class Listener:
    """Takes updates to the post room."""

    def __init__(self, bot: Bot, platform: Telegram, room: PostRoom, allow: Allow) -> None:
        self._bot = bot
        self._platform = platform
        self._room = room
        self._allow = allow
        self._seen: OrderedDict[str, float] = OrderedDict()
        self._admins: OrderedDict[str, tuple[float, bool]] = OrderedDict()

    def note(self, update: Update) -> None:
        """Note which messages exist, before any of them is answered."""
        if update.message is not None:
            self._platform.saw(chat_name(update.message.chat.id), update.message.message_id)

    async def take(self, update: Update) -> None:
        """Deal with one update: it may be acknowledged when this returns. MemoryProblem: it may not."""
        self.note(update)
        message, query = update.message, update.callback_query
        if message is not None and message.migrate_to_chat_id:
            await self._room.move(chat_name(message.chat.id), chat_name(message.migrate_to_chat_id))
        elif update.inline_query is not None:
            await self._inline(update.inline_query)
        elif query is not None and (press := pressed(update)) is not None:
            await self._press(query, press)
        elif (ask := asked(update, self._bot.bot)) is not None:
            await self._message(ask, message.media_group_id if message is not None else None)

    async def _message(self, ask: Asked, album: str | None) -> None:
        incoming = ask.incoming
        if not self._allow.permits(*ask.ids):
            return await self._stranger(ask)
        if album is not None and not self._first_time("album " + album):
            return None
        if ask.group:
            incoming = await under_lock(self._room, incoming, lambda: self._is_admin(ask))
        await self._room.receive(incoming)
        return None

    async def _is_admin(self, ask: Asked) -> bool:
        return ask.by_admin or await self._user_is_admin(ask.incoming.chat, ask.user)

    async def _user_is_admin(self, chat: str, user: int) -> bool:
        key = f"{chat} {user}"
        known = self._admins.get(key)
        if known is not None and monotonic() - known[0] < ADMIN_KNOWN_S:
            return known[1]
        try:
            member = await self._bot.get_chat_member(chat_id(chat), user)
        except TelegramError:
            return False  # for this time: whoever may not be one must not change anything
        self._admins[key] = (monotonic(), member.status in ADMINS)
        _keep_short(self._admins)
        return member.status in ADMINS

    async def _stranger(self, ask: Asked) -> None:
        """One polite line, sent once as it is: nothing about a stranger is stored."""
        if not self._first_time("stranger " + ask.incoming.chat):
            return
        reply = ReplyParameters(int(ask.incoming.question), allow_sending_without_reply=True)
        with suppress(TelegramError):
            await self._bot.send_message(chat_id(ask.incoming.chat), words_post.STRANGER, reply_parameters=reply)

    def _first_time(self, key: str) -> bool:
        if key in self._seen:
            return False
        self._seen[key] = monotonic()
        _keep_short(self._seen)
        return True

    async def _press(self, query: CallbackQuery, press: Incoming) -> None:
        group = press.chat != chat_name(query.from_user.id)
        toast: str | None = None
        if not self._allow.permits(str(chat_id(press.chat)), str(query.from_user.id)):
            toast = words_post.STRANGER
        else:
            if group:
                chat, user = press.chat, query.from_user.id
                press = await under_lock(self._room, press, lambda: self._user_is_admin(chat, user))
            receipt = await self._room.receive(press)
            if receipt.said is None:
                toast = None if receipt.repeated else words_post.TOO_OLD
            elif receipt.letter is None:
                toast = to_text(receipt.said.reply).partition("\n")[0]
        with suppress(TelegramError):  # too late for the notice; the answer was edited all the same
            await query.answer(toast[:TOAST] if toast else None)

    async def _inline(self, query: InlineQuery) -> None:
        """Offer the worked answer to share; what is no request is offered nothing."""
        results = []
        text = query.query.strip()
        if text and self._allow.permits(str(query.from_user.id)):
            said = await self._room.glance(chat_name(query.from_user.id), text)
            if said.answer.kind != "question":
                content = InputTextMessageContent(to_html(said.reply), ParseMode.HTML)
                flat = to_text(said.reply).replace("\n", " · ")
                number = blake2b(flat.encode(), digest_size=16).hexdigest()
                results.append(InlineQueryResultArticle(number, words_post.INLINE_TITLE, content, description=flat[:120]))
        try:
            await query.answer(results, cache_time=0, is_personal=True)
        except TelegramError as error:
            logger(__name__).info("an inline answer came too late", why=type(error).__name__)


def _keep_short(held: OrderedDict[str, Any]) -> None:
    while len(held) > MOST_REMEMBERED:
        held.popitem(last=False)
