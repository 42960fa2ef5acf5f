"""How many pours there are in what is at hand: one size in another, several pours from one, one pour from several."""

import re
from dataclasses import dataclass

from grammar.frames.spec import numbers_read
from grammar.phrase import Phrase
from grammar.request import Convert, Measure
from grammar.scan import LEAST_BOTTLE_ML, ROUGH_ML, SERVE_LIMIT_ML, Scan, Unclear, rough_ml
from grammar.spare import SPARE
from grammar.vessels import join_vessels

POUR_WORDS = frozenset(["pours", "pour", "shots", "measures"])
_LEAST_POUR_ML, _MOST_POUR_ML = 15.0, 175.0  # a pour said by its figure alone, "35s": common practice, no source
_FAR = 2.0  # times: what is poured from is so much larger than what is poured: common practice, no source


def counts_pours(scan: Scan) -> bool:
    """Whether only sizes are typed, several of them pours: "how many 25 or 35 ml shots in a 70 cl", "how many 35s in 4 L"."""
    if not scan.has("how_many") or scan.kinds("count", "guests", "times", "money", "house"):
        return False
    if scan.has("water", "dilution", "abv", "cost", "price", "left", "rest", "scale", "enough", "bottles"):
        return False
    if len({scan.items[i].name for i in scan.kinds("name", "context")}) > 1:
        return False
    small, large = _sides([rough_ml(*size) for size in _sizes(scan)])
    if not small or not large or (len(large) > 1 and not _asked_first(scan)):
        return False  # "1.5 L and 500 ml of bourbon, how many serves": all of it
    if _lost_at(scan) and any(_poured(p) for p in scan.items):
        return True
    worded = any(_poured(p) for p in scan.items) or (scan.has("in", "from") and not scan.kinds("unit", fresh=False))
    listed = len(small) + len(large) > 2 and (bool(_listed(scan)) or worded)
    return listed or bool(_said_by_figure(scan))


def _asked_first(scan: Scan) -> bool:
    """Whether all that is poured from stands behind "how many": "how many 50 ml pours in a 700, a 750 and a litre"."""
    first = scan.cues("how_many")[0]
    return not any(p.kind == "vessel" or (p.kind in ("amount", "bare") and p.value > 0) for p in scan.items[:first])


def how_many_in(scan: Scan) -> bool:
    """ "how many 25 ml in 70 cl": the smaller is counted in the larger."""
    for c in scan.cues("how_many"):
        small, large = scan.at(c + 1), scan.at(c + 3)
        if small is None or large is None or scan.kind_at(c + 2) not in ("cue:in", "cue:from"):
            continue
        if small.kind != "amount" or small.unit not in ROUGH_ML:
            continue
        held = large.size if large.kind == "vessel" else (large.value, large.unit or "ml")
        sized = large.kind in ("amount", "vessel") or (large.kind == "bare" and large.value >= 300)
        if sized and held is not None and small.value * ROUGH_ML[small.unit] < held[0] * ROUGH_ML.get(held[1], 0.0):
            return True
    return False


def pours_said(scan: Scan) -> bool:
    """Whether two sizes and a word for pours are typed."""
    two = len(scan.kinds("amount", "vessel")) + len([i for i in scan.kinds("bare") if scan.items[i].value >= 300]) >= 2
    return two and any(p.text in POUR_WORDS for p in scan.items)


@dataclass(frozen=True, slots=True)
class _Size:
    ml: float
    measure: Measure


