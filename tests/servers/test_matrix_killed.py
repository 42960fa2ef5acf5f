"""Killed with SIGKILL at random moments, and the server restarted: every question is answered once, in order.

Half of the rooms are encrypted. What was answered is read from the server at the end, not from what a client noticed.
"""

import asyncio
import random
import signal
import time
from collections import Counter
from pathlib import Path

import pytest

from tests.servers.matrix_bot import Bot
from tests.servers.matrix_user import Person, person
from tests.servers.synapse import Synapse

ROOMS, ROUNDS = 20, 25  # 500 messages
KILLS = 20
LIFE_S = (0.3, 4.0)  # a start takes about a second, so some die before they listen
PAUSE_S = 3.0  # between rounds, so that the kills are spread over the messages
PATIENCE_S = 120.0


async def ask(who: Person, rooms: list[str]) -> dict[str, list[str]]:
    """Ask a different thing in every room, round by round; returns the questions of each room in order."""
    asked: dict[str, list[str]] = {room: [] for room in rooms}
    for turn in range(ROUNDS):
        for at, room in enumerate(rooms):
            asked[room].append(await who.say(room, f"{turn * ROOMS + at + 1} oz to ml"))
        await asyncio.sleep(PAUSE_S)
    return asked


async def kill(bot: Bot, chance: random.Random) -> None:
    for _ in range(KILLS):
        await asyncio.sleep(chance.uniform(*LIFE_S))
        assert bot.running, bot.log[-3000:]
        await asyncio.to_thread(bot.end, signal.SIGKILL)
        await asyncio.sleep(chance.uniform(0.0, 0.5))
        bot.start()


async def restart(server: Synapse, after_s: float) -> None:
    await asyncio.sleep(after_s)
    await asyncio.to_thread(server.stop)
    await asyncio.to_thread(server.start)


async def replied_to(who: Person, room: str, bot: Bot) -> list[str]:
    """The questions that the bot's messages in a room answer, in order. The hello answers none."""
    return [seen.replies_to for seen in await who.notices(room, bot.user_id)]


@pytest.mark.servers
@pytest.mark.slow
async def test_every_question_is_answered_once(synapse: Synapse, tmp_path: Path) -> None:
    bot = Bot(synapse, "unkillable", tmp_path / "bot")
    bot.start()
    began = time.monotonic()
    try:
        async with person(synapse, "mate", tmp_path / "mate") as mate:
            rooms = [await mate.room(bot.user_id, encrypted=at % 2 == 1, name=f"bar {at}") for at in range(ROOMS)]
            for room in rooms:
                await mate.hello(room)
            killing = asyncio.create_task(kill(bot, random.Random(1)))
            restarting = asyncio.create_task(restart(synapse, ROUNDS * PAUSE_S / 2))
            asked = await ask(mate, rooms)
            await asyncio.gather(killing, restarting)

            give_up = time.monotonic() + PATIENCE_S
            waiting = set(rooms)
            while waiting and time.monotonic() < give_up:
                waiting -= {room for room in waiting if asked[room][-1] in await replied_to(mate, room, bot)}
                await asyncio.sleep(1.0)
            await asyncio.sleep(3.0)  # for what should not come
            for at, room in enumerate(rooms):
                found = await replied_to(mate, room, bot)
                assert Counter(found) == Counter(["", *asked[room]]), (at, room)
                assert found == ["", *asked[room]], (at, room)
        print(f"{ROOMS * ROUNDS} messages, {KILLS} kills, {time.monotonic() - began:.0f} s")
    finally:
        if bot.running:
            assert bot.end(signal.SIGTERM) in (0, 1)
