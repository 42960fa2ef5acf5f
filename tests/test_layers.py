"""The import rule: which room of the house may know which. Read from the source by ast; nothing is imported.

A message goes one way: adapter, desk, grammar, core, reply. Never import a room further up or one beside;
if a rule here is in the way, the code is in the wrong room.
"""

import ast
import sys
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]

# What a pure room may use of the standard library: no files, no clock, no chance, no other process.
HARMLESS = {
    *("__future__", "abc", "bisect", "collections", "contextlib", "copy", "csv", "dataclasses", "decimal"),
    *("difflib", "enum", "fractions", "functools", "heapq", "html", "itertools", "json", "math", "operator"),
    *("re", "statistics", "string", "textwrap", "types", "typing", "unicodedata"),
}
WORLD_CALLS = {"open", "print", "input", "exec", "eval", "compile", "__import__", "breakpoint"}


@dataclass(frozen=True, slots=True)
class Room:
    """What one place may import besides the harmless part of the standard library."""

    may: frozenset[str]
    pure: bool = False


def room(*may: str, pure: bool = False) -> Room:
    return Room(frozenset(may), pure)


ADAPTERS = ("bot.config", "bot.desk", "bot.logs", "bot.memory.problem", "bot.memory.store.Memory", "bot.post", "bot.reply")

# The longest matching name decides. A place covers the module, what is inside it, and name_more beside it.
ROOMS = {
    "grammar": room("grammar", pure=True),
    "grammar.read": room("grammar", "lark", "pathlib", pure=True),  # reads phrases.lark, once
    "grammar.lexer": room("grammar", "lark", pure=True),
    "grammar.trouble": room("grammar", "lark", pure=True),
    "grammar.names": room("grammar", "rapidfuzz", pure=True),
    "bot.core": room("bot.core", pure=True),
    "bot.core.units": room("bot.core", "pint", "importlib.resources", pure=True),  # reads units.txt, once
    "bot.told": room("datetime", pure=True),
    "bot.answer": room("grammar", "bot.core", "bot.told", "datetime", "io.StringIO", "msgspec", pure=True),
    "bot.reply": room("bot.core", "bot.answer", "bot.told", pure=True),
    "bot.memory": room("bot.told", "sqlalchemy", "alembic"),
    "bot.post": room("bot.core.facts", "bot.desk", "bot.logs", "bot.memory", "bot.reply"),
    "bot.logs": room("structlog"),
    "bot.serve": room("bot", "uvloop"),
    "bot.monitor": room("bot.logs", "bot.post.counts", "prometheus_client"),
    "bot.adapters": room(*ADAPTERS),
    "bot.adapters.console": room(*ADAPTERS, "prompt_toolkit"),
    "bot.adapters.telegram": room(*ADAPTERS, "telegram", "aiohttp"),
    "bot.adapters.matrix": room(*ADAPTERS, "nio"),
    "bot": room("bot", "grammar", "msgspec"),
}
BOTH = ("grammar", "bot.core")  # only bot.answer may know both


def inside(name: str, place: str) -> bool:
    return name == place or name.startswith(place + ".")


def room_of(module: str) -> str:
    fits = [place for place in ROOMS if inside(module, place) or module.startswith(place + "_")]
    return max(fits, key=len)


@dataclass(slots=True)
class Seen:
    """Names a source imports, with the complaints that come up on the way."""

    imports: list[str] = field(default_factory=list)
    complaints: list[str] = field(default_factory=list)


def read(source: str) -> Seen:
    seen = Seen()
    for node in ast.walk(ast.parse(source)):
        match node:
            case ast.Import(names=names):
                seen.imports += [name.name for name in names]
            case ast.ImportFrom(level=0, module=str(module), names=names):
                seen.imports += [f"{module}.{name.name}" for name in names]
            case ast.ImportFrom():
                seen.complaints.append(f"line {node.lineno}: relative import")
            case ast.Call(func=ast.Name(id=name)) if name in WORLD_CALLS:
                seen.complaints.append(f"line {node.lineno}: calls {name}()")
    return seen


