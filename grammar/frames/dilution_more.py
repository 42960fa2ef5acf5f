"""Water that is in as a share, and the larger share it is to be: "3 L undiluted, 10% water is in already, want 25%"."""

import re

from grammar.frames.spec import numbers_read
from grammar.request import Dilution, Measure
from grammar.scan import Scan, Unclear, measure, rough_ml

_IN = r"(?:in|added|there|inside|put in|gone in|went in)"
_SO_FAR = re.compile(
    rf"\b(\d+(?:\.\d+)?) ?%(?: of)?(?: the)?(?: water| dilution)?(?: is| was| went| has gone)?(?: {_IN})?(?: it)?"
    r" (?:already|so far)\b"
    rf"|\balready (?:has |have |had |got |put |added |at |{_IN} )*(\d+(?:\.\d+)?) ?%"
    r"|\b(?:put|added)(?: in)? (\d+(?:\.\d+)?) ?%(?: of)?(?: water| dilution)?\b[^.?!]*\b(?:so far|already)\b"
    r"|\bonly (?:put|added|did|got)(?: in)? (\d+(?:\.\d+)?) ?%"
)
_INSIDE = re.compile(
    r"\b(\d+(?:\.\d+)?) ?(?:ml|cl|l|oz) of (?:that|it|which|this)(?: is| was)?(?: just)?(?: the)?"
    r" (?:already )?(?:water|h2o)(?: already)?\b"
)
_MORE = re.compile(r"\b(?:how much|more|another|extra)\b")
_DRY = re.compile(r"\b(?:undiluted|un-diluted|before (?:the )?water|of (?:booze|mix|spirit))\b|\bput (?:in )?\d")


def _shares(scan: Scan) -> tuple[int, int] | None:
    """Where the share that is in and the share that is wanted stand."""
    said = _SO_FAR.search(scan.text)
    percents = scan.kinds("percent")
    if said is None or len(percents) != 2 or not scan.has("water", "dilution") or scan.has("abv"):
        return None
    at = said.start(said.lastindex or 0)
    now = next((i for i in percents if scan.items[i].start == at), None)
    return None if now is None else (now, next(i for i in percents if i != now))


def _part_of_it(scan: Scan) -> tuple[int, int] | None:
    """Where the volume and the water that is part of it stand: "3 L in the jug, 500 ml of that is water, need 25%"."""
    said, amounts = _INSIDE.search(scan.text), scan.kinds("amount")
    if said is None or len(amounts) != 2 or len(scan.kinds("percent")) != 1 or not _MORE.search(scan.text):
        return None
    wet = next((i for i in amounts if scan.items[i].start == said.start(1)), None)
    return None if wet is None else (next(i for i in amounts if i != wet), wet)


def is_more(scan: Scan) -> bool:
    """Whether a volume with some water in it is to have a larger share of it."""
    if _part_of_it(scan) is not None:
        return True
    volumes = [i for i in scan.kinds("amount") if scan.items[i].unit != "part"]
    return _shares(scan) is not None and len(volumes) == 1 and not scan.kinds("name", "context", "house", "ratio")


def read_more(scan: Scan) -> Dilution:
    """The volume without its water, what is in, and the share wanted.

    Raises Unclear conflict_total where nothing is to be added.
    """
    inside = _part_of_it(scan)
    if inside is not None:
        whole, wet = (measure(scan.items[i]) for i in inside)
        dry_ml = (rough_ml(whole.value, whole.unit) or 0.0) - (rough_ml(wet.value, wet.unit) or 0.0)
        share = scan.kinds("percent")[0]
        if dry_ml <= 0.0:
            raise Unclear("conflict_total", [scan.items[i] for i in inside], f"{scan.items[inside[1]].text} of water in it")
        scan.use(share, *inside)
        numbers_read(scan)
        return Dilution(Measure(dry_ml, "ml"), scan.items[share].value, water=wet)
    shares = _shares(scan)
    assert shares is not None
    now, wanted = scan.items[shares[0]], scan.items[shares[1]]
    at = next(i for i in scan.kinds("amount") if scan.items[i].unit != "part")
    p = scan.items[at]
    if wanted.value <= now.value:
        raise Unclear("conflict_total", [now, wanted], f"{now.text} in, or {wanted.text} wanted")
    dry = p.value if _DRY.search(scan.text) else p.value / (1.0 + now.value)
    scan.use(at, *shares)
    numbers_read(scan)
    return Dilution(Measure(dry, p.unit), wanted.value, water=Measure(dry * now.value, p.unit))
