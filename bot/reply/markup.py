"""What both HTML renderers share: escaping, and runs of table lines gathered into blocks."""

import re
from html import escape
from itertools import groupby

from bot.reply.spans import Line, Reply

_NUMBER_AND_UNIT = re.compile(
    r"(?<=[\d¼½¾]) (?=(?:mL|cL|L|g|kg|oz|°C|°F|proof|serves?)\b)|(?<=×) (?=\d)|(?<=\d) (?=×)"
)


def safe(text: str) -> str:
    """Text with &, < and > escaped, and no line break between a number and its unit."""
    return escape(_NUMBER_AND_UNIT.sub("\u00a0", text), quote=False)


def blocks(reply: Reply) -> list[tuple[bool, list[Line]]]:
    """The lines in runs: (is it a table, its lines)."""
    return [(table, list(run)) for table, run in groupby(reply.lines, key=lambda line: line.table)]


def pre(lines: list[Line]) -> str:
    """A table in a fixed-width face: escaped, no markup inside, plain spaces."""
    return "<pre>" + "\n".join([escape(line.text, quote=False) for line in lines]) + "</pre>"
