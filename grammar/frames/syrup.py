"""Frame for syrups: sugar and water for a volume, water for the sugar at hand, saline, sugar content."""

import re
from dataclasses import replace

from grammar.frames.spec import numbers_read
from grammar.frames.syrup_amounts import (
    BULK,
    WEIGHTS,
    again,
    made_of,
    of_the_drink,
    one_of,
    parts_by_volume,
    portioned,
    said_density,
    started_with,
    sugar_asked,
    sweet_for_water,
    water_asked,
    weighed_syrup,
    with_spare,
)
from grammar.frames.syrup_ratios import had_before, in_place_of, in_words
from grammar.request import Measure, Syrup, SyrupBy
from grammar.scan import Scan, Unclear, measure
from grammar.spare import spare_share
from grammar.words_measures import FRACTION_WORDS

#: sweet thing -> its kind and the ratio its name says (sweet : water); None when the name says none
SYRUPS: dict[str, tuple[str, tuple[float, float] | None]] = {
    "simple syrup": ("sugar", None), "rich syrup": ("sugar", (2.0, 1.0)), "demerara syrup": ("sugar", None),
    "rich demerara syrup": ("sugar", (2.0, 1.0)), "gum syrup": ("sugar", (2.0, 1.0)), "cane syrup": ("sugar", None),
    "honey syrup": ("honey", None), "rich honey syrup": ("honey", (3.0, 1.0)), "honey": ("honey", None),
    "agave syrup": ("agave", None), "agave nectar": ("agave", None), "sugar": ("sugar", None),
    "demerara sugar": ("sugar", None), "saline": ("salt", None), "salt": ("salt", None), "maple syrup": ("sugar", None),
    "ginger syrup": ("sugar", None), "cinnamon syrup": ("sugar", None), "vanilla syrup": ("sugar", None),
    "raspberry syrup": ("sugar", None), "sugar cube": ("sugar", None), "golden syrup": ("sugar", None),
    "mint syrup": ("sugar", None), "rosemary syrup": ("sugar", None), "spiced syrup": ("sugar", None),
    "honey ginger syrup": ("honey", None), "hibiscus syrup": ("sugar", None), "tea syrup": ("sugar", None),
}  # fmt: skip


def read_syrup(scan: Scan) -> Syrup:
    """A syrup question. Raises Unclear no_amounts (neither volume nor sugar), no_strength (saline without percent)."""
    _saidagain(scan)
    g_per_ml = said_density(scan)
    led = ("cue:in", "cue:water", "cue:how_many")
    asked = next((scan.items[i].unit for i in scan.kinds("unit") if scan.kind_at(i - 1) in led), "")  # "water in oz?"
    more = spare_share(scan)
    return replace(with_spare(_read(scan), more), g_per_ml=g_per_ml, unit=asked)


def _read(scan: Scan) -> Syrup:
    names = [scan.items[i] for i in scan.kinds("name", "context", "garnish") if scan.items[i].name in SYRUPS]
    sweet, named_ratio = "sugar", None
    for p in names:
        kind, ratio = SYRUPS[p.name]
        if kind != "sugar":
            sweet = kind
        named_ratio = named_ratio or ratio
    scan.use(*[i for i, p in enumerate(scan.items) if any(p is n for n in names)])
    by: SyrupBy = (
        "weight" if scan.has("by_weight") else "volume" if parts_by_volume(scan) and not scan.has("sweeten") else ""
    )
    content = scan.has("sweeten") and not scan.kinds("count")
    inside = _inside(scan)
    in_place = in_place_of(scan)
    had = in_place[0] if in_place is not None else had_before(scan)
    content = content and in_place is None
    ratio = in_place[1] if in_place is not None else _ratio(scan) or named_ratio
    percent = _percent(scan)
    if percent is not None and ratio is not None and sweet != "salt" and not scan.has("sweeten"):
        raise Unclear("two_readings", [p for p in scan.items if p.kind in ("percent", "ratio")], "a ratio and a percent of sugar")
    one_of(scan)
    sugar, water, volume = _amounts(scan, sweet)
    portion = portioned(scan)
    if portion is None and scan.has("each") and volume is not None:
        bulk = [p for p in scan.items if p.kind == "amount" and p.unit in BULK]
        others = [p for p in bulk if not again(volume, Measure(p.value, p.unit))]
        if others and water is None and sugar is None:
            raise Unclear("unclear_number", others[-1:], others[-1].text)
    if portion is not None:
        volume = portion
    if inside is not None and volume is not None:
        volume = Measure(volume.value * inside, volume.unit)
    scan.use(*scan.kinds("unit"))
    if sweet == "salt":
        if percent is None:
            if ratio is None:
                raise Unclear("no_strength", names, "saline")
            percent = ratio[0] / (ratio[0] + ratio[1]) if ratio[0] <= ratio[1] else ratio[1] / sum(ratio)
        if volume is None and sugar is None and water is None:
            raise Unclear("no_volume", names, "saline")
        numbers_read(scan)
        return Syrup("salt", None, volume, sugar, water, "weight", percent)
    if content and percent is None and sugar is None and water is None:
        numbers_read(scan)
        return Syrup(sweet, ratio or (1.0, 1.0), volume, None, None, by, None, "sugar_content")
    if content and percent is not None and volume is None and sugar is None and water is None:
        return Syrup(sweet, None, None, None, None, by, percent, "sugar_content")
    if in_place is not None:
        if volume is None:
            raise Unclear("no_volume", [], "how much syrup the spec has")
        scan.use(*scan.kinds("unknown", "name", "context"))
        numbers_read(scan)
        return Syrup(sweet, ratio, volume, None, None, by, None, "in_place", had)
    if had is not None and ratio is not None:
        scan.use(*scan.kinds("unknown", "unit"))
        numbers_read(scan)
        if volume is None and water is None and sugar is not None and sugar.unit in WEIGHTS:
            volume = sugar  # "turn 1 kg of 1:1 into 2:1": the weight of the syrup at hand
        elif sugar is not None or water is not None:
            raise Unclear("two_readings", [], "syrup at hand or sugar at hand")
        return Syrup(sweet, ratio, volume, None, None, by, had=had)
    if volume is None and sugar is None and water is None:
        raise Unclear("no_volume", names, "syrup")
    if ratio is None and percent is None and sugar is not None and water is not None:
        numbers_read(scan)
        return Syrup(sweet, None, volume, sugar, water, by, None, "sugar_content")
    scan.use(*scan.kinds("unknown"))
    numbers_read(scan)
    return Syrup(sweet, ratio, volume, sugar, water, by, percent, "make")


