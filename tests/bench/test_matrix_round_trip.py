"""From a message sent to its answer received, through a real homeserver: ours beside a bare echo bot's, by turns."""

import time
from pathlib import Path
from statistics import median

import pytest

from tests.servers.matrix_bot import Bot
from tests.servers.matrix_user import Person, person
from tests.servers.synapse import Synapse

MESSAGES = 200
WARM_UP = 10
MOST = 1.2  # times the echo bot's median


async def timed(who: Person, room: str, text: str) -> float:
    began = time.perf_counter()
    await who.ask(room, text)
    return time.perf_counter() - began


@pytest.mark.servers
@pytest.mark.parametrize("encrypted", [False, True], ids=["plain", "encrypted"])
async def test_against_a_bare_echo_bot(synapse: Synapse, tmp_path: Path, encrypted: bool) -> None:
    kind = "encrypted" if encrypted else "plain"
    ours = Bot(synapse, f"timed-{kind}", tmp_path / "ours")
    echo = Bot(synapse, f"echo-{kind}", tmp_path / "echo", module=("tests.servers.matrix_echo", str(tmp_path / "echo")))
    took: dict[str, list[float]] = {"ours": [], "echo": []}
    for bot in (ours, echo):
        bot.start()
    try:
        async with person(synapse, f"timer-{kind}", tmp_path / "keys") as timer:
            rooms = {
                "ours": await timer.room(ours.user_id, encrypted=encrypted),
                "echo": await timer.room(echo.user_id, encrypted=encrypted),
            }
            for n in range(MESSAGES + WARM_UP):
                for name, room in rooms.items():
                    took[name].append(await timed(timer, room, f"{n % 40 + 1} serves of 2:1 gin vermouth with 25% water"))
    finally:
        for bot in (ours, echo):
            bot.end()
    ms = {name: sorted(1000.0 * one for one in all_[WARM_UP:]) for name, all_ in took.items()}
    ratio = median(ms["ours"]) / median(ms["echo"])
    shown = {name: f"p50 {median(all_):.1f} p95 {all_[int(0.95 * len(all_))]:.1f} ms" for name, all_ in ms.items()}
    print(f"{kind}: {shown}, ratio of medians {ratio:.3f}")
    assert ratio <= MOST
