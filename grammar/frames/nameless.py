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
