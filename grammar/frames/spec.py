"""The frame pieces every request about a spec shares: ingredients, water, how much to make, and what was not read."""

import math
import re
from dataclasses import replace

from grammar.base_serves import base_serves, then_for
from grammar.frames.guards import agrees, amount_beside_name, one_name_twice, serves_and_volume
from grammar.frames.guards_figures import figures_agree
from grammar.frames.limited import take_limit
from grammar.frames.poured import (
    as_poured,
    before_water,
    in_bottles,
    scaled_from,
    serves_in_bottle,
    split_between,
    thousands,
    too_many,
)
from grammar.frames.unread import unread_words
from grammar.loads import measured_twice
from grammar.makes import claim_rest, claim_yield
from grammar.own_ratios import own_ratios
from grammar.recipe import read_recipe
from grammar.regroup import left_free, listed_amounts, regroup
from grammar.request import Measure, Part, Recipe, Yield
from grammar.scan import SERVE_LIMIT_ML, Scan, Unclear, rough_ml
from grammar.spare import spare_serves, spare_share
from grammar.volumes import IN_THE_GLASS
from grammar.water import read_water

WATER_INSIDE = re.compile(
    r"\b(?:incl|including|includes|counting|inc|inside|included|already|of which|of (?:that|it|this))\b"
    r"|\b(?:the )?water (?:\w+ )?(?:in|added|inside)\b"
    r"|\b(?:once|after) (?:add\w* )?(?:the |its |all the )?(?:\d+(?:\.\d+)? ?(?:%|percent) )?(?:water|dilution)\b"
    rf"|{IN_THE_GLASS}"
)


def read_spec(scan: Scan, need: bool = True, poured_ml: float = 0.0) -> tuple[Recipe, Yield]:
    """The spec and the yield of a message, everything marked.

    Raises Unclear no_spec (a count or volume without a recipe), no_amounts, unread, unclear_number and what the
    pieces raise. With need False a message without ingredients gives an empty Recipe. poured_ml: what of the volume
    liquids without a name have taken already.
    """
    large = thousands(scan)
    measured_twice(scan)
    regroup(scan)
    base = scaled_from(scan) or then_for(scan) or base_serves(scan)
    spare, more = spare_share(scan), spare_serves(scan)
    _drink_kinds(scan)
    listed_amounts(scan)
    limited = take_limit(scan)
    if len(scan.kinds("name", "context")) > 1:
        own_ratios(scan)  # "3/4 oz 2:1 syrup" is no size of a serve
    makes = _room_left(scan, claim_yield(scan))
    if limited is not None and makes.serves is None:
        makes = replace(makes, serves=limited)
    water = read_water(scan)
    house = _house(scan)
    reading = read_recipe(scan, water)
    amount_beside_name(scan)
    makes = claim_rest(scan, makes)
    if makes.serve is not None and reading.water.how != "unsaid" and WATER_INSIDE.search(scan.text):
        makes = replace(makes, serve_is="finished")  # "80 ml incl 20% water"
    if len(reading.parts) == 1 and reading.parts[0].measure is None and makes.serve is not None and scan.has("how_much"):
        reading.parts = [replace(reading.parts[0], measure=makes.serve)]  # "how much rye for 40 manhattans at 2 oz"
        makes = replace(makes, serve=None)
    if makes.serve is not None and makes.serves is None and makes.serve_is == "unsaid" and scan.has("how_many"):
        makes = replace(makes, serve_is="finished")  # "how many 90 ml pours come out"
    reading.parts = _rest_of_volume(scan, reading.parts, makes, poured_ml)
    recipe = replace(reading.recipe(), base_serves=base, house=house, notes=(*reading.notes, *large))
    if more and makes.serves is None and makes.guests is not None:
        makes = replace(makes, serves=makes.guests * (makes.each or 1.0) + more, guests=None, each=None)
    elif more and makes.serves is not None:
        makes = replace(makes, serves=makes.serves + more)
    if spare and makes.serves is not None:
        makes = replace(makes, serves=float(math.ceil(makes.serves * (1 + spare) - 1e-9)))
    elif spare and makes.guests is not None:
        makes = replace(
            makes, serves=float(math.ceil(makes.guests * (makes.each or 1) * (1 + spare) - 1e-9)), guests=None, each=None
        )
    recipe, makes = _multiplied(scan, replace(recipe, parts=_measured(scan, recipe, need)), makes)
    if not recipe.parts and not house and need:
        raise _nothing(scan, recipe, makes)
    makes = split_between(scan, makes)
    guessed = tuple(f"read_as:{p.text}:{p.text} cl" for p in scan.items if p.kind == "bare" and p.unit == "cl")
    recipe = replace(recipe, notes=recipe.notes + guessed + unread_words(scan, bool(recipe.parts) or bool(house)))
    numbers_read(scan)
    bottles = [p for p in scan.left("vessel") if p.amounts and p.amounts[0] > 1 and p.size is None]
    if bottles:
        raise Unclear("unclear_number", bottles[:1], bottles[0].text)
    agrees(scan, recipe, makes)
    figures_agree(scan, recipe, makes)
    one_name_twice(scan, recipe, makes)
    makes = in_bottles(scan, makes)
    too_many(scan, recipe, makes)
    makes = serves_in_bottle(scan, makes)
    serves_and_volume(recipe, makes)
    recipe, makes = before_water(scan, recipe, makes)
    return as_poured(scan, recipe, makes)


