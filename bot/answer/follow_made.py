"""How much a follow-up makes: more serves, so many times it, a new count, volume or serve, a new ratio."""

import math
from dataclasses import replace

from bot.answer.follow_ask import find, rough
from bot.answer.follow_bottles import as_many_bottles
from bot.answer.notes import Question
from grammar.request import Batch, FollowUp, Freezer, Measure, Recipe, Request, Strength, Yield

_MOST_BOTTLES = 24.0  # a bare figure up to this may count bottles, where a bottle was filled: common practice, no source
#: bottles that are called by their number alone; so many serves are rarely made after a few: common practice, no source
_SIZES_ML = frozenset([375.0, 500.0, 700.0, 720.0, 750.0, 1000.0, 1125.0, 1500.0, 1750.0])
_TOO_MANY = 10.0  # times the serves before: common practice, no source


def more(change: FollowUp, makes: Yield) -> Yield:
    if change.ask != "more" or not change.amounts:
        return makes
    now = makes.serves if makes.serves is not None else (makes.guests or 1.0) * (makes.each or 1.0)
    serves = now + change.amounts[0].value
    if serves <= 0:
        raise Question("out_of_range", found=f"{serves:g} serves")
    return replace(makes, serves=serves, guests=None, each=None)


_LARGE_ML = 180.0  # no serve has so much of one ingredient, and four times what it had: common practice, no source


def in_all(change: FollowUp, last: Request, recipe: Recipe) -> FollowUp:
    """ "use 700 ml of gin" after 60 each is what there is of it. Raises Question two_readings beside more, and unclear_number
    for an amount that is nobody's."""
    loose = [a for a in change.amounts if a.unit not in ("", "count") and a != change.makes.volume]
    if loose and change.ask not in ("bottles", "fit", "cost", "more", "limit", "count"):
        raise Question("unclear_number", found=f"{loose[0].value:g} {loose[0].unit}")
    if not isinstance(last, Batch | Strength | Freezer) or last.makes.serves is None or recipe.base_serves is not None:
        return change
    for part in change.parts:
        i = find(part.name, recipe)
        held = recipe.parts[i] if i is not None else None
        new, old = rough(part.measure), rough(held.measure) if held is not None else None
        if held is None or held.whole or not new or not old or new < _LARGE_ML or new < 4.0 * old or change.ask:
            continue
        if part.measure is not None and part.measure.unit in ("", "ml", "cl", "l", "oz"):
            alone = len(change.parts) == 1 and change.makes == Yield() and not (change.moves or change.deltas or change.swap)
            if alone:
                return replace(change, ask="limit")
            raise Question("two_readings", f"{part.measure.value:g} {part.measure.unit or 'ml'} {part.typed} in all or in each")
    return change


def times(change: FollowUp, recipe: Recipe, makes: Yield) -> tuple[Recipe, Yield]:
    """Double, half: serves and volumes, or the amounts themselves when there are neither."""
    if change.times is None:
        return recipe, makes
    k = change.times
    if makes.serves is None and makes.guests is None and makes.volume is None:
        parts = tuple(
            replace(p, measure=replace(p.measure, value=p.measure.value * k)) if p.measure is not None else p
            for p in recipe.parts
        )
        water = recipe.water
        if water.how in ("amount", "part"):
            water = replace(water, value=water.value * k)
        if any(p.measure is not None and p.measure.unit == "part" for p in recipe.parts):
            return recipe, replace(makes, serves=k)
        return replace(recipe, parts=parts, water=water), makes
    volume = replace(makes.volume, value=makes.volume.value * k) if makes.volume is not None else None
    vessels = makes.vessels * k if makes.vessels is not None else None
    whole = tuple(
        replace(p, measure=replace(p.measure, value=p.measure.value * k)) if p.whole and p.measure is not None else p
        for p in recipe.parts
    )
    return replace(recipe, parts=whole), replace(
        makes,
        serves=makes.serves * k if makes.serves else None,
        guests=makes.guests * k if makes.guests else None,
        volume=volume,
        vessels=vessels,
    )


