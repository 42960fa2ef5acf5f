"""Liquids without a name and without an amount: "2:1 of 45% and 20%", "40% diluted by a third".

Only their strengths and how they stand to each other are said; that is enough for a strength.
"""

import re

from grammar.request import Lot, Measure, Part, Recipe, Water
from grammar.scan import Scan

_WATER = ("cue:water", "cue:dilution")
_COLD = ("freezer", "slush", "point", "headspace", "fridge")
_COMES_TO = re.compile(
    r"\bwh(?:at|ere)(?:'?s)?\b.* (?:comes?|drops?|go|goes|ends?|lands?|falls?) (?:out |up |down )?(?:to|at|as)?\W*$"
)
_MOST_WATER = 3.0  # as a share of the undiluted volume; more is no drink: common practice, no source


def in_ratio(scan: Scan) -> list[Lot]:
    """ "50/50 of 40% and 17%": as many strengths as the ratio has figures, none of them owned by a name. Marks nothing."""
    ratios = scan.kinds("ratio")
    strengths = [i for i in scan.kinds("percent", "proof") if not _beside_water(scan, i)]
    if len(ratios) != 1 or scan.kinds("name", "context", "house", "amount", "count", "guests", "drink", "vessel"):
        return []
    values = scan.items[ratios[0]].values
    if len(values) != len(strengths) or len(values) < 2 or min(values) <= 0.0:
        return []
    return [Lot(scan.items[i].value, Measure(value, "part")) for i, value in zip(strengths, values, strict=True)]


def take_in_ratio(scan: Scan) -> list[Lot]:
    """The same, marked."""
    lots = in_ratio(scan)
    if lots:
        scan.use(*scan.kinds("ratio"), *[i for i in scan.kinds("percent", "proof") if not _beside_water(scan, i)])
    return lots


def _beside_water(scan: Scan, i: int) -> bool:
    return scan.kind_at(i - 1) in _WATER or scan.kind_at(i + 1) in _WATER


def _share(scan: Scan, strengths: list[int]) -> int | None:
    """Which of two percents is the water: the one behind the word, "40% diluted by a third", else the one before it."""
    for w in scan.cues("water", "dilution"):
        linked = w + 2 if w + 1 < len(scan) and scan.items[w + 1].is_cue("at", "of", "equals") else w + 1
        for i in (w + 1, w - 1, linked, w - 2):
            if i in strengths:
                return i
    return None


def watered(scan: Scan) -> Recipe | None:
    """ "the abv after 25% dilution of a 40% drink": one strength and the water that goes in, and no amount. Marks nothing."""
    strengths = scan.kinds("percent", "proof")
    comes_to = _COMES_TO.search(scan.text) is not None
    apart = scan.kinds("name", "context", "house") or scan.has("raise", "want", *_COLD)
    apart = apart or (scan.has("to", "cut") and not comes_to)
    figures = scan.kinds("amount", "bare", "ratio", "count", "guests", "vessel", "temperature", "negative", "money")
    if len(strengths) != 2 or figures or apart or not (comes_to or scan.has("abv")):
        return None
    share = _share(scan, strengths)
    strong = next((i for i in strengths if i != share), None)
    if share is None or strong is None or scan.items[share].kind != "percent":
        return None
    water, abv = scan.items[share].value, scan.items[strong].value
    of_finished = scan.kind_at(share + 1) == "cue:final" or scan.kind_at(share + 2) == "cue:final"
    if not 0.0 < water <= (0.99 if of_finished else _MOST_WATER) or not 0.0 < abv <= 1.0:
        return None
    part = Part("", Measure(1.0, "part"), "", True, abv)
    return Recipe((part,), Water("of_finished" if of_finished else "of_undiluted", water))


def take_watered(scan: Scan) -> Recipe | None:
    """The same, everything marked."""
    recipe = watered(scan)
    if recipe is not None:
        scan.use(*range(len(scan)))
    return recipe


_LINKS = ("cue:of", "cue:at", "vessel")
_LED_TO = ("cue:at", "percent", "proof")
_MADE = ("drink", "cue:scale", "cue:blend", "cue:recipe_word")


def nameless_lots(scan: Scan) -> list[Lot]:
    """ "500 ml of 50 %", "500 ml at 40 and 300 ml at 20": volumes of a strength with no name. Marks them."""
    lots: list[Lot] = []
    for i, p in enumerate(scan.items):
        if (
            p.kind == "vessel"
            and p.size is None
            and p.amounts
            and scan.kind_at(i + 1) == "amount"
            and scan.kind_at(i + 2) == "percent"
        ):
            size = scan.items[i + 1]  # "2 btl 750 ml 13.5%"
            size.value *= p.amounts[0]
            scan.use(i)
            continue
        if scan.used[i] or p.kind not in ("amount", "bare"):
            continue
        j = i + 1
        while scan.kind_at(j) in _LINKS or (scan.kind_at(j) in _MADE and scan.kind_at(j + 1) in _LED_TO):
            j += 1  # "6 L of punch at 12%", "1.5 L batch at 30%"
        q = scan.at(j)
        if q is None or scan.used[j]:
            continue
        mixed = scan.has("blend", "abv") and len(scan.cues("of")) > 1  # "700 of 40 and 300 of 20 mixed"
        linked = scan.kind_at(j - 1) == "cue:at" or (scan.kind_at(j - 1) == "cue:of" and mixed)
        if q.kind in ("percent", "proof") or (
            linked and q.kind == "bare" and q.value <= 100 and (p.kind == "amount" or mixed or len(scan.cues("at")) > 1)
        ):
            after = scan.kind_at(j + 1)
            diluted = after == "cue:dilution" and scan.kind_at(j + 2) == "percent"  # "750 ml at 40% diluted 20%"
            if after in ("name", "context", "unknown", "cue:water", "cue:dilution") and not diluted:
                continue
            before = scan.kind_at(i - 1)
            if before in ("name", "context") or (before == "unknown" and i > 1):
                continue
            if p.kind == "bare" and p.value < 90:
                continue
            many = 1.0
            first = i
            if before == "bare" and scan.items[i - 1].value <= 24:
                many, first = scan.items[i - 1].value, i - 1
            scan.use(*range(first, j + 1))
            lots.append(Lot(q.value if q.kind != "bare" else q.value / 100, Measure(p.value * many, p.unit or "ml")))
    return lots