_OF_BATCH = re.compile(
    r"\s*of (?:it|that|this|which|the|my|our)\b(?: \d+(?:[.,]\d+)? ?(?:ml|l|litres?|liters?)\b)?"
    r"(?: (?:batch|mix|lot|total|whole|drink|punch|sour)){0,2} (?:is|was|are|being|as|will be|should be|to be)\b"
)


def _inside(scan: Scan) -> float | None:
    """The share of a batch that is syrup: "2 L of sours, a quarter of it is 1:1". Marks it."""
    for i, p in enumerate(scan.items):
        share = p.value if p.kind == "percent" else FRACTION_WORDS.get(p.text, 0.0) if p.kind == "unknown" else 0.0
        k = i + 2 if scan.kind_at(i + 1) == "cue:of" else i + 1
        syrup = scan.at(k + 1 if scan.kind_at(k) == "ratio" else k)
        mixed = bool(scan.kinds("ratio")) and (bool(scan.kinds("drink")) or scan.has("scale", "blend"))
        sweetened = mixed and p.kind == "percent" and syrup is not None and syrup.name.endswith("syrup")
        if not 0 < share < 1 or scan.used[i] or not (sweetened or _OF_BATCH.match(scan.text, p.end)):
            continue
        before = scan.at(i - 1)
        if before is not None and before.kind == "bare" and before.text in ("one", "two", "three"):
            share *= before.value
            scan.use(i - 1)
        scan.use(i)
        return share
    return None


def _saidagain(scan: Scan) -> None:
    """ "1:2 (one sugar two water)": the ratio said again in words. Marks it."""
    ratios = [scan.items[i].values for i in scan.kinds("ratio") if len(scan.items[i].values) == 2]
    if len(ratios) != 1:
        return
    for i in scan.kinds("name"):
        j = i + 2 if scan.kind_at(i + 1) in ("cue:to", "cue:and", "sep") else i + 1
        one, two = scan.at(i - 1), scan.at(j)
        sweet_first = scan.items[i].name in SYRUPS and scan.kind_at(i - 1) == "bare" and scan.kind_at(j) == "bare"
        if not sweet_first or one is None or two is None or scan.kind_at(j + 1) != "cue:water":
            continue
        if (one.value, two.value) == ratios[0]:
            scan.use(i - 1, i, j, j + 1)


def _ratio(scan: Scan) -> tuple[float, float] | None:
    for i in scan.kinds("ratio"):
        p = scan.items[i]
        scan.use(i)
        if len(p.values) != 2:
            raise Unclear("ratio_names", [p], p.text, names="sugar, water", ratio=p.text)
        if min(p.values) <= 0:
            raise Unclear("out_of_range", [p], p.text)
        return p.values[0], p.values[1]
    parts = [i for i in scan.kinds("amount") if scan.items[i].unit == "part"]
    if len(parts) == 2:  # "3 parts sugar 2 parts water"
        scan.use(*parts)
        wet = next((i for i in parts if scan.kind_at(i + 1) == "cue:water"), parts[1])
        sweet = next(i for i in parts if i != wet)
        return scan.items[sweet].value, scan.items[wet].value
    sweet_at = [i for i in scan.kinds("bare") if _is_sweet(scan, i + 1)]
    wet_at = [i for i in scan.kinds("bare") if i + 1 < len(scan) and scan.items[i + 1].is_cue("water")]
    if len(sweet_at) == len(wet_at) == 1 and max(scan.items[i].value for i in sweet_at + wet_at) <= 20:
        scan.use(*sweet_at, *wet_at)  # "3 agave to 1 water"
        return scan.items[sweet_at[0]].value, scan.items[wet_at[0]].value
    worded = in_words(scan)
    if worded is not None:
        return worded
    equal = scan.cues("equal")
    if equal:
        scan.use(*equal)
        return 1.0, 1.0
    return None


