"""All that is at hand of one thing, where its pours are counted: "2 bottles of gin (700s)", "half a 750 plus two full 750s"."""

from grammar.phrase import Phrase
from grammar.scan import BOTTLE_SIZES_ML, LEAST_BOTTLE_ML, MOST_BOTTLES, Scan, Unclear, bottled, rough_ml

_BETWEEN = ("cue:left", "cue:and", "sep", "cue:with", "cue:scale", "cue:stock", "cue:of", "name")


def put_together(scan: Scan) -> None:
    """ "2 litres plus another half litre of rum, how many": two amounts at hand of one thing are one amount. Marks the second.

    Raises Unclear no_volume for "1 L plus half a bottle".
    """
    if not scan.has("how_many") or len({scan.items[i].name for i in scan.kinds("name", "context")}) > 1:
        return
    _share_of_one(scan)
    _size_apart(scan)
    if _parts_of_stock(scan) or len(scan.kinds("name", "context")) > 1:
        return
    for i in scan.kinds("amount"):
        p, q = scan.items[i], scan.at(i + 2)
        v = scan.at(i + 3 if scan.kind_at(i + 2) == "unknown" else i + 2)  # "half", "another"
        if scan.kind_at(i + 1) == "cue:and" and v is not None and v.kind == "vessel" and v.size is None and bottled(p):
            raise Unclear("no_volume", [v], "the size of the bottle")
        joined = scan.kind_at(i + 1) == "cue:and" and q is not None and q.kind == "amount" and not scan.used[i + 2]
        if joined and q is not None and bottled(p) and bottled(q):
            total_ml = (rough_ml(p.value, p.unit) or 0.0) + (rough_ml(q.value, q.unit) or 0.0)
            p.value, p.unit = total_ml, "ml"
            scan.use(i + 1, i + 2)


def _share_of_one(scan: Scan) -> None:
    """ "3/4 of a 1 L left": that much of it. Marks the share."""
    for i in scan.kinds("bare", "percent"):
        p, whole = scan.items[i], scan.at(i + 2)
        if not 0 < p.value < 1 or scan.kind_at(i + 1) != "cue:of" or whole is None or _whole_ml(whole) is None:
            continue
        scan.use(i, i + 1)
        ml = _whole_ml(whole) or 0.0
        whole.kind, whole.value, whole.unit, whole.size = "amount", p.value * ml, "ml", None
        return


def _size_apart(scan: Scan) -> None:
    """ "2 bottles of gin (700s)", "1 gin bottle 700 ml": a count of bottles, and their size elsewhere. Makes them one."""
    if scan.kinds("count", "guests", "times", "fold"):
        return
    counted = [i for i in scan.kinds("vessel") if scan.items[i].size is None and scan.items[i].amounts]
    if not counted:
        named = [i for i in scan.kinds("vessel") if scan.kind_at(i - 1) == "name" and scan.kind_at(i - 2) == "bare"]
        if len(named) == 1 and scan.items[named[0] - 2].value <= MOST_BOTTLES:
            scan.items[named[0]].amounts = (scan.items[named[0] - 2].value,)
            scan.use(named[0] - 2)
            counted = named
    sizes = [i for i in scan.kinds("vessel", "amount", "bare") if i not in counted and _whole_ml(scan.items[i]) is not None]
    if len(counted) != 1:
        return
    v = scan.items[counted[0]]
    near = sorted([counted[0], *sizes])
    if v.size is None and len(sizes) == 1 and not any(scan.items[k].is_cue("and") for k in range(near[0], near[-1])):
        v.size = (_whole_ml(scan.items[sizes[0]]) or 0.0, "ml")
        scan.use(sizes[0])


def _whole_ml(p: Phrase) -> float | None:
    """mL of the bottle the phrase says, without a count of them."""
    if p.kind == "vessel":
        return rough_ml(*p.size) if p.size is not None and not p.amounts else None
    ml = rough_ml(p.value, p.unit) if p.kind in ("amount", "bare") and _part_of(p) is None else None
    return ml if ml in BOTTLE_SIZES_ML and ml is not None and ml >= LEAST_BOTTLE_ML else None


def _parts_of_stock(scan: Scan) -> bool:
    """ "half a 750 left plus two full 750s", "half a bottle (700) and 2 full ones": part of a bottle and whole ones, added up."""
    part = [i for i in scan.kinds("bare", "amount", fresh=False) if _part_of(scan.items[i]) is not None]
    if len(part) != 1:
        return False
    i = part[0]
    whole = _part_of(scan.items[i]) or 0.0
    for j in range(i + 1, min(len(scan), i + 7)):
        p = scan.items[j]
        many = p.amounts[0] if p.kind == "vessel" and p.amounts else p.value if p.kind == "bare" else 0.0
        if many and many <= MOST_BOTTLES and not scan.used[j]:
            size = scan.at(j + 1)
            if size is not None and size.kind == "cue" and size.name == "scale":  # "two full 750s"
                size = scan.at(j + 2)
            sized = size is not None and _whole_ml(size) is not None
            ones = scan.text[p.end :].lstrip().startswith(("full", "whole", "new", "unopened", "sealed", "more", "bottles"))
            if not sized and not ones and not (p.kind == "vessel" and p.amounts):
                return False
            each = (_whole_ml(size) if size is not None and sized else None) or (rough_ml(*p.size) if p.size else None) or whole
            first = scan.items[i]
            scan.use(*[k for k in (i - 1, i - 2) if k >= 0 and scan.items[k].kind in ("vessel", "sep")])  # "a bottle (700)"
            scan.used[i] = False
            first.kind, first.value, first.unit = "amount", (rough_ml(first.value, first.unit) or 0.0) + many * each, "ml"
            last = scan.items.index(size) if size is not None and sized else j
            scan.use(*[k for k in range(i + 1, last + 1) if scan.kind_at(k) != "name"])
            return True
        if scan.kind_at(j) not in (*_BETWEEN, ""):
            return False
    return False


def _part_of(p: Phrase) -> float | None:
    """mL of the whole bottle where only a part of it is said: "half a 750"."""
    said = float(p.text) if p.text.replace(".", "", 1).isdigit() else 0.0
    return said if p.unit in ("", "ml") and said in BOTTLE_SIZES_ML and 0.0 < p.value < said else None
