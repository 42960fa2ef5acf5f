"""Plain text to phrases: one LALR parser, built once, its callbacks making the Phrases.

read_phrases is the whole use of lark. What phrases mean together is for the frames.
"""

from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path
from typing import Any, cast

from lark import Lark, UnexpectedInput
from lark.lexer import Lexer

from grammar.lexer import lex
from grammar.lexicon import LEXICON, Lexicon
from grammar.phrase import Kind, Phrase
from grammar.pieces import Tok

_NAMED: dict[str, Kind] = {"ING": "name", "CONTEXT": "context", "GARNISH": "garnish", "HOUSE": "house"}


class _Given(Lexer):
    """Hands the parser the terminals it was given instead of a text."""

    def __init__(self, _conf: Any) -> None:
        pass

    def lex(self, state: Any) -> Iterator[Any]:  # type: ignore[override]  # lark passes whatever parse() was given
        return iter(state)


def _span(items: list[Any]) -> tuple[str, int, int]:
    first, last = items[0], items[-1]
    start = first.start if isinstance(first, Phrase) else first.start_pos
    end = last.end if isinstance(last, Phrase) else last.end_pos
    return " ".join(i.text for i in items), start, end


class _Phrases:
    """One method per alternative of phrases.lark."""

    def start(self, items: list[Phrase]) -> list[Phrase]:
        return items

    def phrase(self, items: list[Phrase]) -> Phrase:
        return items[0]

    def amount(self, items: list[Tok]) -> Phrase:
        return Phrase("amount", *_span(items), value=items[0].value, unit=items[1].value)

    def bare(self, items: list[Tok]) -> Phrase:
        return Phrase("bare", items[0].text, items[0].start_pos, items[0].end_pos, value=items[0].value)

    def same_amount(self, items: list[Any]) -> Phrase:
        amounts = [i for i in items if isinstance(i, Phrase)]
        if len({a.unit for a in amounts}) == 1:  # "2 oz / ¾ oz / ¾ oz" is a list, not one amount said twice
            values = tuple(a.value for a in amounts)
            return Phrase("ratio", *_span(items), values=values, unit=amounts[0].unit, name="SLASH")
        return Phrase(
            "same_amount", *_span(items), value=amounts[0].value, unit=amounts[0].unit,
            amounts=tuple(a.value for a in amounts), units=tuple(a.unit for a in amounts),
        )  # fmt: skip

    def ratio(self, items: list[Tok]) -> Phrase:
        values: list[float] = []
        for item in items:
            if item.type == "NUM":
                values.append(item.value)
            elif item.type == "RATIO2":
                values.extend(item.value)
        return Phrase("ratio", *_span(items), values=tuple(values), name=items[1].type if len(items) > 1 else "SLASH")

    def ratio_of_amounts(self, items: list[Tok]) -> Phrase:
        made = self.ratio(items[:-1])
        made.unit = items[-1].value
        made.text, made.start, made.end = _span(items)
        return made

    def percent(self, items: list[Tok]) -> Phrase:
        return Phrase("percent", *_span(items), value=items[0].value / 100)

    def share(self, items: list[Tok]) -> Phrase:
        return Phrase("percent", items[0].text, items[0].start_pos, items[0].end_pos, value=items[0].value)

    def unit_vessel(self, items: list[Tok]) -> Phrase:
        made = self._vessel(items[1], items)
        if made.size is None:
            made.size = (1.0, items[0].value)
        return made

    def proof(self, items: list[Tok]) -> Phrase:
        return Phrase("proof", *_span(items), value=items[0].value / 200)

    def temperature(self, items: list[Tok]) -> Phrase:
        return Phrase("temperature", *_span(items), value=items[0].value, unit=items[1].value)

    def negative(self, items: list[Tok]) -> Phrase:
        unit = items[1].value if len(items) > 1 else ""
        return Phrase("negative", *_span(items), value=items[0].value, unit=unit)

    def unsure(self, items: list[Tok]) -> Phrase:
        unit = items[1].value if len(items) > 1 else ""
        return Phrase("unsure", *_span(items), value=items[0].value, unit=unit)

    def money(self, items: list[Tok]) -> Phrase:
        amount, sign = (items[1], items[0]) if items[0].type == "SIGN" else (items[0], items[1])
        return Phrase("money", *_span(items), value=amount.value, unit=sign.value)

    def times(self, items: list[Tok]) -> Phrase:
        return Phrase("times", *_span(items), value=items[1].value)

    def fold(self, items: list[Tok]) -> Phrase:
        return Phrase("fold", *_span(items), value=items[0].value)

    def count(self, items: list[Tok]) -> Phrase:
        drink = items[1].value if items[1].type == "DRINK" else ""
        return Phrase("count", *_span(items), value=items[0].value, name=drink, others=items[1].others)

    def guests(self, items: list[Tok]) -> Phrase:
        return Phrase("guests", *_span(items), value=items[0].value)

    def vessels(self, items: list[Tok]) -> Phrase:
        made = self._vessel(items[1], items)
        if items[0].value >= 100 and made.size_ml is None:
            made.value, made.size = 1.0, (items[0].value, "ml")
        else:
            made.value, made.amounts = items[0].value, (items[0].value,)
        return made

    def vessel_of(self, items: list[Any]) -> Phrase:
        made = self._vessel(items[1], items)
        made.size = (items[0].value, items[0].unit)
        return made

    def vessel(self, items: list[Tok]) -> Phrase:
        return self._vessel(items[0], items)

    def a_vessel(self, items: list[Tok]) -> Phrase:
        made = self._vessel(items[1], items)
        made.amounts = (1.0,)
        return made

    def _vessel(self, noun: Tok, items: list[Any]) -> Phrase:
        size = float(noun.value) if noun.value[0].isdigit() else None
        made = Phrase("vessel", *_span(items), value=1.0, name=noun.text, size_ml=size)
        if size is not None:
            made.size = (size, "ml")
        return made

    def a_unit(self, items: list[Tok]) -> Phrase:
        return Phrase("amount", *_span(items), value=1.0, unit=items[1].value, name="a")

    def name(self, items: list[Tok]) -> Phrase:
        tok = items[0]
        return Phrase(_NAMED[tok.type], tok.text, tok.start_pos, tok.end_pos, name=tok.value, others=tok.others)

    def drink(self, items: list[Tok]) -> Phrase:
        return Phrase("drink", items[0].text, items[0].start_pos, items[0].end_pos, name=items[0].value, others=items[0].others)

    def unit(self, items: list[Tok]) -> Phrase:
        return Phrase("unit", items[0].text, items[0].start_pos, items[0].end_pos, unit=items[0].value)

    def mark(self, items: list[Tok]) -> Phrase:
        tok = items[0]
        cue = {"PCT": "percent_word", "PROOF": "proof_word", "COUNT": "serve_word", "GUEST": "guest_word"}.get(
            tok.type, tok.value
        )
        return Phrase("cue", tok.text, tok.start_pos, tok.end_pos, name=cue, others=tok.others)

    def filler(self, items: list[Tok]) -> Phrase:
        return Phrase("filler", items[0].text, items[0].start_pos, items[0].end_pos)

    def separator(self, items: list[Tok]) -> Phrase:
        return Phrase("sep", items[0].text, items[0].start_pos, items[0].end_pos, name=items[0].value)

    def unknown(self, items: list[Tok]) -> Phrase:
        return Phrase("unknown", items[0].text, items[0].start_pos, items[0].end_pos)


