"""A reply as tagged pieces: Span, Line, Reply. What each piece means, never how it looks.

Renderers turn the kinds into plain text or markup; nothing here knows markup, rounding or words. A line with
table=True belongs to a block whose columns only line up in a fixed-width face.
"""

from dataclasses import dataclass
from typing import Literal

#: head: what was understood. amount: the figure asked for. verdict: what the freezer does. note: an assumption.
#: warn: a caution. say: a message that would work if sent. text: everything else.
SpanKind = Literal["text", "head", "amount", "verdict", "note", "warn", "say"]


@dataclass(frozen=True, slots=True)
class Span:
    """A piece of a line, all of one meaning."""

    kind: SpanKind
    text: str


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a reply; table lines are at most 34 characters wide."""

    spans: tuple[Span, ...]
    table: bool = False

    @property
    def text(self) -> str:
        """The line without its tags."""
        return "".join([span.text for span in self.spans])


@dataclass(frozen=True, slots=True)
class Reply:
    """Everything the bot says to one message."""

    lines: tuple[Line, ...]


def line(kind: SpanKind, text: str) -> Line:
    """A line of one span."""
    return Line((Span(kind, text),))


def row(text: str) -> Line:
    """A table line."""
    return Line((Span("text", text),), True)
