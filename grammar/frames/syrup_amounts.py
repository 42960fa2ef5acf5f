"""Whose an amount in a question about syrup is: the finished syrup's, or that of the honey at hand."""

import re
from dataclasses import replace

from grammar.request import Measure, Syrup
from grammar.scan import ROUGH_ML, Scan, Unclear

WEIGHTS = frozenset(["g", "kg", "lb", "ozw", "mg"])
BULK = frozenset(["ml", "cl", "l", "quart", "pint", "gallon", "oz"])
#: syrups by name alone: "2 kg of 1:1 simple" is syrup, "300 g maple" is what goes into one
_MADE_SYRUPS = frozenset(["simple syrup", "rich syrup", "rich demerara syrup", "gum syrup"])


_VOLUME_ASKED = re.compile(r"\b(?:what|which|total|final|finished|much|roughly|of) (?:total |final |finished )?(?:volume|vol)\b")


def parts_by_volume(scan: Scan) -> bool:
    """Whether a ratio is said to be by volume; "what volume have i got" asks for one."""
    return scan.has("by_volume") and _VOLUME_ASKED.search(scan.text) is None


def weighed_syrup(scan: Scan, i: int) -> bool:
    """Whether the weight at i is that of the finished syrup: "2 kg of syrup", "3 kg of 2:1 syrup", "2 kg finished"."""
    j = i + 1
    while scan.at(j) is not None and (scan.items[j].is_cue("of", "by_weight", "by_volume") or scan.items[j].kind == "ratio"):
        j += 1
    figure, brix = scan.at(j), scan.at(j + 1)
    if figure is not None and figure.kind in ("bare", "percent") and brix is not None and brix.is_cue("sweeten"):
        made = scan.at(j + 2)  # "1 kg of 60 Brix"
        return made is None or made.kind != "name" or "syrup" in made.text
    p = scan.at(j)
    named = p is not None and p.kind in ("name", "context") and ("syrup" in p.text or p.name in _MADE_SYRUPS)
    return p is not None and (p.is_cue("final", "syrup_word", "scale") or named)


def sweet_for_water(scan: Scan, i: int) -> bool:
    """Whether the volume at i is of honey or agave at hand: "300 ml honey, how much water"."""
    j = i + 2 if scan.kind_at(i + 1) == "cue:of" else i + 1
    p = scan.at(j)
    plain = p is not None and p.kind in ("name", "context") and p.text in ("honey", "agave", "agave nectar", "runny honey")
    asked = [w for w in scan.cues("water") if scan.at(w - 1) is not None and scan.items[w - 1].is_cue("how_much", "what")]
    asked += [w for w in scan.cues("water") if scan.kind_at(w - 1) == "cue:and" and w == j + 2]  # "200 ml agave + water 1:1"
    sweet_asked = any(scan.at(c + 1) is not None and scan.items[c + 1].kind == "name" for c in scan.cues("how_much", "what"))
    wanted = scan.kind_at(i - 1) in ("cue:want", "cue:scale", "cue:make_it")
    return plain and bool(asked) and not sweet_asked and not wanted


def water_asked(scan: Scan) -> bool:
    """Whether the water is what is asked for, so that the sugar is at hand: "2 cups sugar for 1:1, how much water"."""
    return any(scan.kind_at(i + 1) == "cue:water" for i in scan.cues("how_much"))


def said_density(scan: Scan) -> float | None:
    """ "50 Bx, density 1.23 g/mL": g/mL that say a Brix again in other words; None when not said. Marks it."""
    figures = [i for i, p in enumerate(scan.items) if p.kind == "bare"]
    brix = [i for i in figures if any(q is not None and q.is_cue("sweeten") for q in (scan.at(i - 1), scan.at(i + 1)))]
    for i in scan.kinds("amount"):
        p = scan.items[i]
        slash, unit = scan.at(i + 1), scan.at(i + 2)
        weighed = p.unit == "g" and 0.9 < p.value < 1.6 and slash is not None and slash.name in ("/", "each")
        if weighed and unit is not None and unit.kind == "unit" and unit.unit == "ml" and len(brix) == 1:
            scan.use(i, i + 1, i + 2)
            return p.value
    return None