_kept_in: list[Path] = []


def keep_tables_in(folder: str) -> None:
    """Keep the parser's tables in this folder, as Python keeps its byte code: whoever can write there can already run code.

    Building them costs a tenth of a second, most of it lark reading its own grammar; loading them, 3 ms. Where nobody
    names a folder (a server, the tests), they are built at start.
    """
    _kept_in[:] = [Path(folder)]


@lru_cache(maxsize=1)
def parser() -> Lark:
    """The LALR parser of phrases.lark."""
    text = (Path(__file__).parent / "phrases.lark").read_text(encoding="utf-8")
    kept = str(_kept_in[0] / "phrases.lalr") if _kept_in and _kept_in[0].is_dir() else False
    return Lark(text, parser="lalr", lexer=_Given, transformer=_Phrases(), maybe_placeholders=False, cache=kept)


def read_phrases(plain: str, lexicon: Lexicon = LEXICON) -> list[Phrase]:
    """The phrases of a cleaned text, in order."""
    tokens = list(lex(plain, lexicon))
    try:
        return _parsed(tokens)
    except UnexpectedInput:  # marks between numbers that make no ratio: read as plain separators
        for tok in tokens:
            if tok.type in ("COLON", "SLASH", "DASH"):
                tok.type = "SEP"
        return _parsed(tokens)


def _parsed(tokens: list[Tok]) -> list[Phrase]:
    """The phrases of the terminals: our lexer hands them on as they are, our transformer makes the phrases."""
    phrases: Any = parser().parse(cast(Any, tokens))  # lark's types know of texts and trees only
    return cast(list[Phrase], phrases)
