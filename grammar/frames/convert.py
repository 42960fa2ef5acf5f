"""Frame for conversions: amounts or a spec in another unit, proof and ABV, temperatures, pours in a volume, parts."""

import re
from dataclasses import replace

from grammar.frames.convert_pours import counts_pours, how_many_in, pours_said, read_pours
from grammar.frames.convert_units import crossed, of_both_countries, of_country, one_amount, rounding, second_unit, units_before
from grammar.frames.spec import numbers_read, read_spec
from grammar.loads import cases_of
from grammar.request import Batch, Convert, Measure
from grammar.scan import ROUGH_ML, Scan, Unclear, measure
from grammar.vessels import join_vessels
from grammar.words_measures import FRACTION_WORDS

_VOLUMES = frozenset(ROUGH_ML) - {""}
_POURED_UNITS = {"shot", "jigger", "pony", "part"}


def read_convert(scan: Scan) -> Convert | Batch:
    """A conversion; of a spec for so many, a batch in that unit.

    Raises Unclear no_amounts when there is nothing to convert, weight for grams to mL.
    """
    of_country(scan)
    rounding(scan)
    cases_of(scan)
    _own_jigger(scan)
    for i in scan.kinds("unknown"):
        if scan.items[i].text in ("case", "crate", "box") and scan.kind_at(i + 1) == "cue:of":
            scan.use(i, i + 1)  # "litres in a case of 6 70 cl bottles"
    _shares_of(scan)
    to = _target(scan)
    if crossed(scan):
        to = ""  # "2.5 oz in ml and 75 ml in oz"
    if to == "pours" or pours_said(scan) or how_many_in(scan) or counts_pours(scan):
        made = read_pours(scan)
        return replace(made, to=to) if to in _VOLUMES - _POURED_UNITS and scan.has("in", "to", "convert") else made
    lone = len(scan.kinds("amount")) == 1 and not scan.kinds("name", "context", "bare", "ratio", "same_amount")
    listed = len(scan.kinds("ratio")) == 1 and scan.items[scan.kinds("ratio")[0]].unit in _VOLUMES
    lone = lone or (listed and not scan.kinds("name", "context", "bare", "amount", "same_amount"))  # "spec says 2 / 1 / ½ oz"
    if lone and to in _VOLUMES:
        scan.use(*scan.kinds("unknown"))  # talk around one amount and one unit
    if scan.kinds("name", "context", "unknown") and scan.kinds("amount", "bare", "ratio", "same_amount"):
        if to == "":
            to = "ml"
        recipe, makes = read_spec(scan)
        items = ()
        if makes.serves is not None or makes.guests is not None:
            return Batch(recipe, makes, "", to if to in _VOLUMES else "")
        if makes.volume is not None or makes.serve is not None:
            raise Unclear("two_readings", [], "a conversion or a batch")
        return Convert(items, to, recipe)
    join_vessels(scan)
    items_list: list[Measure] = []
    if scan.kinds("amount") and any(p.text in ("celsius", "fahrenheit", "centigrade") for p in scan.all):
        raise Unclear("weight", [scan.items[scan.kinds("amount")[0]]], scan.items[scan.kinds("amount")[0]].text)
    if scan.kinds("amount") and re.search(r"\b(?:to|in|into) degrees?\b", scan.text):
        raise Unclear("unread", [], "degrees")
    for i in scan.kinds("fold"):
        q = scan.at(i + 1)
        if q is not None and q.kind in ("amount", "bare"):  # "a case of 12 x 750"
            scan.use(i, i + 1)
            items_list.append(Measure(scan.items[i].value * q.value, q.unit or "ml"))
    bar_ounce = re.search(r"\b30 ?ml (?:ounce|oz)\b", scan.text)
    if bar_ounce:  # "in ml but with a 30 ml ounce"
        scan.use(*[i for i, p in enumerate(scan.items) if bar_ounce.start() <= p.start < bar_ounce.end()])
        for p in scan.items:
            p.unit = "bar_oz_30" if p.unit == "oz" else p.unit
    units = [p for p in scan.items if p.kind == "unit"]
    figures = scan.kinds("amount", "bare", "vessel", "percent", "proof", "ratio", "temperature", "same_amount")
    sort = {ROUGH_ML.get(p.unit) for p in units if p.unit != to} if not figures and _COMPARED.search(scan.text) else set()
    ones = units_before(scan, units) if not figures and len(units) > 2 else []
    both = of_both_countries(scan, to)
    if both:
        items_list.extend(both)
    elif ones:  # "tsp and tbsp to ml"
        items_list.extend(Measure(1.0, p.unit) for p in ones)
        to = to if to not in {p.unit for p in ones} else units[len(ones)].unit
    elif len(sort) == 2 and None not in sort:  # "uk pint vs us pint in ml": one of each
        items_list.extend(Measure(1.0, p.unit) for p in units if p.unit != to)
        to = to if len(units) == 3 else "ml"
    elif not figures and len(units) == 2 and not scan.has("convert"):
        first, second = (ROUGH_ML.get(p.unit) for p in units)
        one = re.search(r"\bin (?:an?|one)\b", scan.text) is not None  # "ml in a pint"
        held = scan.has("in") and first is not None and second is not None and first < second * (1.0 if one else 0.2)
        if held and to == units[1].unit:
            to = units[0].unit  # "ml in a pint" asks for the mL of one pint, as "pint in ml" does
            items_list.append(Measure(1.0, units[1].unit))
        else:
            of = units[1] if units[0].unit == to else units[0]  # "imperial pint in ml", "how many litres go into a gallon"
            items_list.append(Measure(1.0, of.unit))
    for i, p in enumerate(scan.items):
        if scan.used[i]:
            continue
        if p.kind == "amount":
            items_list.append(measure(p))
        elif p.kind == "same_amount":
            items_list.extend(Measure(v, u) for v, u in zip(p.amounts, p.units, strict=True))
        elif p.kind == "percent":
            items_list.append(Measure(p.value * 100, "percent"))
        elif p.kind == "proof":
            items_list.append(Measure(p.value * 200, "proof"))
        elif p.kind == "temperature" or (p.kind == "negative" and to in ("c", "f")):
            items_list.append(Measure(p.value, (p.unit or "f") if p.unit or to == "c" else "c"))
        elif p.kind == "ratio" and to in ("parts", "ml", "oz", "cl", ""):
            items_list.extend(Measure(v, p.unit or ("ml" if max(p.values) > 12 else "part")) for v in p.values)
            to = to or "parts"
        elif p.kind == "vessel" and p.size is not None:
            items_list.append(Measure(p.size[0] * (p.amounts[0] if p.amounts else 1.0), p.size[1]))
        elif p.kind == "bare":
            continue
        elif p.kind in ("negative", "unsure"):
            raise Unclear("out_of_range" if p.kind == "negative" else "unclear_number", [p], p.text)
        else:
            continue
        scan.use(i)
    _bare_items(scan, items_list, to)
    left = scan.kinds("bare")
    if not items_list and left:
        raise Unclear("unclear_number", [scan.items[left[0]]], scan.items[left[0]].text)
    if not items_list:
        raise Unclear("no_volume", [], to)
    numbers_read(scan)
    folds = [times for cue, times in _FOLDS.items() if scan.has(cue)]
    if len(items_list) == 1 and folds:
        items_list = [Measure(items_list[0].value * folds[0], items_list[0].unit)]  # "double a 1.75 oz pour"
    for item in items_list:
        if item.value < 0 and item.unit not in ("c", "f"):
            raise Unclear("out_of_range", [], f"{item.value:g} {item.unit}")
    return Convert(tuple(items_list), to, also=second_unit(scan, to), together=one_amount(scan))


