"""What the lexer looks at around a raw piece before it decides: marks that part sayings or multiply, "2" for "to"."""

from grammar.pieces import Tok
from grammar.words_measures import UNITS

UNIT_WORDS = frozenset(word for spelled in UNITS.values() for word in spelled.split("|"))


def parts(raw: list[Tok], j: int) -> bool:
    """Whether the mark at j stands between two sayings: "2 each - one ounce gin" is not "each one"; "fl. oz" is one unit."""
    roomy = j + 1 < len(raw) and raw[j + 1].spaced
    return roomy and ((raw[j].value == "-" and raw[j].spaced) or (raw[j].value == "." and len(raw[j - 1].text) > 3))


def starred(raw: list[Tok], i: int, before: Tok | None) -> bool:
    """Whether the "*" at i multiplies the number that touches it: no bullet, no footnote to an amount or a strength."""
    last = raw[i + 2] if i + 2 < len(raw) else None
    measured = last is not None and (last.text in UNIT_WORDS or last.value in ("%", "proof", "abv", "percent"))
    return before is not None and before.value != "\n" and not raw[i + 1].spaced and not measured


def below(raw: list[Tok], i: int) -> bool:
    """Whether "below" follows degrees: "10 below", "ten below zero"; not "10 below the rim"."""
    nxt = raw[i + 1] if i + 1 < len(raw) else None
    return nxt is None or nxt.type in ("SEP", "MARK") or (nxt.type == "NUM" and nxt.value == 0)


_LEAST_STRENGTH = 5  # % of alcohol: common practice, no source


def down_to(raw: list[Tok], i: int, before: Tok | None) -> bool:
    """Whether the "2" at i is "to": between a word that lowers and a strength."""
    lowers = before is not None and before.type == "CUE" and before.text.endswith(("down", "back", "cut"))
    strength = i + 1 < len(raw) and raw[i + 1].type == "NUM" and raw[i + 1].spaced and raw[i + 1].value >= _LEAST_STRENGTH
    said = i + 2 < len(raw) and raw[i + 2].text in ("%", "percent", "pct", "proof", "abv")
    ends = i + 2 >= len(raw) or raw[i + 2].type == "SEP"  # "75% 500 ml cut 2 40"
    return lowers and strength and (said or ends)


_OURS = frozenset(["the", "my", "our", "this", "that", "these", "those"])
_FOR_A = frozenset(["label", "enough", "water", "how_much"])


def stands_for(raw: list[Tok], i: int, before: Tok | None) -> bool:
    """Whether the "4" at i is "for": "labels 4 my sours", "label 4 a 100 ml bottle"; not "vermouth 4 a litre"."""
    nxt = raw[i + 1] if i + 1 < len(raw) else None
    if nxt is None or not nxt.spaced:
        return False
    asked = before is not None and before.type == "CUE" and before.value in _FOR_A
    return nxt.text in _OURS or (asked and nxt.text in ("a", "an"))


def waters(raw: list[Tok], j: int) -> bool:
    """Whether what stands at j says that an amount is water's: "lime 1/2 oz (15 ml water)" is no amount said twice."""
    k = j + 1 if j < len(raw) and raw[j].text == "of" else j
    return k < len(raw) and raw[k].text in ("water", "h2o", "dilution")


def unlike(first: str, second: str) -> bool:
    """Whether two numbers are too unlike to be a ratio: one in words and one in figures, or one of them dozens."""
    return first[0].isalpha() != second[0].isalpha() or "doz" in second


_WET = frozenset(["water", "dilution", "diluted"])
_PRICED = frozenset(["cost", "costs", "price", "sell", "sells", "sold", "charge", "menu", "$", "€", "£", "bottle", "margin"])


def watery(raw: list[Tok]) -> bool:
    """Whether a message speaks of water and of no price, so that "20 pc" is a share."""
    said = {t.text for t in raw}
    return not said.isdisjoint(_WET) and said.isdisjoint(_PRICED)


def volume_said(after: list[Tok]) -> bool:
    """Whether "of (the) volume", or "again of water", stands behind a fraction word."""
    again = len(after) > 1 and after[0].text == "again"
    led = len(after) > 1 and after[0].value == "of" and after[1].value == "by_volume"  # "a fifth of its volume in water"
    return again or led or (bool(after) and after[-1].value == "by_volume" and after[0].value in ("of", "by_volume"))


def whole_said(after: list[Tok]) -> bool:
    """Whether "of the finished", "of the undiluted" stands behind a fraction word."""
    whole = ("final", "undiluted")
    led = len(after) > 1 and after[0].value == "of" and after[1].value in whole
    return led or (bool(after) and after[0].value in whole and after[0].text.startswith("of "))


def of_bottle(out: list[Tok], i: int) -> bool:
    """Whether "a fifth of 101 proof" stands at i: the bottle, no share."""
    strong = i + 3 < len(out) and out[i + 1].value == "of" and out[i + 2].type == "NUM" and out[i + 3].type in ("PCT", "PROOF")
    return strong and out[i].text in ("fifth", "handle")


def sized(out: list[Tok], i: int) -> bool:
    """Whether the "x" at i stands between a count and the size of each: "18 drinks x 100 ml"."""
    counted = i > 1 and out[i - 1].type in ("COUNT", "DRINK") and out[i - 2].type == "NUM"
    return counted and i + 2 < len(out) and out[i + 1].type == "NUM" and out[i + 2].type == "UNIT"


def set_off(out: list[Tok], i: int) -> bool:
    """Whether the dash at i, with room on both sides, ends a ratio ("3:2 - 2.5 L") or stands before a count ("30 - 2 each")."""
    roomy = out[i - 1].end_pos < out[i].start_pos and out[i].end_pos < out[i + 1].start_pos
    colons = i > 1 and out[i - 2].type == "COLON"
    if i + 3 < len(out) and out[i + 3].type == "NUM":
        colons = colons or out[i + 2].type == "COLON" or (out[i + 2].type == "CUE" and out[i + 2].text == "to")
    for k in (i - 2, i + 2):  # "2-1 - 10% water", "x 100 - 4-2": a ratio's own dashes touch
        if 0 < k < len(out) - 1 and out[k].type == "DASH" and out[k - 1].end_pos == out[k].start_pos:
            colons = True
    counted = i + 2 < len(out) and (out[i + 2].type in ("COUNT", "GUEST") or out[i + 2].value == "each")
    falls = i + 2 < len(out) and out[i + 2].type == "PCT" and out[i - 1].value > out[i + 1].value  # "lime 30 - 10% water"
    return roomy and (colons or counted or falls)