def violations(module: str, source: str) -> list[str]:
    """What in the source of the module (its dotted name) breaks the import rule; empty when nothing does."""
    place = room_of(module)
    rule = ROOMS[place]
    seen = read(source)
    found = [line for line in seen.complaints if rule.pure or "relative" in line]
    for name in seen.imports:
        top = name.partition(".")[0]
        if any(inside(name, other) for other in rule.may):
            continue
        if top in ("bot", "grammar") and room_of(name) == place:
            continue
        if top in sys.stdlib_module_names:
            if rule.pure and top not in HARMLESS:
                found.append(f"{place} is pure and may not import {name}")
        else:
            found.append(f"{place} may not import {name}")
    if place == "bot":
        found += [
            f"{module} may not import {name}: only adapters, in their sub-command"
            for name in top_level_imports(source)
            if inside(name, "bot.adapters")
        ]
    if place != "bot.answer" and all(any(inside(name, both) for name in seen.imports) for both in BOTH):
        found.append(f"{module} knows both grammar and bot.core")
    return found


def top_level_imports(source: str) -> list[str]:
    """Imports outside any function: those that every start pays for."""
    tree = ast.parse(source)
    body = [node for node in tree.body if isinstance(node, ast.Import | ast.ImportFrom)]
    return read(ast.unparse(ast.Module(body=list(body), type_ignores=[]))).imports


def sources() -> Iterator[Path]:
    for top in ("bot", "grammar"):
        yield from sorted((ROOT / top).rglob("*.py"))


def module_of(path: Path) -> str:
    parts = path.relative_to(ROOT).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


@pytest.mark.parametrize("path", list(sources()), ids=module_of)
def test_import_rule(path: Path) -> None:
    assert violations(module_of(path), path.read_text(encoding="utf-8")) == []


@pytest.mark.parametrize(
    ("module", "source"),
    [
        ("grammar.frames", "from bot.core.liquid import Liquid"),
        ("grammar.frames", "import lark"),
        ("grammar.clean", "from rapidfuzz import process"),
        ("grammar.read", "from bot import core"),
        ("grammar.read", "import os"),
        ("grammar.words", "from .request import Batch"),
        ("bot.core.liquid", "from grammar.request import Batch"),
        ("bot.core.liquid", "import time"),
        ("bot.core.liquid", "from datetime import datetime"),
        ("bot.core.liquid", "def f():\n    import logging"),
        ("bot.core.liquid", "from pint import UnitRegistry"),
        ("bot.core.liquid", "import numpy"),
        ("bot.core.pantry", "ROWS = open('pantry.toml').read()"),
        ("bot.core.pantry", "from bot.told import Told"),
        ("bot.told", "from bot.core.liquid import Liquid"),
        ("bot.told", "import msgspec"),
        ("bot.answer", "from bot.memory import open_memory"),
        ("bot.answer.batch", "import random"),
        ("bot.answer_batch", "from bot.reply.words import SORRY"),
        ("bot.reply.plain", "from bot.desk import Desk"),
        ("bot.reply.html", "import telegram"),
        ("bot.memory", "from bot.answer import answer"),
        ("bot.memory.store", "from grammar.read import read"),
        ("bot.desk", "import sqlalchemy"),
        ("bot.desk", "from sqlalchemy.ext.asyncio import AsyncEngine"),
        ("bot.desk", "import prompt_toolkit"),
        ("bot.desk", "from bot.core.cut import blend\nfrom grammar.read import read"),
        ("bot.__main__", "from bot.adapters import telegram"),
        ("bot.adapters.telegram", "from bot.adapters.matrix import run"),
        ("bot.adapters.telegram", "from bot.adapters import matrix"),
        ("bot.adapters.telegram", "import nio"),
        ("bot.adapters.matrix", "from telegram.ext import Application"),
        ("bot.adapters.matrix", "from bot.core.liquid import Liquid"),
        ("bot.adapters.console", "from bot.memory import open_memory"),
    ],
)
def test_a_planted_violation_is_caught(module: str, source: str) -> None:
    assert len(violations(module, source)) == 1


@pytest.mark.parametrize(
    ("module", "source"),
    [
        ("grammar.read", "from lark import Lark\nfrom grammar.words import UNITS"),
        ("grammar.names", "from rapidfuzz.distance import OSA"),
        ("bot.core.units", "from importlib.resources import files\nfrom pint import UnitRegistry"),
        ("bot.answer.batch", "from grammar.request import Batch\nfrom bot.core.liquid import Liquid"),
        ("bot.memory.store", "import asyncio\nfrom sqlalchemy import text\nfrom bot.told import Told"),
        ("bot.__main__", "import sys\ndef run():\n    from bot.adapters.telegram import serve"),
        ("bot.adapters.console", "from prompt_toolkit import PromptSession\nfrom bot.desk import Desk"),
    ],
)
def test_what_the_rule_allows(module: str, source: str) -> None:
    assert violations(module, source) == []
