"""Units of a conversion told by more than one word: "25 fl oz (uk)", "in ml and us oz", "tsp and tbsp to ml"."""

import re
from itertools import pairwise

from grammar.phrase import Phrase
from grammar.request import Measure, Unit
from grammar.scan import Scan, rough_ml

_BRITISH: dict[str, Unit] = {
    "oz": "imp_fl_oz", "us_fl_oz": "imp_fl_oz", "pint": "imp_pint", "quart": "imp_quart", "gallon": "imp_gallon",
}  # fmt: skip
_UK = ("uk", "british", "england", "imperial", "imp")
_US = ("us", "usa", "american", "america")
_JOINS = ("cue:and", "sep", "cue:or")


def of_country(scan: Scan) -> None:
    """ "25 fl oz uk", "a pint (imperial)": the country behind a unit says whose unit it is. Marks it."""
    if len(_lands(scan)) > 1 and len([p for p in scan.items if p.kind in ("amount", "unit") and p.unit in _BRITISH]) == 1:
        return  # "a pint in ml, us and uk": of both
    for i, p in enumerate(scan.items):
        if p.kind not in ("amount", "unit") or p.unit not in _BRITISH or scan.used[i]:
            continue
        bracket = scan.kind_at(i + 1) == "sep" and scan.items[i + 1].name == "("
        q = scan.at(i + 2 if bracket else i + 1)
        if q is None or q.text not in (*_UK, *_US) or q.kind not in ("cue", "unknown"):
            continue
        if q.text in _UK:
            p.unit = _BRITISH[p.unit]
        elif p.unit == "oz":
            p.unit = "us_fl_oz"
        q.kind = "filler"
        scan.use(*range(i + 1, i + (4 if bracket and scan.kind_at(i + 3) == "sep" else 3 if bracket else 2)))


def second_unit(scan: Scan, to: str) -> Unit:
    """ "in ml and us oz", "to cl / oz": the other unit asked for beside the one that was taken; "" without."""
    for i, p in enumerate(scan.items):
        q = scan.at(i + 2)
        joined = scan.at(i + 1)
        if p.kind != "unit" or q is None or q.kind != "unit" or p.unit == q.unit or to not in (p.unit, q.unit):
            continue
        led = scan.at(i - 1)
        asked = led is not None and led.is_cue("in", "to", "convert", "how_many", "equals")
        if asked and joined is not None and (joined.is_cue("and") or (joined.kind == "sep" and joined.name in ",/+")):
            return q.unit if p.unit == to else p.unit
    return ""


def units_before(scan: Scan, units: list[Phrase]) -> list[Phrase]:
    """ "tsp and tbsp -> ml", "imperial pint in ml and us oz": the units of which one each is to be converted."""
    for c in scan.cues("to", "in"):
        before = [p for p in units if p.start < scan.items[c].start]
        after = [rough_ml(1.0, p.unit) or 0.0 for p in units if p not in before]
        if not before or not after:
            continue
        larger = min(rough_ml(1.0, p.unit) or 0.0 for p in before) >= min(after)  # not "ml in a uk and a us pint"
        if larger or scan.items[c].name == "to":
            return before
    return []


def _lands(scan: Scan) -> list[int]:
    said = [*scan.cues("country"), *scan.kinds("unknown")]
    return [i for i in said if scan.items[i].text in (*_UK, *_US) and not scan.used[i]]


def of_both_countries(scan: Scan, to: str) -> list[Measure]:
    """ "pint in ml, us and uk both": the one unit typed, of either country. Marks the countries; [] when not asked."""
    lands = _lands(scan)
    said = {scan.items[i].text in _UK for i in lands}
    own = [i for i, p in enumerate(scan.items) if p.kind in ("amount", "unit") and p.unit in _BRITISH and p.unit != to]
    if len(lands) != 2 or len(said) != 2 or len(own) != 1:
        return []
    p = scan.items[own[0]]
    many = p.value if p.kind == "amount" else 1.0
    scan.use(own[0], *lands)
    american = "us_fl_oz" if p.unit == "oz" else p.unit
    return [Measure(many, american), Measure(many, _BRITISH[p.unit])]


def crossed(scan: Scan) -> bool:
    """ "2.5 oz in ml and 75 ml in oz": each amount is asked for in the other's unit."""
    amounts, units = ([p for p in scan.items if p.kind == kind] for kind in ("amount", "unit"))
    if len(amounts) != 2 or len(units) != 2 or units[0].unit == units[1].unit:
        return False
    in_turn = amounts[0].start < units[0].start < amounts[1].start < units[1].start
    return in_turn and {p.unit for p in amounts} == {p.unit for p in units} and amounts[0].unit != units[0].unit


def one_amount(scan: Scan) -> bool:
    """ "3 cups 2 tbsp to ml", "1 qt and 1 cup": a larger unit and then a smaller, with nothing but "and" between."""
    amounts = [i for i, p in enumerate(scan.items) if p.kind == "amount"]
    if len(amounts) < 2:
        return False
    sizes = [rough_ml(1.0, scan.items[i].unit) or 0.0 for i in amounts]
    apart = [scan.text[scan.items[i].end : scan.items[j].start].strip() for i, j in pairwise(amounts)]
    return all(word in ("", "and", "&", "+", "plus") for word in apart) and all(a > b > 0.0 for a, b in pairwise(sizes))


_ROUNDED = re.compile(
    r"\b(?:rounded|round|rounding)(?: it| them)?(?: up| down| off)?\b(?: to)?(?: the)?(?: nearest)?(?: (?:quarter|half|whole))?"
    r"|\b(?:to )?(?:the )?(?:nearest|closest) (?:quarter|half|whole|ml|oz|ounce|5|five)(?: (?:oz|ounce|ml))?\b"
)


def rounding(scan: Scan) -> None:
    """ "in oz, nearest quarter": a reply is rounded as a bar measures, and shows what is left out. Marks it."""
    said = _ROUNDED.search(scan.text)
    if said is not None:
        scan.use(*[i for i, p in enumerate(scan.items) if said.start() <= p.start and p.end <= said.end()])
