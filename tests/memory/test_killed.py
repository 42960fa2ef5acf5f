"""Killed with SIGKILL at random moments: what was confirmed is there, nothing is half written, the file opens."""

import os
import random
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from bot.told import FRESH, Told
from tests.memory.saver import NAMES, body
from tests.memory.tools import query, told_anew

KILLS = {"sqlite": 200, "postgresql": 50}
LIVES = 2.0  # of the time until a child has saved once: so some die before they save, on a slow machine too
A_NEW_DATABASE_EVERY = 20  # so that making one is interrupted too


class Saver:
    """The process that forks children which save and are killed."""

    def __init__(self, process: "subprocess.Popen[str]") -> None:
        self.process = process

    def say(self, line: str) -> None:
        assert self.process.stdin is not None
        self.process.stdin.write(f"{line}\n")
        self.process.stdin.flush()

    def hear(self) -> list[str]:
        assert self.process.stdout is not None
        line = self.process.stdout.readline()
        assert line, "the saver ended by itself"
        return line.split()

    def first_save(self, number: int) -> float:
        """How long a child takes from its start until it has saved once; it is killed then."""
        self.say(f"go {number}")
        child = self.hear()[1]
        began = time.monotonic()
        self.hear()
        took = time.monotonic() - began
        os.kill(int(child), signal.SIGKILL)
        while self.hear() != ["dead"]:
            pass
        return took

    def life(self, first: int, seconds: float) -> list[int]:
        """Let a child save from a number on, and kill it after some seconds; returns what it confirmed."""
        self.say(f"go {first}")
        said, child = self.hear()
        assert said == "child"
        time.sleep(seconds)
        os.kill(int(child), signal.SIGKILL)
        confirmed = []
        while (line := self.hear()) != ["dead"]:
            confirmed.append(int(line[1]))
        return confirmed


@contextmanager
def saver(address: str) -> Iterator[Saver]:
    command = [sys.executable, "-m", "tests.memory.saver", address]
    with subprocess.Popen(
        command, cwd=Path(__file__).parents[2], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    ) as process:
        yield Saver(process)
        process.communicate(timeout=10)
    assert process.returncode == 0


def newest(told: Told) -> dict[str, int]:
    """The number of each spec, once it is seen that each is whole, and so is the one it replaced."""
    found = {}
    for spec in told.specs:
        number = int(spec.text)
        assert spec.body == body(number)
        assert NAMES[number % len(NAMES)] == spec.name
        if spec.previous is not None:
            assert spec.previous_text is not None
            assert spec.previous == body(int(spec.previous_text))
            assert int(spec.previous_text) < number
        found[spec.name] = number
    return found


async def test_no_confirmed_spec_is_lost(address: str, tmp_path: Path) -> None:
    kind = address.partition("+")[0].partition(":")[0]
    chance = random.Random(1)
    confirmed: dict[str, int] = {}
    number = total = 0
    with saver(address) as saving:
        longest_s = LIVES * max(saving.first_save(1000 * n) for n in range(3))
        confirmed = newest(await told_anew(address, "bar"))
        number = max(confirmed.values()) + 1
        for kill in range(KILLS[kind]):
            if kind == "sqlite" and kill % A_NEW_DATABASE_EVERY == 0:
                for file in tmp_path.iterdir():
                    file.unlink()
                confirmed.clear()
            saved = saving.life(number, chance.uniform(0, longest_s))
            total += len(saved)
            confirmed |= {NAMES[one % len(NAMES)]: one for one in saved}
            found = newest(await told_anew(address, "bar"))
            # What is found is what was confirmed, or the one save that was under way.
            under_way = {NAMES[(saved[-1] + 1 if saved else number) % len(NAMES)]}
            for name in confirmed.keys() | found.keys():
                was, now = confirmed.get(name, -1), found.get(name, -1)
                assert now == was or (now > was and name in under_way), (kill, name, was, now)
            confirmed |= found
            number = max([number, *confirmed.values()]) + 1
            if kind == "sqlite":
                assert await query(address, "PRAGMA integrity_check") == [("ok",)]
    assert total > KILLS[kind]  # the children had time to save
    assert await told_anew(address, "another bar") == FRESH
    print(f"{kind}: {KILLS[kind]} kills, {total} confirmed")