_FOLDS = {"double": 2.0, "triple": 3.0}
_COMPARED = re.compile(r"\b(?:vs|versus|or|and|difference)\b")


def _shares_of(scan: Scan) -> None:
    """ "3/8 of a 750 ml bottle", "0.4 of 1.75 L": that share of the amount, which is the only one there is."""
    for i in reversed(scan.kinds("unknown")):
        word = scan.items[i]
        if word.text in FRACTION_WORDS and scan.kind_at(i + 1) in ("cue:of", "amount"):  # "half of a quarter of a litre"
            word.kind, word.value = "bare", FRACTION_WORDS[word.text]
    for i in reversed(scan.kinds("bare")):
        p, q = scan.items[i], scan.at(i + 2)
        if not 0.0 < p.value < 1.0 or scan.kind_at(i + 1) != "cue:of" or q is None or scan.used[i + 2]:
            continue
        if q.kind == "vessel" and q.size is not None:
            q.size = (q.size[0] * p.value, q.size[1])
        elif q.kind == "amount" or (q.kind == "bare" and q.value >= 90):
            q.value *= p.value
        else:
            continue
        scan.use(i, i + 1)


def _own_jigger(scan: Scan) -> None:
    """ "only has an ounce jigger": the unit of the tool at hand is the unit asked for, and the tool no amount."""
    for i in scan.kinds("amount"):
        tool = scan.at(i + 1)
        if scan.items[i].name == "a" and tool is not None and tool.kind == "unit" and tool.unit in ("jigger", "part", "cup"):
            scan.items[i].kind = "unit"
            scan.use(i + 1)


