"""Bottles at hand of several ingredients: "on the shelf 1 L gin, 1 L sweet verm, two 700s red bitter".

Lives here: which of a message's amounts are a list of the stock, where the drink stands elsewhere.
"""

from grammar.request import Measure, Part
from grammar.scan import BOTTLE_SIZES_ML, LEAST_BOTTLE_ML, MOST_BOTTLES, Scan, rough_ml

_NAMES = ("name", "context")
_BEFORE = ("stock", "enough", "left")  # "... in stock", "is 2 x 700 gin and 1 L vermouth enough"


class _Entry:
    """One ingredient of the list: the phrases it takes, how many bottles, and what each holds where that is said."""

    __slots__ = ("count", "end", "name", "size_ml")

    def __init__(self, end: int, name: int, count: float, size_ml: float | None) -> None:
        self.end, self.name, self.count, self.size_ml = end, name, count, size_ml


def stocked(scan: Scan) -> tuple[Part, ...]:
    """What is at hand of a drink of several: the volume as measure, the bottle as size. Takes the list out of the message."""
    if not scan.has(*_BEFORE):
        return ()
    for first in range(len(scan)):
        run = _run(scan, first)
        if not run:
            continue
        last, size_ml = _of_all(scan, run[-1].end)
        led = next((k for k in (first - 1, first - 2) if k >= 0 and scan.items[k].is_cue("stock")), None)
        if led == first - 2 and not (scan.kind_at(first - 1) == "sep" and scan.items[first - 1].name == ":"):
            led = None
        behind = scan.at(last)
        if led is None and not (behind is not None and behind.is_cue(*_BEFORE)):
            continue
        if not _drink_elsewhere(scan, first, last, run):
            continue
        others = {p.name for k, p in enumerate(scan.items) if p.kind in _NAMES and not first <= k < last}
        if len(run) < 2 and not (len(others) > 1 and scan.items[run[0].name].name in others):
            continue  # the one thing there is
        found = tuple(_part(scan, e, e.size_ml or size_ml) for e in run)
        named = [i for i in scan.kinds(*_NAMES) if not first <= i < last] or scan.kinds("drink", "house", "count")
        keep = set() if named else {e.name for e in run}  # "30/30/30 x 20, got 1 L gin, ...": the ratio's names
        _take_out(scan, [i for i in range(first, last) if i not in keep] + ([led] if led is not None and found else []))
        return found
    return ()


def _run(scan: Scan, first: int) -> list[_Entry]:
    """The entries that stand one behind the other from `first` on."""
    run: list[_Entry] = []
    i = first
    while (entry := _entry(scan, i)) is not None:
        run.append(entry)
        i = entry.end
        while scan.kind_at(i) == "cue:and" or (scan.kind_at(i) == "sep" and scan.items[i].name in ",;\n&+"):
            i += 1
    return run


def _entry(scan: Scan, i: int) -> _Entry | None:
    """ "1 L gin", "two 700s of gin", "2 x 700 gin", "3 bottles gin 700 ml", "gin 2 x 700", "gin: 3 bottles"."""
    if scan.kind_at(i) in _NAMES:
        k = i + 1
        if scan.kind_at(k) == "cue:at" or (scan.kind_at(k) == "sep" and scan.items[k].name in ":-("):
            k += 1
        bottles = _bottles(scan, k)
        return None if bottles is None else _Entry(bottles[0], i, bottles[1], bottles[2])
    bottles = _bottles(scan, i)
    if bottles is None:
        return None
    end, count, size_ml = bottles
    end += scan.kind_at(end) == "cue:of"
    if scan.kind_at(end) not in _NAMES:
        return None
    name = end
    own = _size_ml(scan, name + 1) if size_ml is None and _entry_opens(scan, name + 1) is False else None
    return _Entry(name + 2 if own else name + 1, name, count, size_ml or own)


