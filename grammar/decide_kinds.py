"""Whether a message is about a syrup or bottles: the tests that need more than one cue."""

import re

from grammar.decide_wants import batch_held, small_spec, to_fill
from grammar.frames.bottle_sizes import plurals_of
from grammar.frames.limited import anchors, batch_poured, pour_at_end, pours_asked
from grammar.frames.syrup import SYRUPS, WEIGHTS
from grammar.frames.syrup_ratios import in_place_of
from grammar.scan import Scan, rough_ml

_ENOUGH_TO = re.compile(
    r"\benough (?:\d+ ?[-:/] ?\d|to (?:fill|make|do|serve)|for \S+ (?:bottles|btls|jugs|kegs|flasks|pitchers|jars|litres?|l)\b)"
)
POURS = frozenset(["pour", "pours", "shot", "shots", "measure", "measures"])


def is_syrup(scan: Scan, names: list[int], real_names: list[int], amounts: list[int]) -> bool:
    items = scan.items
    sweets = [i for i in scan.kinds("name", "context", "garnish") if items[i].name in SYRUPS]
    if real_names:
        return False
    weights = [p for p in items if (p.kind == "amount" or p.kind == "unit") and p.unit in WEIGHTS]
    if scan.has("sweeten") and not scan.has("freezer", "slush") and (sweets or scan.kinds("percent", "bare", "ratio", "amount")):
        return True
    if scan.kinds("money") or scan.has("abv", "freezer"):
        return False
    asks = (
        scan.has("how_much", "how_many", "water", "by_weight", "by_volume", "want", "what", "scale")
        or bool(weights)
        or bool(scan.kinds("ratio"))
    )
    salted = any(items[i].name in ("saline", "salt") for i in sweets)
    if salted and (scan.kinds("percent", "ratio") or weights):
        return True
    plain = any(
        items[i].name
        in (
            "sugar",
            "simple syrup",
            "rich syrup",
            "demerara syrup",
            "rich demerara syrup",
            "honey",
            "honey syrup",
            "agave syrup",
            "agave nectar",
            "gum syrup",
            "demerara sugar",
            "rich honey syrup",
            "cane syrup",
            "maple syrup",
            "ginger syrup",
            "cinnamon syrup",
            "vanilla syrup",
        )
        for i in sweets
    )
    if plain and (scan.kinds("ratio", "percent") or weights or scan.has("equal", "by_weight")) and (asks or amounts):
        return True
    if plain and (scan.has("how_much") or weights or scan.has("water")) and (amounts or scan.kinds("vessel")):
        return True
    if plain and not real_names and len(sweets) == 1 and (amounts or scan.kinds("vessel")) and not scan.has("in", "convert"):
        return scan.kinds("ratio") != [] or scan.has("scale", "want", "make_it") or "rich" in items[sweets[0]].name
    pair = [i for i in scan.kinds("ratio") if len(items[i].values) == 2]
    brought = scan.has("to", "rest", "make_it", "convert") or (not names and weights and scan.has("oops"))
    brought = brought or (not names and scan.has("want") and scan.has("water", "stock"))  # "got 1 L of 2:1, need 1:1. water?"
    if len(pair) == 2 and not scan.kinds("drink", "house", "count") and (brought or in_place_of(scan.copy())):
        return True  # "turn 1:1 into 2:1"
    if not names and pair and scan.has("by_weight") and not scan.has("abv", "final"):
        return True  # "1:1 by wt, 2 litres pls"
    return not names and bool(weights) and bool(scan.kinds("ratio")) and scan.has("water", "syrup_word", "by_weight")


_BOTTLES_OF_EACH = re.compile(r"(?<!\d )\b(?:bottles|btls|bottle) (?:of|for) each\b")
_SIZED_ASKED = re.compile(  # "prosecco for 90, a 125 ml glass each. 75 cl bottles?"
    r"(?:[.,;] ?|^)(?:how many )?(?:\d+(?:\.\d+)? ?(?:ml|cl|l|litre|liter) |\d{3} )(?:bottles|btls) ?\?+ ?$"
)


def _comes_in(scan: Scan) -> bool:
    """ "gin comes in 1 L, verm 750": a bottle's size behind a name."""
    sized = [i for i in scan.cues("in") if scan.at(i + 1) is not None and scan.kind_at(i - 1) in ("name", "context")]
    return any(scan.items[i + 1].kind in ("amount", "bare", "vessel") for i in sized)


