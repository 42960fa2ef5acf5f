"""Figures of a cut that want a second look: bottles without a size, proof said without the word."""

import re
from itertools import pairwise

from grammar.ingredients_strong import SPIRITS
from grammar.request import Lot, Measure
from grammar.scan import MOST_BOTTLES, Scan, Unclear, bottled, rough_ml
from grammar.words_measures import FRACTION_WORDS

#: what leads the strength a lot is to have
SO_IT_IS = re.compile(
    r"\b(?:so|until|till) (?:that )?it(?:'?s| (?:is|gets|comes|reaches|hits))(?: down)?(?: at| to)? $"
    r"|\bhow much water (?:=|equals|gives) $"
)


def second_look(scan: Scan) -> None:
    """The figures put right before they are grouped. Raises Unclear no_volume."""
    _bottles_sized_behind(scan)
    _bottles_need_a_size(scan)
    _bare_proof(scan)
    _litres_unsaid(scan)
    _part_of_it(scan)
    _left_out(scan)
    _said_again(scan)


def _bottles_sized_behind(scan: Scan) -> None:
    """ "2 btls 700 ml 57%", "3 bottles of rum 70 cl 57%": so many bottles of the size behind the word. Marks the size."""
    _bottles_again(scan)
    for i in scan.kinds("vessel"):
        v = scan.items[i]
        j = i + 2 if scan.kind_at(i + 1) == "cue:of" else i + 1
        if scan.kind_at(j) in ("name", "context"):
            j += 1
        size = scan.at(j)
        if v.size is None and v.amounts and size is not None and scan.kind_at(j) in ("amount", "bare") and bottled(size):
            v.size = (size.value, size.unit or "ml")
            scan.use(j)


def _bottles_again(scan: Scan) -> None:
    """ "2 bottles gin 70 cl, 1 of dry vermouth 75 cl": the second count is of bottles too."""
    several = any(p.kind == "vessel" and p.amounts for p in scan.items)
    for i in scan.kinds("bare") if several else ():
        p, size = scan.items[i], scan.at(i + 3)
        named = scan.kind_at(i + 1) == "cue:of" and scan.kind_at(i + 2) in ("name", "context")
        if named and p.value in range(1, int(MOST_BOTTLES)) and size is not None and size.kind == "amount" and bottled(size):
            p.kind, p.amounts = "vessel", (p.value,)


def _left_out(scan: Scan) -> None:
    """ "no sugar yet", "without any lime": what is not in it is nothing to cut. Marks it."""
    scan.use(*[i for i in scan.kinds("name", "context", "garnish") if scan.kind_at(i - 1) == "cue:none"])


def _said_again(scan: Scan) -> None:
    """ "... and a 63% rum to bump it with. how much of the 63": a strength said before, without its sign. Marks it."""
    strengths = {round(100.0 * p.value, 6) for p in scan.items if p.kind == "percent"}
    for i in scan.kinds("bare"):
        before = i - 2 if scan.kind_at(i - 1) == "cue:of" else i - 1
        asked = scan.kind_at(before) == "cue:how_much"
        if asked and scan.items[i].value in strengths and scan.kind_at(i + 1) in ("", "sep", "cue:and", "cue:how_much"):
            scan.use(i)


_IN_LITRES = (0.5, 0.7, 0.75, 1.75)  # bottles a bar has, said in litres without the word: common practice, no source


def _litres_unsaid(scan: Scan) -> None:
    """ "1.75 of 151 proof rum", ".75 of 57% down to 40": a bottle said by its litres."""
    for i in scan.kinds("bare"):
        of_strength = scan.kind_at(i + 1) == "cue:of" and scan.kind_at(i + 2) in ("percent", "proof")
        if of_strength and scan.items[i].value in _IN_LITRES:
            scan.items[i].kind, scan.items[i].unit = "amount", "l"


_FIT_INTO = re.compile(
    r"\b(?:does|will|would|can|could) (?:it|that|this|they|all of it|the lot) (?:all |still )?fit\b|\broom for it\b"
)


def held_in(scan: Scan) -> Measure | None:
    """ "my jar is 1 L, does it fit": what it is to go into, no volume to cut. Marks it."""
    for i in scan.kinds("vessel") if scan.has("fit") and scan.kinds("amount") else ():
        v = scan.items[i]
        if v.size is not None and not v.amounts and _FIT_INTO.search(scan.text) is not None:
            scan.use(i)
            return Measure(*v.size)
    return None


_PART_OF_IT = re.compile(r"\b(?:half|part|some|a third|a quarter|most) of (?:it|that|this)\b")


def _part_of_it(scan: Scan) -> None:
    """ "made 1.2 L of 48% gin, only half of it (600 ml) cut to 40%": the second volume is what is cut. Marks the first."""
    volumes = scan.kinds("amount")
    said = _PART_OF_IT.search(scan.text)
    if said is not None and len(volumes) == 2 and scan.items[volumes[0]].end <= said.start() < scan.items[volumes[1]].start:
        first, second = (scan.items[i] for i in volumes)
        first.value, first.unit = second.value, second.unit
        scan.use(volumes[1])