_SO_MANY_TIMES = re.compile(  # said of the whole batch, not of an ingredient
    r"\b(?:half|double|triple) (?:a |the )?batch\b|\b(?:twice|double|triple) (?:the )?\d"
    r"|\b(?:half|halve|double|triple) (?:it|that|them|the lot)\W*(?:please|pls)?\W*$"
)


def _drink_kinds(scan: Scan) -> None:
    """ "4 quarts whiskey sour 2:1:1 bourbon lemon simple": the name before the drink says its kind, not an ingredient."""
    for i in scan.kinds("name", "context", "garnish"):
        if scan.kind_at(i + 1) != "drink":
            continue
        others = {scan.items[k].name for k in scan.kinds("name", "context") if k > i}
        volume = scan.at(i - 2) if scan.kind_at(i - 1) == "cue:of" else None
        made = volume is not None and volume.kind == "amount" and (rough_ml(volume.value, volume.unit) or 0.0) >= SERVE_LIMIT_ML
        if len(others) >= 2 and (scan.kinds("ratio") or made) and scan.items[i].name not in others:
            scan.items[i + 1].name = f"{scan.items[i].text} {scan.items[i + 1].name}"
            scan.items[i].kind = "filler"
            scan.use(i)
            before = scan.at(i - 1)
            if before is not None and before.kind == "bare" and before.value == int(before.value) > 1:
                before.kind = "count"  # "15 whiskey sours 50/25/20 bourbon lemon simple"


def _room_left(scan: Scan, makes: Yield) -> Yield:
    """ "1 L bottle, leave 50 ml headspace": the volume to make is what the vessel holds less the room in it."""
    i = left_free(scan) if makes.volume is not None else None
    if i is None or makes.volume is None:
        return makes
    p = scan.items[i]
    held = rough_ml(makes.volume.value, makes.volume.unit) or 0.0
    many = makes.vessels or 1.0
    room = held * p.value if p.kind == "percent" else (rough_ml(p.value, p.unit) or 0.0) * many
    if not 0.0 < room < held / 2:
        raise Unclear("out_of_range", [p], f"{p.text} of headspace")
    scan.use(i)
    scan.use_cues("headspace")
    share = 1.0 - room / held
    volume = replace(makes.volume, value=makes.volume.value * share)
    return replace(makes, volume=volume, vessel_ml=None, vessels=None)


def _rest_of_volume(scan: Scan, parts: list[Part], makes: Yield, poured_ml: float) -> list[Part]:
    """ "topped up with dry vermouth", "rest juice": the one ingredient without an amount takes what the volume leaves."""
    whole = makes.volume or makes.serve  # "90 ml drink, 50 ml rum, rest is juice"
    if whole is None or not scan.has("rest", "top"):
        return parts
    empty = [k for k, p in enumerate(parts) if p.measure is None]
    volume = rough_ml(whole.value, whole.unit)
    sizes = [rough_ml(p.measure.value, p.measure.unit) for p in parts if p.measure is not None]
    if len(empty) != 1 or volume is None or any(s is None for s in sizes):
        return parts
    rest = volume - poured_ml - sum(s for s in sizes if s is not None)
    if rest <= 0:
        return parts
    filled = replace(parts[empty[0]], measure=Measure(rest, "ml"), whole=makes.volume is not None)
    return [*parts[: empty[0]], filled, *parts[empty[0] + 1 :]]


