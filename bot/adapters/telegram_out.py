"""Sending to Telegram: the post room's letters as HTML with buttons, and what each refusal means.

The Bot API has no key that makes a resend harmless. So a message that may have arrived is looked for: an edit to the
text it has already is refused with words of its own. Those words are from memory; the API does not list them.
"""

import json
import os
import re
from datetime import timedelta
from typing import Any, Literal

from telegram.error import BadRequest, ChatMigrated, Forbidden, NetworkError, RetryAfter, TelegramError

from bot.adapters.telegram_http import NEVER_LEFT, CallingBot
from bot.adapters.telegram_in import chat_id, chat_name
from bot.desk import Said
from bot.post.letters import Later, Letter, Moved, NotSent, Undeliverable, Unsure
from bot.post.steps import Step
from bot.reply.render_telegram import to_html

AT_ONCE = 8  # letters on their way: the Bot API allows 30 a second in all (Bots FAQ), and a tenth of a second does for one
LOOKED_AT = 32  # messages after the newest known one, among which a lost one is looked for: those, twice, and as many more
LOOK_ON_S = 0.5  # until looking goes on, when it was cut short
IN_A_ROW = 3
_LINK = re.compile(r"://|\w\.[^\W\d]{2}")  # what a phone would make a link of, quoted from a message
os.environ.setdefault("PTB_TIMEDELTA", "1")  # without it the library warns whenever Telegram says 429


class Telegram:
    """The platform of bot/post for one bot."""

    name = "telegram"
    edits = True
    at_once = AT_ONCE

    def __init__(self, bot: CallingBot) -> None:
        self._bot = bot
        self._newest: dict[str, int] = {}
        self._looked_at: dict[int, int] = {}  # letter -> the next message to look at, when looking was cut short

    def pack(self, said: Said, steps: tuple[Step, ...]) -> str:
        return json.dumps([to_html(said.reply), [[step.label, step.say] for step in steps]], ensure_ascii=False)

    def saw(self, chat: str, message: int) -> None:
        """A message exists: the next one has a higher id. Supergroups count their own, all other chats together."""
        where = _counted(chat)
        self._newest[where] = max(message, self._newest.get(where, 0))
        if len(self._newest) > 10_000:
            self._newest.pop(next(key for key in self._newest if key))

    def floor(self, chat: str) -> str:
        return str(self._newest.get(_counted(chat), 0))

    async def send(self, letter: Letter) -> str:
        """Send or edit it once. Raises what the post room knows."""
        try:
            if letter.target:
                edited = await self._edit(letter, int(letter.target))
                if edited is not None:
                    return letter.target
            fields: dict[str, Any] = _body(letter) | {
                "reply_parameters": {"message_id": int(letter.question), "allow_sending_without_reply": True}
            }
            if letter.thread:
                fields["message_thread_id"] = int(letter.thread)
            sent = await self._bot.call("sendMessage", fields)
        except TelegramError as error:
            raise _meaning(error) from None
        number = int(sent["message_id"])
        self.saw(letter.chat, number)
        return str(number)

    async def find(self, letter: Letter) -> str | None:
        """Look for it among the messages that came after the newest one known before it was sent."""
        if letter.target:
            return None  # an edit does no harm twice
        start = max(int(letter.floor or 0), int(letter.question or 0)) + 1
        begin = self._looked_at.pop(letter.id, start)
        for number in range(begin, start + LOOKED_AT):
            if str(number) in letter.known:
                continue
            try:
                edited = await self._edit(letter, number)
            except TelegramError as error:
                meant = _meaning(error)
                if isinstance(meant, Moved | Undeliverable):
                    raise meant from None
                self._looked_at[letter.id] = number
                raise Unsure(getattr(meant, "seconds", None) or (LOOK_ON_S if number > begin else None)) from None
            if edited is True or (isinstance(edited, dict) and _answers(edited, letter)):
                self.saw(letter.chat, number)
                return str(number)
        return None

    async def _edit(self, letter: Letter, number: int) -> dict[str, Any] | Literal[True] | None:
        """The message as edited, True when it was so before, None when it is not there or not ours."""
        try:
            edited: dict[str, Any] = await self._bot.call("editMessageText", _body(letter) | {"message_id": number})
            return edited
        except BadRequest as error:
            words = error.message.lower()
            if "not modified" in words:
                return True
            if "to edit not found" in words or "can't be edited" in words or "message_id_invalid" in words:
                return None
            raise


def seconds_of(error: RetryAfter) -> float:
    """How long Telegram wants to be left alone."""
    after = error.retry_after
    return after.total_seconds() if isinstance(after, timedelta) else float(after)


def _counted(chat: str) -> str:
    return chat if chat_id(chat) < -1_000_000_000_000 else ""


def _answers(message: dict[str, Any], letter: Letter) -> bool:
    return str(message.get("reply_to_message", {}).get("message_id")) == letter.question


def _body(letter: Letter) -> dict[str, Any]:
    """What a letter's message holds, in the Bot API's own fields: the chat, the text, and its buttons if it has any."""
    html, steps = json.loads(letter.payload)
    fields: dict[str, Any] = {"chat_id": chat_id(letter.chat), "text": html, "parse_mode": "HTML"}
    if steps:
        buttons = [{"text": label, "callback_data": say} for label, say in steps]
        fields["reply_markup"] = {"inline_keyboard": [buttons[at : at + IN_A_ROW] for at in range(0, len(buttons), IN_A_ROW)]}
    if _LINK.search(html):  # no preview of what somebody typed and we quote; not every Bot API server knows the option
        fields["link_preview_options"] = {"is_disabled": True}
    return fields


def _meaning(error: TelegramError) -> NotSent:
    """What an error says about a letter. TimedOut and 5xx are NetworkErrors: it may have arrived all the same."""
    match error:
        case RetryAfter():
            return Later(seconds_of(error))
        case ChatMigrated():
            return Moved(chat_name(error.new_chat_id))
        case Forbidden() | BadRequest():
            return Undeliverable(error.message)
        case NetworkError():
            return Later() if isinstance(error.__cause__, NEVER_LEFT) else Unsure()
        case _:  # the token is refused just now, or Telegram says what no one foresaw: surely nothing was sent
            return Later()
