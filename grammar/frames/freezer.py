"""Frame for the freezer: will it freeze, at what temperature, how much water, how strong."""

import re
from dataclasses import replace

from grammar.frames.nameless import nameless_lots
from grammar.frames.spec import read_spec
from grammar.phrase import Phrase
from grammar.request import Freezer, FreezerAsk, Measure, Part, Recipe, Yield
from grammar.scan import Scan, Unclear, measure, rough_ml
from grammar.water import read_water, watered_by

_PER_LITRE = re.compile(r"\bper l|/ ?l\b")
_LOWEST_C, _HIGHEST_C = -60.0, 40.0
_COLDEST_C, _WARMEST_C = -40.0, -5.0  # of a freezer at whose end a bare figure stands: common practice, no source


def celsius(p: Phrase) -> float:
    """A temperature phrase in °C. A bare "-18" is °C; from -4 up without a scale it cannot be told and is °C too."""
    return (p.value - 32) * 5 / 9 if p.unit == "f" else p.value


def take_temperature(scan: Scan) -> float | None:
    """The freezer's temperature, marked. Raises Unclear out_of_range outside -60..40 °C, conflict_total for two."""
    found: list[tuple[float, Phrase]] = []
    fahrenheit = any(p.text in ("f", "fahrenheit") for p in scan.all)
    for i in scan.kinds("temperature", "negative"):
        p = scan.items[i]
        if p.kind == "negative" and p.unit not in ("", "c", "f"):
            continue
        if p.kind == "negative" and fahrenheit:
            p.unit = "f"
        scan.use(i)
        found.append((celsius(p), p))
    if not found:
        for i in scan.kinds("bare"):  # "freezer at 0", "freezer 5"
            near = scan.kind_at(i - 1)
            before = scan.at(i - 1)
            linked = near == "cue:freezer" or (
                near == "cue:at" and (scan.kind_at(i - 2) == "cue:freezer" or scan.kind_at(i + 1) == "")
            )
            if (
                linked
                and before is not None
                and scan.items[i].value <= 30
                and scan.kind_at(i + 1) not in ("name", "context", "drink", "unknown")
            ):
                scan.use(i)
                found.append((scan.items[i].value, scan.items[i]))
                break
    if not found:
        return None
    values = {round(v, 2) for v, _ in found}
    if len(values) > 1 and max(values) - min(values) > 1.0:
        raise Unclear("conflict_total", [p for _, p in found], " or ".join(p.text for _, p in found))
    value, p = found[0]
    if not _LOWEST_C <= value <= _HIGHEST_C:
        raise Unclear("out_of_range", [p], p.text)
    return value


def temperature_said(scan: Scan) -> float | None:
    """The freezer's temperature in a message about something else, marked; None when none is said."""
    if scan.kinds("temperature") or any(
        scan.kind_at(i - 1) in ("cue:at", "cue:freezer", "cue:in") or (scan.has("slush", "freezer") and not scan.items[i].unit)
        for i in scan.kinds("negative")
    ):
        at_c = take_temperature(scan)
        scan.use_cues("freezer", "slush", "point")
        return at_c
    if scan.has("freezer"):
        at_c = take_temperature(scan)
        scan.use_cues("freezer", "slush", "point")
        return at_c
    return take_temperature(scan) if asked_below(scan) else None


def asked_below(scan: Scan) -> bool:
    """ "60 gin 10 vermouth 15 water, -18 ok?", "..., -18 overnight": it stands alone and can only be a temperature."""
    below = scan.kinds("negative")
    if len(below) != 1:
        return False
    i, p = below[0], scan.items[below[0]]
    alone = scan.kind_at(i - 1) == "sep" and scan.kind_at(i + 1) in ("", "sep", "cue:slush")
    asked = "?" in scan.text or i == len(scan) - 1
    return alone and asked and not p.unit and _COLDEST_C <= p.value <= _WARMEST_C


