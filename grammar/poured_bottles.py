"""Bottles poured into a mix, told by a count, a name and a size: "two 70 cl of ...", "2 bottles gin, 70 cl each".

Each changes phrases in place and marks what it explained, as grammar.regroup does, which calls them.
"""

from grammar.phrase import Phrase
from grammar.scan import BOTTLE_SIZES_ML, MOST_BOTTLES, Scan, rough_ml

_SMALL_BOTTLE_ML = 330.0  # smaller than that "2 x 200 ml" may be two pours: common practice, no source
_NAMED = ("name", "context")


def bottles_poured(scan: Scan, i: int, p: Phrase) -> None:
    """ "two 70 cl of 37.5% vodka": a count of bottles, as "2 x 70 cl" is."""
    q = scan.at(i + 1)
    if q is None or q.kind != "amount" or scan.used[i + 1] or not 1 < p.value <= MOST_BOTTLES or p.value != int(p.value):
        return
    ml = rough_ml(q.value, q.unit) or 0.0
    after = scan.kind_at(i + 2)
    if ml in BOTTLE_SIZES_ML and ml >= _SMALL_BOTTLE_ML and after in ("cue:of", "percent", "proof", "ratio", *_NAMED):
        p.kind = "fold"


def bottles_named(scan: Scan) -> None:
    """ "2 bottles gin, 1 bottle vermouth, 70 cl each": bottles poured in, their size said once for all."""
    held = [i for i in scan.kinds("vessel") if scan.items[i].amounts and scan.items[i].size is None]
    named = [i for i in held if scan.kind_at(i + (2 if scan.kind_at(i + 1) == "cue:of" else 1)) in _NAMED]
    sizes = [i for i in scan.kinds("amount", "bare") if scan.kind_at(i + 1) == "cue:each"]
    if len(named) < 2 or named != held or len(sizes) != 1:
        return
    size = scan.items[sizes[0]]
    if (rough_ml(size.value, size.unit) or 0.0) < _SMALL_BOTTLE_ML:
        return
    scan.use(sizes[0], sizes[0] + 1)
    for i in named:
        p = scan.items[i]
        p.kind, p.name = "amount", "whole"
        p.value, p.unit = size.value * p.amounts[0], size.unit or "ml"