def _is_sweet(scan: Scan, i: int) -> bool:
    p = scan.at(i)
    return p is not None and p.kind in ("name", "context") and p.name in SYRUPS


def _percent(scan: Scan) -> float | None:
    for i in scan.kinds("percent"):
        p = scan.items[i]
        scan.use(i)
        if not 0 < p.value < 1:
            raise Unclear("out_of_range", [p], p.text)
        return p.value
    for i in scan.kinds("bare"):
        before, after = scan.at(i - 1), scan.at(i + 1)
        if (before is not None and before.is_cue("sweeten")) or (after is not None and after.is_cue("sweeten")):
            scan.use(i)
            return scan.items[i].value / 100
    return None


def _amounts(scan: Scan, sweet: str) -> tuple[Measure | None, Measure | None, Measure | None]:
    """Sugar at hand, water at hand, syrup wanted."""
    sugar: Measure | None = None
    water: Measure | None = None
    volume: Measure | None = None
    of_the_drink(scan)
    for i, p in enumerate(scan.items):
        if scan.used[i] or p.kind not in ("amount", "vessel", "bare", "same_amount"):
            continue
        if p.kind == "vessel" and p.size is None:
            continue
        follows = scan.at(i + 1)
        sweetened = follows is not None and follows.kind == "name" and follows.name in ("sugar", "honey", "demerara sugar")
        if p.kind == "bare" and sweetened and p.value >= 20:  # "by weight, 400 sugar"
            sugar = Measure(p.value, "g")
            scan.use(i)
            continue
        if p.kind == "bare" and p.value < 90:
            continue
        if p.kind == "vessel":
            size, unit = p.size or (0.0, "ml")
            got = Measure(size * (p.amounts[0] if p.amounts else 1.0), unit)
        else:
            got = Measure(p.value, p.unit or "ml")
        if got.value <= 0:
            raise Unclear("out_of_range", [p], p.text)
        near = [scan.at(k) for k in (i + 1, i + 2) if scan.at(k) is not None]
        nxt = next((q for q in near if q is not None and not q.is_cue("of")), None)
        prev = scan.at(i - 1)
        if got.unit == "part":
            continue
        if got.unit in WEIGHTS and _named_before(scan, i):
            sugar = got  # "honey 1 kg, water for 2 to 1"
            scan.use(i)
            continue
        if got.unit in BULK and sweetened and (sugar_asked(scan) or made_of(scan, i)):
            volume = got  # "1:1 simple, need 2 L, sugar?", "2 L turbinado rich"
            scan.use(i)
            continue
        if (nxt is not None and nxt.is_cue("water")) or (
            prev is not None and prev.is_cue("water") and not (nxt is not None and nxt.kind == "name") and got.unit not in WEIGHTS
        ):
            asked = prev is not None and prev.is_cue("water") and scan.kind_at(i - 2) in ("cue:how_much",)
            if not asked:
                water = got
                scan.use(i)
                continue
        if (
            (got.unit in WEIGHTS and not weighed_syrup(scan, i))
            or started_with(scan, i)
            or (got.unit not in WEIGHTS and sweet_for_water(scan, i))
            or (
                got.unit in ("cup", "tbsp", "tsp", "ml", "oz", "l")
                and nxt is not None
                and nxt.kind in ("name", "garnish")
                and nxt.name in ("sugar", "honey", "agave nectar", "demerara sugar", "salt")
                and (water is not None or sugar is None)
                and (water is not None or _water_follows(scan, i) or not scan.has("how_much") or water_asked(scan))
                and (_water_follows(scan, i) or not any(q.kind == "name" and "syrup" in q.text for q in scan.items))
            )
        ):
            sugar = got
        else:
            if volume is not None and not again(volume, got) and not scan.has("each"):
                raise Unclear("unclear_number", [p], p.text)  # two volumes of syrup: neither is passed over
            volume = got if volume is None else volume
        scan.use(i)
    return sugar, water, volume


def _named_before(scan: Scan, i: int) -> bool:
    """Whether the amount at i belongs to the sweet thing before it: "sugar 1 kg", not "500 g sugar, 1 kg water"."""
    name, before = scan.at(i - 1), scan.at(i - 2)
    sweet = name is not None and name.kind in ("name", "garnish") and name.name in SYRUPS and "syrup" not in name.name
    return sweet and (before is None or before.kind not in ("amount", "bare", "ratio"))


def _water_follows(scan: Scan, i: int) -> bool:
    """Whether a later amount is water: then the one at i is what goes into it."""
    led = {k: k - 2 if scan.kind_at(k - 1) == "cue:of" else k - 1 for k in scan.cues("water") if k > i + 1}
    return any(scan.kind_at(j) == "amount" and j > i for j in led.values())


__all__ = ["SYRUPS", "WEIGHTS", "measure", "read_syrup"]
