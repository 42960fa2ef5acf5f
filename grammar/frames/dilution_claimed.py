"""A share of water that is named and asked to be checked, or asked of water put in a mix."""

import re

from grammar.request import Dilution, Measure
from grammar.scan import Scan, Unclear, measure

_CLAIMED = re.compile(r"\b(?:is|are|was) (?:that|it|this|we) (?:at )?(?:about )?(\d+(?:\.\d+)?) ?%")
_SHARE_ASKED = re.compile(r"\b(?:percent(?:age)?|dilution)\b|%")


def is_claimed(scan: Scan) -> bool:
    """Whether a share of water is asked to be checked: "180 water in 800 of mix, is that 25%?"."""
    return bool(_CLAIMED.search(scan.text)) and scan.has("water") and len(scan.kinds("percent", fresh=False)) == 1


def is_mixed_in(scan: Scan) -> bool:
    """Whether the share is asked of water put in a mix: "240 ml water in 1.2 L gin and vermouth, what percentage"."""
    amounts = scan.kinds("amount")
    names = {scan.items[i].name for i in scan.kinds("name", "context")}
    if len(amounts) != 2 or len(names) < 2 or not scan.has("water") or not _SHARE_ASKED.search(scan.text):
        return False
    if scan.kinds("percent", "proof", "bare", "ratio", "count", "guests"):
        return False
    first, second = amounts
    wet = scan.kind_at(first + (2 if scan.kind_at(first + 1) == "cue:of" else 1)) == "cue:water"
    return wet and scan.kind_at(second - 1) in ("cue:in", "cue:to", "cue:with")


def _doubtful(scan: Scan) -> Unclear:
    """A share that is asked to be checked and that may be strength or water."""
    found = _CLAIMED.search(scan.text)
    before = scan.text[: found.start()].rstrip(" ,;") if found else scan.text
    share = next(scan.items[i] for i in scan.kinds("percent", fresh=False))
    return Unclear("unclear_number", [share], share.text, f"abv of {before}")


def claimed(scan: Scan) -> Dilution:
    """What the figures come to. Raises Unclear unclear_number where it may be strength or water."""
    amounts = scan.kinds("amount", "bare")
    wet = [i for i in amounts if scan.kind_at(i + (2 if scan.kind_at(i + 1) == "cue:of" else 1)) == "cue:water"]
    if len(amounts) != 2 or len(wet) != 1 or scan.kinds("name", "house"):
        raise _doubtful(scan)
    dry = next(i for i in amounts if i != wet[0])
    scan.use(*amounts, *scan.kinds("percent"), *scan.cues("of"))
    volume, water = (_in_ml(scan, i) for i in (dry, wet[0]))
    return Dilution(volume, water=water)


def _in_ml(scan: Scan, i: int) -> Measure:
    p = scan.items[i]
    return measure(p) if p.kind == "amount" else Measure(p.value, "ml")
