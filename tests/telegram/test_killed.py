"""2,000 messages over 200 chats while the bot is killed 50 times and Telegram fails at random: none lost, none jumbled.

Polling with SQLite and one process; a webhook with PostgreSQL and two processes, of which one is killed each time.
"""

import asyncio
import random
from collections import Counter
from pathlib import Path

import pytest

from tests.memory.conftest import server
from tests.memory.tools import query
from tests.telegram.botapi import BotApi, Faults
from tests.telegram.chatting import SECRET, environment, free_port
from tests.telegram.processes import BotProcess, running
from tests.telegram.world import World

__all__ = ["server"]

MESSAGES, CHATS, KILLS = 2000, 200, 50
TWICE_AT_MOST = MESSAGES // 200 - 1
LIVES_S = (0.2, 3.2)  # a start takes about a second, so some die before they listen


async def ask(api: BotApi, during_s: float, chance: random.Random) -> dict[int, list[int]]:
    """Say everything, spread over the time; returns each chat's questions in order."""
    asked: dict[int, list[int]] = {chat: [] for chat in range(1000, 1000 + CHATS)}
    order = [chat for chat in asked for _ in range(MESSAGES // CHATS)]
    chance.shuffle(order)
    for number, chat in enumerate(order):
        text = (f"{number % 40 + 2} serves: 60 gin, 30 dry vermouth", f"{number % 30 + 1} oz in ml")[number % 2]
        asked[chat].append(api.world.say(chat, text))
        await asyncio.sleep(during_s / MESSAGES)
    return asked


async def kill_often(bots: list[BotProcess], chance: random.Random) -> None:
    for _ in range(KILLS):
        await asyncio.sleep(chance.uniform(*LIVES_S))
        bot = chance.choice(bots)
        await bot.kill()
        await bot.start()


def missing(world: World, asked: dict[int, list[int]]) -> int:
    return sum(len(set(questions) - set(world.answers(chat))) for chat, questions in asked.items())


@pytest.mark.slow
@pytest.mark.parametrize("way", ["polling, SQLite", "webhook, PostgreSQL, two processes"])
async def test_nothing_is_lost_and_hardly_anything_said_twice(
    way: str, tmp_path: Path, request: pytest.FixtureRequest, capsys: pytest.CaptureFixture[str]
) -> None:
    chance = random.Random(4)
    webhook = way.startswith("webhook")
    if webhook:
        address: str = request.getfixturevalue("server")
        await query(address, "DROP SCHEMA public CASCADE", "CREATE SCHEMA public")
    else:
        address = f"sqlite:///{tmp_path}/memory.db"
    async with BotApi(World(), Faults(0.03, 0.02, 0.01, 0.01, 0.05, hang_s=1.5, chance=random.Random(5))).running(webhook) as api:
        bots = []
        for number in range(2 if webhook else 1):
            port = free_port() if webhook else 0
            settings = environment(api, webhook_port=port, timeout_s=1.0)
            if webhook:
                api.targets.append(settings["TELEGRAM_WEBHOOK_URL"])
                api.secret = SECRET
            bots.append(BotProcess(settings | {"SHIFTMATHS_DATABASE": address}, tmp_path / f"log-{number}"))
        async with running(*bots):
            killing = asyncio.create_task(kill_often(bots, chance))
            asked = await ask(api, KILLS * sum(LIVES_S) / 2, chance)
            await killing
            async with asyncio.timeout(60):
                while missing(api.world, asked):
                    await asyncio.sleep(0.1)
            await asyncio.sleep(3.0)  # for what would come twice
            assert [await bot.stop() for bot in bots] == [0] * len(bots)
            twice = 0
            for chat, questions in asked.items():
                answers = api.world.answers(chat)
                twice += len(answers) - len(questions)
                assert list(dict.fromkeys(answers)) == questions, f"chat {chat} is out of order"
            with capsys.disabled():
                done = ", ".join(f"{name} {count}" for name, count in Counter(api.faults.done).items())
                print(f"\n{way}: {MESSAGES} questions, {KILLS} kills ({done}): all answered in order, {twice} twice")
            assert await query(address, "SELECT count(*) FROM letters") == [(0,)]
            assert 0 <= twice <= TWICE_AT_MOST
