"""What the memory costs a message, against reading one amount with pint on its own units in the same run."""

import statistics
import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pint
import pytest

from bot.memory.store import open_memory
from bot.told import HouseSpec, Last, Told
from tests.memory.tools import NOON, Clock, tell

BLOCKS, MESSAGES = 5, 200
AT_MOST = 1.0  # of a pint parse-and-convert, median; measured 0.7 to 0.8


def timed(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


async def test_recall_and_remember_cost_less_than_a_pint_parse(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A bar with thirty house specs asks and is answered: recalled, remembered, committed. Best of five blocks."""
    registry: pint.UnitRegistry[float] = pint.UnitRegistry()
    specs = tuple(HouseSpec(f"spec {number}", "60 gin, 10 vermouth", "x" * 500) for number in range(30))
    ratios = []
    async with open_memory(f"sqlite:///{tmp_path}/memory.db", Clock()) as memory:
        await tell(memory, "bar", Told(specs=specs))
        for block in range(BLOCKS):
            parses = [timed(lambda: registry.parse_expression("1.5 floz").to("ml")) for _ in range(MESSAGES)]
            messages = []
            for number in range(MESSAGES):
                start = time.perf_counter()
                async with memory.conversation("bar") as talk:
                    last = Last(NOON, f"{block} {number} {'x' * 800}")
                    await talk.remember(replace(talk.told, last=last))
                messages.append(time.perf_counter() - start)
            ratios.append(statistics.median(messages) / statistics.median(parses))
    with capsys.disabled():
        print(f"\nmemory: {min(ratios):.2f} of a pint parse-and-convert a message")
    assert min(ratios) <= AT_MOST
