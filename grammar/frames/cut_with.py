"""A cut with something else than water: "drop 500 ml of 12% wine to 8% with soda, how much soda"."""

from grammar.frames.spec import numbers_read
from grammar.request import Cut, Lot, Measure
from grammar.scan import Scan

_LEAST_TARGET_ABV = 0.03  # common practice, no source
_LED = ("to", "at", "want", "make_it", "rest")


def _lot(scan: Scan) -> tuple[int, int] | None:
    """Where the one volume stands, and the strength beside it."""
    sized = [i for i in scan.kinds("amount", "vessel") if scan.items[i].kind == "amount" or scan.items[i].size is not None]
    if len(sized) != 1 or (scan.items[sized[0]].amounts and scan.items[sized[0]].amounts[0] > 1):
        return None
    i = sized[0]
    between = ("cue:of", "cue:at", "name", "context", "drink", "cue:scale")
    for step in (1, -1):
        j = i + step
        while scan.kind_at(j) in between and abs(j - i) < 4:
            j += step
        p = scan.at(j)
        if p is not None and (p.kind in ("percent", "proof") or (p.kind == "bare" and scan.kind_at(j - 1) == "cue:at")):
            return i, j
    return None


def _strength(scan: Scan, i: int) -> float:
    p = scan.items[i]
    return p.value / 100.0 if p.kind == "bare" else p.value


def _thinner(scan: Scan) -> int | None:
    """Where the liquid that goes in is named: "with soda", "w 20% wine", "how much juice"."""
    for i in scan.kinds("name", "context"):
        led = i - 2 if scan.kind_at(i - 1) in ("percent", "proof") else i - 1
        if scan.kind_at(led) == "cue:with":
            return i
    return next((i for i in scan.kinds("name", "context") if scan.kind_at(i - 1) == "cue:how_much"), None)


def cut_with(scan: Scan) -> Cut | None:
    """What is brought to a lower strength, and with what; None where it is something else. Marks nothing."""
    found, thinner = _lot(scan), _thinner(scan)
    if found is None or thinner is None or not ("?" in scan.text or scan.has("how_much")):
        return None
    if scan.kinds("ratio", "count", "guests", "times", "fold", "house", "money", "temperature", "negative"):
        return None
    size, strong = found
    thin = scan.items[thinner]
    owned = [i for i in scan.kinds("name", "context") if not thin.name.endswith(scan.items[i].name)]
    own = thinner - 1 if scan.kind_at(thinner - 1) in ("percent", "proof") else None
    if scan.kind_at(thinner + 1) == "cue:at" and scan.kind_at(thinner + 2) in ("percent", "proof"):
        own = thinner + 2  # "with vermouth at 16%"
    figures = [i for i in scan.kinds("percent", "proof", "bare") if i not in (strong, own)]
    if len({scan.items[i].name for i in owned}) > 1 or len(figures) != 1 or own == strong:
        return None
    if any(abs(i - size) <= 1 for i in scan.kinds("name", "context") if i not in owned):
        return None
    led = [k for k in (figures[0] - 1, figures[0] - 2) if scan.at(k) is not None]
    abv, target = _strength(scan, strong), _strength(scan, figures[0])
    if not any(scan.items[k].is_cue(*_LED) for k in led) or not _LEAST_TARGET_ABV <= target < abv <= 1.0:
        return None
    p = scan.items[size]
    held = Measure(*p.size) if p.kind == "vessel" and p.size is not None else Measure(p.value, p.unit)
    base = Lot(abv, held, scan.items[owned[0]].name if owned else "")
    other = Lot(_strength(scan, own) if own is not None else None, None, thin.name)
    return Cut((base, other), target, None, None, False, True)


def take_cut_with(scan: Scan) -> Cut | None:
    """The same, its phrases marked."""
    made = cut_with(scan)
    if made is not None:
        kinds = ("amount", "vessel", "percent", "proof", "bare", "name", "context", "drink", "unknown")
        scan.use(*scan.kinds(*kinds))
        numbers_read(scan)
    return made
