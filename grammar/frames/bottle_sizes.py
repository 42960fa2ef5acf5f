"""Sizes of the bottles in a question about bottles: each ingredient's own, all of them together, or the one size said."""

from grammar.request import Measure
from grammar.scan import BOTTLE_SIZES_ML, LEAST_BOTTLE_ML, Scan, bottled, rough_ml

_OF_EACH = ("cue:of", "cue:each")
_ASKS_BOTTLES = ("cue:how_many", "cue:bottles")


def plurals_of(scan: Scan) -> list[int]:
    """ "fifths of bourbon for 45 at 2 oz", "..., 750s of rye and vermouth?": bottles of a size, of which nobody says how many."""
    counted = scan.kinds("count", "guests", "times", "fold") or (scan.has("for") and scan.kinds("bare"))
    if not counted or scan.has("how_many", "bottles", "stock", "left"):
        return []
    found: list[int] = []
    for i in scan.kinds("vessel"):
        p = scan.items[i]
        plural = p.size is not None and not p.amounts and p.text.endswith("s")
        opens = scan.kind_at(i - 1) in ("", "sep") and scan.kind_at(i + 1) == "cue:of"
        if plural and opens and scan.kind_at(i + 2) in ("name", "context"):
            found.append(i)
    return found if len(found) == 1 else []


def own_sizes(scan: Scan) -> dict[str, Measure]:
    """ "bourbon comes in 1.75 L", "700s of gin": the bottle each ingredient comes in. Marks them."""
    sizes: dict[str, Measure] = {}
    _size_asked(scan)
    named = scan.kinds("name", "context", "unknown")
    for i in named:
        name = scan.items[i].name or scan.items[i].text
        more = (
            len(
                [
                    k
                    for k in named
                    if scan.items[k].name == name or name in scan.items[k].name.split() or scan.items[k].name in name.split()
                ]
            )
            > 1
        )
        beside = scan.at(i + 1)
        large = beside is not None and (rough_ml(beside.value, beside.unit) or 0.0) >= 500
        if more and large and beside is not None and beside.kind in ("amount", "bare") and not scan.used[i + 1]:
            sizes[name] = Measure(beside.value, beside.unit or "ml")  # "bottles? gin 750, vermouth 1 L"
            scan.use(i, i + 1)
            continue
        asked = scan.at(i - 1)
        if (
            more
            and asked is not None
            and asked.kind in ("amount", "bare")
            and not scan.used[i - 1]
            and scan.kind_at(i - 2) in ("cue:how_many", "cue:bottles")
            and (bottled(asked) if asked.kind == "amount" else asked.value >= 500)
        ):
            sizes[name] = Measure(asked.value, asked.unit or "ml")  # "how many 1.75 L tequila, 400 drinks, 40 ml tequila each"
            scan.use(i - 2, i - 1, i)
            continue
        bottle = scan.at(i + 2)
        bracket = scan.kind_at(i + 1) == "sep" and scan.items[i + 1].name == "("
        if bracket and bottle is not None and bottle.kind == "vessel" and bottle.size is not None and not scan.used[i + 2]:
            sizes[name] = Measure(*bottle.size)  # "90 ml sparkling wine (75 cl btl)"
            scan.use(i + 1, i + 2)
            continue
        j = i + 2
        q = scan.at(j)
        if scan.kind_at(i + 1) == "cue:in" and q is not None and not scan.used[j] and more:
            size = (
                Measure(*q.size)
                if q.kind == "vessel" and q.size
                else Measure(q.value, q.unit or "ml")
                if q.kind in ("amount", "bare")
                else Measure(1.0, "l")
                if q.kind == "unit" and q.unit == "l"  # "rye comes in litres"
                else None
            )
            if size is not None:
                sizes[name] = size
                scan.use(i, i + 1, j)
                continue
        v = scan.at(i - 2)
        if (
            v is not None
            and v.kind == "vessel"
            and v.size is not None
            and not scan.used[i - 2]
            and scan.kind_at(i - 1) == "cue:of"
            and more
            and not (v.amounts and v.amounts[0] > 1)
        ):
            sizes[name] = Measure(*v.size)
            scan.use(i - 2, i - 1, i)
    return sizes


