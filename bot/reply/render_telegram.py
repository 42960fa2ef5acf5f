"""A Reply as Telegram's HTML (parse mode "HTML"): tables in <pre>, everything typed by someone escaped.

Only the tags Telegram knows; the only file that knows them. A message holds 4096 characters there.
"""

from typing import assert_never

from bot.reply.markup import blocks, pre, safe
from bot.reply.spans import Line, Reply, Span
from bot.reply.words import CUT_SHORT

LONGEST = 4000  # below Telegram's 4096, with room for the line that says it was cut


def to_html(reply: Reply) -> str:
    """The reply as Telegram HTML, cut between lines when it is longer than a message may be."""
    out: list[str] = []
    length = 0
    for table, lines in blocks(reply):
        for block in [lines] if table else [[line] for line in lines]:
            html = pre(block) if table else "".join([_span(span) for span in block[0].spans])
            length += len(html) + 1
            if length > LONGEST:
                return "\n".join([*out, CUT_SHORT])
            out.append(html)
    return "\n".join(out)


def _span(span: Span) -> str:
    text = safe(span.text)
    match span.kind:
        case "text" | "warn":
            return text
        case "head" | "amount" | "verdict":
            return f"<b>{text}</b>"
        case "note":
            return f"<i>{text}</i>"
        case "say":
            return f"<code>{text}</code>"
        case _:
            assert_never(span.kind)


__all__ = ["LONGEST", "Line", "to_html"]
