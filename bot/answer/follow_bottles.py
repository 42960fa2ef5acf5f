"""Follow-ups of bottles and costs in which a figure may be another thing: a bottle's size, a price."""

from dataclasses import replace

from bot.answer.follow_ask import find, not_in_it, rough
from bot.answer.notes import Question
from grammar.request import Bottles, Cost, FollowUp, Measure, Recipe, Request, Yield

_COUNTED = ("", "part", "count", "dash", "drop", "barspoon")


def other_bottle(change: FollowUp, last: Request, recipe: Recipe) -> Bottles | None:
    """ "60 ml, 1 L bottles" after bottles to buy: their size, and the one ingredient's amount; None for anything else."""
    new, parts = change.makes, recipe.parts
    if not isinstance(last, Bottles) or last.ask != "buy" or new.vessel_ml is None or (new.vessels or 1.0) != 1.0:
        return None
    if change.parts or change.ask not in ("", "fit") or new.serves is not None or new.guests is not None:
        return None
    if change.amounts:
        if len(parts) != 1 or len(change.amounts) != 1:
            return None
        parts = (replace(parts[0], measure=change.amounts[0]),)
    return replace(last, recipe=replace(recipe, parts=tuple(replace(p, size=None) for p in parts)), size_ml=new.vessel_ml)


_LARGEST_POUR_ML = 200.0  # common practice, no source


def one_pour(change: FollowUp, last: Request, recipe: Recipe) -> tuple[FollowUp, Recipe]:
    """ "and a 60 pour", "and 60 ml?" after the cost of one pour: its new size. A bare figure is in the unit of the last."""
    serve, amounts = change.makes.serve, change.amounts
    unit = next((p.measure.unit for p in recipe.parts if p.measure is not None and p.measure.unit not in _COUNTED), "ml")
    if serve is not None and not serve.unit:
        serve = Measure(serve.value, unit)
        change = replace(change, makes=replace(change.makes, serve=serve))
    if not isinstance(last, Cost | Bottles) or len(recipe.parts) != 1 or change.parts or change.ask not in ("", "cost"):
        return change, recipe
    new = serve or (amounts[0] if len(amounts) == 1 and change.makes == Yield() else None)
    if new is None or not 0.0 < (rough(new) or 0.0) <= _LARGEST_POUR_ML:
        return change, recipe
    makes = replace(change.makes, serve=None)
    return replace(change, makes=makes, amounts=()), replace(recipe, parts=(replace(recipe.parts[0], measure=new),))


def priced_or_poured(change: FollowUp, last: Request) -> None:
    """ "what if gin is 36" after a cost: a bare figure is a price as well as mL. Raises Question two_readings."""
    for part in change.parts if isinstance(last, Cost) else ():
        if part.measure is not None and part.measure.unit == "" and part.price is None:
            figure = f"{part.measure.value:g}"
            raise Question("two_readings", found=f"{figure} ml of {part.typed or part.name} or a price of {figure}")


def as_many_bottles(many: float, makes: Yield) -> Yield:
    """So many of the bottle that was filled before."""
    if makes.vessel_ml is None:
        raise Question("no_volume", found="the size of the bottle")
    volume = Measure(makes.vessel_ml * many, "ml")
    return replace(makes, volume=volume, vessels=many, serves=None, guests=None, each=None)


def enough_of_one(change: FollowUp, recipe: Recipe, makes: Yield) -> Bottles:
    """ "do i have enough gin, 2 700s": whether what there is of one ingredient does for what is made.

    Raises Question unread, two_readings.
    """
    said = change.parts[0]
    i = find(said.name, recipe)
    held, size = rough(said.measure), rough(said.size)
    if i is None or held is None or not size:
        raise not_in_it(said.typed or said.name, recipe)
    part = recipe.parts[i]
    if part.measure is None or part.measure.unit == "part" or (makes.serves is None and makes.guests is None):
        raise Question("two_readings", f"enough for one batch or as many as {held:g} ml makes")
    return Bottles(replace(recipe, parts=(part,)), makes, size, held / size, held, ask="enough")
