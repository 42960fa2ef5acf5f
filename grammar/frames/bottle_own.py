"""The bottle each ingredient of a question about bottles comes in, where a spec elsewhere in the message has the amounts.

"gin comes in 1 L, sweet verm and red bitter in 70 cl", "700s of gin n 750s of dry verm for 80 martinis 60/15".
"""

import re

from grammar.request import Measure
from grammar.scan import BOTTLE_SIZES_ML, Scan, bottled, rough_ml

_NAMES = ("name", "context")
_LEAST_ML = 500.0  # below it an amount beside a name may be poured: common practice, no source


def bottles_they_come_in(scan: Scan) -> dict[str, Measure]:
    """The sizes said for names, by name. Marks the sizes, and the names that are said a second time for them."""
    spec = scan.kinds("ratio", "count") != [] or scan.has("each", "equal")
    if not spec:
        return {}
    return {**_sizes_first(scan), **_in_a_size(scan), **_sizes_of(scan), **_behind(scan)}


def _sizes_first(scan: Scan) -> dict[str, Measure]:
    """ "60 ml aperitif 90 ml prosecco. 70 cl aperitif 75 cl prosecco": a list of sizes, each before its name. Marks it."""
    names = [scan.items[i].name for i in scan.kinds("name", "context")]
    pairs = [
        i for i in scan.kinds("amount")
        if (rough_ml(scan.items[i].value, scan.items[i].unit) or 0.0) in BOTTLE_SIZES_ML and bottled(scan.items[i])
        and scan.kind_at(i + 1) in ("name", "context") and names.count(scan.items[i + 1].name) > 1
    ]  # fmt: skip
    if len(pairs) < 2 or scan.kind_at(pairs[0] - 1) not in ("sep", "") or len(pairs) * 2 != len(names):
        return {}
    scan.use(*pairs, *[i + 1 for i in pairs])
    return {scan.items[i + 1].name: Measure(scan.items[i].value, scan.items[i].unit) for i in pairs}


def _in_a_size(scan: Scan) -> dict[str, Measure]:
    """ "sweet verm and red bitter in 70 cl", "gin comes in 1 L"."""
    sizes: dict[str, Measure] = {}
    for i in scan.cues("in"):
        size = _size(scan, i + 1)
        if size is None or scan.used[i]:
            continue
        names = [i - 1] if scan.kind_at(i - 1) in _NAMES else []
        while names and scan.kind_at(names[-1] - 1) == "cue:and" and scan.kind_at(names[-1] - 2) in _NAMES:
            names.append(names[-1] - 2)
        if not names or scan.kind_at(names[-1] - 1) not in ("", "sep", "cue:and") or not _poured_elsewhere(scan, names):
            continue
        scan.use(i, i + 1)
        for k in names:
            sizes[_name(scan, k)] = size
    return sizes


def _sizes_of(scan: Scan) -> dict[str, Measure]:
    """ "how many 700s of gin n 750s of dry verm", "how many litres of gin and 750s of vermouth": two sizes or more."""
    found: list[tuple[int, Measure]] = []
    for i in scan.kinds("vessel", "unit"):
        p = scan.items[i]
        litres = p.kind == "unit" and p.unit == "l" and scan.kind_at(i - 1) in ("cue:how_many", "cue:and")
        sized = p.kind == "vessel" and p.size is not None and not p.amounts and p.text.endswith("s")
        if (litres or sized) and scan.kind_at(i + 1) == "cue:of" and scan.kind_at(i + 2) in _NAMES:
            found.append((i, Measure(*p.size) if p.size is not None else Measure(1.0, "l")))
    if len(found) < 2:
        return {}
    sizes: dict[str, Measure] = {}
    for i, size in found:
        scan.use(i, i + 1)
        sizes[_name(scan, i + 2)] = size
    return sizes


def _behind(scan: Scan) -> dict[str, Measure]:
    """ "25/25/25, gin 70 cl, swt verm 75 cl, red bitter 70 cl": a bottle's size behind each, the amounts in the ratio."""
    named = [i for i in scan.kinds(*_NAMES) if _size(scan, i + 1) is not None]
    if not named or not _poured_elsewhere(scan, named):
        return {}
    sizes: dict[str, Measure] = {}
    for i in named:
        size = _size(scan, i + 1)
        if size is not None:
            scan.use(i + 1)
            sizes[_name(scan, i)] = size
    return sizes


def _size(scan: Scan, i: int) -> Measure | None:
    p = scan.at(i)
    if p is None or scan.used[i]:
        return None
    if p.kind == "unit" and p.unit == "l":
        return Measure(1.0, "l")
    if p.kind == "vessel":
        return Measure(*p.size) if p.size is not None and not p.amounts else None
    if p.kind in ("amount", "bare") and (rough_ml(p.value, p.unit) or 0.0) >= _LEAST_ML:
        return Measure(p.value, p.unit or "ml")
    return None


def _poured_elsewhere(scan: Scan, names: list[int]) -> bool:
    """Whether the drink's amounts are said: a ratio, an amount of each, or every name once more."""
    small = [
        k for k in scan.kinds("amount", "bare") if 0.0 < (rough_ml(scan.items[k].value, scan.items[k].unit) or 0.0) < _LEAST_ML
    ]
    each = any(scan.kind_at(k + 1) == "cue:each" or scan.kind_at(k + 2) == "cue:each" for k in small)
    return bool(scan.kinds("ratio")) or each or all(_again(scan, k) for k in names)


def _again(scan: Scan, i: int) -> bool:
    name = scan.items[i].name
    others = [p.name for k, p in enumerate(scan.items) if k != i and p.kind in _NAMES]
    return any(name == o or name in o.split() or o in name.split() for o in others)


def _name(scan: Scan, i: int) -> str:
    """The name at i, marked where it is said before too."""
    name = scan.items[i].name
    if any(p.kind in _NAMES and (p.name == name or name in p.name.split()) for p in scan.items[:i]):
        scan.use(i)
    return name


_SPARE = re.compile(
    r"\b(?:(?:and|n|plus|with|&) )?(?P<many>\d+|one|an?|two|three) (?:spare|extra|backup|back up)s?(?: bottles?| btls?)?"
    r"(?: of| for)? each(?: one)?(?: on top)?"
)


def spare_bottles(scan: Scan) -> float:
    """ "and one spare of each on top": so many bottles of each to buy beyond those needed. Takes it out of the message."""
    said = _SPARE.search(scan.text)
    if said is None:
        return 0.0
    taken = [i for i, p in enumerate(scan.items) if said.start() <= p.start < said.end()]
    many = next((scan.items[i].value for i in taken if scan.items[i].kind in ("bare", "count")), 1.0)
    for i in reversed(taken):
        scan.items[i].kind = "filler"
        del scan.items[i], scan.used[i]
    scan.cue_names = {p.name for p in scan.items if p.kind == "cue"}
    return many
