"""Follow-ups: the last request with a change made to it, or another question asked of it.

apply gives a new Request, which is answered like any other and becomes the last one in its turn.
"""

from dataclasses import replace

from bot.answer.follow_ask import asked, find, not_in_it, rough
from bot.answer.follow_bottles import enough_of_one, one_pour, other_bottle, priced_or_poured
from bot.answer.follow_figures import without_spec
from bot.answer.follow_made import in_all, in_ratio, made, more, spare, times
from bot.answer.follow_moves import moved
from bot.answer.follow_strengths import sure_strengths
from bot.answer.follow_was import put_right
from bot.answer.follow_water import water_wanted
from bot.answer.notes import Question
from grammar.ingredients_strong import SPIRITS
from grammar.request import (
    Batch,
    Bottles,
    Convert,
    Cost,
    Dilution,
    FollowUp,
    Freezer,
    Label,
    Measure,
    Part,
    Recipe,
    Request,
    Strength,
    Water,
    Yield,
)  # fmt: skip

_HELD_FROM = 4.0  # times the amount of a serve from which an amount is what there is: common practice, no source
_SPEC_KINDS = (Batch, Strength, Freezer, Cost, Label, Bottles, Dilution, Convert)


def recipe_of(request: Request | None) -> Recipe | None:
    """The recipe a request is about, if it has one."""
    if isinstance(request, _SPEC_KINDS) and request.recipe is not None and (request.recipe.parts or request.recipe.house):
        return request.recipe
    return None


def in_its_place(last: Request) -> Batch:
    """A batch of as much as the last request made, for another drink to be made in its place."""
    makes = Yield() if isinstance(last, Convert) or recipe_of(last) is None or not isinstance(last, _SPEC_KINDS) else last.makes
    return Batch(Recipe(), replace(makes, serve=None, serve_is="unsaid"))


def apply(change: FollowUp, last: Request, recipe: Recipe | None) -> Request:
    """The last request with the change made. recipe is its recipe with any house spec looked up, None when it has none.

    Raises Question: unread (a name that is not in it), unclear_number, ratio_names, no_spec, out_of_range.
    """
    if change.was is not None:
        change, last = put_right(change, last, recipe)
        recipe = recipe_of(last)
    if recipe is None or not isinstance(last, _SPEC_KINDS):
        return without_spec(change, last)
    if change.mild and change.at_c is not None and not isinstance(last, Freezer):
        raise Question("two_readings", f"{-change.at_c:g} serves fewer or {change.at_c:g} °C")
    if change.counted not in ("", "serves", recipe.drink) and recipe.drink:
        raise Question("no_spec", change.counted, drink=change.counted)  # "30 negronis" after margaritas
    change, recipe = one_pour(change, last, recipe)
    other = other_bottle(change, last, recipe)
    if other is not None:
        return other
    change = in_all(change, last, recipe)
    if any(not a.unit for a in change.amounts):
        raise Question("unclear_number", found=f"{change.amounts[0].value:g}")
    if not _useful(change):
        raise Question("unclear_number", found=f"{change.amounts[0].value:g} {change.amounts[0].unit}")
    if change.ask == "count":  # "how many serves is that at 80 ml"
        size = change.makes.serve
        if size is not None and not isinstance(last, Convert) and last.makes.serves is not None:
            serve = f"{size.value:g} {size.unit}"
            raise Question("two_readings", f"{last.makes.serves:g} serves of {serve} or the same batch in {serve} serves")
        change = replace(change, ask="")
    if change.ask == "limit":
        enough = _enough_for(change, recipe)
        if enough is not None:
            return asked(FollowUp(unit=change.unit), last, recipe, enough)
        change = replace(change, ask="")
    if change.ask == "enough":
        return enough_of_one(change, recipe, last.makes if not isinstance(last, Convert) else Yield())
    priced_or_poured(change, last)
    makes = last.makes if not isinstance(last, Convert) else Yield()
    makes = more(change, makes)
    recipe, makes = spare(change, *times(change, recipe, makes))
    makes = made(change, makes, recipe)
    if change.split is not None:
        makes = replace(makes, vessels=change.split, vessel_ml=None, as_many=False)
    recipe = _changed(change, recipe, makes, isinstance(last, Strength))
    recipe, makes = in_ratio(change, recipe, makes)
    return asked(change, last, recipe, makes)


def _useful(change: FollowUp) -> bool:
    """Whether an amount in the change changes something: "90 ml" alone does not say of what."""
    if not change.amounts or change.ask:
        return True
    moved_on = change.ratio or change.times or change.deltas or change.drop or change.moves
    return change.makes != Yield() or bool(change.parts or moved_on)


def _enough_for(change: FollowUp, recipe: Recipe) -> Yield | None:
    """How much what there is of one ingredient makes: serves of a spec, or a volume in a ratio; None where neither is said."""
    i = find(change.parts[0].name, recipe)
    if i is None:
        raise not_in_it(change.parts[0].typed or change.parts[0].name, recipe)
    part = recipe.parts[i]
    held, poured = rough(change.parts[0].measure), rough(part.measure)
    if held is None or part.measure is None or part.whole or recipe.base_serves is not None:
        return None
    parts = [p.measure for p in recipe.parts if p.measure is not None]
    if part.measure.unit == "part" and part.measure.value > 0 and all(m.unit == "part" for m in parts):
        volume = held * sum(m.value for m in parts) / part.measure.value
        if recipe.water.how == "of_undiluted":
            volume *= 1.0 + recipe.water.value
        elif recipe.water.how == "of_finished":
            volume /= 1.0 - recipe.water.value
        elif recipe.water.how not in ("unsaid", "none"):
            return None
        return Yield(volume=Measure(volume, "ml"))
    return Yield(serves=float(int(held / poured + 1e-9))) if poured and held >= _HELD_FROM * poured else None


