"""Layouts of what is not a sum: questions, and what the chat saved, listed, forgot, set or asked help with."""

from bot.core.facts import Answer
from bot.reply import parts, words, words_questions
from bot.reply.spans import Line, Span, SpanKind, line
from bot.reply.words_notes import clip

_LONGEST_ITEM = 4000  # an export must not lose its tail
_MOST_TRIES = 2


def question(a: Answer) -> list[Line]:
    """What was understood, what was not, and a message that would work."""
    read = parts.head(a)
    lines = [line("head", words.READ + read)] if read else []
    if a.problem is not None:
        lines.append(line("text", words_questions.question(a.problem)))
        lines.append(_try(words_questions.example(a.problem)))
    return lines


def book(a: Answer) -> list[Line]:
    """What was done, then the list, then what to send next."""
    lines = [line("head", text) for text in [clip(a.title, 60), *[words.said(note) for note in a.understood]] if text]
    named_above = a.kind == "saved" and len(a.items) == 1 and bool(lines)
    for name, text in a.items:
        lines += _item("" if named_above else name, text, "say" if a.kind == "help" else "text")
    lines += parts.closing(a)
    if a.actions:
        lines.append(_try(*a.actions))
    return lines or [line("text", words.NOTHING)]


def _item(name: str, text: str, kind: SpanKind) -> list[Line]:
    """An item of a list: a named one on one line; of a text without a name every line is one."""
    if name:
        said = clip(", ".join(text.splitlines()), _LONGEST_ITEM)
        return [Line((Span("amount", clip(name, 60)), Span("text", ": "), Span(kind, said)))]
    return [line(kind, clip(part, _LONGEST_ITEM)) for part in text.splitlines()]


def _try(*messages: str) -> Line:
    spans = [Span("text", words.NEXT)]
    for at, message in enumerate(messages[:_MOST_TRIES]):
        spans += [Span("text", words.OR)] * (at > 0) + [Span("say", clip(message, 120))]
    return Line(tuple(spans))
