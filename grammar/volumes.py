"""Reading volumes and serve sizes: "total 2 L", "95 ml each finished", "1 L: 55% gin, 25% vermouth, 20% water".

Amounts whose neighbours say that they are the whole or one serve; vessels are read before them, counts in grammar.makes.
"""

import re
from dataclasses import replace

from grammar.request import Measure, Yield
from grammar.scan import BOTTLE_SIZES_ML, LEAST_BOTTLE_ML, MOST_BOTTLES, SERVE_LIMIT_ML, Scan, rough_ml
from grammar.shares import is_the_whole
from grammar.vessels import BIG_UNITS

_ENDS = ("", "sep", "cue:at", "cue:with")


def read_volumes(scan: Scan, makes: Yield) -> Yield:
    """Amounts that their neighbours call a volume or a serve size."""
    for i, p in enumerate(scan.items):
        if scan.used[i] or p.kind not in ("amount", "bare"):
            continue
        before, after = scan.kind_at(i - 1), scan.kind_at(i + 1)
        after2 = scan.kind_at(i + 2)
        unit = p.unit or "ml"
        ml = rough_ml(p.value, unit)
        if ml is None or unit in ("dash", "drop", "barspoon", "part"):
            continue
        bare = p.kind == "bare"
        before2 = scan.kind_at(i - 2)
        of_a_serve = before in ("cue:of", "cue:at") and not bare and after not in ("name", "context")
        leads = after == "cue:final" and after2 in ("amount", "vessel")  # "cranberry 1 oz, yield 1.5 L"
        # "95 ml each finished", "finished serve 95 ml", "90 ml serves", "serve 100 ml"
        sized_serve = (
            (after == "cue:each" and after2 in ("cue:final", "cue:dilution"))
            or (after == "cue:final" and after2 in ("cue:each", "cue:serve_word"))
            or (not bare and ml < 600.0 and (after == "cue:serve_word" or (before == "cue:how_many" and after == "drink")))
            or (after == "cue:final" and not leads and ml < SERVE_LIMIT_ML and not bare and unit not in BIG_UNITS)
            or (before == "cue:final" and ml < SERVE_LIMIT_ML and unit not in BIG_UNITS and _in_each(scan, i, ml))
            or (before in ("cue:serve_word",) and not bare and not _named_next(scan, i))
            or (before == "cue:each" and after == "cue:final")
            or (of_a_serve and before2 in ("cue:serve_word", "count", "guests"))
            or (of_a_serve and i >= 2 and scan.items[i - 2].kind == "count" and ml < SERVE_LIMIT_ML)
            or (after == "cue:slush" and scan.items[i + 1].text.startswith("pour"))
            or (before == "cue:at" and after in ("cue:each", "cue:equal") and not bare and _all_measured(scan))
        )  # fmt: skip
        if sized_serve and ml < 1500 and makes.serve is None:
            near = {after, after2, before, before2, scan.kind_at(i + 3)}
            finished = "cue:final" in near or (after == "cue:each" and after2 == "cue:dilution")
            undiluted = "cue:undiluted" in near
            scan.use(i)
            for j in (i - 2, i - 1, i + 1, i + 2):
                if scan.kind_at(j) in ("cue:each", "cue:final", "cue:serve_word", "cue:undiluted", "cue:at"):
                    scan.use(j)
            makes = replace(
                makes,
                serve=Measure(p.value, unit),
                serve_is="finished" if finished else "undiluted" if undiluted else "unsaid",
            )
            continue
        looks_like_volume = (
            before in ("cue:final", "cue:fit")
            or (before == "cue:in" and before2 == "cue:fit")
            or (after == "cue:final" and not leads)
            or (before in ("cue:at", "cue:to", "cue:of") and before2 == "cue:final")
            or (before == "sep" and before2 == "cue:final" and not _named_next(scan, i))
            or (before == "cue:scale" and not _named_next(scan, i))
            or (after == "cue:scale" and not bare and ml >= SERVE_LIMIT_ML)
            or (before == "cue:rest" and after not in ("name", "context", "unknown", "cue:water"))
            or (before == "cue:to" and before2 in ("cue:rest", "cue:scale", "cue:water") and not _named_next(scan, i))
            or (after == "cue:of" and after2 in ("drink", "ratio", "house", "cue:equal"))
            or (before == "cue:in" and bare and p.value in BOTTLE_SIZES_ML and not _named_next(scan, i))
            or after in ("drink", "ratio", "house", "cue:equal")
            or (not bare and is_the_whole(scan, i))
            or (before in ("drink", "house", "ratio") and after in _ENDS and (not bare) and ml >= LEAST_BOTTLE_ML)
            or (before == "cue:for" and bare and p.value in BOTTLE_SIZES_ML and p.value >= 300 and not _named_next(scan, i))
        )  # fmt: skip
        if looks_like_volume and bare and not (p.value >= LEAST_BOTTLE_ML and (p.value in BOTTLE_SIZES_ML or p.value >= 300)):
            looks_like_volume = False
        if looks_like_volume and bare and before in ("drink", "house") and after in ("drink", "ratio"):
            looks_like_volume = False
        if looks_like_volume and not bare and unit not in BIG_UNITS and _too_little(scan, ml) and makes.serve is None:
            scan.use(i)  # "20 guests 250 ml 1:3 whisky soda": too little for all of them
            makes = replace(makes, serve=Measure(p.value, unit))
            continue
        if looks_like_volume and ml >= 90 and makes.volume is None:
            scan.use(i)
            for j in (i - 1, i - 2, i + 1):
                if scan.kind_at(j) == "cue:final" and scan.kind_at(j - 1) == "cue:of" and j < i:
                    continue  # "water 10% of finished, 10 L finished"
                if scan.kind_at(j) in ("cue:final", "cue:at", "cue:scale", "cue:rest", "cue:fit") and not (
                    scan.kind_at(j) == "cue:rest" and scan.kind_at(j + 1) == "cue:water"
                ):
                    scan.use(j)
            many = scan.items[i - 1] if before == "bare" else None
            if many is not None and bare and many.value <= MOST_BOTTLES and ml >= LEAST_BOTTLE_ML:
                scan.use(i - 1)
                makes = replace(makes, vessels=many.value, vessel_ml=p.value, volume=Measure(p.value * many.value, unit))
            elif "cue:fit" in (before, before2):  # "does it fit 2 L": what it is to go into
                makes = replace(makes, vessels=1.0, vessel_ml=ml, volume=Measure(p.value, unit))
            else:
                makes = replace(makes, volume=Measure(p.value, unit))
    return makes


