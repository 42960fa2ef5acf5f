"""Plain text to raw pieces: numbers of every spelling, words, marks, line ends.

One regular expression, one pass. Knows how numbers are written; knows no word but number words.
"""

import re
from dataclasses import dataclass
from typing import Any

from grammar.lexicon import Entry
from grammar.words_measures import ALIASES, FRACTION_WORDS, NUMBER_WORDS

_NUM = "|".join(
    sorted(
        (w for w in NUMBER_WORDS if w not in ("couple", "dozen", "doz", "hundred", "thousand")),
        key=len,
        reverse=True,
    )
)
_FRAC = "|".join(sorted(FRACTION_WORDS, key=len, reverse=True))
#: units that a fraction word may stand before: "half a litre", "third of an oz"
_MEASURED = (
    "oz|ounce|ounces|litre|liter|l|cup|shot|ml|part|gallon|pint|tsp|teaspoon|tbsp|barspoon|jigger|fl|quart|kg|kilo"
    "|ozs|ltr|ltrs|tsps|tbsps|teaspoons|tablespoon|tablespoons|quarts|lb|lbs|pound|pounds|kilos|measure|dashes"
    "|nip|nips|tot|tots|pony|dash|keg|gal|gals|gallons|qt|pt|pints|litres|liters|cups|shots|barspoons|cl"
    "|(?:imperial|us|uk|british|american|imp)\\s+(?:pint|gallon|gal|oz|ounce|fl|quart|cup)"
)
_TENS = "twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety"
_ONES = "one|two|three|four|five|six|seven|eight|nine"
_REST = rf"(?:(?:{_TENS})(?:[\s-](?:{_ONES}))?|{_NUM})(?!\s+(?:hundred|thousand)\b)"
_HEAD = r"""
    (?P<mixed>\d+(?:[^\S\n]+|-|[^\S\n]*&[^\S\n]*|[^\S\n]+and[^\S\n]+)[1-9]/(?:2|3|4|8|16)(?![\d/]))
  | (?P<fraction>(?<![\d/.])[1-9]/(?:2|3|4|5|6|8|10|16)(?![\d/.:]))"""
#: bottles as their size is said aloud, in mL
_SIZES = {"one seven five": 1750.0, "one point seven five": 1750.0, "seven fifty": 750.0, "three seventy five": 375.0}
_SIZED = r"(?:seven[ -]fifty|three[ -]seventy[ -]five)(?=[ -]?mls?\b)"
#: alternatives that few messages need: figures with a gap, hundreds in words, a dozen and a half
_LONG = rf"""
  | (?P<spaced>(?<![\d.,/:])[1-9]\d{{0,2}}(?:[ ]0\d\d)+(?![\d.,/:%]))
  | (?P<hundreds>\b(?:
        (?:(?:{_NUM})\s+|a\s+)thousand\s+(?:and\s+)?(?:(?:{_ONES}|a)\s+hundred(?:\s+(?:and\s+)?{_REST})?|{_REST})
      | (?:(?:{_NUM})\s+|a\s+)?hundred\s+(?:(?:and|n)\s+)?{_REST})\b)
  | (?P<litres>\b(?:a\s+)?one[\s-]seven[\s-]fives?\b(?![\s-]*(?:ml|mls|glass|glasses|pour|pours)\b))
  | (?P<sized>\b{_SIZED})
  | (?P<bakers>\b(?:a\s+)?baker'?s'?\s+doz(?:en)?\b)
  | (?P<size>\b(?:an?|the|in|into|per|fill|filling)\s+
        (?:{"|".join(_SIZES).replace(" ", "[ -]+")})\b(?![ -]+(?:{_ONES}|l|lit\w+)\b))
  | (?P<halfdozen>\b(?:(?:{_NUM})\s+|a\s+)?doz(?:en)?\s+and\s+a\s+half\b)"""