def _entry_opens(scan: Scan, i: int) -> bool:
    """Whether a size at i is that of the next name: "2 bottles gin 700 ml vermouth" says no more of the gin."""
    return scan.kind_at(i + 1 + (scan.kind_at(i + 1) == "cue:of")) in _NAMES


def _bottles(scan: Scan, i: int) -> tuple[int, float, float | None] | None:
    """How many bottles of what size the phrases from i on say, and where they end."""
    p = scan.at(i)
    if p is None or scan.used[i]:
        return None
    if p.kind == "vessel" and (p.size is not None or p.amounts):
        size_ml = rough_ml(*p.size) if p.size is not None else None
        return i + 1, p.amounts[0] if p.amounts else 1.0, size_ml
    if p.kind in ("fold", "bare") and 0 < p.value <= MOST_BOTTLES:
        size_ml = _size_ml(scan, i + 1)
        if size_ml is not None:
            return i + 2, p.value, size_ml
    if p.kind == "bare" and 0 < p.value <= MOST_BOTTLES and scan.kind_at(i + 1) == "cue:of" and scan.kind_at(i + 2) in _NAMES:
        return i + 1, p.value, None  # "3 bottles of gin and 2 of vermouth"
    ml = _size_ml(scan, i)
    return None if ml is None else (i + 1, 1.0, ml)


def _size_ml(scan: Scan, i: int) -> float | None:
    """mL of a bottle or of what is left in some, where the phrase at i says it."""
    p = scan.at(i)
    if p is None or scan.used[i]:
        return None
    if p.kind == "vessel" and p.size is not None and not p.amounts:
        return rough_ml(*p.size)
    ml = rough_ml(p.value, p.unit) if p.kind in ("amount", "bare") else None
    if ml is None or ml < LEAST_BOTTLE_ML or (p.kind == "bare" and ml not in BOTTLE_SIZES_ML):
        return None
    return ml


def _of_all(scan: Scan, i: int) -> tuple[int, float | None]:
    """ "... and 2 of vermouth (700s)", "..., all 700s": the bottle of those whose size is not said, and where the list ends."""
    bracket = scan.kind_at(i) == "sep" and scan.items[i].name in ",("
    k = i + 1 if bracket else i
    v = scan.at(k)
    if v is None or v.kind != "vessel" or v.size is None or v.amounts or not v.text.endswith("s"):
        return i, None
    closed = scan.kind_at(k + 1) == "sep" and scan.items[k + 1].name == ")"
    return k + 1 + closed, rough_ml(*v.size)


def _drink_elsewhere(scan: Scan, first: int, last: int, run: list[_Entry]) -> bool:
    """Whether what is poured is said outside the list: a ratio, a house spec, or the list's names with amounts of their own."""
    rest = [p for k, p in enumerate(scan.items) if not first <= k < last]
    if any(p.kind in ("ratio", "house") or p.is_cue("equal") for p in rest):
        return True
    poured = [p.name for p in rest if p.kind in _NAMES]
    said = [scan.items[e.name].name for e in run]
    return bool(poured) and all(any(same_thing(s, o) for o in poured) for s in said)


def same_thing(name: str, other: str) -> bool:
    """ "vermouth" on the shelf is the "sweet vermouth" of the drink."""
    return name == other or name in other.split() or other in name.split()


def _part(scan: Scan, e: _Entry, size_ml: float | None) -> Part:
    """A size that no bottle has, "1.4 L gin", is a volume in bottles of the usual size."""
    p = scan.items[e.name]
    size = Measure(size_ml, "ml") if size_ml in BOTTLE_SIZES_ML and size_ml is not None else None
    held = Measure(e.count * size_ml, "ml") if size_ml is not None else Measure(e.count, "count")
    return Part(p.name, held, p.text, True, size=size)


def _take_out(scan: Scan, taken: list[int]) -> None:
    for i in sorted(taken, reverse=True):
        scan.items[i].kind = "filler"
        del scan.items[i], scan.used[i]
    scan.cue_names = {p.name for p in scan.items if p.kind == "cue"}