def _bare_items(scan: Scan, items: list[Measure], to: str) -> None:
    """ "a 750 in oz", "30, 45 and 60 ml in oz": bare numbers take the unit of the others, or mL when the size of a bottle."""
    unit = next((i.unit for i in items), "")
    for i in scan.kinds("bare"):
        p = scan.items[i]
        shared = bool(to) or any(q.kind == "amount" for q in scan.items[i + 1 : i + 3])
        if unit in _VOLUMES and shared:
            items.append(Measure(p.value, unit))
        elif to == "proof" and p.value <= 100:
            items.append(Measure(p.value, "percent"))
        elif to == "percent":
            items.append(Measure(p.value, "proof"))
        elif (
            to == "parts"
            or p.value >= 90
            or (
                scan.has("in", "to", "convert", "equals", "how_many")
                and to in ("oz", "us_fl_oz", "imp_fl_oz", "cl")
                and p.value >= 15
            )
        ):
            items.append(Measure(p.value, "ml"))
        else:
            continue
        scan.use(i)


def _target(scan: Scan) -> str:
    """The unit asked for, marked; "" when the message only gives amounts."""
    for i, p in enumerate(scan.items):
        if p.is_cue("recipe_word") and p.text in ("formula",):
            continue
        if p.kind == "unit" and p.unit == "part" and not p.text.startswith("measure"):
            scan.use(i)
            return "parts"
    if scan.has("recipe_word") and any(p.text == "ratio" for p in scan.items):
        return "parts"
    for p in scan.left("unknown"):
        if p.text in ("ratio", "ratios"):
            scan.use(scan.items.index(p))
            return "parts"
    degrees = [p for p in scan.all if p.kind == "filler" and p.text in ("f", "fahrenheit", "c", "celsius")]
    if scan.kinds("temperature") and not scan.kinds("percent", "amount"):
        words = [p.text for p in degrees]
        unit = scan.items[scan.kinds("temperature")[0]].unit
        return words[-1][0] if words else "f" if unit == "c" else "c"
    units = [i for i in scan.kinds("unit") if not scan.items[i].text.startswith("measure")]
    scan.use(*scan.kinds("unit"))
    if units:
        linked = [
            i
            for i in units
            if scan.at(i - 1) is not None and scan.items[i - 1].is_cue("in", "to", "how_many", "convert", "equals")
        ]
        return scan.items[(linked or units)[-1]].unit
    if scan.kinds("proof") and (scan.has("abv", "percent_word") or not scan.kinds("percent")):
        return "percent"
    if scan.kinds("percent") and scan.has("proof_word"):
        return "proof"
    if scan.has("abv", "percent_word") and scan.has("proof_word") and scan.kinds("bare"):
        first = min(scan.cues("proof_word"))
        return "percent" if first < min(scan.cues("abv", "percent_word")) else "proof"
    return ""