def read_freezer(scan: Scan) -> Freezer:
    """A freezer question. Raises Unclear no_strength when there is neither a strength nor a spec to judge."""
    at_c = take_temperature(scan)
    ask = _ask(scan)
    scan.use_cues("freezer", "slush", "point", "headspace", "least", "most", "ice_share", "fridge")
    if ask == "least_abv":
        return Freezer(at_c, ask="least_abv")
    sugar = _sugar(scan)
    if sugar is not None:
        scan.use(*scan.kinds("name", "context"))
    names = scan.kinds("name", "context", "house") or scan.kinds("ratio")
    strengths = [i for i in scan.kinds("percent", "proof") if not _share_of_water(scan, i)]
    unmeasured = not scan.kinds("amount", "bare", "ratio", "house", "water") and not scan.has("water", "dilution", "equal")
    if len(scan.kinds("name")) > 1 and len(strengths) == 1 and unmeasured:
        scan.use(*scan.kinds("name", "context"))  # "30% vodka liqueur": one liquid, its strength said
        names = []
    if len(strengths) == 1 and _spirit_and_water(scan, strengths[0]):
        scan.use(*scan.kinds("name"), *scan.cues("water"))
        names = []
    drink_only = scan.kinds("drink") and not scan.kinds("name", "context", "house", "amount", "bare")
    if len(strengths) == 1 and drink_only and not scan.has("water", "dilution"):
        scan.use(*scan.kinds("ratio"))  # "a 50/50 martini at 22%": its strength is said
        names = []
    watered = _watered(scan, strengths, at_c, ask) if not names and not sugar else None
    if watered is not None:
        return watered
    mixed = _mixed(scan, strengths, at_c, ask) if not sugar else None
    if mixed is not None:
        return mixed
    if not names and strengths:
        p = scan.items[strengths[0]]
        if len(strengths) == 2 and scan.kind_at(strengths[0] - 1) == "cue:from" and scan.kind_at(strengths[1] - 1) == "cue:to":
            scan.use(strengths[0])  # "brought down from 33% to 20%": what it is now
            p = scan.items[strengths[1]]
            strengths = strengths[1:]
        if len({scan.items[i].value for i in strengths}) == 1:
            scan.use(*strengths)
            volume = _volume(scan)
            if not 0 <= p.value <= 1:
                raise Unclear("out_of_range", [p], p.text)
            return Freezer(at_c, p.value, ask=ask, volume=volume, sugar_g_per_l=sugar)
    if sugar is not None:
        raise Unclear("no_strength", [p for p in scan.items if p.is_cue("sweeten")], "the strength")
    if len(scan.kinds("name")) == 1 and not scan.kinds("ratio", "bare") and not scan.has("water", "dilution"):
        i = scan.kinds("name")[0]
        scan.use(i, *strengths)
        value = scan.items[strengths[0]].value if strengths else None
        if value is not None and not 0 <= value <= 1:
            raise Unclear("out_of_range", [scan.items[strengths[0]]], scan.items[strengths[0]].text)
        part = Part(scan.items[i].name, Measure(1000.0, "ml"), scan.items[i].text, True, value)
        return Freezer(at_c, None, Recipe((part,)), Yield(), ask, _volume(scan))
    if names or scan.kinds("unknown"):
        recipe, makes = read_spec(scan, need=bool(names))
        if recipe.parts or recipe.house:
            return Freezer(at_c, None, recipe, makes, ask)
    bare = [i for i in scan.kinds("bare") if scan.has("abv") and scan.items[i].value <= 100]
    if len(bare) == 1:
        scan.use(*bare)
        return Freezer(at_c, scan.items[bare[0]].value / 100, ask=ask, volume=_volume(scan))
    raise Unclear("no_strength", [p for p in scan.items if p.is_cue("freezer", "slush", "point")], "the strength")


def _share_of_water(scan: Scan, i: int) -> bool:
    """Whether the percent at i says how much water there is: "3 L premix, 25% water"; "how much 40% water" is asked."""
    if watered_by(scan, i):
        return True
    return scan.kind_at(i + 1) in ("cue:water", "cue:dilution") and not scan.has("how_much", "most")


def _watered(scan: Scan, strengths: list[int], at_c: float | None, ask: FreezerAsk) -> Freezer | None:
    """ "1 L of 40% with 25% water, will it freeze": one liquid without a name, and the water that goes in. Marks it."""
    shares = [i for i in scan.kinds("percent") if i not in strengths]
    if len(strengths) != 1 or len(shares) != 1 or ask == "most_water":
        return None
    scan.use(strengths[0])
    water = read_water(scan)
    volume = _volume(scan)
    part = Part("", volume or Measure(1.0, "part"), "", True, scan.items[strengths[0]].value, whole=volume is not None)
    if water.how == "unsaid" or not 0.0 <= (part.abv or 0.0) <= 1.0:
        raise Unclear("unclear_number", [scan.items[shares[0]]], scan.items[shares[0]].text)
    return Freezer(at_c, None, Recipe((part,), water), Yield(), ask)


