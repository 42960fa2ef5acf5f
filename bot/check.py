"""python -m bot check: is this house in order? One phrase of every kind, the database, and the tokens that are set.

Run by the services before they start. Prints a line for each thing; never a secret.
"""

import asyncio
import os
from collections.abc import Mapping

from bot.config import ConfigProblem, read_common, read_matrix, read_telegram
from bot.desk import Desk
from bot.memory.problem import MemoryProblem
from bot.memory.store import open_memory
from bot.post.letters import CannotServe

#: kind of answer, and a message of that kind
PHRASES: tuple[tuple[str, str], ...] = (
    ("batch", "8 serves: 60 ml gin, 30 ml dry vermouth, 25% water"),
    ("saved", "save that as fog bell"),
    ("listed", "list specs"),
    ("strength", "abv of 50 gin, 25 dry vermouth, 20 water"),
    ("cut", "cut 700 ml from 50% to 40%"),
    ("convert", "2 oz in ml"),
    ("freezer", "will 25% freeze at -18?"),
    ("dilution", "25% water on 90 ml, 16 serves"),
    ("syrup", "1 L of 2:1 syrup"),
    ("cost", "cost of 50 ml gin at 28 for 700 ml"),
    ("bottles", "bottles of gin for 60 serves at 50 ml, 700 ml bottles"),
    ("label", "label for 500 ml at 23.4%"),
    ("setting", "freezer -20"),
    ("help", "help"),
    ("question", "20 negronis please, whatever is in them"),
    ("forgotten", "forget everything"),
)
BUILDS = ("batch", "saved", "listed", "forgotten")  # in one chat, each on the one before


def check(environment: Mapping[str, str] = os.environ) -> int:
    """Check everything; returns the exit code, 0 when all is well."""
    try:
        common = read_common(environment)
        database = common.database.reveal() if common.database else None
        asyncio.run(_phrases())
        print(f"answers: {len(PHRASES)} kinds of message, all as they should be")
        asyncio.run(_database(database))
        print("database: open, and up to date")
        if environment.get("TELEGRAM_TOKEN") or environment.get("TELEGRAM_TOKEN_FILE"):
            from bot.adapters import telegram_serve

            print("telegram:", asyncio.run(telegram_serve.who_we_are(read_telegram(environment))))
        if environment.get("MATRIX_HOMESERVER"):
            print("matrix:", read_matrix(environment).user, "(configured; tried when served)")
    except (ConfigProblem, MemoryProblem, CannotServe) as problem:
        print(f"not in order: {problem}")
        return 1
    return 0


async def _phrases() -> None:
    async with open_memory("sqlite://") as memory:
        desk = Desk(memory)
        for kind, text in PHRASES:
            said = await desk.handle("house" if kind in BUILDS else kind, text)
            if said is None or said.answer.kind != kind or not said.reply.lines:
                raise CannotServe(f"{text!r} was answered with {said.answer.kind if said else 'nothing'}, not {kind}")


async def _database(address: str | None) -> None:
    async with open_memory(address) as memory:
        await memory.run("", lambda connection: None)
