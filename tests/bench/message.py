"""A message read, worked out and worded, against one pint parse-and-convert of "1.5 floz" in the same run.

python -m tests.bench.message   prints: median and 99th percentile as multiples of pint's, the same with memory on SQLite,
and how long messages and hostile strings grow. Goals: median at most 7, 99th percentile at most 25, growth no worse than
linear; with memory at most one pint parse more.
"""

import asyncio
import itertools
import statistics
import tempfile
import time
import tomllib
from collections.abc import Callable
from functools import partial
from pathlib import Path

import pint

from bot.answer.turn import turn
from bot.desk import Desk, answer_once, now_utc
from bot.memory.store import open_memory
from bot.reply.render_text import to_text
from bot.reply.say import say
from bot.told import FRESH

CASES = Path(__file__).parent.parent / "cases"
ROUNDS = 5


def phrases() -> list[str]:
    """Every batch, strength and conversion phrase of the cases that needs no earlier message."""
    out: list[str] = []
    for path in sorted(CASES.glob("*.toml")):
        if path.stem.startswith(("batch", "strength", "convert")):
            rows = tomllib.loads(path.read_text("utf-8"))["case"]
            out.extend(say for row in rows if not row.get("after") for say in row["say"])
    return out


def timed(work: Callable[[], object]) -> float:
    """Seconds one call takes."""
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def spread(times: list[float]) -> tuple[float, float]:
    """Median and 99th percentile."""
    return statistics.median(times), statistics.quantiles(times, n=100)[98]


def answer(text: str) -> str:
    """Read, compute, word."""
    return to_text(say(turn(text, FRESH, now_utc(), remembers=False).answer))


def growth(unit: str, sizes: tuple[int, ...]) -> list[float]:
    """Seconds per thousand characters at each size, best of three."""
    texts = [(unit * (size // len(unit) + 1))[:size] for size in sizes]
    return [min(timed(partial(answer_once, text)) for _ in range(3)) / len(text) * 1000 for text in texts]


async def remembered(texts: list[str]) -> list[float]:
    """Seconds a message with its chat's memory on SQLite takes."""
    times: list[float] = []
    with tempfile.TemporaryDirectory() as folder:
        async with open_memory(f"sqlite:///{folder}/bench.db") as memory:
            desk = Desk(memory)
            for n, text in enumerate(itertools.chain.from_iterable([texts] * ROUNDS)):
                start = time.perf_counter()
                said = await desk.handle(f"chat-{n % 50}", text)
                assert said is not None
                to_text(said.reply)
                times.append(time.perf_counter() - start)
    return times


def main() -> None:
    """Print the ratios."""
    registry: pint.UnitRegistry[float] = pint.UnitRegistry()
    texts = phrases()
    for text in texts:
        answer(text)
    base: list[float] = []
    ours: list[float] = []
    for _ in range(ROUNDS):
        for text in texts:
            base.append(timed(lambda: registry.Quantity("1.5 floz").to("ml")))
            ours.append(timed(partial(answer, text)))
    base_median, base_99 = spread(base)
    for name, times in (("message", ours), ("message with memory", asyncio.run(remembered(texts)))):
        median, high = spread(times)
        print(
            f"{name}: median {median * 1e6:.0f} µs = {median / base_median:.2f} × pint ({base_median * 1e6:.0f} µs), "
            f"99th percentile {high * 1e6:.0f} µs = {high / base_99:.2f} × pint's ({base_99 * 1e6:.0f} µs)"
        )
    recipe = "45 ml bourbon\n30 ml sweet vermouth\n2 dash aromatic bitters\n"
    for name, unit, sizes in (
        ("pasted recipe", recipe, (125, 250, 500, 1000)),
        ("unknown words", "zorb glim frant ", (1000, 2000, 5000, 10000)),
        ("digits", "1", (1000, 2000, 5000, 10000)),
        ("brackets", "((((", (1000, 2000, 5000, 10000)),
        ("numbers", "1:2/3-4 ", (1000, 2000, 5000, 10000)),
    ):
        per_thousand = growth(unit, sizes)
        shown = ", ".join(f"{size}: {t * 1000:.2f} ms" for size, t in zip(sizes, per_thousand, strict=True))
        print(f"{name}, per 1,000 characters at {shown}")


if __name__ == "__main__":
    main()