def read_pours(scan: Scan) -> Convert:
    """ "2 L in 1½ oz pours": how many of the smaller in the larger; of several, of each in each.

    Raises Unclear out_of_range, weight, no_volume, two_readings, unclear_number.
    """
    join_vessels(scan)
    for i in _said_by_figure(scan):
        scan.items[i].kind, scan.items[i].unit = "amount", "ml"
        scan.use(i + 1)
    lost_ml, lost = _lost(scan)
    sizes = _read_sizes(scan)
    left = [i for i in scan.kinds("bare", "fold") if scan.items[i].value > 1]
    if left:  # "two cases of 12 x 750"
        raise Unclear("unclear_number", [scan.items[left[0]]], scan.items[left[0]].text)
    if len(sizes) < 2:
        raise Unclear("no_volume", [], "pours")
    small, large = _sides([s.ml for s in sizes]) if len(sizes) > 2 else ([min(s.ml for s in sizes)], [max(s.ml for s in sizes)])
    if not small or not large:
        raise Unclear("two_readings", [], "which of these is poured, and from which")
    pours = [s.measure for s in sizes if s.ml in small]
    wholes = [s for s in sizes if s.ml in large]
    if (lost_ml or lost) and len(wholes) > 1:
        raise Unclear("unclear_number", [], "what is lost, and from which")
    numbers_read(scan)
    held = tuple(_less(s, lost_ml, lost) for s in wholes)
    if len(sizes) == 2:
        held, pours = held[-1:], pours[:1]
    return Convert(held, "pours", None, pours[0], "", tuple(pours[1:]))


def _less(size: _Size, lost_ml: float, lost: float) -> Measure:
    """What is left to pour when so much, or such a share, is lost."""
    if not lost_ml < size.ml:
        raise Unclear("out_of_range", [], f"{lost_ml:g} ml lost of {size.ml:g} ml")
    kept = (1.0 - lost_ml / size.ml) * (1.0 - lost)
    return Measure(size.measure.value * kept, size.measure.unit)


def _read_sizes(scan: Scan) -> list[_Size]:
    """Every size typed, marked, in the order typed."""
    found: list[tuple[int, _Size]] = []
    for i in scan.kinds("amount", "vessel"):
        p = scan.items[i]
        if p.kind == "vessel" and p.size is None:
            scan.use(i)  # "a keg, 19 L"
            continue
        value, unit = (p.value, p.unit) if p.kind == "amount" else (p.size or (0.0, "ml"))
        if p.kind == "vessel" and p.amounts:
            value *= p.amounts[0]
        factor = ROUGH_ML.get(unit)
        if value <= 0:
            raise Unclear("out_of_range", [p], p.text)
        if factor is None:
            raise Unclear("weight", [p], p.text)
        if scan.kind_at(i - 1) == "fold":  # "3 x 750 ml"
            scan.use(i - 1)
            value *= scan.items[i - 1].value
        scan.use(i)
        found.append((i, _Size(value * factor, Measure(value, unit))))
    for i in _listed(scan):
        scan.use(i)
        p = scan.items[i]
        found += [(i, _Size(v * ROUGH_ML[p.unit], Measure(v, p.unit))) for v in p.values]
    for i in scan.kinds("bare"):
        if scan.items[i].value >= 300:
            many = scan.items[i - 1].value if scan.kind_at(i - 1) == "fold" else 1.0
            scan.use(*range(i - 1 if many > 1 else i, i + 1))
            value = scan.items[i].value * many
            found.append((i, _Size(value, Measure(value, "ml"))))
        elif _beside_pour(scan, i):
            scan.use(i)  # "how many 25 or 35 ml shots"
            unit = scan.items[i + 2].unit
            found.append((i, _Size(scan.items[i].value * ROUGH_ML[unit], Measure(scan.items[i].value, unit))))
    return [size for _, size in sorted(found, key=lambda f: f[0])]


def _beside_pour(scan: Scan, i: int) -> bool:
    """Whether the bare figure at i is a pour in the unit of the one it is listed with: "25 or 35 ml"."""
    joined, other = scan.at(i + 1), scan.at(i + 2)
    if joined is None or other is None or not (joined.is_cue("or", "and") or (joined.kind == "sep" and joined.name in ",/")):
        return False
    return other.kind == "amount" and ROUGH_ML.get(other.unit, 0.0) > 0 and scan.items[i].value < 4 * other.value


