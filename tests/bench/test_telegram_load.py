"""Many at once: 50 chats beside a bare echo bot, a chat that floods beside one that does not, memory over 100,000."""

import asyncio
import os
import subprocess
import sys
import time
from contextlib import AsyncExitStack
from pathlib import Path
from statistics import median

import pytest

from tests.telegram.botapi import TOKEN, BotApi
from tests.telegram.chatting import environment
from tests.telegram.processes import ROOT, BotProcess, running
from tests.telegram.world import World

CHATS, EACH, BLOCKS = 50, 10, 4
LEAST_RATE = 0.8  # of the echo bot's answered messages a second
FLOOD_S, FLOOD_A_SECOND = 6.0, 100
MOST_DELAY_S = 0.25
MEMORY = (1_000, 100_000)
MOST_GROWTH = 1.10


class EchoProcess(BotProcess):
    """The bare echo bot."""

    words = ("-m", "tests.servers.telegram_echo", "poll")


def bot_of(kind: type[BotProcess], api: BotApi, folder: Path) -> BotProcess:
    settings = environment(api) | {
        "SHIFTMATHS_DATABASE": f"sqlite:///{folder}/{kind.__name__}.db",
        "SHIFTMATHS_LOG": "warning",
        "TELEGRAM_TOKEN": TOKEN,
    }
    return kind(settings, folder / f"{kind.__name__}.log")


async def answer_to(api: BotApi, chat: int, text: str, seconds: float = 20.0) -> float:
    """Ask and wait for the reply to it; returns how long that took."""
    before = len(api.world.sent[chat])
    began = time.perf_counter()
    api.world.say(chat, text)
    async with asyncio.timeout(seconds):
        while len(api.world.sent[chat]) == before:
            await asyncio.sleep(0.001)
    return time.perf_counter() - began


async def rate(api: BotApi, start: int) -> float:
    """Answered messages a second with all chats asking at once, each its next when it was answered."""

    async def chat(number: int) -> None:
        for at in range(EACH):
            await answer_to(api, number, f"{at + 2} serves: 60 gin, 30 dry vermouth, 25% water")

    began = time.perf_counter()
    await asyncio.gather(*(chat(start + number) for number in range(CHATS)))
    return CHATS * EACH / (time.perf_counter() - began)


@pytest.mark.slow
async def test_fifty_chats_at_once(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    rates: dict[str, list[float]] = {"ours": [], "echo": []}
    async with AsyncExitStack() as stack:
        apis = {name: await stack.enter_async_context(BotApi(World()).running()) for name in rates}
        bots = [bot_of(BotProcess, apis["ours"], tmp_path), bot_of(EchoProcess, apis["echo"], tmp_path)]
        await stack.enter_async_context(running(*bots))
        for api in apis.values():
            await answer_to(api, 1, "2 oz in ml")
        for block in range(BLOCKS):
            for name, api in apis.items():
                rates[name].append(await rate(api, 1000 * (block + 1)))
    ratio = median(rates["ours"]) / median(rates["echo"])
    with capsys.disabled():
        shown = ", ".join(f"{name} {median(found):.0f}/s" for name, found in rates.items())
        print(f"\n{CHATS} chats at once: {shown}, ratio {ratio:.2f}")
    assert ratio >= LEAST_RATE


@pytest.mark.slow
async def test_a_flood_in_one_chat_delays_no_other(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    async with BotApi(World()).running() as api, running(bot_of(BotProcess, api, tmp_path)):
        await answer_to(api, 1, "2 oz in ml")
        alone = [await answer_to(api, 2, "8 serves: 60 gin, 30 dry vermouth") for _ in range(20)]

        async def flood() -> None:
            began = time.perf_counter()
            for number in range(int(FLOOD_S * FLOOD_A_SECOND)):
                api.world.say(3, f"{number % 40 + 2} serves: 60 gin, 30 dry vermouth")
                await asyncio.sleep(max(0.0, began + (number + 1) / FLOOD_A_SECOND - time.perf_counter()))

        flooding = asyncio.create_task(flood())
        beside = []
        while not flooding.done():
            beside.append(await answer_to(api, 2, "8 serves: 60 gin, 30 dry vermouth"))
            await asyncio.sleep(0.1)
    delay = max(beside) - median(alone)
    with capsys.disabled():
        ms = [f"{1000 * one:.0f} ms" for one in (median(alone), median(beside), max(beside))]
        print(f"\nalone {ms[0]}; beside {FLOOD_A_SECOND} a second in another chat {ms[1]}, at worst {ms[2]}")
    assert delay <= MOST_DELAY_S


@pytest.mark.slow
def test_memory_does_not_grow_with_messages(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    command = [sys.executable, "-m", "tests.bench.telegram_memory", f"sqlite:///{tmp_path}/m.db", *map(str, MEMORY)]
    kept = {name: os.environ[name] for name in ("PATH", "HOME") if name in os.environ}
    done = subprocess.run(command, cwd=ROOT, env=kept, capture_output=True, text=True, timeout=900)
    assert done.returncode == 0, done.stderr[-2000:]
    held = {int(line.split()[0]): float(line.split()[1]) for line in done.stdout.splitlines()}
    growth = held[MEMORY[1]] / held[MEMORY[0]]
    with capsys.disabled():
        shown = ", ".join(f"{mb:.1f} MB after {count}" for count, mb in held.items())
        print(f"\nmemory: {shown}, {growth:.3f} times")
    assert growth <= MOST_GROWTH
