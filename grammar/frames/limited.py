"""How many drinks there are in what is at hand: a spec and what is left of one ingredient, or a batch and its pours."""

import math
import re

from grammar.scan import LEAST_BOTTLE_ML, SERVE_LIMIT_ML, SMALL_BARE, Scan, bottled, rough_ml
from grammar.used_up import ALL_OF_IT

_ASKED = re.compile(
    r"\bhow (?:many|far|much)\b|\bwhat can (?:i|we) make\b|\b(?:only|just) (?:have|got|has)\b"
    r"|\b(?:max|maximum|most) (?:number of |possible )?(?:serves|servings|drinks|cocktails|portions)\b"
)
_LEAST = 4.0  # times the amount of one serve from which an amount is what is at hand: common practice, no source


def limit(scan: Scan) -> tuple[int, int, float] | None:
    """Where the amount at hand and its name stand, and how many serves it is enough for; None without such an amount."""
    counted = any(scan.kind_at(i + 1) in ("drink", "cue:serve_word") for i in scan.cues("how_many"))
    counted = counted or any(scan.kind_at(i + 1) in ("drink", "cue:serve_word") for i in scan.cues("most"))
    said = scan.has("stock", "left", "but") and _ASKED.search(scan.text) is not None
    all_of_it = ALL_OF_IT.search(scan.text) is not None
    if not (said or counted or all_of_it) or scan.kinds("count", "guests", "ratio"):
        return None
    measured: dict[str, list[tuple[int, int, float]]] = {}
    for i in scan.kinds("name", "context"):
        at = i - 2 if scan.kind_at(i - 1) == "cue:of" else i - 1
        q = scan.at(at)
        if q is None or q.kind not in ("amount", "bare"):
            continue
        ml = rough_ml(q.value, q.unit)
        if ml is not None and ml > 0:
            measured.setdefault(scan.items[i].name, []).append((at, i, ml))
    if len(measured) < 2:
        return None
    for found in measured.values():
        if len(found) != 2:
            continue
        typed, (at, name, held) = sorted(found, key=lambda f: f[2])
        if held < _LEAST * typed[2]:
            continue
        if scan.items[typed[0]].kind == "bare" and typed[2] <= SMALL_BARE:
            return None  # "750 mezcal, 2 mezcal 1 lime": parts of it, or oz
        near = range(max(0, at - 4), min(len(scan), name + 3))
        if all_of_it and held >= LEAST_BOTTLE_ML and not counted and "how many" not in scan.text:
            return at, name, held / typed[2]  # nothing may be left over
        if ((counted or all_of_it) and held >= LEAST_BOTTLE_ML) or any(
            scan.items[k].is_cue("stock", "left", "but") for k in near
        ):
            return at, name, math.floor(held / typed[2] + 1e-6)
    return None


def take_limit(scan: Scan) -> float | None:
    """The serves that what is at hand is enough for, its phrases marked; None when nothing is said of it."""
    found = limit(scan)
    if found is None:
        return None
    at, name, serves = found
    scan.use(*range(at, name + 1), *scan.cues("stock", "left", "but", "how_many", "with"))
    return serves


def anchors(scan: Scan) -> bool:
    """Whether a ratio's own ingredient is at hand in an amount: "got 4.5 L gin, 3:1:1 gin lemon syrup, how many drinks"."""
    names = [p.name for p in scan.items if p.kind == "name"]
    if not scan.kinds("ratio") or scan.has("bottles", "enough"):
        return False
    for i in scan.kinds("amount", "bare"):
        named = scan.at(i + 2 if scan.kind_at(i + 1) == "cue:of" else i + 1)
        large = (rough_ml(scan.items[i].value, scan.items[i].unit) or 0.0) >= SERVE_LIMIT_ML
        if large and named is not None and named.kind == "name" and names.count(named.name) > 1:
            return True
    return False


def batch_poured(scan: Scan) -> bool:
    """Whether a whole batch is typed out and its pours are counted: "700 gin, 350 vermouth, how many 100 ml pours"."""
    pours: set[int] = set()
    large: set[str] = set()
    for i in scan.kinds("amount", "bare"):
        ml = rough_ml(scan.items[i].value, scan.items[i].unit) or 0.0
        if scan.kind_at(i + 1) == "cue:serve_word":
            pours.update([i] if ml < SERVE_LIMIT_ML else [])
            continue
        j = i + 2 if scan.kind_at(i + 1) == "cue:of" else i + 1
        if ml >= 100.0 and scan.kind_at(j) in ("name", "context"):
            large.add(scan.items[j].name)
    return bool(pours) and len(large) >= 2


def pour_at_end(scan: Scan) -> bool:
    """Whether what is counted is a pour, and all else is bottles: "3 bottles 1 L vodka how many 45 ml"."""
    if scan.kinds("count", "guests", "times", "ratio", "percent", "money", "unit", "unknown") or scan.has("water", "each", "abv"):
        return False
    if len({scan.items[i].name for i in scan.kinds("name", "context")}) > 1:
        return False
    for c in scan.cues("how_many"):
        p = scan.at(c + 1)
        ends = scan.kind_at(c + 2) in ("", "sep")
        small = p is not None and p.kind == "amount" and 10.0 <= (rough_ml(p.value, p.unit) or 0.0) < LEAST_BOTTLE_ML
        large = [q for q in scan.items if q is not p and (q.kind == "vessel" or (q.kind == "amount" and bottled(q)))]
        if small and ends and large and c > 0:
            return True
    return False


_OTHER_KINDS = ("count", "guests", "times", "fold", "ratio", "percent", "proof", "money", "drink", "house", "unit", "unknown")
_OTHER_CUES = (
    "water", "dilution", "rest", "final", "scale", "cut", "abv", "freezer", "slush", "cost", "price", "convert", "in", "to",
)  # fmt: skip


def pours_asked(scan: Scan) -> bool:
    """Whether a volume and a smaller pour stand alone: "how long does 3 L last at 50 ml a pour", "750 at 100 ml, glasses?"."""
    if scan.kinds(*_OTHER_KINDS) or scan.has(*_OTHER_CUES):
        return False
    sizes = [rough_ml(p.value, p.unit) for p in scan.items if p.kind in ("amount", "bare") and p.name != "a"]
    sizes += [rough_ml(*p.size) for p in scan.items if p.kind == "vessel" and p.size is not None and not p.amounts]
    if len(sizes) != 2 or None in sizes or len({scan.items[i].name for i in scan.kinds("name", "context")}) > 1:
        return False
    small, large = sorted(s or 0.0 for s in sizes)
    worded = any(p.is_cue("serve_word") for p in scan.items) or scan.has("each")
    return 10.0 <= small < SERVE_LIMIT_ML <= large and worded and ("?" in scan.text or scan.has("how_many", "enough", "what"))