def one_of(scan: Scan) -> None:
    """ "180 ml per litre": one litre."""
    for i in scan.cues("each"):
        p = scan.at(i + 1)
        if p is not None and p.kind == "unit" and p.unit in ("l", "quart", "gallon", "pint"):
            p.kind, p.value = "amount", 1.0


def of_the_drink(scan: Scan) -> None:
    """ "5 L of daiquiri needs 1 L of 1:1 syrup": the drink's volume is not the syrup's. Marks it."""
    volumes = [i for i in scan.kinds("amount") if scan.items[i].unit in BULK]
    led_to = {i: scan.kind_at(i + 2 if scan.kind_at(i + 1) == "cue:of" else i + 1) for i in volumes}
    if len(volumes) == 2 and not scan.has("each") and sorted(k == "drink" for k in led_to.values()) == [False, True]:
        scan.use(*[i for i, kind in led_to.items() if kind == "drink"])


def again(volume: Measure, got: Measure) -> bool:
    """Whether one volume says the other again: "1 L (1000 ml)"."""
    first, second = volume.value * ROUGH_ML.get(volume.unit, 1.0), got.value * ROUGH_ML.get(got.unit, 1.0)
    return abs(first - second) <= 0.06 * first


def made_of(scan: Scan, i: int) -> bool:
    """Whether the volume at i is of the syrup, and the sugar after it says of which kind: "make 2 L turbinado rich"."""
    syrup = scan.at(i + 2)
    named = syrup is not None and syrup.kind == "name" and syrup.name.endswith("syrup")
    litres = scan.items[i].unit == "l" and scan.kind_at(i - 1) in ("cue:make_it", "cue:want", "cue:scale")
    return named or litres


def sugar_asked(scan: Scan) -> bool:
    """Whether "sugar?" ends a message that names the syrup wanted."""
    syrup = any(p.kind == "name" and p.name.endswith("syrup") for p in scan.items)
    return syrup and not scan.has("stock") and re.search(r"\b(?:sugar|honey) ?\?+\s*$", scan.text) is not None


def portioned(scan: Scan) -> Measure | None:
    """ "15 ml 2:1 per 90 ml serve, 3 L": syrup for a batch, from its share of a serve; "20 ml in each of 40 drinks"."""
    counts = scan.kinds("count", "guests", fresh=False)
    if not scan.has("each") and not counts:
        return None
    amounts = [p for p in scan.items if p.kind == "amount" and p.unit not in WEIGHTS and p.unit != "part"]
    scan.use_cues("each")
    if counts and amounts:
        scan.use(*counts)
        small = min(amounts, key=lambda p: p.value * _ml(p.unit))
        return Measure(small.value * scan.items[counts[0]].value, small.unit)
    if len(amounts) >= 3:
        ordered = sorted(amounts, key=lambda p: p.value * _ml(p.unit))
        portion, serve, batch = ordered[0], ordered[1], ordered[-1]
        share = portion.value * _ml(portion.unit) / (serve.value * _ml(serve.unit))
        scan.use(*[i for i, p in enumerate(scan.items) if p in amounts])
        return Measure(batch.value * share, batch.unit)
    return None


def _ml(unit: str) -> float:
    return ROUGH_ML.get(unit, 1.0)


_STARTED = re.compile(
    r"\b(?:start(?:ing|ed)?(?: off)? (?:w|with|from)|from|using|use up|have|got|there's)(?: (?:an?|one|the|my|this|all of))?\s*$"
)
_HELD = frozenset(["honey", "agave", "agave nectar", "runny honey", "sugar"])


def started_with(scan: Scan, i: int) -> bool:
    """Whether the amount at i is of what goes in: "starting with a 700 ml bottle of agave", "from 500 ml honey"."""
    p = scan.at(i + 2 if scan.kind_at(i + 1) == "cue:of" else i + 1)
    named = p is not None and p.kind in ("name", "context") and p.text in _HELD
    return named and _STARTED.search(scan.text, 0, scan.items[i].start) is not None


def with_spare(made: Syrup, more: float) -> Syrup:
    """ "60 drinks at 3/4 oz plus 10% extra": so much more of it. Raises Unclear unclear_number where no volume is wanted."""
    if not more:
        return made
    if made.volume is None or made.had is not None:
        raise Unclear("unclear_number", [], f"{more * 100:g}%")
    return replace(made, volume=Measure(made.volume.value * (1.0 + more), made.volume.unit))
