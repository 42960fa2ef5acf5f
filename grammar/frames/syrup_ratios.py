"""Two ratios in a question about syrup: what is at hand and what it is to become, or what is poured in place of another."""

import re

from grammar.scan import Scan, Unclear

_NAMED = {"rich syrup": (2.0, 1.0), "simple syrup": (1.0, 1.0)}
_BROUGHT = ("to", "rest", "make_it", "convert", "want", "oops")  # "turn 1:1 into 2:1", "made 1:1, should have been 3:2"


def had_before(scan: Scan) -> tuple[float, float] | None:
    """ "turn 1:1 into 2:1": the ratio of what is at hand, marked, where another one is wanted; None with one ratio."""
    ratios = scan.kinds("ratio")
    if len(ratios) != 2:
        return None
    first, second = (scan.items[i].values for i in ratios)
    if first == second:
        scan.use(ratios[1])
        return None
    if any(len(v) != 2 or min(v) <= 0 for v in (first, second)) or not scan.has(*_BROUGHT):
        return None
    if scan.kind_at(ratios[1] - 1) == "cue:from":
        return None  # "500 ml of 1:1 from 2:1": a volume wanted, to be asked about
    scan.use(ratios[0], *scan.kinds("name", "context"))
    return first[0], first[1]


_MOST_PARTS = 10.0  # of a syrup's ratio: common practice, no source


def in_words(scan: Scan) -> tuple[float, float] | None:
    """ "agave cut 3 to 1 with hot water": a ratio said with the word. Marks it."""
    to = [i for i in scan.kinds("bare") if scan.kind_at(i + 1) == "cue:to" and scan.kind_at(i + 2) == "bare"]
    if len(to) != 1 or not all(0.0 < scan.items[k].value <= _MOST_PARTS for k in (to[0], to[0] + 2)):
        return None
    scan.use(to[0], to[0] + 2)
    return scan.items[to[0]].value, scan.items[to[0] + 2].value


_IN_PLACE = re.compile(
    r"\b(?:same sweetness|as sweet|equivalent|instead|in place of|sub\w*|swap\w*|only (?:have|got|has)"
    r"|but (?:i|we) (?:have|got))\b"
)
_AT_HAND = re.compile(r"\b(?:have|got|has|using|use|with|to|made|stock)(?: (?:some|a|only|the|our))?(?: (?:rich|batch of))?\s*$")
_CALLED_FOR = re.compile(
    r"\b(?:instead of|in place of|for|says|calls for|spec|spec'd|asks for|rather than)(?: (?:the|a|some|is|of))?\s*$"
)


def in_place_of(scan: Scan) -> tuple[tuple[float, float], tuple[float, float]] | None:
    """ "spec says 30 ml 1:1, only have 2:1": the ratio at hand, and the one the spec asks for. Marks both.

    Raises Unclear two_readings where nothing says which is which.
    """
    told = _ratios_told(scan)
    ratios = sorted(told)
    if len(ratios) != 2 or not _IN_PLACE.search(scan.text):
        return None
    led = [_led(scan, i) for i in ratios]
    held = [_AT_HAND.search(text) is not None and _CALLED_FOR.search(text) is None for text in led]
    called = [_CALLED_FOR.search(text) is not None for text in led]
    measured = [_measured(scan, i) for i in ratios]
    if measured[0] != measured[1] and not held[measured.index(True)] and not scan.has("or"):
        called, held = measured, [False, False]  # "swap 20 ml of 1:1 for 2:1": the amount is the spec's
    if held[0] == held[1] and called[0] == called[1]:
        raise Unclear("two_readings", [], " or ".join(f"{scan.items[i].text} at hand" for i in ratios))
    own = 0 if (held[0] and not held[1]) or (called[1] and not called[0]) else 1
    scan.use(*ratios)
    return told[ratios[own]], told[ratios[1 - own]]


def _ratios_told(scan: Scan) -> dict[int, tuple[float, float]]:
    """Where a ratio is told, in figures or, beside one in figures or another name, as "rich" or "simple" syrup."""
    figures = [i for i in scan.kinds("ratio") if len(scan.items[i].values) == 2 and min(scan.items[i].values) > 0]
    told = {i: (scan.items[i].values[0], scan.items[i].values[1]) for i in figures}
    for i in scan.kinds("name", fresh=False):
        own = {i - 1, i + 1, i + 2 if scan.kind_at(i + 1) == "sep" else i + 1}
        if scan.items[i].name in _NAMED and not own.intersection(figures):
            told[i] = _NAMED[scan.items[i].name]
    return told


def _measured(scan: Scan, i: int) -> bool:
    return scan.kind_at(i - 2 if scan.kind_at(i - 1) == "cue:of" else i - 1) == "amount"


def _led(scan: Scan, i: int) -> str:
    """What stands before the ratio at i, its own amount left out."""
    measured = i - 2 if scan.kind_at(i - 1) == "cue:of" else i - 1
    start = scan.items[measured].start if scan.kind_at(measured) in ("amount", "bare") else scan.items[i].start
    return scan.text[:start].rstrip()
