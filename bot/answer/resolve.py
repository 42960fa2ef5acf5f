"""Recipe + Yield -> Spec: the steps every kind of request about a spec goes through.

Lives here: their order: who each part is, how much was typed, the ratio's size, what ice adds, how often it is made.
Must never: judge the result (mix.py). One unknown strength leaves the masses out; all unknown is a question.
"""

from dataclasses import replace

from bot.answer.amounts import amount_of, check_volume, first_system, ounce_ml, speaks_ounces
from bot.answer.ingredients import WATER, know
from bot.answer.notes import Notes, Question, percent
from bot.answer.scale import ONE_SERVE_ML, Dose, Wanted, dose_of, part_ml, plan, wanted
from bot.answer.spec import Item, Spec, masses, measured_lines, per_litre, with_house
from bot.answer.to_strength import to_strength
from bot.core.dilution import shaken_dilution, stirred_dilution
from bot.core.liquid import Liquid
from bot.told import Settings, Told
from grammar.request import Recipe, Water, Yield

__all__ = ["known_spec", "regression", "resolve"]

_SHAKEN_WITH = frozenset(["juice", "puree", "dairy", "egg"])


def regression(undiluted: Liquid, technique: str) -> float:
    """Water that stirring or shaking adds, as a share of the undiluted volume. Raises Question out_of_range."""
    try:
        return shaken_dilution(undiluted.abv) if technique == "shaken" else stirred_dilution(undiluted.abv)
    except ValueError:
        abv = percent(undiluted.abv)
        raise Question("out_of_range", f"{abv} {technique}", strength=abv, weakest="12 %", strongest="50 %") from None


def resolve(
    recipe: Recipe,
    makes: Yield,
    told: Told,
    notes: Notes,
    *,
    unit: str = "",
    stirred: bool = False,
    proportions: bool = False,
    fill_up: bool = False,
) -> Spec:
    """The whole spec. Water to a strength needs every strength.

    stirred: unsaid water is what stirring or shaking adds. proportions: a ratio needs no size. fill_up: a volume above
    the amounts is filled up with something without alcohol. Raises Question: no_spec, no_amounts, no_house_spec, unread
    (nothing is known), weight, conflict_total, out_of_range, too_large, no_strength, cannot_raise.
    """
    recipe = with_house(recipe, told)
    if not recipe.parts:
        raise Question("no_spec", recipe.drink, drink=recipe.drink)
    settings = told.settings
    notes.take(recipe.notes)
    items, water, unknown = _items(recipe, told, notes)
    want = wanted(makes, recipe.base_serves, settings, notes)
    dose = dose_of(water, settings, notes)
    if want.base is not None and want.base != 1.0:
        items, dose = _for_one(items, dose, want.base)
    units = _units(recipe, makes, water)
    ratio = any(item.amount.parts is not None for item in items)
    if water.how == "to_strength":
        dose = to_strength(items, unknown, water.value, settings, notes)
    sized = True
    if ratio:
        sized = not proportions or want != Wanted() or any(item.amount.takes_ml > 0.0 for item in items)
        ounces = speaks_ounces([*units, unit])
        items, dose = _ratio_sized(items, dose, want, settings, notes, ounces, not sized)
    elif dose.parts:
        raise Question("no_amounts", f"{dose.parts:g} part water", names=WATER)
    if stirred and not dose.said and not unknown:
        dose = _by_ice(recipe, items, dose, notes)
    each_ml = sum(item.amount.takes_ml for item in items if not item.part.whole)
    once_ml = sum(item.amount.takes_ml for item in items if item.part.whole)
    both_said = want.volume_ml is not None and want.serves is not None
    if fill_up and both_said and each_ml == 0.0 and once_ml <= ONE_SERVE_ML:
        each_ml, once_ml = once_ml, 0.0  # "8 gins of 45 ml in a 2 L bowl": so small, they are each serve's
        items = [replace(item, part=replace(item.part, whole=False)) for item in items]
    found = plan(each_ml, once_ml, dose, want, notes, ratio=ratio, fill_up=fill_up)
    placed = tuple(
        Item(item.part, item.known, item.amount, found.once if item.part.whole else found.times) for item in items
    )
    one_serve = not ratio and once_ml == 0.0 and 0.0 < each_ml <= ONE_SERVE_ML
    fills = found.times if one_serve and found.serves is None and found.times > 1.0 else None
    undiluted_ml = each_ml * found.times + once_ml * found.once
    before = finished = None
    if not unknown and undiluted_ml > 0.0:
        before = masses(placed)
        finished = before + per_litre(0.0, 0.0).scaled(found.water_ml / 1000.0) if found.water_ml > 0.0 else before
    return Spec(
        recipe.drink,
        placed,
        measured_lines(placed, found.water_ml, water.unit),
        found.water_ml,
        undiluted_ml,
        check_volume(undiluted_ml + found.water_ml) if undiluted_ml > 0.0 else 0.0,
        found.serves,
        before,
        finished,
        tuple(unknown),
        first_system(units, settings, unit),
        ounce_ml(settings, unit),
        recipe.garnish,
        sized,
        fills,
    )