def is_bottles(scan: Scan, spec: bool, amounts: list[int], counted: list[int]) -> bool:
    items = scan.items
    bottle_noun = any(p.kind == "vessel" for p in items)
    several = len({items[i].name for i in scan.kinds("name", "context")}) > 1
    if any(scan.kind_at(i + 1) == "unit" for i in scan.cues("how_many")) and not spec and not counted and not bottle_noun:
        return False  # "a pint holds how many cl"
    if plurals_of(scan):
        return True
    filled = not bottle_noun or to_fill(scan)
    plain = small_spec(scan) or "?" not in scan.text
    if scan.has("enough") and several and filled and plain and not scan.has("bottles", "stock"):
        return False  # "need enough for 55 guests: 1 oz vodka, 2 oz cranberry"
    if batch_held(scan):
        return False
    if pours_asked(scan) or pour_at_end(scan):
        return True
    if several and ((scan.has("how_many") and batch_poured(scan)) or anchors(scan)):
        return False
    if spec and not scan.has("bottles", "stock") and "?" not in scan.text and _ENOUGH_TO.search(scan.text):
        return False  # "two parts gin, one part vermouth, enough to fill a 1.5 L bottle"
    if scan.has("bottles", "enough") and (spec or counted or amounts or bottle_noun or scan.kinds("name", "context", "house")):
        return True
    if re.search(r"\bhow many (?:bottles )?of each\b", scan.text) and (bottle_noun or _comes_in(scan)):
        return True
    if _BOTTLES_OF_EACH.search(scan.text) and (counted or spec):
        return True
    if _SIZED_ASKED.search(scan.text) and spec and not several and (counted or scan.has("for")) and not scan.kinds("ratio"):
        return True
    if re.match(r"\s*how (?:many|much) bottles\b", scan.text):
        return True
    names = scan.kinds("name", "context", "house")
    plural = any(
        p.kind == "vessel"
        and (p.text.endswith(("bottles", "btls", "bottle", "btl")) or (p.text.endswith("s") and scan.has("want")))
        and not (p.amounts and p.amounts[0] > 1)
        for p in items
    )
    if (
        counted
        and spec
        and plural
        and len({items[i].name for i in names}) == 1
        and not scan.kinds("ratio")
        and not scan.has("scale", "water", "dilution")
    ):
        return True
    if counted and spec and bottle_noun and scan.has("how_many"):
        return True
    if (
        counted
        and len([i for i in names if scan.kind_at(i + 1) == "cue:in" and scan.kind_at(i + 2) in ("amount", "bare", "vessel")])
        >= 2
    ):
        return True
    if (
        not names
        and not counted
        and any(p.is_cue("serve_word") and p.text not in POURS for p in items)
        and not scan.has("water", "dilution", "abv", "cost", "price", "margin", "pour_cost")
        and amounts
        and (bottle_noun or (len(amounts) >= 2 and any((rough_ml(p.value, p.unit) or 0) >= 200 for p in items)))
    ):
        return True
    if (
        bottle_noun
        and not names
        and not counted
        and amounts
        and scan.has("what", "fit", "stock")
        and (not scan.has("abv", "final", "in") or (scan.has("stock") and not scan.has("abv")))
    ):
        return True
    bare_bottle = any(p.kind == "vessel" and p.size is None for p in items)
    sizes = [p for p in items if p.kind in ("bare", "amount") and (rough_ml(p.value, p.unit) or 0) >= 200]
    if scan.has("how_many"):
        i = scan.cues("how_many")[0]
        nxt = scan.at(i + 1)
        if scan.items[i].text.split()[-1] in ("do", "get", "make") and bottle_noun and amounts and not names:
            return True  # "20 L keg, 150 ml glasses, how many does it do"
        if nxt is not None and nxt.kind == "vessel":
            return True
        if (
            nxt is not None
            and nxt.kind in ("bare", "amount")
            and (rough_ml(nxt.value, nxt.unit) or 0) >= 200
            and not (nxt.kind == "amount" and scan.kinds("unit"))
        ):
            return True
        serving = any((p.is_cue("serve_word") and p.text not in POURS) or p.kind == "drink" for p in items[i : i + 4])
        recipe = len({items[k].name for k in names}) >= 2 and spec and not scan.has("stock", "left", "bottles")
        if serving and recipe and bottle_noun:
            return False  # "how many martinis in a 1.5 L bottle, 60 gin 10 dry vermouth": filled with the whole drink
        if serving and (bottle_noun or sizes):
            return True
        pours = any(p.text in ("pours", "pour", "shots", "measures", "drinks", "serves") for p in items)
        if pours and (bottle_noun or len(sizes) >= 1) and not scan.kinds("ratio"):
            return (
                bool(names)
                or scan.has("stock", "left")
                or not any(p.text in ("pours", "pour", "shots", "measures") for p in items)
            )
    stocked = scan.has("stock", "left") and (bottle_noun or sizes) and (spec or counted or scan.kinds("name"))
    if stocked and not scan.kinds("percent", "proof", "ratio") and not scan.has("want", "scale"):
        return True
    told = scan.kinds("unit") and not amounts and any(p.kind == "vessel" and p.size is not None for p in items)
    if scan.has("fit") and (bottle_noun or sizes) and not spec and not told:
        return True
    if (
        any(p.text in ("pours", "shots", "measures") for p in items)
        and (bottle_noun or sizes)
        and (scan.kinds("amount") or amounts)
        and not scan.has("in", "to")
        and not scan.kinds("name", "ratio")
    ):
        return True
    asked = (
        bare_bottle
        and ("?" in scan.text)
        and (counted or spec)
        and any(p.kind == "vessel" and p.size is None and p.text in ("bottles", "btls", "bottle") for p in items)
    )
    if asked and not scan.has("freezer", "freeze", "slush"):
        return True
    return scan.has("left") and bool(sizes) and bool(counted)
