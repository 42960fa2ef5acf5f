"""Telegram as people and the server see it: chats, messages, updates. Ids are counted as Telegram counts them.

Supergroups count their own messages, all other chats of the bot together. Never here: HTTP, faults.
"""

import asyncio
import re
import time
from collections import defaultdict
from dataclasses import dataclass, field
from html.parser import HTMLParser
from typing import Any

Json = dict[str, Any]
BOT = {"id": 1, "is_bot": True, "first_name": "Shiftmaths", "username": "shiftmaths_bot"}
TAGS = {"b", "strong", "i", "em", "u", "s", "code", "pre", "a", "blockquote", "span", "tg-spoiler"}
WIDEST = 34  # characters in a fixed-width block


class Refused(Exception):
    """A call that the Bot API answers with an error."""

    def __init__(self, code: int, description: str, **parameters: int) -> None:
        super().__init__(description)
        self.code, self.description, self.parameters = code, description, parameters


class _Checker(HTMLParser):
    """Telegram's HTML: known tags, closed in order; everything else escaped."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.open: list[str] = []
        self.text = ""

    def handle_starttag(self, tag: str, attrs: object) -> None:
        if tag not in TAGS:
            raise Refused(400, f'Bad Request: can\'t parse entities: unsupported start tag "{tag}"')
        self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        if not self.open or self.open.pop() != tag:
            raise Refused(400, "Bad Request: can't parse entities: unexpected end tag")

    def handle_data(self, data: str) -> None:
        self.text += data
        if "pre" in self.open:
            wide = [line for line in data.split("\n") if len(line) > WIDEST]
            assert not wide, wide


def plain(html: str) -> str:
    """The text of a message, once its HTML is checked as Telegram checks it."""
    if re.search(r"&(?!(?:lt|gt|amp|quot|#\d+);)", html):
        raise Refused(400, "Bad Request: can't parse entities: bare ampersand")
    checker = _Checker()
    checker.feed(html)
    checker.close()
    if checker.open:
        raise Refused(400, "Bad Request: can't parse entities: unclosed tag")
    if not 0 < len(checker.text) <= 4096:
        raise Refused(400, "Bad Request: message is too long" if checker.text else "Bad Request: message text is empty")
    return checker.text.replace("\u00a0", " ")


@dataclass
class Sent:
    """A message of the bot's: who was answered, what it shows, and every text it showed."""

    question: int | None
    text: str
    html: str
    buttons: list[tuple[str, str]]
    thread: int | None
    edits: int = 0
    wire: tuple[Any, ...] = ()