def _bottles_need_a_size(scan: Scan) -> None:
    """Several bottles at hand, or a part of one, need a size. Raises Unclear no_volume."""
    for part, p in pairwise(scan.items):
        if part.kind == "unknown" and part.text in FRACTION_WORDS and p.kind == "vessel" and p.size is None:
            sized = f"{scan.text[: part.start]}350 ml{scan.text[p.end :]}"
            raise Unclear("no_volume", [part, p], "the size of the bottle", sized)  # "cut half a bottle of 63% to 46%"
    for p in scan.items:
        several = p.kind == "vessel" and p.size is None and bool(p.amounts) and p.amounts[0] > 1
        if several and not scan.kinds("amount") and not any(q.kind == "bare" and q.value >= 100 for q in scan.items):
            sized = f"{scan.text[: p.start]}{p.amounts[0]:g} x 700 ml{scan.text[p.end :]}"
            raise Unclear("no_volume", [p], "the size of the bottle", sized)


_PROOFS = (80.0, 192.0)  # a bottle's figure in proof: from the usual 40% up to neutral spirit; common practice, no source


def _bare_proof(scan: Scan) -> None:
    """ "a fifth of 101 bourbon down to 80 proof": beside a volume and another proof, such a figure is proof too."""
    sized = scan.kinds("amount") or [i for i in scan.kinds("vessel") if scan.items[i].size is not None]
    if not sized or not scan.kinds("proof"):
        return
    for i in scan.kinds("bare"):
        p = scan.items[i]
        if _PROOFS[0] < p.value <= _PROOFS[1]:
            p.kind, p.value = "proof", p.value / 200.0


def in_proof(scan: Scan, target: float | None, lots: list[Lot]) -> float | None:
    """ "100 proof to 86": a bare target is proof too, where as a percentage it could only be a raise."""
    said = {p.kind for p in scan.items if p.kind in ("percent", "proof")}
    strengths = [lot.abv for lot in lots if lot.abv is not None]
    bare = target is not None and any(p.kind == "bare" and p.value == round(target * 100, 9) for p in scan.items)
    if target is None or not bare or said != {"proof"} or not strengths or target <= max(strengths):
        return target
    return target / 2


_KEPT = re.compile(
    r"\b(?:keep|leave|hold|kept|stays?|staying) (?:it |that |them |the lot |the volume )?(?:at|to|under|within|below)\b"
)
_OFF = 0.02  # of the volume: common practice, no source


def kept_volume(scan: Scan, lots: list[Lot], target: float | None, finished: Measure | None) -> None:
    """ "1 L at 50%, water it to 40% but keep it at 1.1 L": all of it comes to more. Raises Unclear conflict_total."""
    if _KEPT.search(scan.text) is None or len(lots) != 1 or not target or finished is None:
        return
    held, abv = lots[0].measure, lots[0].abv
    start = rough_ml(held.value, held.unit) if held is not None else None
    wanted = rough_ml(finished.value, finished.unit)
    if not start or not wanted or not abv:
        return
    comes_to = start * abv / target
    if abs(comes_to - wanted) > _OFF * wanted:
        raise Unclear("conflict_total", [], f"{start:.0f} ml at {target * 100:g}% is {comes_to:.0f} ml, not {wanted:.0f} ml")


_LEAST_LOT_ML = 300.0  # a smaller amount of one spirit may be stirred: common practice, no source
_LEAST_NEAT_ABV = 0.35  # below which it may be a drink: common practice, no source


def to_where(scan: Scan) -> bool:
    """ "700 ml of 46% whisky, how much water to bring it down?": a bottle, its strength, and none to come to."""
    percents = scan.kinds("percent", "proof")
    sized = [p for p in scan.items if p.kind == "amount" or (p.kind == "vessel" and (p.size is not None or p.amounts))]
    others = scan.kinds("drink", "count", "guests", "ratio", "house", "times", "temperature", "negative", "money")
    sized += [scan.items[i] for i in scan.kinds("bare")]
    if len(percents) != 1 or len(sized) != 1 or others or not scan.has("water"):
        return False
    if scan.has("abv", "final", "undiluted", "freezer", "technique_stir"):
        return False
    if scan.has("technique_shake", "slush", "each", "bottles", "enough", "none", "percent_word"):
        return False
    ethanol = {p.name for p in scan.items if p.kind in ("name", "context") and p.name != "water"}
    weak = scan.items[percents[0]].value < _LEAST_NEAT_ABV
    if len(ethanol) != 1 or not ethanol <= set(SPIRITS) or weak:
        return False
    if {scan.kind_at(percents[0] + d) for d in (-1, 1)} & {"cue:water", "cue:dilution", "cue:to"}:
        return False
    one = sized[0]
    large = one.kind == "vessel" or (rough_ml(one.value, one.unit or "ml") or 0.0) >= _LEAST_LOT_ML
    return large and (scan.has("how_much", "cut") or scan.items[0].is_cue("water") or "?" in scan.text)
