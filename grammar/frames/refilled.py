"""A bottle that was poured from and filled up again with water: how strong it is now.

"poured out half a 700 ml bottle of 40% vodka, topped it back up with water", "took 200 ml out of a 700 of 40% gin, refilled
with water". The lexer has already halved "half a 700 ml bottle", so the figures are read from the words.
"""

import re

from grammar.request import Cut, Lot, Measure
from grammar.scan import Scan, Unclear, rough_ml

_SHARES = {
    "half": 1 / 2, "a third": 1 / 3, "one third": 1 / 3, "two thirds": 2 / 3, "a quarter": 1 / 4, "one quarter": 1 / 4,
    "three quarters": 3 / 4, "a fifth": 1 / 5,
}  # fmt: skip
_N = r"\d+(?:\.\d+)?"
_TAKEN = (
    r"\b(?:poured|pour|tipped|tip|drank|used|took|take|drained|spilled|spilt|lost|dumped|nicked|sold|sank)"
    r"(?: out| off| away| down)?(?: about| roughly| maybe)?"
)
_BOTTLE = rf"(?: of)? (?:a|an|the|my|our|that|this|one) (?P<size>{_N}) ?(?P<unit>ml|cl|l)?\b"
_PART = re.compile(rf"{_TAKEN} (?P<share>{'|'.join(_SHARES)}){_BOTTLE}")
_AMOUNT = re.compile(rf"{_TAKEN} (?P<taken>{_N}) ?(?P<tunit>ml|cl|l)(?: out| from| off)?{_BOTTLE}")
_IN_FRONT = re.compile(
    rf"(?P<size>{_N}) ?(?P<unit>ml|cl|l)?\b[^?]{{0,40}}?{_TAKEN} (?P<taken>{_N}) ?(?P<tunit>ml|cl|l)\b"
    r"(?! ?(?:out |from |off )?(?:of )?(?:an?|the|my|our|that|this|one)? ?\d)"
)
_NO_ARTICLE = re.compile(
    rf"{_TAKEN} (?P<taken>{_N}) ?(?P<tunit>ml|cl|l)(?: out| from| off)?(?: of)?"
    rf" (?P<size>{_N}) ?(?P<unit>ml|cl|l)?\b"
)
_REFILLED = re.compile(
    r"\b(?:topped|filled|refilled|replaced|topping|filling|replacing|top|fill|refill|replace)\b[^.?\d]{0,24}"
    r"\b(?:with|w) (?:tap |cold |plain )?(?:water|h2o)\b"
)


def is_refilled(scan: Scan) -> bool:
    """Whether some of a bottle of one strength was replaced with water."""
    if len(scan.kinds("percent", "proof")) != 1 or _REFILLED.search(scan.text) is None:
        return False
    return _PART.search(scan.text) is not None or _amount(scan) is not None


def _amount(scan: Scan) -> re.Match[str] | None:
    """What was taken, and the size it was taken of, which may stand in front: "700 ml gin 41%, pour out 200 ml"."""
    names = {p.name for p in scan.items if p.kind in ("name", "context")} - {"water"}
    if len(names) > 1:
        return _AMOUNT.search(scan.text)
    return _AMOUNT.search(scan.text) or _NO_ARTICLE.search(scan.text) or _IN_FRONT.search(scan.text)


def read_refilled(scan: Scan) -> Cut:
    """What is left of the bottle, and as much water as was taken. Raises Unclear out_of_range for more than it held."""
    part, amount = _PART.search(scan.text), _amount(scan)
    said = part or amount
    assert said is not None
    size = rough_ml(float(said["size"]), said["unit"] or "ml") or 0.0
    taken = size * _SHARES[part["share"]] if part else rough_ml(float(said["taken"]), said["tunit"]) or 0.0
    strong = scan.items[scan.kinds("percent", "proof")[0]]
    if not 0.0 < taken < size:
        raise Unclear("out_of_range", [p for p in scan.items if p.kind in ("amount", "vessel")], f"{taken:g} of {size:g} ml")
    name = next((p.name for p in scan.items if p.kind in ("name", "context")), "")
    scan.use(*range(len(scan)))
    return Cut((Lot(strong.value, Measure(size - taken, "ml"), name),), water=Measure(taken, "ml"))
