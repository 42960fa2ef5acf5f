"""The console: a prompt with history, one message from the command line, or JSON lines for scripts.

Takes text in, hands it to the desk, writes the reply out. No arithmetic and no wording of answers here.
"""

import io
import json
import sys
from collections.abc import AsyncIterator, Iterator
from typing import Any, TextIO

from bot.desk import Desk, answer_once, open_desk
from bot.reply.render_text import to_text

HELLO = (
    "Type a batch, a strength or a conversion, then Enter:",
    "  8 serves of 1:1 gin vermouth with 25% water",
    "“help” shows more. Ctrl-D quits.",
)
PROMPT = "bar> "
CONSOLE_CHAT = "console"


def ask_once(text: str) -> int:
    """Answer one message that belongs to no chat. Returns the exit code: 1 for a question, as scripts expect."""
    said = answer_once(text)
    print(to_text(said.reply))
    return 1 if said.answer.kind == "question" else 0


async def ask_in_chat(chat: str, text: str) -> int:
    """Answer one message of a chat, with its memory."""
    async with open_desk() as desk:
        said = await desk.handle(chat, text)
    assert said is not None  # no message id was given, so it cannot be a repetition
    print(to_text(said.reply))
    return 1 if said.answer.kind == "question" else 0


async def chat() -> int:
    """The console chat. Enter sends, Ctrl-D quits, Ctrl-C drops the line."""
    print("\n".join(HELLO))
    async with open_desk() as desk:
        async for text in _typed():
            if text.strip():
                said = await desk.handle(CONSOLE_CHAT, text)
                assert said is not None
                print(to_text(said.reply) + "\n")
    print("Bye.")
    return 0


async def _typed() -> AsyncIterator[str]:
    """Lines as typed: with editing and history on a terminal, plainly from a pipe."""
    if not sys.stdin.isatty():
        for line in sys.stdin:
            yield line.rstrip("\n")
        return
    from prompt_toolkit import PromptSession
    from prompt_toolkit.history import InMemoryHistory

    session: PromptSession[str] = PromptSession(PROMPT, history=InMemoryHistory())
    while True:
        try:
            yield await session.prompt_async()
        except KeyboardInterrupt:
            continue
        except EOFError:
            return


async def json_lines(source: TextIO, out: TextIO) -> int:
    """One JSON object a line in, one a line out, flushed, in order. Lines without a chat have no memory."""
    async with open_desk() as desk:
        for line in _lines(source):
            answer = await _answer_line(desk, line)
            out.write(json.dumps(answer, ensure_ascii=False, allow_nan=False) + "\n")
            out.flush()
    return 0


def _lines(source: TextIO) -> Iterator[str]:
    for line in source:
        if line.strip():
            yield line


async def _answer_line(desk: Desk, line: str) -> dict[str, Any]:
    try:
        asked = json.loads(line)
    except (ValueError, RecursionError):
        asked = None
    text = asked.get("text") if isinstance(asked, dict) else None
    if not isinstance(text, str):
        return {
            "kind": "question",
            "text": 'That line is no message. Try: {"chat": "bar-1", "text": "help"}',
            "problem": {"code": "unread"},
        }  # fmt: skip
    chat_name = asked.get("chat")
    if not isinstance(chat_name, str | int) or isinstance(chat_name, bool) or str(chat_name) == "":
        return answer_once(text).json()
    said = await desk.handle(str(chat_name)[:200], text)
    assert said is not None
    return said.json()


def run_chat() -> int:
    """The console chat, to its end."""
    import asyncio  # a tenth of one message's start-up

    return asyncio.run(chat())


def run_json_lines() -> int:
    """JSON lines from standard input to standard output, to their end."""
    for stream, errors in ((sys.stdin, "replace"), (sys.stdout, "strict")):
        if isinstance(stream, io.TextIOWrapper):  # a test may stand something else in its place
            stream.reconfigure(encoding="utf-8", errors=errors)
    import asyncio

    return asyncio.run(json_lines(sys.stdin, sys.stdout))
