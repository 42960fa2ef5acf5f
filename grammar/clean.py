"""Typed characters to plain text.

One pass over the message: width and ligature forms, vulgar fractions, accents, dashes, quotes, invisible marks and
emoji become the few plain characters the lexer knows. Keeps, for every plain character, where it came from, so that
a question can point into what was really typed. No words are known here.
"""

import unicodedata
from dataclasses import dataclass
from functools import lru_cache

_DASHES = "‐‑‒–—―−﹣－"
_QUOTES = "‘’ʼ‛`´"
_TIMES = "×✕✖⨯"
_ARROWS = "→⇒➔➜⟶➡"
_DEGREES = "°º˚℃℉"
_PLAIN: dict[str, str] = (
    dict.fromkeys(_DASHES, "-")
    | dict.fromkeys(_QUOTES, "'")
    | dict.fromkeys(_TIMES, "x")
    | dict.fromkeys(_ARROWS, " -> ")
    | {"℃": "°c", "℉": "°f", "°": "°", "º": "°", "˚": "°", "⁄": "/", "∕": "/", "٪": "%", "％": "%", "№": "no "}
    | {"\t": " ", "\r": "\n", "\x0b": "\n", "\x0c": "\n", "\u2028": "\n", "\u2029": "\n", "\x85": "\n"}
    | {"•": "\n", "‣": "\n", "▪": "\n", "●": "\n", "◦": "\n", "€": "€", "£": "£", "¥": "¥", "ı": "i", "’": "'"}
)


@dataclass(frozen=True, slots=True)
class Cleaned:
    """Plain lower-case text, and for each of its characters (and its end) the index it came from in what was typed."""

    text: str
    offsets: tuple[int, ...] | None  # None when nothing was moved: index i came from i

    def typed_at(self, start: int, end: int) -> tuple[int, int]:
        """Where the plain span [start, end) lies in the typed text (code points)."""
        if self.offsets is None:
            return start, end
        return self.offsets[start], (self.offsets[end - 1] + 1 if end > start else self.offsets[start])


@lru_cache(maxsize=4096)
def _plain(ch: str) -> str:
    """What one typed character becomes: usually one character, sometimes none or several."""
    if ch in _PLAIN:
        return _PLAIN[ch]
    category = unicodedata.category(ch)
    if category in ("Cf", "Mn", "Me", "Cs", "Co", "Cn"):
        return ""
    if category == "Cc":
        return "\n" if ch == "\n" else " "
    if category.startswith("Z"):
        return " "
    wide = unicodedata.normalize("NFKC", ch)
    if category == "No" and "\u2044" in wide:
        return wide.replace("\u2044", "/")
    folded = "".join(c for c in unicodedata.normalize("NFD", wide) if unicodedata.category(c) != "Mn").lower()
    if not folded.isascii() and unicodedata.category(ch) in ("So", "Sk"):
        return " "
    return folded


def clean(text: str) -> Cleaned:
    """Plain text of a message. Pure, linear in the length, never fails."""
    if text.isascii() and "\r" not in text and text.isprintable():
        return Cleaned(text.lower(), None)
    out: list[str] = []
    offsets: list[int] = []
    for index, ch in enumerate(text):
        plain = ch.lower() if ch.isascii() and ch.isprintable() else _plain(ch)
        if "/" in plain and ch != "/" and len(plain) > 1 and out and (out[-1].isdigit() or out[-1] == "/"):
            plain = " " + plain  # 1½ is one and a half, not eleven halves
        for c in plain:
            out.append(c)
            offsets.append(index)
    offsets.append(len(text))
    return Cleaned("".join(out), tuple(offsets))
