"""Work on the memory that must not be given up: what has arrived is not lost because the database is away."""

import asyncio
from collections.abc import Awaitable, Callable
from typing import TypeVar

from bot.logs import logger
from bot.memory.problem import MemoryProblem

T = TypeVar("T")
FIRST_PAUSE_S, LONGEST_PAUSE_S = 0.2, 30.0


async def insist(work: Callable[[], Awaitable[T]]) -> T:
    """Do it, again and again while the memory fails. Raises whatever else it raises."""
    pause = FIRST_PAUSE_S
    while True:
        try:
            return await work()
        except MemoryProblem as problem:
            logger(__name__).error("the memory failed", error=str(problem))
            await asyncio.sleep(pause)
            pause = min(2.0 * pause, LONGEST_PAUSE_S)
