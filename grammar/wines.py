"""Wine said by its colour or its bubbles: "3 x 750 red 13%", "75 oj, 75 fizz (12%)".

Changes phrases in place. A colour alone is a vermouth or a rum; a wine's strength beside it, or a drink named already, decides.
"""

from itertools import pairwise

from grammar.phrase import Phrase

_COLOURS = {"red": "red wine", "white": "white wine", "rose": "rose wine"}
_LEAST, _MOST = 0.08, 0.16  # of alcohol: what table wine and sparkling wine say on the label; common practice, no source
_FIZZ_ML = 20.0  # "75 fizz" is an amount, "12 fizz" may be a count: common practice, no source


def wines(phrases: list[Phrase]) -> None:
    """Colours and fizz that can only be wine become its name."""
    said = [p for p in phrases if p.kind != "filler"]
    drinks = [p for p in said if p.kind == "drink" or (p.kind == "count" and p.name and not _fizz(p))]
    led = {id(p) for before, p in pairwise(phrases) if before.text == "house"}
    for i, p in enumerate(said):
        as_wine = _wine_strength(said, i) or id(p) in led
        if p.text in _COLOURS and p.kind in ("unknown", "context", "name") and as_wine:
            p.kind, p.name = "name", _COLOURS[p.text]
        elif _fizz(p) and (as_wine or drinks) and p.value >= _FIZZ_ML:
            at = next(k for k, q in enumerate(phrases) if q is p)
            word = Phrase("name", "fizz", p.end - len("fizz"), p.end, name="sparkling wine")
            phrases[at : at + 1] = [Phrase("bare", p.text[: -len("fizz")].strip(), p.start, word.start, value=p.value), word]


def _fizz(p: Phrase) -> bool:
    """Whether it is "75 fizz", which may be a count of gin fizzes."""
    return p.kind == "count" and p.name == "gin fizz" and p.text.endswith(" fizz") and "gin" not in p.text


def _wine_strength(said: list[Phrase], i: int) -> bool:
    """Whether a wine's strength stands behind the word at i: "red 13%", "fizz (12%)", "white at 12.5%"."""
    j = i + 1
    if j < len(said) and (said[j].is_cue("at") or (said[j].kind == "sep" and said[j].name == "(")):
        j += 1
    return j < len(said) and said[j].kind == "percent" and _LEAST <= said[j].value <= _MOST
