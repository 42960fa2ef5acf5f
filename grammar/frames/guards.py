"""What must hold before a spec is answered, whatever was understood: what does not agree is asked about.

Lives here: tests of a finished reading against the message's own words. Never here: reading anything.
"""

import math
import re

from grammar.request import Part, Recipe, Yield
from grammar.scan import BAR_ROUNDING, SERVE_LIMIT_ML, Scan, Unclear, rough_ml

_TO_THE_TOP = re.compile(r"\bfill (?:it|them|that|this|her)\b|\bto the (?:top|brim|neck)\b|\ball the way up\b")
_PART_OF_IT = re.compile(r"\bof (?:that|it|which|this)\b|\bin (?:it|that|there)\b(?! (?:is|are)\b)")
_LARGE_ML = 250.0  # from here on water alone is no serve: common practice, no source
_LEAST_POURED_ML = 15.0  # less beside parts is a dash or a spoon: common practice, no source
_NAMED = ("name", "context")


def amount_beside_name(scan: Scan) -> None:
    """An amount with its ingredient's name behind it is no size of a serve, even when the name took another figure.

    To be called when the ingredients are read and the sizes are not. Raises Unclear unclear_number.
    """
    if scan.has("equal") or scan.kinds("ratio", fresh=False):
        return
    for i in scan.kinds("amount"):
        p = scan.items[i]
        j = i + 2 if i + 1 < len(scan) and scan.items[i + 1].is_cue("of") else i + 1
        named, after = scan.at(j), scan.at(j + 1)
        if named is None or named.kind not in _NAMED or not scan.used[j] or p.unit == "part":
            continue
        kind_of_drink = after is not None and after.kind in ("drink", "house")  # "90 ml gin martinis"
        if not kind_of_drink and 0.0 < (rough_ml(p.value, p.unit) or 0.0) < SERVE_LIMIT_ML:
            raise Unclear("unclear_number", [p, named], scan.text[p.start : named.end])


def agrees(scan: Scan, recipe: Recipe, makes: Yield) -> None:
    """A bottle to fill needs a size; amounts put into a bottle must not be more than it holds.

    Raises Unclear no_volume, conflict_total, two_readings.
    """
    _left_out_is_out(scan, recipe)
    _put_right(scan, recipe)
    _topped_with_water(scan, recipe, makes)
    measured = [p.measure for p in recipe.parts if p.measure is not None]
    parts = [m for m in measured if m.unit == "part"]
    large = [m for m in measured if m.unit != "part" and (rough_ml(m.value, m.unit) or 0.0) >= 100.0]
    poured = [m for m in measured if m.unit != "part" and (rough_ml(m.value, m.unit) or 0.0) >= _LEAST_POURED_ML]
    spelled = any(p.kind == "amount" and p.unit == "part" for p in scan.items)  # not a ratio
    sized = makes.volume is not None or makes.serve is not None
    uncounted = makes.serves is None and makes.guests is None
    if parts and not sized and ((poured and spelled) or (large and uncounted)):
        raise Unclear("two_readings", [], "parts of one ingredient and an amount of another")
    sizeless = [p for p in scan.items if p.kind == "vessel" and p.size is None and not p.amounts]
    made = makes.serves is not None or makes.guests is not None or makes.volume is not None
    ratio = any(p.measure is not None and p.measure.unit == "part" for p in recipe.parts)
    if ratio and not made and makes.serve is None and not sizeless and _TO_THE_TOP.search(scan.text):
        raise Unclear("no_volume", [], "the size of the bottle")
    if sizeless and scan.has("scale") and ratio and not made:
        raise Unclear("no_volume", sizeless[:1], "the size of the bottle")
    if makes.volume is None or makes.serves is not None or recipe.base_serves is not None:
        return
    sizes = [rough_ml(p.measure.value, p.measure.unit) for p in recipe.parts if p.measure is not None and p.measure.unit]
    water = rough_ml(recipe.water.value, recipe.water.unit) if recipe.water.how == "amount" else 0.0
    total = sum(s or 0.0 for s in sizes) + (water or 0.0)
    bare_units = all(p.measure is not None and p.measure.unit not in ("", "part") for p in recipe.parts)
    put_in = re.search(r"\bput in\b|\bin it\b|\bpoured in\b", scan.text) is not None
    held = rough_ml(makes.volume.value, makes.volume.unit) or 0.0
    overflow = makes.vessel_ml or any(p.kind == "bare" and p.value == held for p in scan.items)
    if overflow and bare_units and total >= SERVE_LIMIT_ML and total > held * 1.02:
        raise Unclear(
            "conflict_total", sizeless, f"{total:.0f} ml in {held:.0f} ml", first=f"{total:.0f} ml", second=f"{held:.0f} ml"
        )
    stated = scan.has("final") and bare_units and total >= SERVE_LIMIT_ML and recipe.water.how in ("none", "amount", "unsaid")
    if stated and total < held and scan.has("abv", "percent_word") and _PART_OF_IT.search(scan.text):
        return  # "comes to 3 L, 700 of that is 40% brandy, abv?": the rest is something else
    if (put_in and makes.vessel_ml and total > held * 1.02) or (stated and abs(total - held) > held * 0.02):
        raise Unclear(
            "conflict_total", sizeless, f"{total:.0f} ml in {held:.0f} ml", first=f"{total:.0f} ml", second=f"{held:.0f} ml"
        )