def _largest(part: Part, recipe: Recipe) -> bool:
    """Whether a part is as large as any that the recipe has: "rum 60, water 10%, 12 serves" may be a new drink."""
    ml = [rough(p.measure) or 0.0 for p in recipe.parts]
    return (rough(part.measure) or 0.0) >= max(ml, default=0.0)


def _changed(change: FollowUp, recipe: Recipe, makes: Yield, strength: bool) -> Recipe:
    """Ingredients with new amounts or strengths, swapped, left out, added; water; the unit that was meant."""
    parts = list(recipe.parts)
    water = recipe.water
    if change.meant_unit:
        parts = [
            replace(p, measure=Measure(p.measure.value, change.meant_unit))
            if p.measure is not None and p.measure.unit not in ("count", "dash")
            else p
            for p in parts
        ]
        if water.how in ("amount", "part"):
            water = replace(water, how="amount", unit=change.meant_unit)
    for said in change.drop:
        i = find(said, replace(recipe, parts=tuple(parts)))
        if i is None:
            raise not_in_it(said, recipe)
        del parts[i]
    if change.swap is not None:
        old, new = change.swap
        i = find(old or new, recipe)
        if i is None and not old:
            spirits = [k for k, p in enumerate(parts) if p.name in SPIRITS]
            if new not in SPIRITS or len(spirits) != 1:
                raise not_in_it(new, recipe)
            i = spirits[0]  # "mezcal instead": in the place of the one spirit there is
        if i is None:
            i = find(new, recipe)
            if i is None:
                raise not_in_it(old, recipe)
            new = old
        parts[i : i + 1] = _swapped(parts[i], new, change.swap_share)
    for part in change.deltas:
        i = find(part.name, replace(recipe, parts=tuple(parts)))
        held = parts[i].measure if i is not None else None
        if i is None or held is None or part.measure is None:
            raise not_in_it(part.typed or part.name, recipe)
        if part.measure.unit == "times":
            parts[i] = replace(parts[i], measure=replace(held, value=held.value * part.measure.value))
            continue
        if part.measure.unit not in ("", held.unit):
            raise Question("unclear_number", found=f"{part.measure.value:g} {part.measure.unit}")
        if held.value + part.measure.value <= 0:
            raise Question("out_of_range", found=f"{held.value + part.measure.value:g} {part.name}")
        parts[i] = replace(parts[i], measure=replace(held, value=held.value + part.measure.value))
    parts = moved(parts, recipe, change.moves)
    for part in sure_strengths(change, recipe, asked_for=strength):
        if change.ask in ("bottles", "cost") and (part.measure is None or part.price is not None):
            i = find(part.name, replace(recipe, parts=tuple(parts)))
            if i is None and part.measure is not None:
                parts.append(part)  # "plus 25 ml of vermouth at 12 for a 750"
            elif i is None and part.price is not None:
                raise not_in_it(part.typed or part.name, recipe)
            if i is not None:
                parts[i] = replace(
                    parts[i],
                    measure=part.measure or parts[i].measure,
                    price=part.price or parts[i].price,
                    size=part.size or parts[i].size,
                    abv=part.abv or parts[i].abv,
                )
            continue
        i = find(part.name, replace(recipe, parts=tuple(parts)))
        if i is None:
            if part.measure is None:
                raise not_in_it(part.typed or part.name, recipe)
            if change.makes.serves and change.water.how != "unsaid" and _largest(part, recipe):
                raise Question("two_readings", f"{part.typed} added to the last drink or a drink of its own")
            unit = part.measure.unit or (parts[0].measure.unit if parts and parts[0].measure else "ml")
            parts.append(replace(part, measure=Measure(part.measure.value, unit)))
            continue
        old_measure = parts[i].measure
        measure = part.measure
        if measure is not None and not measure.unit:
            measure = Measure(
                measure.value, old_measure.unit if old_measure is not None and old_measure.unit != "count" else "ml"
            )
        if measure is not None and measure.value <= 0:
            raise Question("out_of_range", found=f"{measure.value:g} {part.name}")
        parts[i] = replace(
            parts[i],
            measure=measure or old_measure,
            abv=part.abv if part.abv is not None else parts[i].abv,
            price=part.price or parts[i].price,
            size=part.size or parts[i].size,
        )
    if change.water.how != "unsaid" or change.water_times is not None or change.of_finished:
        water = water_wanted(change, recipe, makes)
    elif len(change.percents) == 1 and not change.parts and change.ask in ("", "water"):
        water = Water("of_undiluted", change.percents[0])
    if not parts:
        raise Question("no_spec")
    return replace(recipe, parts=tuple(parts), water=water)


def _swapped(part: Part, new: str, share: float) -> list[Part]:
    """The new ingredient in the place of the old one, or of that share of it."""
    other = replace(part, name=new, typed=new, abv=None, known=True)
    if share == 1.0:
        return [other]
    if part.measure is None:
        raise Question("no_amounts", part.typed, names=part.typed)
    kept, taken = part.measure.value * (1.0 - share), part.measure.value * share
    return [
        replace(part, measure=replace(part.measure, value=kept)),
        replace(other, measure=replace(part.measure, value=taken)),
    ]