def _mixed(scan: Scan, strengths: list[int], at_c: float | None, ask: FreezerAsk) -> Freezer | None:
    """ "750 of 40% with 150 ml water", "1 L of 35% plus 300 ml juice": a liquid without a name, and what goes in. Marks them."""
    others = scan.has("water") or bool(scan.kinds("name", "context"))
    lots = nameless_lots(scan.copy()) if strengths and others and ask != "most_water" else []
    if not lots or len(scan.kinds("amount", "bare")) <= len(lots) or len(lots) < len(strengths):
        return None
    lots = nameless_lots(scan)
    parts = tuple(Part("", lot.measure or Measure(1.0, "part"), "", True, lot.abv, whole=True) for lot in lots)
    taken_ml = sum(rough_ml(lot.measure.value, lot.measure.unit) or 0.0 for lot in lots if lot.measure is not None)
    recipe, makes = read_spec(scan, need=False, poured_ml=taken_ml)
    return Freezer(at_c, None, replace(recipe, parts=parts + recipe.parts), makes, ask)


def _spirit_and_water(scan: Scan, i: int) -> bool:
    """ "ethanol and water, 45%": one liquid of the strength at i, said behind both, where neither has an amount of its own."""
    at = scan.kinds("name")
    if len(at) != 1 or scan.kinds("amount", "bare", "ratio", "house") or len(scan.cues("water")) != 1:
        return False
    j = at[0] + 2 if scan.kind_at(at[0] + 1) in ("cue:and", "sep", "cue:in") else at[0] + 1
    return scan.kind_at(j) == "cue:water" and i > j


def _sugar(scan: Scan) -> float | None:
    """ "200 g/l sugar", "200 g sugar per litre": sugar in a litre, g, marked; None when none is said."""
    for i in scan.cues("sweeten"):
        p = scan.at(i - 1)
        if p is None or scan.used[i - 1] or not _PER_LITRE.search(scan.items[i].text):
            continue
        if p.kind == "bare" or (p.kind == "amount" and p.unit == "g"):
            scan.use(i - 1, i, *[k for k in (i + 1,) if scan.kind_at(k) == "name" and scan.items[k].name == "sugar"])
            return p.value
    return None


def _volume(scan: Scan) -> Measure | None:
    for i in scan.kinds("amount", "vessel"):
        p = scan.items[i]
        scan.use(i)
        if p.kind == "amount":
            return measure(p)
        if p.size is not None:
            return Measure(p.size[0] * (p.amounts[0] if p.amounts else 1.0), p.size[1])
    return None


_POURS = re.compile(
    r"\b(?:stays?|remains?|keeps?|still) (?:it )?(?:liquid|pourable|pours?|runny)\b|\bpourable\b"
    r"|\bbefore (?:it |that )?(?:slush|freez|goes slush|turns)"
)


def water_that_pours(scan: Scan) -> bool:
    """Whether the most water is asked for with which a mix still pours: "what water to stay liquid"."""
    asked = any(scan.kind_at(i + 1) in ("cue:water", "cue:dilution") for i in scan.cues("how_much", "what", "most"))
    return asked and _POURS.search(scan.text) is not None


def _ask(scan: Scan) -> FreezerAsk:
    """Which of the freezer's questions it is."""
    liquids = scan.kinds("percent", "proof", "name", "ratio", "house")
    if scan.has("headspace"):
        return "headspace"
    if scan.has("abv", "least") and scan.has("slush") and not liquids and not scan.has("water"):
        return "least_abv"
    if scan.has("least") and not scan.has("water") and not liquids:
        return "least_abv"
    how_strong = any(p.is_cue("abv") and p.text.startswith("how") for p in scan.items)
    if scan.has("abv") and not liquids and (how_strong or scan.has("what", "least", "how_much", "want")):
        return "least_abv"
    if (scan.has("most", "how_much") and scan.has("water", "dilution")) or water_that_pours(scan):
        return "most_water"
    if scan.has("ice_share"):
        return "ice"
    if scan.has("point"):
        return "point"
    return "verdict"