def _put_right(scan: Scan, recipe: Recipe) -> None:
    """ "30 each gin sweet red bitter, make the gin 40": a name's second amount after such a word is not one more of it."""
    for i in scan.cues("make_it", "but", "oops", "swap"):
        again = scan.at(i + 1)
        if again is None or again.kind not in _NAMED:
            continue
        said = [p.measure for p in recipe.parts if p.name == again.name and p.measure is not None]
        if len(said) > 1:
            raise Unclear("two_readings", [again], " or ".join(f"{m.value:g} {again.text}" for m in said))


def _left_out_is_out(scan: Scan, recipe: Recipe) -> None:
    """What "no ..." or "without ..." was said of is in the answer only when an amount of its own was typed."""
    for i in scan.cues("none"):
        refused = scan.at(i + 1)
        if refused is None or refused.kind not in _NAMED:
            continue
        typed = [k for k, p in enumerate(scan.items) if p.kind in _NAMED and p.name == refused.name]
        poured = [p for p in recipe.parts if p.name == refused.name and p.measure is not None and p.measure.value > 0.0]
        if poured and len(typed) == 1:
            raise Unclear("two_readings", [refused], f"with {refused.text} or without")


def _topped_with_water(scan: Scan, recipe: Recipe, makes: Yield) -> None:
    """Water that tops up a volume said is part of what is measured, never a garnish; the volume is not the water's."""
    water = recipe.water
    if water.how == "amount" and (rough_ml(water.value, water.unit) or 0.0) >= _LARGE_ML:
        for i in scan.kinds("amount", fresh=False):
            p, led = scan.items[i], scan.at(i - 1)
            reached = led is not None and led.is_cue("to", "rest", "make_it", "final", "for")
            beside = [q for q in scan.items[i + 1 : i + 3] if not q.is_cue("of")]
            owned = bool(beside) and beside[0].is_cue("water")  # "into 800 ml of water"
            if reached and not owned and p.value == water.value and p.unit == water.unit:
                raise Unclear("two_readings", [p], f"water up to {p.text} or {p.text} of water")
    if "top with water" in recipe.garnish and makes.volume is not None:
        size = f"{makes.volume.value:g} {makes.volume.unit}"
        raise Unclear("two_readings", [], f"water up to {size} or water in the glass")


_OFF = 0.05  # of the volume: pours and volumes are said rounded; common practice, no source
_LEAST_ML = 3.0  # less is counted in dashes: common practice, no source
_FAR = 8.0  # times: one ingredient of a serve is not typed twice with amounts so far apart; common practice, no source


def _said_alike(part: Part, recipe: Recipe, text: str) -> bool:
    """Whether the same words name another part too, and no strength, letter or number tells them apart."""
    alike = [p for p in recipe.parts if p.name == part.name and p.measure is not None]
    lettered = re.search(rf"\b{re.escape(part.typed)} (?:[a-d]|#?\d|one|two)\b", text)  # "liqueur a and liqueur b"
    return part.known and lettered is None and len(alike) > 1 and len({(p.typed, p.abv, p.whole) for p in alike}) == 1


def one_name_twice(scan: Scan, recipe: Recipe, makes: Yield) -> None:
    """ "1.75 L tequila, 200 people, 1.25 oz tequila each": a bottle is no part of a serve. Raises Unclear two_readings."""
    uncounted = makes.serves is None and makes.guests is None
    tiny = ("part", "dash", "drop", "barspoon", "count")
    seen: dict[str, float] = {}
    for p in recipe.parts:
        ml = rough_ml(p.measure.value, p.measure.unit) if p.measure is not None and p.measure.unit not in tiny else None
        if not ml or not math.isfinite(ml):
            continue
        other = seen.setdefault(p.name, ml)
        small, large = sorted((ml, other))
        if large >= _FAR * small and large >= SERVE_LIMIT_ML and uncounted:
            found = f"{large:.0f} ml {p.name} to use up, or {small:.0f} ml more of it"  # "1 L vodka ... 50 vodka 20 lemon"
            raise Unclear("two_readings", [], found)
        if large >= _FAR * small and large >= SERVE_LIMIT_ML:
            raise Unclear("two_readings", [], f"{large:.0f} ml {p.name} in all, or bottles of {large:.0f} ml")
        if large >= _FAR * small and small < _LEAST_ML:
            raise Unclear("unclear_number", [], f"{small:g} {p.typed}")  # "tequila comes in 1.75, 37 ml tequila each"
        if large > small * BAR_ROUNDING and _said_alike(p, recipe, scan.text):
            found = f"{other:.0f} ml {p.typed}, or {ml:.0f} ml, or both"  # "24 rum coke, 40 ml rum 120 ml coke"
            raise Unclear("two_readings", [], found)


def serves_and_volume(recipe: Recipe, makes: Yield) -> None:
    """ "10 serves of 75 ml, 2 L in all": serves of a size that do not come to the volume. Raises Unclear conflict_total."""
    serves = makes.serves if makes.guests is None else makes.guests * (makes.each or 1.0)
    if serves is None or makes.serve is None or makes.volume is None:
        return
    water = recipe.water
    each, volume = rough_ml(makes.serve.value, makes.serve.unit), rough_ml(makes.volume.value, makes.volume.unit)
    if not each or not volume or water.how in ("rest", "to_strength", "amount", "part"):
        return
    poured = each * serves
    could = [poured]
    if water.how == "of_undiluted":
        could.append(poured * (1 + water.value))
    elif water.how == "of_finished":
        could.append(poured / (1 - water.value))
    if all(abs(total - volume) > _OFF * volume for total in could):
        found = f"{serves:g} x {each:.0f} ml is {poured:.0f} ml, not {volume:.0f} ml"
        raise Unclear("conflict_total", [], found)
