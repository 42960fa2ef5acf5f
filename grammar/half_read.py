"""What no frame may pass over or take for an ingredient: words that multiply a figure, words that join sentences.

Each is asked about where it was not understood, so that half a message is never answered as if it were the whole.
"""

import re

from grammar.scan import Scan, Unclear

#: beside a figure it makes it another figure; none of them is a bar's
_MULTIPLIES = re.compile(r"(?:\w*illi?ons?|umpteen|scores?|lakhs?|crores?|googols?)$")
#: looks like a number word and is none: "twelvty", "sixtyteen"
_LIKE_A_NUMBER = re.compile(r"(?:eleven|twel|twen|thir|four|fif|six|seven|eigh|nine?|ten)\w*(?:ty|teen|teens|ve|lve|dred)$")
_COUNTED = ("drink", "house", "unit", "name")
_FIGURES = ("bare", "count", "amount", "guests")
#: words that join, time or deny; typed beside an amount they are half a sentence and nothing to pour
JOINS = frozenset(
    ["once", "after", "afterwards", "before", "while", "whilst", "during", "unless", "although", "though", "whether", "every",
     "never", "always", "cant", "can't", "cannot", "dont", "don't", "wont", "won't", "isnt", "isn't", "says", "said", "since",
     "because", "which", "than", "whatever", "whenever", "why", "inside", "outside", "between", "against", "within", "again",
     "later", "sometimes", "nearly", "almost", "under", "below", "above", "beyond", "exceed", "exceeds", "makes", "must", "might",
     "may", "shall", "having", "being", "were", "did", "done", "told", "poured", "however", "otherwise", "through"]
)  # fmt: skip


def beside_a_ratio(unit: str, ratio: bool) -> bool:
    """ "4:1 gin dry, each 90 ml zorp": an unknown word with a volume of its own, where a ratio says all the rest, is no part."""
    return ratio and unit not in ("", "part", "dash", "drop", "barspoon", "tsp", "count")


def heads_unread(typed: str, value: float, first: bool, others: int) -> bool:
    """ "20 zorbas, 60 bourbon 5 syrup": a whole number before an unknown plural that heads a spec may count drinks."""
    plural = typed.endswith("s") and not typed.endswith("ss")
    return first and plural and others >= 2 and value > 1 and value == int(value)


def multiplied(scan: Scan) -> None:
    """ "40 trillion negronis", "twelvty cosmos": what multiplies a figure, or only looks like one, is never passed over.

    Raises Unclear too_large, unclear_number.
    """
    for i, p in enumerate(scan.items):
        if p.kind != "unknown":
            continue
        before, after = scan.at(i - 1), scan.at(i + 1)
        if after is not None and after.kind in _COUNTED and _LIKE_A_NUMBER.match(p.text):
            raise Unclear("unclear_number", [p], p.text)  # "twelvty cosmos"
        if not _MULTIPLIES.match(p.text):
            continue
        if before is not None and before.kind in _FIGURES:
            raise Unclear("too_large", [before, p], f"{before.text} {p.text}")
        counts = after is not None and (after.kind in _COUNTED or after.is_cue("of", "serve_word", "guest_word"))
        if counts:
            raise Unclear("too_large", [p], p.text)


def doubles(scan: Scan) -> None:
    """ "8 doubles" of no size are asked about: 50 mL in one country, 3 oz in another. "50 ml doubles" are pours.

    Raises Unclear no_amounts.
    """
    for i, p in enumerate(scan.items):
        if p.kind not in ("amount", "unit") or scan.used[i] or not p.text.endswith("doubles"):
            continue
        sized = scan.at(i - 1)
        if p.kind == "amount" or sized is None or sized.kind != "amount" or sized.unit == "part":
            raise Unclear("no_amounts", [p], p.text, names="a double")
        p.kind, p.name, p.text = "cue", "serve_word", "pours"


def no_liquid(typed: str) -> bool:
    """Whether what was typed as an ingredient begins with a word that only joins: "once", "every"."""
    return typed.split(" ", 1)[0] in JOINS
