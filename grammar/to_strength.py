"""A strength that a whole mix is to be brought to with water: "cut to 30%", "want 25% abv", "final abv 24%".

Not the strength of a bottle ("gin 47%"), not a share of water ("25% water"), not a strength asked about ("is it 25%?").
"""

import re

from grammar.request import Water
from grammar.scan import Scan, Unclear

_SAID = re.compile(r"\s*%?\s*(?:abv|alc|alcohol|vol|proof|strength)\b")  # after a figure: it is a strength
_SHARE = re.compile(  # "drop the water to 10%", "rye up to 55, water down to 12%"
    r"\b(?:the|its|that|less|more|drop|lower|bring|reduce|take|raise|bump|set|put|knock|change|make) (?:water|dilution)"
    r" (?:down |up |back )?to\b"
    r"|\b(?:up|down) to \d[\d.]* ?\w{0,2},? (?:and )?(?:water|dilution) (?:down |up |back )?to\b"
)
_POURED_DOWN = re.compile(r"\b(?:until|till|to get|to reach|to hit)\b")
_BROUGHT = re.compile(r"\b(?:get|got|getting) (?:it|this|that|them|these|the lot|the batch)(?: back)?(?: down| up)? to $")
_FINISHED = re.compile(r"\b(?:final|finished|target|batched|bottled?|end|ending)\b")
_WHEN_DONE = re.compile(
    r"\s*%?\s*(?:abv|alc|vol)?\s*(?:finished|final|overall|total|when done|in the bottle|after dilution|all in)\b"
)
#: water as a thing that is changed, or water as a verb: "24 now, water down to 12%"
_WATER_TO = re.compile(r"[,;&]\s*(?:and )?water (?:down |up |back )to (\d{1,2}(?:\.\d+)?) ?%(?! ?(?:abv|alc|vol|proof|strength))")
_MOST_WATER = 35.0  # % of water; a higher figure is the strength wanted: common practice, no source
_OWNED = ("name", "context", "unknown", "cue:water", "cue:dilution", "cue:of", "house")
_ON_THE_WAY = ("at", "to", "want", "final", "abv", "set_to", "cut", "for", "equals", "scale", "make_it")


def target(scan: Scan) -> int | None:
    """The index of the strength the mix is to come to; None when none is said. Marks nothing."""
    if not scan.kinds("percent", "proof"):
        return None
    asked = "?" in scan.text and not scan.has("cut", "how_much", "water", "dilution", "want")
    return None if asked else next((i for i in scan.kinds("percent", "proof") if _leads(scan, i)), None)


def _leads(scan: Scan, i: int) -> bool:
    """Whether what stands before the strength at i makes it the one wanted."""
    items = scan.items
    p = items[i]
    if scan.kind_at(i + 1) in _OWNED and not scan.text[p.end : p.end + 2].strip().startswith((",", ";", "\n")):
        return False
    said = p.kind == "proof" or "abv" in p.text or _SAID.match(scan.text, p.end) is not None
    before = scan.kind_at(i - 1)
    cutting = any(k < i for k in scan.cues("cut"))
    if before == "cue:to":
        watered = any(k < i for k in scan.cues("water"))
        poured = items[i - 1].text == "down to" or (watered and _POURED_DOWN.search(items[i - 1].text) is not None)
        if _SHARE.search(scan.text) is not None and not said:
            return False
        diluted = said and any(k < i for k in scan.cues("dilution", "water"))
        brought = _BROUGHT.search(scan.text[: p.start]) is not None and (said or not scan.has("water", "dilution"))
        return cutting or poured or diluted or brought
    if before == "cue:at" and scan.kind_at(i - 2) in ("drink", "count", "house") and not scan.has("freezer", "point"):
        poured_in = scan.has("abv") and any(k > i for k in scan.kinds("amount"))  # "6 L of punch at 12% plus 2 L soda, abv?"
        return not poured_in  # "1 L of 50/50 martini at 22%"
    if before == "cue:at" and scan.kind_at(i - 2) in ("name", "context"):
        return _WHEN_DONE.match(scan.text, p.end) is not None  # else it is that bottle's
    if not said:
        return before == "cue:abv" and _FINISHED.search(items[i - 1].text) is not None
    if before in ("cue:want", "cue:final", "cue:set_to"):
        return True
    if before in ("cue:for", "cue:to", "cue:make_it") and scan.has("how_much") and scan.has("water"):
        return True  # "how much water for 22% abv"
    finished = _FINISHED.search(scan.text) is not None
    return finished and before in ("cue:at", "cue:abv", "cue:for", "cue:scale", "cue:make_it")


def read_target(scan: Scan) -> Water | None:
    """The water that brings the mix to a strength, everything about it marked; None when no strength is wanted.

    Raises Unclear conflict_total when a share of water is said as well.
    """
    i = target(scan)
    if i is None:
        return None
    p = scan.items[i]
    for k in scan.kinds("percent"):
        if k != i and any(scan.kind_at(k + d) in ("cue:water", "cue:dilution") for d in (-1, 1)):
            raise Unclear("conflict_total", [p, scan.items[k]], "a share of water and a strength to come to")
    scan.use(i)
    k = i - 1
    while scan.at(k) is not None and scan.items[k].kind == "cue" and scan.items[k].name in _ON_THE_WAY:
        scan.use(k)
        k -= 1
    scan.use_cues("cut", "final", "abv", "dilution")
    return Water("to_strength", p.value)


def water_or_strength(scan: Scan) -> None:
    """ "24 now, water down to 12%": less water, or watered down to that strength. Raises Unclear two_readings."""
    said = _WATER_TO.search(scan.text)
    if said is not None and float(said[1]) <= _MOST_WATER:
        raise Unclear("two_readings", [], f"{said[1]}% water or {said[1]}% ABV")
