"""A chat platform in memory: what was sent is a list, and the next sendings can be made to fail."""

import asyncio
from collections import defaultdict
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from dataclasses import dataclass, field
from datetime import datetime

from bot.desk import Said
from bot.memory.store import open_memory
from bot.post.letters import Incoming, Letter
from bot.post.room import PostRoom
from bot.post.steps import Step
from bot.reply.render_text import to_text
from tests.memory.tools import NOON, Clock

BATCH = "8 serves: 60 gin, 30 dry vermouth, 25% water"


@dataclass
class World:
    """The chats as people see them: (question, text) of each message of ours, by id, and what is to go wrong."""

    messages: dict[str, dict[str, tuple[str, str]]] = field(default_factory=lambda: defaultdict(dict))
    faults: list[Exception] = field(default_factory=list)
    lost: int = 0  # so many answers to a sending are lost although it arrives
    newest: int = 0
    slow_s: float = 0.0

    def texts(self, chat: str) -> list[str]:
        return [text.split("\n")[0] for _, text in self.messages[chat].values()]

    def questions(self, chat: str) -> list[str]:
        return [question for question, _ in self.messages[chat].values()]


class FakePlatform:
    """The post room's end of the world. edits: whether it changes an answer in place."""

    name = "fake"
    at_once = 3

    def __init__(self, world: World, edits: bool = True) -> None:
        self.world = world
        self._edits = edits

    @property
    def edits(self) -> bool:
        return self._edits

    def pack(self, said: Said, steps: tuple[Step, ...]) -> str:
        return to_text(said.reply)

    def floor(self, chat: str) -> str:
        return str(self.world.newest)

    async def send(self, letter: Letter) -> str:
        from bot.post.letters import Unsure

        await asyncio.sleep(self.world.slow_s)
        if self.world.faults:
            raise self.world.faults.pop(0)
        self.world.newest += 1
        reply = (letter.kind == "edit" and letter.target) or str(self.world.newest)
        self.world.messages[letter.chat][reply] = (letter.question, letter.payload)
        if self.world.lost:
            self.world.lost -= 1
            raise Unsure
        return reply

    async def find(self, letter: Letter) -> str | None:
        for reply, (question, text) in self.world.messages[letter.chat].items():
            if (question, text) == (letter.question, letter.payload) and int(reply) > int(letter.floor or 0):
                return reply
        return None


@asynccontextmanager
async def post_room(
    address: str, world: World, clock: Clock | None = None, edits: bool = True
) -> AsyncIterator[PostRoom]:
    clock = clock or Clock()
    async with open_memory(address, clock) as memory:
        room = PostRoom(memory, FakePlatform(world, edits), clock)
        await room.open()
        try:
            yield room
        finally:
            await room.close(1.0)


def said_in(
    chat: str,
    key: str,
    text: str,
    *,
    at: datetime = NOON,
    about: str = "",
    edits: bool = False,
    press: bool = False,
    may_change: bool = True,
) -> Incoming:
    """A message whose id is the part of its key before any dash."""
    return Incoming(chat, key, key.partition("-")[0], at, text, "", about, edits, press, may_change)


async def settled(world: World, chat: str, count: int) -> None:
    """Wait until the chat shows so many messages of ours, and a moment longer for one too many."""
    async with asyncio.timeout(5):
        while len(world.messages[chat]) < count:
            await asyncio.sleep(0.005)
    await asyncio.sleep(0.02)
    assert len(world.messages[chat]) == count
