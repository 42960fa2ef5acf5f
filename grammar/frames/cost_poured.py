"""What one drink pours and sells for, told apart from what its bottles cost: "60 + 12 per drink", "50 ml at 9.50"."""

import re
from dataclasses import replace

from grammar.request import Measure, Money, Part
from grammar.scan import SERVE_LIMIT_ML, Scan, rough_ml

_POURED = ("amount", "unit", "vessel", "cue:serve_word", "drink")


def sold_at(scan: Scan) -> Money | None:
    """ "150 ml glass at 8, pour cost?", "in a $16 drink, gp?": the one sum left, where its share is asked. Marks it."""
    left = scan.kinds("money", "bare")
    if len(left) != 1 or not scan.has("pour_cost", "margin"):
        return None
    i = left[0]
    poured = scan.kind_at(i - 1) == "cue:at" and scan.kind_at(i - 2) in _POURED
    drink = scan.kind_at(i - 1) in ("cue:in", "cue:for") and scan.kind_at(i + 1) in ("cue:serve_word", "drink")
    if not poured and not drink:
        return None
    scan.use(i, *([i + 1] if drink else []))
    return Money(scan.items[i].value, scan.items[i].unit)


def poured_in_order(scan: Scan, bottles: list[Part]) -> list[Part]:
    """ "gin 24/700, verm 12/750, 60 + 12 per drink": amounts in the order of the bottles, as many as there are. Marks them."""
    if len(bottles) < 2 or not all(b.typed for b in bottles):
        return bottles
    runs: list[list[int]] = []
    for i in scan.kinds("amount", "bare"):
        if (rough_ml(scan.items[i].value, scan.items[i].unit) or SERVE_LIMIT_ML) >= SERVE_LIMIT_ML:
            return bottles
        joined = bool(runs) and runs[-1][-1] == i - 2 and scan.kind_at(i - 1) == "cue:and"
        if joined:
            runs[-1].append(i)
        else:
            runs.append([i])
    if len(runs) != 1 or len(runs[0]) != len(bottles):
        return bottles
    run = runs[0]
    if scan.kind_at(run[0] - 1) in ("name", "context") or scan.kind_at(run[-1] + 1) in ("name", "context"):
        return bottles
    unit = next((scan.items[i].unit for i in run if scan.items[i].unit), "ml")
    scan.use(*range(run[0], run[-1] + 1))
    measures = [Measure(scan.items[i].value, scan.items[i].unit or unit) for i in run]
    return [replace(b, measure=m) for b, m in zip(bottles, measures, strict=True)]


_OF_ONE = re.compile(
    r"\d ?(?:(?:liquid|drink|ingredient|ingredients|booze) )?(?:costs? )?"
    r"(?:each|ea|apiece|per (?:drink|serve|serving|cocktail|head|person|pop)|an? (?:drink|serve|serving|cocktail|pop|head))\b"
)


def cost_of_one(scan: Scan) -> bool:
    """ "1.95 liquid cost per drink, 250 drinks": the sum is said to be for one of them."""
    return _OF_ONE.search(scan.text) is not None
