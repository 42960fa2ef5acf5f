"""A question after a spec about bottles of one of its ingredients: those to buy, or what those at hand make."""

import re
from dataclasses import dataclass

from grammar.scan import BOTTLE_SIZES_ML, LEAST_BOTTLE_ML, MOST_BOTTLES, Scan, rough_ml


@dataclass(frozen=True, slots=True)
class BottlesOfOne:
    """Bottles of one ingredient: where it and its figures stand; ml is what one holds, or all that there is, 0 when not said."""

    name: int
    figures: tuple[int, ...]
    ml: float
    at_hand: bool
    many: float = 1.0


_THAT = re.compile(r"\b(?:that|it|this|those|them)\b")
_MADE_OF_IT = re.compile(
    r"\b(?:can|could|will|would|do|does|should) (?:i|we|you|it|that|they|those|them|\d)|\b(?:go|last|enough)\b"
)
_FIGURES = (
    "amount", "bare", "fold", "vessel", "count", "guests", "times", "ratio", "percent", "proof", "money", "temperature", "drink",
    "house",
)  # fmt: skip
_OTHER = ("water", "dilution", "cost", "price", "freezer", "each", "cut", "abv", "but")


SPLIT = re.compile(r"\b(?:split|divid(?:e|ed)|spread|shared?|across|between|among|over|into)\b[^.;\d]{0,12}$")


def split_at(scan: Scan) -> int | None:
    """Where so many bottles of no size stand that something is split between; None without, or with an ingredient's name."""
    for i in scan.kinds("vessel"):
        p = scan.items[i]
        if p.amounts and p.amounts[0] > 1 and p.size is None and SPLIT.search(scan.text[: p.start]):
            return i
    return None


def bottles_of_one(scan: Scan) -> BottlesOfOne | None:
    """ "how many 70cls of rye is that", "ive got 3 700s of rye, how many can i make": no figure but the bottles', one name."""
    names, figures = scan.kinds("name", "context"), scan.kinds(*_FIGURES)
    if len(names) != 1 or not 1 <= len(figures) <= 2 or scan.has(*_OTHER):
        return None
    at = figures[-1]
    p = scan.items[at]
    ml = rough_ml(*p.size) if p.size is not None else rough_ml(p.value, p.unit) if p.kind != "vessel" else None
    asked = scan.has("how_many", "how_much", "enough")
    at_hand = scan.has("stock", "enough") and p.kind == "vessel" and bool(p.amounts)
    if ml is None and at_hand and asked and len(figures) == 1 and _MADE_OF_IT.search(scan.text) is not None:
        return BottlesOfOne(names[0], tuple(figures), 0.0, True)  # "ive got 3 bottles of rye, how many can i make"
    sized = p.kind in ("vessel", "amount") or (p.kind == "bare" and p.value in BOTTLE_SIZES_ML)
    if ml is None or ml < LEAST_BOTTLE_ML or not sized:
        return None
    many = p.amounts[0] if p.kind == "vessel" and p.amounts else 0.0
    if len(figures) == 2:
        q = scan.items[figures[0]]
        bottles = q.kind == "vessel" and q.size is None and bool(q.amounts)  # "3 bottles of rye, 700 ml"
        counted = q.kind in ("bare", "fold") and figures[0] == at - 1 and 1 <= q.value <= MOST_BOTTLES
        if many or not (bottles or counted):
            return None
        many = q.amounts[0] if bottles else q.value
    from_it = scan.kind_at(figures[0] - 1) == "cue:from" or scan.has("stock", "enough")
    if many or from_it:
        made = _MADE_OF_IT.search(scan.text) is not None or from_it
        return BottlesOfOne(names[0], tuple(figures), ml * (many or 1.0), True, many or 1.0) if asked and made else None
    if p.kind == "vessel" and p.size is not None and (asked or scan.kind_at(at - 1) == "cue:in") and _THAT.search(scan.text):
        return BottlesOfOne(names[0], tuple(figures), ml, False)
    named = p.kind == "amount" and names[0] in (at + 1, at + 2)  # "how many 1 L gin do I order"
    if asked and scan.kind_at(at - 1) == "cue:how_many" and (named or _THAT.search(scan.text)):
        return BottlesOfOne(names[0], tuple(figures), ml, False)
    return None
