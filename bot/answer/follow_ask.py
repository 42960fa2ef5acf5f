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
            land = change.country or (last.country if isinstance(last, Label) else "")
            return Label(None, 1.0, None, recipe, makes, land, change.ask)
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
            if i is None and name == "sugar":
                return Batch(recipe, makes, "sugar", change.unit)  # what the syrups and liqueurs bring
            if i is None:
                raise not_in_it(name, recipe)
            return Batch(recipe, makes, recipe.parts[i].name, change.unit)
    if isinstance(last, Batch):
        return replace(last, recipe=recipe, makes=makes, focus="", unit=change.unit or last.unit)
    if isinstance(last, Bottles) and last.ask == "hold" and not change.unit and (makes.serves or makes.guests):
        held = makes if last.size_ml is None else replace(makes, vessel_ml=last.size_ml, vessels=None, volume=None, as_many=True)
        return Batch(recipe, held)  # "bottle it in 200s", then "swap gin for vodka": the new batch, in those bottles
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
    base = taxed(replace(base, recipe=recipe, makes=makes), change)
    if price is not None:
        return replace(base, price=price, pour_cost=None, margin=None, markup=None)
    if change.markup is not None:
        return replace(base, markup=change.markup, price=None, pour_cost=None, margin=None)
    if share is not None:
        return with_share(base, share, change.margin)
    return base


def taxed(cost: Cost, change: FollowUp) -> Cost:
    """A cost with what the follow-up says of the tax."""
    return replace(
        cost,
        tax=change.tax if change.tax is not None else cost.tax,
        tax_in=change.tax_in if change.tax_in is not None else cost.tax_in,
    )


def with_share(cost: Cost, share: float, is_margin: bool | None) -> Cost:
    """A cost with the share of its price that is wanted: of which kind, the last one tells where it is not said."""
    if is_margin is None:
        is_margin = cost.margin is not None or (cost.ask == "margin" and cost.pour_cost is None)
    shares = (None, share) if is_margin else (share, None)
    return replace(cost, pour_cost=shares[0], margin=shares[1], price=None, markup=None)