def _sizes(scan: Scan) -> list[tuple[float, str]]:
    """Every size typed, nothing marked."""
    found: list[tuple[float, str]] = []
    lost = _lost_at(scan)
    for i, p in enumerate(scan.items):
        if i in lost:
            continue
        if p.kind == "amount":
            found.append((p.value, p.unit))
        elif p.kind == "vessel" and p.size is not None:
            found.append(p.size)
        elif p.kind == "bare" and (p.value >= 300 or i in _said_by_figure(scan)):
            found.append((p.value, "ml"))
        elif p.kind == "bare" and _beside_pour(scan, i):
            found.append((p.value, scan.items[i + 2].unit))
        elif i in _listed(scan):
            found += [(v, p.unit) for v in p.values]
    return found


def _listed(scan: Scan) -> list[int]:
    """ "125 / 175 / 250 ml": sizes written as a ratio of amounts."""
    ratios = scan.kinds("ratio")
    return [i for i in ratios if scan.items[i].name == "SLASH" and rough_ml(1.0, scan.items[i].unit) and scan.items[i].unit]


def _said_by_figure(scan: Scan) -> list[int]:
    """ "how many 35s in that": pours of 35 ml."""
    found: list[int] = []
    for c in scan.cues("how_many"):
        p, s = scan.at(c + 1), scan.at(c + 2)
        plural = s is not None and s.kind == "unknown" and s.text == "s"
        if plural and p is not None and p.kind == "bare" and _LEAST_POUR_ML <= p.value <= _MOST_POUR_ML:
            found.append(c + 1)
    return found


def _sides(sizes: list[float | None]) -> tuple[list[float], list[float]]:
    """The pours and what they are poured from, parted at the widest gap; empty where they lie too close."""
    known = sorted(s for s in sizes if s)
    if len(known) < 2 or len(known) < len(sizes):
        return [], []
    at = max(range(1, len(known)), key=lambda k: known[k] / known[k - 1])
    small, large = known[:at], known[at:]
    if large[0] < _FAR * small[-1] or small[-1] >= SERVE_LIMIT_ML or large[0] < LEAST_BOTTLE_ML:
        return [], []
    return small, large


_POURED = POUR_WORDS | {"glasses", "serves", "servings", "drinks"}


def _poured(p: Phrase) -> bool:
    return p.text in _POURED


_LOSES = re.compile(
    r"\b(?:lose|loses|losing|lost|minus|less|wast(?:e|es|ed|ing)|spill(?:s|ed)?|allow|allowing)(?: (?:about|around|roughly))?$"
)
_LOST_TO = re.compile(
    r"(?: is| gets)? (?:to|of|for|in|down|lost to|goes to|left in) (?:the )?(?:\w+ )?(?:foam|fob|lines?|waste|wastage|spill)"
)


def _lost_at(scan: Scan) -> list[int]:
    """Where it is said how much is never poured: "lose 1.2 L to foam", "minus 2 L", "5% wastage"."""
    found: list[int] = []
    for i in scan.kinds("amount", "percent", "negative"):
        p = scan.items[i]
        spare = any(q.text in SPARE for q in scan.items[i + 1 : i + 3])
        said = p.kind == "negative" or _LOSES.search(scan.text[: p.start].rstrip()) or _LOST_TO.match(scan.text, p.end)
        if (p.kind == "percent" and (spare or said)) or (said and p.unit and p.kind != "percent"):
            found.append(i)
    return found


def _lost(scan: Scan) -> tuple[float, float]:
    """The mL and the share that are never poured. Marks them."""
    lost_ml = share = 0.0
    for i in _lost_at(scan):
        p = scan.items[i]
        if p.kind == "percent":
            share += p.value
        else:
            lost_ml += abs(rough_ml(p.value, p.unit) or 0.0)
        scan.use(i)
    if not 0.0 <= share < 1.0:
        raise Unclear("out_of_range", [], f"{share * 100:g} % lost")
    return lost_ml, share