def known_spec(
    recipe: Recipe, makes: Yield, told: Told, notes: Notes, *, stirred: bool = False, fill_up: bool = False
) -> tuple[Spec, Liquid, Liquid]:
    """A spec whose strengths must all be known, with its liquid before and after water; a ratio needs no size.

    Raises Question no_strength, and as resolve does.
    """
    spec = resolve(recipe, makes, told, notes, stirred=stirred, proportions=True, fill_up=fill_up)
    if spec.finished is None or spec.before is None:
        names = ", ".join(spec.unknown)
        raise Question("no_strength", names, names=names)
    return spec, spec.before, spec.finished


def _items(recipe: Recipe, told: Told, notes: Notes) -> tuple[list[Item], Water, list[str]]:
    """Every part with its liquid and its amount; the water, also where it stands among the parts; unknown names."""
    names = tuple(part.name for part in recipe.parts)
    water = recipe.water
    items: list[Item] = []
    unknown: list[str] = []
    for part in recipe.parts:
        known = know(part, names, told, notes)
        amount = amount_of(part, known, told.settings, notes)
        measure = part.measure
        if part.name == WATER and water.how == "unsaid" and measure is not None and len(names) > 1:
            water = Water("amount" if amount.parts is None else "part", measure.value, measure.unit, part.whole)
            continue
        if known.abv is None and amount.g is None and amount.count is None:
            unknown.append(known.name)
            notes.remark("unknown_strength", known.name)
        items.append(Item(part, known, amount))
    if not any(item.known.abv is not None for item in items):
        strangers = ", ".join(unknown or names)
        raise Question("unread", strangers, names=strangers)
    return items, water, unknown


def _units(recipe: Recipe, makes: Yield, water: Water) -> list[str]:
    """Every unit the message typed."""
    units = [part.measure.unit for part in recipe.parts if part.measure is not None]
    units += [measure.unit for measure in (makes.volume, makes.serve) if measure is not None]
    if water.how == "amount":
        units.append(water.unit)
    return units


def _for_one(items: list[Item], dose: Dose, base: float) -> tuple[list[Item], Dose]:
    """Amounts typed for several serves brought to one."""
    for_one = [item if item.part.whole else replace(item, amount=item.amount.times(1.0 / base)) for item in items]
    return for_one, replace(dose, per_spec_ml=(dose.per_spec_ml + dose.once_ml) / base, once_ml=0.0)


def _ratio_sized(
    items: list[Item], dose: Dose, want: Wanted, settings: Settings, notes: Notes, ounces: bool, proportions: bool
) -> tuple[list[Item], Dose]:
    """The parts of a ratio in mL for one serve, water in parts with them."""
    parts = sum(item.amount.parts or 0.0 for item in items)
    extra_ml = sum(item.amount.takes_ml for item in items if not item.part.whole)
    once_ml = sum(item.amount.takes_ml for item in items if item.part.whole)
    one_ml = part_ml(parts, extra_ml, once_ml, dose, want, settings, notes, ounces, proportions)
    said = [f"{item.amount.parts:g} {item.known.name}" for item in items if item.amount.parts is not None]
    notes.understand("ratio", " : ".join(said))
    sized = [
        item if item.amount.parts is None else replace(item, amount=item.amount.of_parts(one_ml)) for item in items
    ]
    return sized, replace(dose, per_spec_ml=dose.per_spec_ml + dose.parts * one_ml)


def _by_ice(recipe: Recipe, items: list[Item], dose: Dose, notes: Notes) -> Dose:
    """Water that stirring adds, or shaking where that was said or the drink is cloudy; noted."""
    technique = recipe.technique
    if technique not in ("stirred", "shaken"):
        families = {item.known.ingredient.family for item in items if item.known.ingredient is not None}
        technique = "shaken" if families & _SHAKEN_WITH else "stirred"
    share = regression(masses(items), technique)
    notes.assume(f"{technique}_water", share)
    return replace(dose, share=share, said=True)
