"""A Reply for Matrix: the plain body and the formatted body (org.matrix.custom.html), with its allowed tags only."""

from typing import assert_never

from bot.reply.markup import blocks, pre, safe
from bot.reply.render_text import to_text
from bot.reply.spans import Reply, Span


def to_matrix(reply: Reply) -> tuple[str, str]:
    """(body, formatted_body) of an m.notice."""
    out: list[str] = []
    for table, lines in blocks(reply):
        if table:
            out.append(pre(lines))
        else:
            out.append("<br>".join(["".join([_span(span) for span in line.spans]) for line in lines]))
    return to_text(reply), "".join(out)


def _span(span: Span) -> str:
    text = safe(span.text)
    match span.kind:
        case "text" | "warn":
            return text
        case "head" | "amount" | "verdict":
            return f"<strong>{text}</strong>"
        case "note":
            return f"<em>{text}</em>"
        case "say":
            return f"<code>{text}</code>"
        case _:
            assert_never(span.kind)
