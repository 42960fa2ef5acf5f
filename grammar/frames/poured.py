"""What a batch is held against: a bottle it is poured into, serves it is scaled from, a volume with a point for its thousands."""

import re
from dataclasses import replace

from grammar.bottles_of_one import split_at
from grammar.request import Recipe, Yield
from grammar.scan import SERVE_LIMIT_ML, Scan, Unclear, rough_ml

_INTO = re.compile(r"\b(?:in|into|inside)(?: (?:a|an|the|one|my|our|this|its))?(?: (?:empty|clean|new|big|glass|single))?\s*$")


_HOLDS = re.compile(r"\s*(?:that |which )?(?:holds?|holding|has(?: got)?|contains?|containing|already has|'s got)\b")


def as_poured(scan: Scan, recipe: Recipe, makes: Yield) -> tuple[Recipe, Yield]:
    """A whole batch typed in full and poured "in a 700 bottle" stays as typed, with room left.

    Raises Unclear conflict_total when nothing says whether to fill a bottle that is larger than what was typed.
    """
    measured = [p.measure for p in recipe.parts if p.measure is not None]
    if makes.volume is None or makes.vessel_ml is None or makes.serves is not None or recipe.base_serves is not None:
        return recipe, makes
    asked = scan.has("enough")  # "1750 bourbon, 875 vermouth. are 3 x 1 L bottles enough?"
    if any(m.unit in ("", "part") for m in measured) or (scan.has("scale", "rest", "make_it", "final") and not asked):
        return recipe, makes
    poured = sum(rough_ml(m.value, m.unit) or 0.0 for m in measured)
    water = recipe.water
    if water.how == "amount":
        poured += rough_ml(water.value, water.unit) or 0.0
    elif water.how in ("of_undiluted", "of_finished"):
        poured *= 1 + water.value if water.how == "of_undiluted" else 1 / (1 - water.value)
    held = rough_ml(makes.volume.value, makes.volume.unit) or 0.0
    if poured < SERVE_LIMIT_ML or (poured >= held * 0.98 and not asked):
        return recipe, makes
    held_in = [p for p in scan.items if p.kind == "vessel"]
    if asked or any(_INTO.search(scan.text[: p.start]) or _HOLDS.match(scan.text, p.end) for p in held_in):
        parts = tuple(replace(p, whole=True) for p in recipe.parts)
        water = replace(water, whole=True) if water.how == "amount" else water
        return replace(recipe, parts=parts, water=water), replace(makes, volume=None)
    facts = {"comes_to": f"{poured:.0f} mL", "stated": f"{held:.0f} mL"}
    raise Unclear("conflict_total", [], f"{poured:.0f} ml, not {held:.0f} ml", f"fill {scan.text.strip()}", **facts)


_SIZE_SAID = re.compile(r"\b(?:bottle|bottling|batch bottle)s? size\b")


def in_bottles(scan: Scan, makes: Yield) -> Yield:
    """ "20 martinis in 500 ml bottles", "x15, bottled in 750s": the serves say how much, and it takes as many as it takes."""
    counted = makes.serves is not None or makes.guests is not None
    if not counted or makes.vessel_ml is None or makes.volume is None or (makes.vessels or 1.0) != 1.0:
        return makes
    for p in scan.items:
        plural = p.text.endswith(("bottles", "btls", "jars", "flasks"))
        if p.kind == "vessel" and p.size is not None and not p.amounts and _SIZE_SAID.search(scan.text[: p.start + 12]):
            return replace(makes, volume=None, vessels=None, as_many=True)  # "16 drinks, bottle size 750"
        if p.kind == "vessel" and p.size is not None and not p.amounts and plural and _INTO.search(scan.text[: p.start]):
            return replace(makes, volume=None, vessels=None, as_many=True)
    return makes


def split_between(scan: Scan, makes: Yield) -> Yield:
    """ "40 serves, split across 4 bottles": so many bottles, of whatever size holds it."""
    if (makes.serves is None and makes.guests is None) or makes.vessel_ml is not None or makes.vessels is not None:
        return makes
    i = split_at(scan)
    if i is None:
        return makes
    scan.use(i, *[k for k in (i - 1, i - 2) if scan.kind_at(k) == "unknown"])
    return replace(makes, vessels=scan.items[i].amounts[0])


def serves_in_bottle(scan: Scan, makes: Yield) -> Yield:
    """ "10 serves of 75 ml in a 1 L bottle": the serves say how much, the bottle only what it is poured into."""
    if makes.serves is None or makes.serve is None or makes.vessel_ml is None or makes.as_many:
        return makes
    held = makes.vessel_ml * (makes.vessels or 1.0)
    poured = makes.serves * (rough_ml(makes.serve.value, makes.serve.unit) or 0.0)
    into = any(_INTO.search(scan.text[: p.start]) for p in scan.items if p.kind == "vessel")
    if into and 0.0 < poured < held * 0.95 and not scan.has("scale", "rest"):
        return replace(makes, volume=None, vessel_ml=None, vessels=None)
    return makes