IN_THE_GLASS = r"\bin(?:to)? (?:the|each|every|a) (?:glass|coupe|cup|flute|tumbler)\b"
_IN_THE_GLASS = re.compile(IN_THE_GLASS)
SMALLEST_SERVE_ML = 25.0  # common practice, no source


def _in_each(scan: Scan, i: int, ml: float) -> bool:
    """Whether the finished amount at i is one serve's: "comes to 80 ml in the glass, x30", or too little for all of them."""
    glass = _IN_THE_GLASS.match(scan.text, scan.items[i].end + 1) is not None
    return glass or (scan.items[i].kind == "amount" and _too_little(scan, ml))


def _too_little(scan: Scan, ml: float) -> bool:
    counted = [p.value for p in scan.items if p.kind in ("count", "times", "guests")]
    return bool(counted) and ml < counted[0] * SMALLEST_SERVE_ML and ml < SERVE_LIMIT_ML


def _all_measured(scan: Scan) -> bool:
    """Whether every ingredient has an amount of its own, so that one more "at 90 ml a serve" is the drink's size."""
    names = len(scan.kinds("name", "context"))
    return bool(scan.kinds("ratio")) or scan.has("equal") or len(scan.kinds("amount", "bare")) > names > 0


def _named_next(scan: Scan, i: int) -> bool:
    """Whether an ingredient directly follows the amount at i."""
    j = i + 1
    while scan.kind_at(j) in ("cue:of", "percent", "proof", "unknown"):
        j += 1
    return scan.kind_at(j) in ("name", "context", "cue:water")
