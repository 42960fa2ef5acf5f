"""Frames for a batch and for the strength of a mix: a spec, and how much of it."""

import re
from dataclasses import replace

from grammar.frames.freezer import temperature_said
from grammar.frames.nameless import nameless_lots, take_in_ratio, take_watered
from grammar.frames.spec import read_spec
from grammar.loads import measured_twice
from grammar.mixers import unsaid_mix
from grammar.request import Batch, Measure, Part, Recipe, Strength, Water, Yield
from grammar.scan import Scan, Unclear, measure, rough_ml


def read_batch(scan: Scan) -> Batch:
    """A batch to measure out. Raises Unclear as read_spec does."""
    at_c = temperature_said(scan)
    focus = _focus(scan)
    unit = asked_unit(scan)
    asks_serves = any(scan.kind_at(i + 1) in ("drink", "cue:serve_word") for i in scan.cues("how_many"))
    recipe, makes = read_spec(scan)
    if asks_serves and makes.serves is None and makes.volume is not None:
        focus = "serves"  # "how many negronis fit in a 1 L bottle, 30 each"
    return Batch(recipe, makes, focus, unit, at_c)


def asked_unit(scan: Scan) -> str:
    """ "in oz", "in ml please": the unit the answer is wanted in. Marks it."""
    for i in scan.kinds("unit"):
        p = scan.items[i]
        if scan.kind_at(i - 1) == "times" and scan.kind_at(i - 2) == "vessel":
            continue  # "3 bottles x 70 cl"
        scan.use(i)
        if scan.kind_at(i - 1) in ("cue:in", "cue:to"):
            scan.use(i - 1)
        if p.unit in ("ml", "oz", "cl", "l", "us_fl_oz", "imp_fl_oz", "gallon", "quart", "pint", "cup"):
            return p.unit
    return ""


def _focus(scan: Scan) -> str:
    """ "how much gin for ..." asks for one line of the batch."""
    for i in scan.cues("how_much", "but", "what"):
        j = i + 1
        if scan.kind_at(j) == "cue:water" and scan.kind_at(j + 1) not in ("percent", "amount"):
            return "water"
        p = scan.at(j)
        if p is not None and p.kind == "name" and scan.items[i].name == "how_much":
            scan.use(i)
            scan.used[j] = any(q.name == p.name for k, q in enumerate(scan.items) if k != j and q.kind == "name")
            return p.name
    return ""


_BY_ICE = r"(?:stir\w*|shak\w+|ice|dilut\w+)"
_VOLUME = r"(?:about |around |roughly )?(\d+(?:\.\d+)?) ?(?:ml|cl|oz)\b"
#: what the ice has made of a drink: "stirred out to 105 ml", "shaken, ends up 120 ml", "once stirred it's 105 ml"
_GROWN_TO = re.compile(
    rf"\b(?:{_BY_ICE}|comes?|came|ends?|ended|finishe[sd]|grows?|grew)\b[^.;\d]{{0,14}}?"
    rf"\b(?:to|till|until|at|is|it'?s|be|as|up|out) {_VOLUME}"
    rf"|\b{_VOLUME} (?:after|once|when) (?:the |it is |it's )?{_BY_ICE}"
    rf"|\b{_VOLUME} (?:in the glass|in glass|in the coupe|out)(?: after| once strained)?\b"
    rf"|\b(?:after|once|when) (?:the |it is |it's )?{_BY_ICE}(?: it'?s| it is| is|,)? {_VOLUME}"
)
_CLAIM = re.compile(
    r"\b(?:come|comes|came|work|works) (?:out )?(?:to|at|as) (?:about |around )?(\d+(?:[.,]\d+)?) ?(?:%|abv|percent)?[ ?!.]*$"
)


def strength_claimed(scan: Scan) -> bool:
    """Whether a strength is said only to be checked: "does 3 parts 50% whisky to 1 part water come to 37.5?"."""
    found = _CLAIM.search(scan.text)
    other = scan.has("cost", "price", "how_much", "how_many")
    return found is not None and float(found[1].replace(",", ".")) <= 100 and not other