def scaled_from(scan: Scan) -> float | None:
    """ "scale it from 1 to 44": how many serves the amounts typed are for; the other figure becomes the count wanted."""
    if not (scan.has("scale", "make_it", "recipe_word") or scan.kinds("drink")) or scan.kinds("percent", "proof"):
        return None
    for i in scan.cues("from"):
        p, q = scan.at(i + 1), scan.at(i + 3)
        if p is None or q is None or scan.used[i + 1] or scan.kind_at(i + 2) != "cue:to":
            continue
        if p.kind == "bare" and q.kind in ("bare", "count", "guests") and q.value > p.value >= 1:
            scan.use(i, i + 1, i + 2)
            q.kind = "count" if q.kind == "bare" else q.kind
            return p.value
    return None


_NO_WATER_YET = r"before (?:any |the |adding |we add )*(?:water|dilution|diluting|ice)\b"
_UNDILUTED_FIRST = re.compile(r"(?<!of )(?<!of the )\b(?:undiluted|pre ?-?dilution)(?: volume| batch)?(?: of| is|:)?\s*$")
_UNDILUTED_AFTER = re.compile(
    rf"\s*(?:of )?(?:{_NO_WATER_YET}|(?:undiluted|pre ?-?dilution|unwatered|neat)\b)|\s*of [^%.;\n]{{0,60}}\b{_NO_WATER_YET}"
)


_ON_TOP_OF_IT = re.compile(r"\bwater(?: \w+)? on top of (?:that|it|this|the \d)")
_SO_MUCH_ON_TOP = re.compile(r"\d ?(?:ml|cl|l|oz) (?:of )?(?:\w+ )?water on top\b|\bon top,? (?:add )?\d+ ?(?:ml|cl|oz)\b")


def before_water(scan: Scan, recipe: Recipe, makes: Yield) -> tuple[Recipe, Yield]:
    """ "undiluted 1.6 L of ..., then 25% water": the volume said has no water in it yet, so that the batch is larger; stated."""
    water, volume = recipe.water, makes.volume
    if volume is None or makes.serves is not None or water.how not in ("of_undiluted", "of_finished", "amount"):
        return recipe, makes
    said = [p for p in scan.items if p.kind in ("amount", "bare") and p.value == volume.value]
    on_top = _ON_TOP_OF_IT.search(scan.text) or (water.how == "amount" and _SO_MUCH_ON_TOP.search(scan.text))
    told = any(_UNDILUTED_FIRST.search(scan.text, 0, p.start) or _UNDILUTED_AFTER.match(scan.text, p.end) for p in said)
    if not said or not (on_top or told):
        return recipe, makes
    more = 1 + water.value if water.how == "of_undiluted" else 1 / (1 - water.value)
    if water.how == "amount":
        held = rough_ml(volume.value, volume.unit) or 0.0
        more = 1 + (rough_ml(water.value, water.unit) or 0.0) / held if held else 1.0
    note = f"read_as:{said[0].text}:{said[0].text} before water"
    grown = replace(volume, value=volume.value * more)
    return replace(recipe, notes=(*recipe.notes, note)), replace(makes, volume=grown)


_LEAST_POUR_ML = 20.0  # a serve is no smaller: common practice, no source
_FAR_TOO_MUCH = 1.5  # times what a bottle holds; up to there the reply says that it does not fit: common practice, no source


def too_many(scan: Scan, recipe: Recipe, makes: Yield) -> None:
    """Serves that cannot all be meant for the bottle named are asked about. Raises Unclear conflict_total."""
    serves = makes.serves if makes.serves is not None or makes.guests is None else makes.guests * (makes.each or 1.0)
    if makes.as_many or serves is None or makes.vessel_ml is None:
        return
    if recipe.base_serves is not None or scan.has("fit") or "?" in scan.text:
        return
    held = makes.vessel_ml * (makes.vessels or 1.0)
    measured = [p.measure for p in recipe.parts if p.measure is not None]
    if makes.serve is None and measured and all(m.unit in ("part", "") for m in measured):
        each = held / serves
        if each < _LEAST_POUR_ML:
            raise Unclear("conflict_total", [], f"{serves:g} serves in {held:.0f} ml is {each:.0f} ml each")
        return
    serve = sum(rough_ml(m.value, m.unit) or 0.0 for m in measured)
    if 0.0 < serve < SERVE_LIMIT_ML and serve * serves > _FAR_TOO_MUCH * held:
        found = f"{serves:g} x {serve:.0f} ml is {serve * serves:.0f} ml, not {held:.0f} ml"
        raise Unclear("conflict_total", [], found)


def thousands(scan: Scan) -> tuple[str, ...]:
    """ "2.400 ml" of a ratio: as 2.4 mL no one fills it, so it is 2400 mL, and the reply says so."""
    if not (scan.kinds("ratio") or scan.has("equal")) or scan.kinds("amount"):
        return ()
    unsure = scan.kinds("unsure")
    if len(unsure) != 1 or scan.items[unsure[0]].unit != "ml":
        return ()
    p = scan.items[unsure[0]]
    p.kind, p.value = "amount", p.value * 1000.0
    return (f"read_as:{p.text}:{p.value:.0f} mL",)


