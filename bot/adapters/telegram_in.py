"""Reading Telegram's updates: is it for us, and what the post room is to be given of it. Pure: no calls, no clock.

Private chats: everything. Groups: a mention, a reply to us, a command. Never here: sending, answering.
"""

from dataclasses import dataclass

from telegram import Message, Update, User
from telegram.constants import ChatType, MessageEntityType

from bot.post.letters import Incoming
from bot.reply import words_post

PREFIX = "telegram:"
COMMANDS = {name for name, _ in words_post.COMMANDS}
_MARKED = (MessageEntityType.MENTION, MessageEntityType.TEXT_MENTION, MessageEntityType.BOT_COMMAND)


def chat_name(chat_id: int) -> str:
    """The memory's name of a chat."""
    return f"{PREFIX}{chat_id}"


def chat_id(chat: str) -> int:
    """The chat id in a memory's name."""
    return int(chat.removeprefix(PREFIX))


@dataclass(frozen=True, slots=True)
class Asked:
    """A message for us, and whose it is."""

    incoming: Incoming
    user: int
    group: bool
    by_admin: bool = False  # said in the group's own name, which only admins can

    @property
    def ids(self) -> tuple[str, str]:
        """What an allow list may name."""
        return self.incoming.chat.removeprefix(PREFIX), str(self.user)


def asked(update: Update, me: User) -> Asked | None:
    """What a message or an edited one asks of us; None when it is not for us."""
    message = update.message or update.edited_message
    if message is None or message.chat.type == ChatType.CHANNEL:
        return None
    in_its_name = message.sender_chat is not None and message.sender_chat.id == message.chat.id
    writer = message.from_user
    if writer is None or (writer.is_bot and not in_its_name) or (message.via_bot is not None and message.via_bot.id == me.id):
        return None
    group = message.chat.type != ChatType.PRIVATE
    edits = update.edited_message is not None
    if message.text is None:
        if group or edits or message.effective_attachment is None:
            return None
        return Asked(_incoming(update, message, line=words_post.TEXT_ONLY), writer.id, False)
    text, named = _text(message, me)
    to_us = message.reply_to_message is not None and _is(message.reply_to_message.from_user, me)
    if text is None or (group and not named and not to_us):
        return None
    if text == "start":
        return Asked(_incoming(update, message, line=words_post.HELLO), writer.id, group)
    about = str(message.reply_to_message.message_id) if to_us and message.reply_to_message and not edits else ""
    incoming = _incoming(update, message, text, about, edits)
    return Asked(incoming, writer.id, group, in_its_name)


def pressed(update: Update) -> Incoming | None:
    """A button under one of our answers."""
    query = update.callback_query
    if query is None or query.message is None or not query.data:
        return None
    name, about = chat_name(query.message.chat.id), str(query.message.message_id)
    return Incoming(name, f"button {query.id}", about, query.message.date, query.data, about=about, press=True)


def _incoming(
    update: Update, message: Message, text: str = "", about: str = "", edits: bool = False, line: str = ""
) -> Incoming:
    thread = str(message.message_thread_id) if message.is_topic_message and message.message_thread_id else ""
    sent_at = (message.edit_date if edits else None) or message.date
    name, question = chat_name(message.chat.id), str(message.message_id)
    key = f"{update.update_id} {question} {sent_at.timestamp():.0f}"  # update ids alone may begin anew (Bot API, Update)
    return Incoming(name, key, question, sent_at, text, thread, about, edits, line=line)


def _is(user: User | None, me: User) -> bool:
    return user is not None and user.id == me.id


def _text(message: Message, me: User) -> tuple[str | None, bool]:
    """The text without our name and without the mark of a command, and whether it names us; None: for another bot."""
    text, named = message.text or "", False
    ours = f"@{me.username}".lower()
    for entity, marked in message.parse_entities(list(_MARKED)).items():
        if entity.type == MessageEntityType.BOT_COMMAND:
            if entity.offset != 0:
                continue
            command, at, bot = marked[1:].partition("@")
            if at and "@" + bot.lower() != ours:
                return None, False
            rest = text[len(marked) :].strip()
            text = rest if command.lower() == "settings" and rest else f"{command.lower()} {rest}".strip()
            named = named or bool(at) or command.lower() in COMMANDS
        elif marked.lower() == ours or _is(entity.user, me):
            text, named = text.replace(marked, " ", 1), True
    return text.strip(" ,:") if named else text, named