def _multiplied(scan: Scan, recipe: Recipe, makes: Yield) -> tuple[Recipe, Yield]:
    """ "double this: 50 gin ...", "half of this batch: ...": the amounts typed, that many times."""
    times = 2.0 if scan.has("double") else 3.0 if scan.has("triple") else 0.5 if scan.has("half") else None
    if times is None and any(p.kind == "unknown" and p.text == "half" for p in scan.items):
        if makes.guests is not None:
            raise Unclear("unclear_number", [p for p in scan.items if p.text == "half"], "half")  # "100 guests, half get ..."
        times = 0.5
        scan.use(*[i for i, p in enumerate(scan.items) if p.kind == "unknown" and p.text == "half"])
    whole_ml = sum(rough_ml(p.measure.value, p.measure.unit) or 0.0 for p in recipe.parts if p.measure is not None)
    said_times = [p for p in scan.items if p.kind == "times"]
    if times is None and said_times and makes.serves == said_times[0].value and whole_ml > SERVE_LIMIT_ML:
        times = said_times[0].value  # "700 vodka, 300 cordial ... that x3"
        makes = replace(makes, serves=None)
    if times is not None and makes.serves is not None and _SO_MANY_TIMES.search(scan.text):
        return recipe, replace(makes, serves=makes.serves * times)  # "half batch, the full one is 40 serves"
    if times is None or makes.serves is not None or makes.volume is not None or not recipe.parts:
        return recipe, makes
    parts = tuple(
        replace(p, measure=replace(p.measure, value=p.measure.value * times), whole=True) if p.measure is not None else p
        for p in recipe.parts
    )
    water = recipe.water
    if water.how == "amount":
        water = replace(water, value=water.value * times, whole=True)
    return replace(recipe, parts=parts, water=water, notes=(*recipe.notes, f"scaled:{times:g}")), makes


def _house(scan: Scan) -> str:
    found = scan.kinds("house")
    if not found:
        return ""
    scan.use(*found)
    return scan.items[found[0]].name


def _measured(scan: Scan, recipe: Recipe, need: bool) -> tuple[Part, ...]:
    """The parts that have an amount. A name said twice, or as a drink's kind ("gin martini"), needs none."""
    measured = [p for p in recipe.parts if p.measure is not None]
    bare = [p for p in recipe.parts if p.measure is None]
    if not bare:
        return recipe.parts
    if not measured:
        if not need:
            return recipe.parts
        names = ", ".join(dict.fromkeys(p.typed for p in bare))
        raise Unclear("no_amounts", [p for p in scan.items if p.kind in ("name", "context")], names, names=names)
    held = {p.name for p in measured}
    missing = [p for p in bare if p.name not in held and not _kin(p.name, held) and not _before_drink(scan, p)]
    if missing and need:
        names = ", ".join(dict.fromkeys(p.typed for p in missing))
        raise Unclear("no_amounts", [p for p in scan.items if p.name in {m.name for m in missing}], names, names=names)
    return tuple(measured)


def _kin(name: str, held: set[str]) -> bool:
    return any(name in other.split() or other in name.split() for other in held)


def _before_drink(scan: Scan, part: Part) -> bool:
    return any(p.name == part.name and scan.items[i + 1].kind in ("drink",) for i, p in enumerate(scan.items[:-1]))


def _nothing(scan: Scan, recipe: Recipe, makes: Yield) -> Unclear:
    """What to ask when no ingredient was read."""
    unknown = [p for p in scan.items if p.kind == "unknown"]
    if makes.serves or makes.volume or makes.guests or recipe.drink:
        if unknown and not recipe.drink and len(scan.all) > 7:
            return Unclear("not_ours", [], scan.text.strip())
        if unknown and not recipe.drink:
            return Unclear("no_spec", unknown, " ".join(p.text for p in unknown))
        return Unclear("no_spec", [p for p in scan.items if p.kind in ("count", "drink")], recipe.drink)
    if scan.leftover_numbers():
        raise Unclear("no_spec", scan.leftover_numbers(), " ".join(p.text for p in scan.leftover_numbers()))
    return Unclear("not_ours", [], scan.text.strip())


def numbers_read(scan: Scan) -> None:
    """Raises Unclear unclear_number when a number is left that nothing explains."""
    left = scan.leftover_numbers()
    if left:
        raise Unclear("unclear_number", left[:1], left[0].text)
