"""Pours counted by their size, and the words that only say when water goes in.

Each changes phrases in place and marks what it explained, as grammar.regroup does, which calls them.
"""

from grammar.phrase import Phrase
from grammar.scan import Scan

_NAMED = ("name", "context")
_FIGURES = ("amount", "bare", "same_amount")


def water_is_in(scan: Scan, i: int) -> None:
    """ "90 ml each once the 20% water is in": the word only says when, and WATER_INSIDE what that makes of the serve.

    "120 ml after stirring", "once shaken 120 ml", "after the ice it's 120 ml" say when, too.
    """
    j = i + 1
    if scan.kind_at(j) in ("cue:technique_stir", "cue:technique_shake", "cue:ice"):
        scan.items[i].kind = "filler"
        scan.use(i)
    while scan.kind_at(j) in ("percent", "cue:bigger", "cue:and"):
        j += 1
    if scan.kind_at(j) in ("cue:water", "cue:dilution"):
        scan.items[i].kind = "filler"
        scan.use(i)


def poured_in(scan: Scan, i: int, glass: int) -> None:
    """ "a dozen 50 ml pours of tequila made up to 3 L": so many of that size, all of them in the mix."""
    size = scan.items[i + 1]
    size.value *= scan.items[i].value
    size.name = "whole"
    scan.items[glass].kind = "filler"
    scan.use(i, glass)


def said_again(scan: Scan, i: int) -> bool:
    """Whether the name at i, that of what is in a bottle, is a ratio's too: "a 700 ml bottle of rye, 2:1 rye to vermouth"."""
    again = any(p.kind == "name" and p.name == scan.items[i].name for k, p in enumerate(scan.items) if k != i)
    return again and scan.kind_at(i + 1) not in ("drink", "house", "cue:and", "cue:with")


def counted_pours(scan: Scan, i: int, p: Phrase) -> None:
    """ "twelve 80 ml glasses": so many of that size; "martinis (30)": so many of that drink."""
    whole = 1 < p.value <= 1e6 and p.value == int(p.value)
    free = scan.kind_at(i - 1) not in (*_NAMED, *_FIGURES, "cue:how_many", "cue:to", "ratio")
    if whole and free and scan.kind_at(i + 1) == "amount" and scan.kind_at(i + 2) == "cue:serve_word":
        named = scan.kind_at(i + 3) == "cue:of" and scan.kind_at(i + 4) in ("percent", "proof", *_NAMED)
        if named and scan.has("rest", "top", "final"):
            poured_in(scan, i, i + 2)
        else:
            p.kind = "count"
    opened, closed = scan.at(i - 1), scan.at(i + 1)
    if opened is None or closed is None or opened.name != "(" or closed.name != ")" or not whole:
        return
    if scan.kind_at(i - 2) in ("drink", "house") and not scan.kinds("count", "times", "fold", "guests"):
        p.kind = "count"  # "boulevardiers (30): bourbon 40 ..."
        scan.use(i - 1, i + 1)