_TAIL = rf"""
  | (?P<wordmixed>\b(?:\d+|{_NUM})\s+(?:and|n|&)\s+(?:(?:a|one|two|three)[\s-]+)?(?:{_FRAC})\b)
  | (?P<wordfraction>\b(?:(?:one|two|three|a|1|2|3)[\s-]+)?(?:{_FRAC})(?:\s+of)?(?:\s+an?)?(?=\s+(?:{_MEASURED})\b))
  | (?P<dozens>\d+\s+doz(?:en)?\b)
  | (?P<number>\d+(?:[.,]\d+)*(?:e\d+)?|(?<![\w.])\.\d+)
  | (?P<wordnumber>\b(?:a\s+)?(?:
        half\s+(?:a\s+)?doz(?:en)? | (?:couple|dozen|doz|hundred|thousand)(?:\s+of)?
      | (?:(?:{_NUM})[\s-]+(?:dozen|doz|hundred|thousand))
      | (?:(?:{_TENS})[\s-](?:{_ONES}) | {_NUM})(?:\s+point(?:\s+(?:{_ONES}|zero))+)?
      | (?<!freezing\s)(?<!freeze\s)point(?:\s+(?:{_ONES}|zero))+(?=\s+(?:{_MEASURED})\b))\b)
  | (?P<texted>\bb4\b)
  | (?P<word>[^\W\d_]+(?:'[^\W\d_]+)*)
  | (?P<newline>\s*\n\s*)
  | (?P<space>[^\S\n]+)
  | (?P<arrow>-+>|=>)
  | (?P<mark>.)
"""
_SCAN = re.compile(_HEAD + _TAIL, re.VERBOSE)
_SCAN_LONG = re.compile(_HEAD + _LONG + _TAIL, re.VERBOSE)
_WANTS_LONG = ("hundred", "thousand", "doz", " 0", "seven")


@dataclass(slots=True)
class Tok:
    """One terminal. value is a number, a name or a mark; start and end lie in the plain text."""

    type: str
    value: Any
    text: str
    start_pos: int
    end_pos: int
    others: tuple[Entry, ...] = ()
    spaced: bool = False  # white space (or nothing) stands before it
    # what lark reads off a token when it makes its own end mark
    line = 1
    column = 1
    end_line = 1
    end_column = 1


def number(text: str) -> tuple[float, bool]:
    """The number a digit string says, and whether it could be meant otherwise ("1.000", "1,000")."""
    if "e" in text:
        return float(text.replace(",", ".")), False
    marks = re.findall(r"[.,]", text)
    if not marks:
        return float(text), False
    if len(marks) > 1:
        groups = re.split(r"[.,]", text)
        if all(len(g) == 3 for g in groups[1:]) and len(set(marks)) == 1 and groups[0] != "0":
            return float("".join(groups)), False
        return float("nan"), True
    whole, part = re.split(r"[.,]", text)
    value = float(f"{whole or 0}.{part}")
    if len(part) == 3 and whole not in ("", "0") and len(whole) <= 3:
        if marks[0] == ",":
            return float(whole + part), False
        return value, part[-1] == "0"
    return value, False


def _hundreds(said: list[str]) -> float:
    """ "two hundred and fifty", "a thousand two hundred", as a number."""
    total = under = 0.0
    for word in said:
        value = NUMBER_WORDS.get(word, 0.0)
        if value == 1000:
            total, under = (under or 1.0) * value, 0.0
        else:
            under = (under or 1.0) * value if value == 100 else under + value
    return total + under


def _spoken(text: str) -> float:
    """The value of "two point eight", "twenty one point two five"."""
    whole, after = text.split("point")
    units = sum(NUMBER_WORDS[w] for w in re.split(r"[\s-]+", whole.strip()) if w)
    digits = "".join(f"{NUMBER_WORDS[w]:.0f}" for w in after.split())
    return float(f"{units:.0f}.{digits}")


def _is_list(text: str) -> bool:
    """Whether "20,40,60" is three numbers: more than one comma, no point, and no groups of three digits."""
    parts = text.split(",")
    return len(parts) > 2 and "." not in text and "e" not in text and not all(len(p) == 3 for p in parts[1:])


