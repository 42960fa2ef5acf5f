"""What a follow-up asks of the last recipe: its strength, cost, bottles, freezer verdict or one ingredient."""

from dataclasses import replace

from bot.answer.notes import Question
from bot.core import units
from grammar.request import (
    Batch,
    Bottles,
    Convert,
    Cost,
    FollowUp,
    Freezer,
    Label,
    Measure,
    Recipe,
    Request,
    Strength,
    Yield,
)


def _same_thing(said: str, name: str) -> bool:
    """Whether a name said in a follow-up means this ingredient: "vermouth" for the dry one, "rum" for the aged."""
    return said == name or said in name.split() or name in said.split()


def find(said: str, recipe: Recipe) -> int | None:
    """Where in a recipe the ingredient that was said is. Raises Question two_readings for more than one."""
    exact = [i for i, p in enumerate(recipe.parts) if p.name == said]
    near = exact or [i for i, p in enumerate(recipe.parts) if _same_thing(said, p.name)]
    if not near and said.endswith("vermouth"):
        near = [i for i, p in enumerate(recipe.parts) if p.name.endswith("vermouth")]
    if not near and said == "soda water":
        near = [i for i, p in enumerate(recipe.parts) if p.name.endswith(" soda")]  # "no soda": the grapefruit one
    if len(near) > 1:
        raise Question("two_readings", found=said, names=", ".join(recipe.parts[i].name for i in near))
    return near[0] if near else None


def not_in_it(said: str, recipe: Recipe) -> Question:
    """The question about an ingredient that the last request does not have."""
    return Question("unread", said, only=", ".join(p.typed or p.name for p in recipe.parts))


def rough(measure: Measure | None) -> float | None:
    """About how many mL an amount is; None without one, or for a weight."""
    if measure is None:
        return None
    try:
        return units.ml(measure.value, measure.unit or "ml")
    except KeyError:
        return None


def asked(change: FollowUp, last: Request, recipe: Recipe, makes: Yield) -> Request:
    """The kind of request that answers what the follow-up asks; the last one's kind when it only changes things."""
    match change.ask:
        case "freezer" | "headspace":
            return Freezer(change.at_c, None, recipe, makes, "headspace" if change.ask == "headspace" else "verdict")
        case "most_water":
            return Freezer(change.at_c, None, recipe, makes, "most_water")
        case "abv":
            return Strength(recipe, makes)
        case "cost":
            return _cost(change, last, recipe, makes)
        case "label" | "drinks" | "allergens":
            return Label(None, 1.0, None, recipe, makes, "", change.ask)
        case "bottles":
            return _buy(change, recipe, makes)
        case "fit":
            size = change.makes.vessel_ml or _size(change)
            return Bottles(recipe, makes, size, ask="hold")
        case "serve" | "water":
            return Batch(recipe, makes, change.ask, change.unit)
        case "" | "more" | "show":
            pass
        case name:
            i = find(name, recipe)
            if i is None:
                raise not_in_it(name, recipe)
            return Batch(recipe, makes, recipe.parts[i].name, change.unit)
    if isinstance(last, Batch):
        return replace(last, recipe=recipe, makes=makes, focus="", unit=change.unit or last.unit)
    if isinstance(last, (Strength, Label, Bottles, Cost)) and not change.unit:
        return replace(last, recipe=recipe, makes=makes)
    if isinstance(last, Freezer) and not change.unit:
        return replace(last, recipe=recipe, makes=makes, at_c=change.at_c if change.at_c is not None else last.at_c)
    if isinstance(last, Convert) and change.unit:
        return replace(last, to=change.unit)
    return Batch(recipe, makes, "", change.unit)


def _buy(change: FollowUp, recipe: Recipe, makes: Yield) -> Bottles:
    """Bottles to buy; a size said of named ingredients ("rum comes in handles") is theirs alone."""
    size_ml = change.makes.vessel_ml or _size(change)
    named: list[int] = []
    for part in change.parts:
        i = find(part.name, recipe)
        if i is None and part.price is None:
            raise not_in_it(part.typed or part.name, recipe)
        if i is not None and part.price is None:
            named.append(i)
    if size_ml is None or not named:
        return Bottles(recipe, makes, size_ml)
    sized = [replace(p, size=Measure(size_ml, "ml")) if i in named else p for i, p in enumerate(recipe.parts)]
    return Bottles(replace(recipe, parts=tuple(sized)), makes)


def _size(change: FollowUp) -> float | None:
    for amount in change.amounts:
        size = rough(amount)
        if size is not None and size >= 180:
            return size
    return None


def _cost(change: FollowUp, last: Request, recipe: Recipe, makes: Yield) -> Cost:
    price = change.money[0] if change.money else None
    base = last if isinstance(last, Cost) else Cost()
    share = change.percents[0] if change.percents else None
    return replace(
        base,
        recipe=recipe,
        makes=makes,
        price=price or base.price,
        pour_cost=share if share is not None else base.pour_cost,
    )