def spare(change: FollowUp, recipe: Recipe, makes: Yield) -> tuple[Recipe, Yield]:
    """A share of all of it on top, in whole serves."""
    if not change.spare:
        return recipe, makes
    recipe, makes = times(FollowUp(times=1.0 + change.spare), recipe, makes)
    if makes.guests is not None:
        makes = replace(makes, serves=makes.guests * (makes.each or 1.0), guests=None, each=None)
    if makes.serves is not None:
        makes = replace(makes, serves=float(math.ceil(makes.serves - 1e-9)))
    return recipe, replace(makes, vessels=None, vessel_ml=None)


def made(change: FollowUp, makes: Yield, recipe: Recipe) -> Yield:
    """How much to make, with what the message says of it in the place of what was said before."""
    new = change.makes
    if new.vessel_ml is not None and new.volume is None and not change.ask:  # "what if theyre litres": other bottles
        if makes.vessels is None:
            raise Question("two_readings", f"bottles of {new.vessel_ml:g} ml or amounts in that unit")
        new = replace(new, vessels=makes.vessels, volume=Measure(makes.vessels * new.vessel_ml, "ml"))
    if new.vessels is not None and new.vessel_ml is None:
        return as_many_bottles(new.vessels, makes)
    bottled = makes.vessel_ml is not None and makes.serves is None and makes.guests is None
    if bottled and new.serves is not None and not change.counted and new.serves <= _MOST_BOTTLES:
        raise Question("two_readings", found=f"{new.serves:g} bottles or {new.serves:g} serves")
    if new.serves is not None and not change.counted and new.serves in _SIZES_ML:
        figure = new.serves
        now = makes.serves if makes.serves is not None else (makes.guests or 0.0) * (makes.each or 1.0)
        if makes.volume is not None and not now:
            new = replace(new, serves=None, volume=Measure(figure, "ml"), vessels=1.0, vessel_ml=figure)
        elif figure >= _TOO_MANY * now:
            raise Question("two_readings", found=f"{figure:g} serves or a bottle of {figure:g} ml")
    if new.each is not None and new.guests is None and new.serves is None:
        if makes.guests is None:
            raise Question("no_serves", f"{new.each:g} each")
        makes = replace(makes, each=new.each)
    if new.guests is not None:
        makes = replace(
            makes,
            guests=new.guests,
            each=new.each or makes.each,
            serves=None,
            volume=None,
            vessels=None,
            vessel_ml=None,
        )
    if new.serves is not None:
        makes = replace(makes, serves=new.serves, guests=None, each=None, volume=None, vessels=None, vessel_ml=None)
    if new.volume is not None and change.ask not in ("fit", "bottles", "cost"):
        makes = replace(
            makes, volume=new.volume, vessels=new.vessels, vessel_ml=new.vessel_ml, serves=None, guests=None, each=None
        )
    if new.serve is not None:
        makes = replace(makes, serve=new.serve, serve_is=new.serve_is)
    return makes


def in_ratio(change: FollowUp, recipe: Recipe, makes: Yield) -> tuple[Recipe, Yield]:
    """A new ratio for the same ingredients; a spec in mL keeps its size a serve."""
    if not change.ratio:
        return recipe, makes
    poured = [i for i, p in enumerate(recipe.parts) if p.measure is not None and p.measure.unit not in ("count", "dash", "drop")]
    if len(poured) != len(change.ratio):
        if change.ratio == (1.0, 1.0):
            change = replace(change, ratio=(1.0,) * len(poured))
        else:
            raise Question(
                "ratio_names",
                found=":".join(f"{v:g}" for v in change.ratio),
                names=", ".join(recipe.parts[i].name for i in poured),
            )
    sizes = [rough(recipe.parts[i].measure) for i in poured]
    parts = list(recipe.parts)
    for i, value in zip(poured, change.ratio, strict=True):
        parts[i] = replace(parts[i], measure=Measure(value, "part"))
    if all(s is not None for s in sizes) and makes.volume is None and makes.serve is None:
        makes = replace(makes, serve=Measure(sum(s for s in sizes if s is not None), "ml"), serve_is="undiluted")
    return replace(recipe, parts=tuple(parts)), makes
