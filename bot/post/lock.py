"""Locking a group's house specs and settings to its admins: what asks for it, and what it does to a message.

Who is an admin is the platform's to say. Never here: a chat library, what is locked (bot/desk.py refuses the change).
"""

import re
from collections.abc import Awaitable, Callable
from dataclasses import replace

from bot.post.letters import Incoming
from bot.post.room import PostRoom
from bot.reply import words_post

_ASKED = re.compile(r"(un)?lock(?:\s+(?:the\s+)?(?:house\s+)?(?:specs|settings|it|everything))?[.!]?", re.IGNORECASE)


def asks_to_lock(text: str) -> bool | None:
    """Whether a message asks to lock (True) or to open (False) the group; None when it is about something else."""
    asked = _ASKED.fullmatch(text.strip())
    return None if asked is None else asked[1] is None


async def under_lock(post: PostRoom, incoming: Incoming, is_admin: Callable[[], Awaitable[bool]]) -> Incoming:
    """A group's message as it may be dealt with: locks and opens for admins, and changes nothing while locked.

    Raises MemoryProblem when the memory cannot be asked or told.
    """
    lock = None if incoming.press or incoming.line else asks_to_lock(incoming.text)
    if lock is None:
        if await post.locked(incoming.chat) and not await is_admin():
            return replace(incoming, may_change=False)
        return incoming
    if not await is_admin():
        return replace(incoming, line=words_post.NOT_AN_ADMIN)
    await post.set_locked(incoming.chat, lock)
    return replace(incoming, line=words_post.LOCKED if lock else words_post.UNLOCKED)
