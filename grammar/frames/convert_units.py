"""Units of a conversion told by more than one word: "25 fl oz (uk)", "in ml and us oz", "tsp and tbsp to ml"."""

from grammar.phrase import Phrase
from grammar.request import Unit
from grammar.scan import Scan, rough_ml

_BRITISH: dict[str, Unit] = {
    "oz": "imp_fl_oz", "us_fl_oz": "imp_fl_oz", "pint": "imp_pint", "quart": "imp_quart", "gallon": "imp_gallon",
}  # fmt: skip
_UK = ("uk", "british", "england", "imperial", "imp")
_US = ("us", "usa", "american", "america")
_JOINS = ("cue:and", "sep", "cue:or")


def of_country(scan: Scan) -> None:
    """ "25 fl oz uk", "a pint (imperial)": the country behind a unit says whose unit it is. Marks it."""
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