def _size_asked(scan: Scan) -> None:
    """ "how many 1 L gin", "gin 1 L bottles needed": the amount asked for is the bottle, and a serve's stands elsewhere."""
    named = scan.kinds("name", "context")
    amounts = scan.kinds("amount", "bare")
    typed = [scan.items[i] for i in scan.kinds("amount")]
    small = [p for p in typed if 0.0 < (rough_ml(p.value, p.unit) or 0.0) < LEAST_BOTTLE_ML]
    sized = any(scan.items[i].size is not None for i in scan.kinds("vessel"))
    if len({scan.items[i].name for i in named}) != 1 or not small or sized:
        return
    for i in amounts:
        p = scan.items[i]
        behind = i + 2 if scan.kind_at(i + 1) == "cue:of" else i + 1
        bottle = scan.kind_at(behind + 1 if behind in named else i + 1)
        asked = scan.kind_at(i - 1) in _ASKS_BOTTLES and behind in named
        called = bottle in ("vessel", "cue:bottles") and (behind in named or i - 1 in named)
        if (asked or called) and (rough_ml(p.value, p.unit) or 0.0) >= 500.0:
            p.kind, p.size, p.value = "vessel", (p.value, p.unit or "ml"), 1.0
            return


def several_ml(scan: Scan) -> float | None:
    """ "from 3 bottles of 700 ml", "from 3 x 700 ml": what all of them hold, in mL. Marks the count and the size."""
    for i in scan.kinds("vessel"):
        p = scan.items[i]
        if p.size is not None and p.amounts and p.amounts[0] > 1:
            scan.use(i)
            return p.amounts[0] * (rough_ml(*p.size) or 0.0)
    for i in scan.kinds("fold"):
        q = scan.at(i + 1)
        if q is not None and q.kind in ("amount", "bare") and bottled(q):
            scan.use(i, i + 1)
            return scan.items[i].value * (rough_ml(q.value, q.unit) or 0.0)
    return None


def size_ml_of(scan: Scan) -> float | None:
    """The bottle's size: "700ml bottles", "(1L)", "in 750s". Marks it."""
    for i in scan.kinds("vessel"):
        p = scan.items[i]
        if p.size is not None:
            scan.use(i)
            return rough_ml(*p.size)
        before, after = scan.at(i - 1), scan.at(i + 1)
        for j, q in ((i - 1, before), (i + 1, after)):
            if q is not None and not scan.used[j] and q.kind == "bare" and q.value in BOTTLE_SIZES_ML and q.value >= 200:
                scan.use(i, j)
                return q.value
        scan.use(i)
    for i in scan.kinds("amount", "bare"):
        p = scan.items[i]
        ml = rough_ml(p.value, p.unit)
        before, after = scan.at(i - 1), scan.at(i + 1)
        bracketed = before is not None and before.kind == "sep" and before.name == "("
        plural = after is not None and after.kind == "unknown" and after.text == "s"
        standing = (
            p.value in BOTTLE_SIZES_ML
            and p.kind == "bare"
            and p.value >= 200
            and scan.kind_at(i + 1) not in ("drink", "cue:each")
        )
        sized = (
            ml is not None
            and ml in BOTTLE_SIZES_ML
            and ml >= 500
            and p.kind == "amount"
            and scan.kind_at(i - 1) in ("sep", "cue:in", "cue:from", "cue:of", "cue:how_many")
            and (scan.kind_at(i + 1) in ("", "sep", "cue:each") or (scan.kind_at(i + 1), scan.kind_at(i + 2)) == _OF_EACH)
        )
        sized = sized or (p.kind == "amount" and ml in BOTTLE_SIZES_ML and _bottles_next(scan, i))
        if ml is not None and ml >= LEAST_BOTTLE_ML and (bracketed or plural or standing or sized):
            scan.use(i)
            if plural:
                scan.use(i + 1)
            return ml
    return None


def _bottles_next(scan: Scan, i: int) -> bool:
    """ "50 ml rum 70 cl how many btls": whether the size at i stands before the question for bottles."""
    v = scan.at(i + 2)
    return scan.kind_at(i + 1) == "cue:how_many" and v is not None and v.kind == "vessel" and v.size is None