@dataclass
class World:
    """Chats and updates. blocked: chats that refuse the bot. moved: groups that became supergroups."""

    updates: list[Json] = field(default_factory=list)
    sent: dict[int, dict[int, Sent]] = field(default_factory=lambda: defaultdict(dict))
    people: dict[int, set[int]] = field(default_factory=lambda: defaultdict(set))  # ids of people's messages
    blocked: set[int] = field(default_factory=set)
    moved: dict[int, int] = field(default_factory=dict)
    admins: set[int] = field(default_factory=set)
    counters: dict[int, int] = field(default_factory=lambda: defaultdict(int))
    toasts: list[str | None] = field(default_factory=list)
    shared: list[list[Json]] = field(default_factory=list)
    commands: list[Json] = field(default_factory=list)
    changed: asyncio.Event = field(default_factory=asyncio.Event)
    last_update: int = 1000

    def next_id(self, chat: int) -> int:
        where = chat if chat < -1_000_000_000_000 else 0
        self.counters[where] += 1
        return self.counters[where]

    def push(self, **update: Json) -> int:
        """Something happened; returns the update's id."""
        self.last_update += 1
        self.updates.append({"update_id": self.last_update, **update})
        self.changed.set()
        return self.last_update

    def message(self, chat: int, text: str | None, *, user: int = 0, age_s: float = 0.0, **more: Any) -> Json:
        """A person's message as the API shows it; private where the chat's id is positive."""
        number = self.next_id(chat)
        self.people[chat].add(number)
        kind = "private" if chat > 0 else "supergroup" if chat < -1_000_000_000_000 else "group"
        who = {"id": user or abs(chat), "is_bot": False, "first_name": "Ann"}
        about = {"id": chat, "type": kind, **({"first_name": "Ann"} if chat > 0 else {"title": "Plover"})}
        shown: Json = {"message_id": number, "date": int(time.time() - age_s), "chat": about, "from": who, **more}
        if text is not None:
            shown["text"] = text
            if "entities" not in shown:
                shown["entities"] = _entities(text)
        return shown

    def say(self, chat: int, text: str | None, **more: Any) -> int:
        """A person says something; returns the message's id."""
        message = self.message(chat, text, **more)
        self.push(message=message)
        number: int = message["message_id"]
        return number

    def edit(self, chat: int, number: int, text: str, **more: Any) -> None:
        """A person edits a message."""
        message = self.message(chat, text, **more)
        self.push(edited_message={**message, "message_id": number, "edit_date": int(time.time())})

    def press(self, chat: int, number: int, say: str, user: int = 0) -> None:
        """A person presses a button under one of the bot's messages."""
        shown = self.message(chat, "…", user=user)
        shown |= {"message_id": number, "from": BOT}
        who = {"id": user or abs(chat), "is_bot": False, "first_name": "Ann"}
        self.push(callback_query={"id": str(self.last_update), "from": who, "chat_instance": "1", "data": say, "message": shown})

    def ask_inline(self, user: int, text: str) -> None:
        who = {"id": user, "is_bot": False, "first_name": "Ann"}
        self.push(inline_query={"id": str(self.last_update), "from": who, "query": text, "offset": ""})

    def send(self, chat: int, html: str, wire: tuple[Any, ...], question: int | None, thread: int | None, buttons: Any) -> Json:
        """The bot sends a message."""
        if chat in self.blocked:
            raise Refused(403, "Forbidden: bot was blocked by the user")
        if chat in self.moved:
            new = self.moved[chat]
            raise Refused(400, "Bad Request: group chat was upgraded to a supergroup chat", migrate_to_chat_id=new)
        text = plain(html)
        number = self.next_id(chat)
        known = question if question in self.people[chat] else None
        self.sent[chat][number] = Sent(known, text, html, _buttons(buttons), thread, wire=wire)
        self.changed.set()
        return self._shown(chat, number)

    def change(self, chat: int, number: int, html: str, wire: tuple[Any, ...], buttons: Any) -> Json:
        """The bot edits a message."""
        if number in self.people[chat]:
            raise Refused(400, "Bad Request: message can't be edited")
        message = self.sent[chat].get(number)
        if message is None:
            raise Refused(400, "Bad Request: message to edit not found")
        if message.wire == wire:
            raise Refused(400, "Bad Request: message is not modified: specified new message content is the same")
        message.text, message.html, message.wire = plain(html), html, wire
        message.buttons, message.edits = _buttons(buttons), message.edits + 1
        self.changed.set()
        return self._shown(chat, number)

    def _shown(self, chat: int, number: int) -> Json:
        message = self.sent[chat][number]
        kind = "private" if chat > 0 else "supergroup"
        shown: Json = {"message_id": number, "date": int(time.time()), "from": BOT, "text": message.text}
        shown["chat"] = {"id": chat, "type": kind, "title": "Plover", "first_name": "Ann"}
        if message.question is not None:
            shown["reply_to_message"] = {"message_id": message.question, "date": 1, "chat": shown["chat"]}
        return shown

    def answers(self, chat: int) -> list[int | None]:
        """The questions that the bot's messages answer, in the order of the messages."""
        return [message.question for _, message in sorted(self.sent[chat].items())]


def _entities(text: str) -> list[Json]:
    found = []
    for mark in re.finditer(r"@\w+|^/\w+(?:@\w+)?", text):
        kind = "mention" if mark[0].startswith("@") else "bot_command"
        before = len(text[: mark.start()].encode("utf-16-le")) // 2
        found.append({"type": kind, "offset": before, "length": len(mark[0])})
    return found


def _buttons(markup: Any) -> list[tuple[str, str]]:
    flat = [button for row in (markup or {}).get("inline_keyboard", ()) for button in row]
    for button in flat:
        assert 0 < len(button["callback_data"].encode()) <= 64, button
    return [(button["text"], button["callback_data"]) for button in flat]
