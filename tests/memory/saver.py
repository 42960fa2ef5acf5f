"""A bot that does nothing but save house specs, to be killed: python -m tests.memory.saver ADDRESS.

One process loads the program and forks a child for every line "go NUMBER" it reads; the child saves specs
numbered from there until it is killed, and prints a line for each one that is saved. A line is written whole.
"""

import asyncio
import os
import sys
import traceback
from dataclasses import replace

import alembic.command  # noqa: F401  # loaded here once, not in every child
import sqlalchemy.dialects.postgresql.asyncpg  # noqa: F401  # loaded here once, not in every child

from bot.memory.store import open_memory
from bot.told import HouseSpec

NAMES = ("fog bell", "second watch", "cargo sour")


def say(line: str) -> None:
    os.write(1, f"{line}\n".encode())


def body(number: int) -> str:
    """A recipe that shows by itself whether it is whole: its number at both ends, of very different lengths."""
    return f"{number} {'x' * (number * 997 % 9000)} {number}"


async def save(address: str, number: int) -> None:
    async with open_memory(address) as memory:
        while True:
            name = NAMES[number % len(NAMES)]
            async with memory.conversation("bar") as talk:
                specs = {spec.name: spec for spec in talk.told.specs}
                spec = HouseSpec(name, str(number), body(number))
                if was := specs.get(name):
                    spec = replace(spec, previous=was.body, previous_text=was.text)
                specs[name] = spec
                await talk.remember(replace(talk.told, specs=tuple(specs.values())))
            say(f"saved {number}")
            number += 1


def main(address: str) -> None:
    for line in sys.stdin:
        number = int(line.split()[1])
        child = os.fork()
        if child == 0:
            try:
                asyncio.run(save(address, number))
            except BaseException:  # whatever ends the saving, the parent's loop must not go on in the child
                traceback.print_exc()
                os._exit(1)
        say(f"child {child}")
        os.waitpid(child, 0)
        say("dead")


if __name__ == "__main__":
    main(sys.argv[1])