def read_strength(scan: Scan) -> Strength:
    """The strength of a mix; "500 ml of 50 % and 500 ml of 40 %" has liquids without a name."""
    claim = _CLAIM.search(scan.text)
    if claim is not None:
        scan.use(*[i for i, p in enumerate(scan.items) if p.start == claim.start(1)])
    at_c = temperature_said(scan)
    measured_twice(scan)
    recipe = take_watered(scan)
    if recipe is not None:
        return Strength(recipe, at_c=at_c)
    lots = nameless_lots(scan) or take_in_ratio(scan)
    if len(lots) > 1 and scan.has("or"):
        raise Unclear("two_readings", [scan.items[i] for i in scan.cues("or")], "one or the other, or both mixed")
    if lots:
        parts = tuple(Part("", lot.measure or Measure(1.0, "part"), "", True, lot.abv, whole=True) for lot in lots)
        taken_ml = sum(rough_ml(lot.measure.value, lot.measure.unit) or 0.0 for lot in lots if lot.measure is not None)
        recipe, makes = read_spec(scan, need=False, poured_ml=taken_ml)
        if makes.volume is None and makes.serve is not None and makes.serves is None:
            makes = replace(makes, volume=makes.serve, serve=None)
        if makes.volume is not None and not recipe.parts and recipe.water.how == "unsaid":
            recipe = replace(recipe, water=Water("rest"))  # "25 ml of 37.5% in 175 ml total"
        return Strength(
            Recipe(parts + recipe.parts, recipe.water, recipe.drink, None, recipe.garnish, recipe.technique, recipe.notes),
            makes,
            at_c,
        )
    grown = _grown_to(scan)
    recipe, makes = read_spec(scan)
    _told_apart(scan, recipe)
    measured = [rough_ml(p.measure.value, p.measure.unit) for p in recipe.parts if p.measure is not None and p.measure.unit]
    total = sum(m or 0.0 for m in measured)
    held = rough_ml(makes.volume.value, makes.volume.unit) if makes.volume is not None else None
    mix = unsaid_mix(scan.items) if held and recipe.water.how == "unsaid" and 0 < total < held else None
    if mix is not None:
        raise Unclear("two_readings", [mix], "the mix without alcohol or all of it, spirit included")
    if held and makes.serves is None and recipe.water.how == "unsaid" and 0 < total < held * 0.98 and None not in measured:
        recipe = replace(recipe, water=Water("rest"), parts=tuple(replace(p, whole=True) for p in recipe.parts))
    if grown is not None and recipe.water.how == "unsaid":
        parts = tuple(replace(p, whole=True) for p in recipe.parts)
        return Strength(replace(recipe, water=Water("rest"), parts=parts), Yield(volume=grown), at_c)
    inside = re.search(r"\bin (?:a |an )?\d+\s*(?:ml|cl|oz)\b", scan.text)
    if makes.serve is not None and makes.serves is None and recipe.water.how == "unsaid" and inside:
        makes = replace(makes, volume=makes.serve, serve=None)  # "25 ml gin in a 175 ml drink"
        recipe = replace(recipe, water=Water("rest"))
    return Strength(recipe, makes, at_c)


def _grown_to(scan: Scan) -> Measure | None:
    """ "60 gin 30 vermouth, stirred to 120 ml": the size of one drink that the ice's water has made. Marks it."""
    if scan.kinds("ratio", "count", "guests", "times", "fold", "house") or scan.has("equal", "water", "dilution"):
        return None
    said = _GROWN_TO.search(scan.text)
    at = said.start(said.lastindex) if said is not None and said.lastindex else -1
    for i in scan.kinds("amount"):
        named = scan.kind_at(i + 1) in ("name", "context", "percent", "proof", "cue:of")
        if scan.items[i].start == at and not named:
            scan.use(i)
            return measure(scan.items[i])
    return None


def _told_apart(scan: Scan, recipe: Recipe) -> None:
    """Raises Unclear no_strength where all is one thing typed twice: "1:1 of liqueur A and liqueur B" has two strengths."""
    parts = [p for p in recipe.parts if p.known]
    alike = len(parts) > 1 and len(parts) == len(recipe.parts) and len({p.name for p in parts}) == 1
    if alike and all(p.abv is None for p in parts):
        raise Unclear("no_strength", [q for q in scan.all if q.name == parts[0].name], "the strength of each")


__all__ = ["Yield", "asked_unit", "measure", "nameless_lots", "read_batch", "read_strength"]