def scan_pieces(text: str) -> list[Tok]:
    """Raw pieces: numbers, words, marks, line ends, in order."""
    out: list[Tok] = []
    spaced = True
    pattern = _SCAN_LONG if any(sign in text for sign in _WANTS_LONG) else _SCAN
    for m in pattern.finditer(text):
        kind, piece, start, end = m.lastgroup or "mark", m.group(), m.start(), m.end()
        if kind == "space":
            spaced = True
            continue
        if kind == "newline":
            tok = Tok("SEP", "\n", piece, start, end)
        elif kind == "arrow":
            tok = Tok("MARK", "->", piece, start, end)
        elif kind == "number" and _is_list(piece):
            at = start
            for part in piece.split(","):  # "20,40,60 ml"
                out.append(Tok("NUM", float(part), part, at, at + len(part), (), True))
                at += len(part) + 1
            spaced = False
            continue
        elif kind == "number":
            value, unsure = number(piece)
            unsure = unsure or (text[end : end + 1] == "?" and text[end + 1 : end + 2].isalnum())  # "2?ml gin"
            tok = Tok("UNSURE" if unsure else "NUM", value, piece, start, end)
            if piece == "5050":  # "quart of 5050 gin fino"
                tok = Tok("RATIO2", (50.0, 50.0), piece, start, end)
        elif kind in ("mixed", "fraction"):
            nums = [int(n) for n in re.findall(r"\d+", piece)]
            value = nums[-2] / nums[-1] + (nums[0] if len(nums) == 3 else 0)
            proper = nums[-2] < nums[-1]
            tok = Tok("NUM" if kind == "mixed" or proper else "RATIO2", value, piece, start, end)
            if kind == "fraction" and not proper:
                tok.value = (float(nums[0]), float(nums[1]))
        elif kind == "dozens":
            tok = Tok("NUM", 12.0 * float(piece.split()[0]), piece, start, end)
        elif kind == "spaced":  # "2 000 ml"; "2 500 ml" may be two of 500
            tok = Tok("NUM", float(piece.replace(" ", "")), piece, start, end)
        elif kind == "hundreds":
            tok = Tok("NUM", _hundreds(re.split(r"[\s-]+", piece)), piece, start, end)
        elif kind == "litres":  # "a one-seven-five" is a bottle of 1.75 L
            if piece.startswith("a"):
                out.append(Tok("WORD", "a", "a", start, start + 1, (), spaced))
                spaced, start = True, start + piece.index("one")
            handle = "handles" if piece.endswith("s") else "handle"
            tok = Tok("WORD", handle, handle, start, end)
        elif kind == "bakers":
            tok = Tok("NUM", 13.0, piece, start, end)
        elif kind == "size":
            led, said = re.split(r"\s+", piece, maxsplit=1)
            tok = Tok("WORD", led, led, start, start + len(led))
            tok.spaced = spaced or not out or out[-1].value == "\n"
            out.append(tok)
            spaced = True
            tok = Tok("NUM", _SIZES[re.sub("[ -]+", " ", said)], said, end - len(said), end)
        elif kind == "sized":
            tok = Tok("NUM", _SIZES[piece.replace("-", " ")], piece, start, end)
        elif kind == "halfdozen":
            dozens = 1.0 if piece[0] == "d" else NUMBER_WORDS.get(piece.split()[0], 1.0)
            tok = Tok("NUM", 12.0 * dozens + 6.0, piece, start, end)
        elif kind == "wordmixed":
            said = re.split(r"[\s-]+", piece)
            joint = next(k for k, w in enumerate(said) if w in ("and", "n", "&"))
            whole = float(said[0]) if said[0].isdigit() else sum(NUMBER_WORDS[w] for w in said[:joint])
            times = {"two": 2, "three": 3}.get(said[-2], 1)  # "one and three quarter"
            tok = Tok("NUM", whole + times * FRACTION_WORDS[said[-1]], piece, start, end)
        elif kind == "wordfraction":
            split = re.split(r"[\s-]+", piece)
            times = {"two": 2, "three": 3, "2": 2, "3": 3}.get(split[0], 1)
            word = next(w for w in split if w in FRACTION_WORDS)
            tok = Tok("NUM", times * FRACTION_WORDS[word], piece, start, end)
        elif kind == "wordnumber":
            value = _spoken(piece) if "point" in piece else 1.0
            for w in re.split(r"[\s-]+", piece) if "point" not in piece else ():
                if w in ("dozen", "doz", "hundred", "thousand"):
                    value *= NUMBER_WORDS[w]
                elif w.isdigit():
                    value = float(w)
                elif w in FRACTION_WORDS:
                    value *= FRACTION_WORDS[w]
                elif w in NUMBER_WORDS:
                    value = value + NUMBER_WORDS[w] if value >= 20 else NUMBER_WORDS[w]
            tok = Tok("NUM", float(value), piece, start, end)
        elif kind == "texted":
            tok = Tok("WORD", "before", "before", start, end)  # "75 ml each b4 water"
        elif kind == "word":
            piece = ALIASES.get(piece, piece)
            tok = Tok("WORD", piece, piece, start, end)
        else:
            tok = Tok("MARK", piece, piece, start, end)
        tok.spaced = spaced or not out or out[-1].value == "\n"
        spaced = False
        out.append(tok)
    return out
