"""A spec resolved: its ingredients and amounts, the lines to measure, and the masses they come to.

Lives here: Item and Spec, the house spec a recipe names, liquids from strengths. Must never: decide how much is made
(scale.py, resolve.py), judge the result (mix.py) or know what was asked.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import lru_cache

from bot.answer.amounts import Amount
from bot.answer.ingredients import WATER, Known
from bot.answer.keep import house_recipe
from bot.answer.notes import Question, percent
from bot.core.facts import Line
from bot.core.ingredient import Ingredient
from bot.core.liquid import Liquid, mix
from bot.told import First, Told
from grammar.request import Part, Recipe

__all__ = ["Item", "Spec", "masses", "measured_lines", "per_litre", "with_house"]


@dataclass(frozen=True, slots=True)
class Item:
    """One part as resolved: total_ml is what it measures in the batch, scale how often its amount went in."""

    part: Part
    known: Known
    amount: Amount
    scale: float = 1.0

    @property
    def total_ml(self) -> float | None:
        """mL for the whole batch; None for what has no volume."""
        return None if self.amount.ml is None else self.amount.ml * self.scale


@dataclass(frozen=True, slots=True)
class Spec:
    """A batch: lines in the order typed, water last. before and finished are None when a strength is unknown.

    before is without the water. sized is False when only proportions are known (a ratio asked for its strength): then
    the mL mean nothing.
    """

    title: str
    items: tuple[Item, ...]
    lines: tuple[Line, ...]
    water_ml: float
    undiluted_ml: float
    measured_ml: float
    serves: float | None
    before: Liquid | None
    finished: Liquid | None
    unknown: tuple[str, ...]
    first: First
    ounce_ml: float
    garnish: tuple[str, ...]
    sized: bool = True
    fills: float | None = None  # serves that a filled volume gives, where nobody counted them

    @property
    def ingredients(self) -> tuple[Ingredient, ...]:
        """The pantry's entries for what is in it."""
        return tuple(item.known.ingredient for item in self.items if item.known.ingredient is not None)


@lru_cache(maxsize=1024)
def per_litre(abv: float, sugar_g_per_l: float) -> Liquid:
    """A litre of a strength and sweetness; kept, because a bar's bottles repeat. Raises Question out_of_range."""
    try:
        return Liquid.from_volume(1000.0, abv, sugar_g_per_l)
    except ValueError:
        if sugar_g_per_l > 0.0 and 0.0 <= abv <= 1.0:  # a strength no liqueur has: the spirit before it was sweetened
            return Liquid.from_volume(1000.0, abv)
        found = f"{percent(abv)} with {sugar_g_per_l:g} g/l sugar"
        raise Question("out_of_range", found, strength=percent(abv)) from None


def with_house(recipe: Recipe, told: Told) -> Recipe:
    """A recipe with the house spec it names filled in; what the message itself says goes on top.

    An amount said for one of its ingredients replaces that amount, a new ingredient is added, an amount of nothing
    leaves one out, water said holds. Raises Question no_house_spec.
    """
    if not recipe.house:
        return recipe
    saved = house_recipe(recipe.house, told)
    if saved is None:
        raise Question("no_house_spec", recipe.house, name=recipe.house)
    changed = {_held(part, saved).name: part for part in recipe.parts}
    parts = [_with_said(part, changed.pop(part.name, None)) for part in saved.parts]
    parts += changed.values()
    return replace(
        saved,
        parts=tuple(part for part in parts if part.measure is None or part.measure.value != 0.0),
        water=saved.water if recipe.water.how == "unsaid" else recipe.water,
        drink=recipe.house,  # as it is called now: it may have been renamed
        base_serves=recipe.base_serves if recipe.base_serves is not None else saved.base_serves,
        garnish=saved.garnish + recipe.garnish,
        technique=recipe.technique or saved.technique,
        notes=recipe.notes,
        house="",
    )


def _held(part: Part, saved: Recipe) -> Part:
    """The saved ingredient that a message leaves out by a shorter name ("no egg"), else the part as it was said.

    Raises Question unread where nothing of that name is in it.
    """
    left_out = part.measure is not None and part.measure.value == 0.0
    if not left_out or any(other.name == part.name for other in saved.parts):
        return part
    alike = [other for other in saved.parts if set(part.typed.split()) & set(other.name.split())]
    if len(alike) != 1:
        raise Question("unread", f"no {part.typed}")
    return alike[0]


def _with_said(part: Part, said: Part | None) -> Part:
    """A saved ingredient with what a message says of it: its amount, or only a bottle's price, size and strength."""
    if said is None or said.measure is not None:
        return said or part
    abv = said.abv if said.abv is not None else part.abv
    return replace(part, price=said.price or part.price, size=said.size or part.size, abv=abv)


def masses(items: Iterable[Item]) -> Liquid:
    """The items in one vessel: what has no volume, and what nobody knows the strength of, is left out."""
    return mix(liquid for item in items if (liquid := _liquid(item.known, item.amount, item.scale)) is not None)


def _liquid(known: Known, amount: Amount, scale: float) -> Liquid | None:
    if amount.sugar_g is not None:
        return Liquid(0.0, 0.0, amount.sugar_g * scale)
    if amount.ml is None or known.abv is None:
        return None
    return per_litre(known.abv, known.sugar_g_per_l).scaled(amount.ml * scale / 1000.0)


def measured_lines(items: Iterable[Item], water_ml: float, water_unit: str) -> tuple[Line, ...]:
    """What to measure, in the order typed, water last."""
    lines = [_line(item.known, item.amount, item.scale, item.part) for item in items]
    if water_ml > 0.0:
        lines.append(Line(WATER, water_ml, typed_unit=water_unit))
    return tuple(lines)


def _line(known: Known, amount: Amount, scale: float, part: Part) -> Line:
    has_volume = amount.ml is not None
    return Line(
        known.name,
        amount.ml * scale if amount.ml is not None else None,
        known.abv if has_volume else None,
        amount.g * scale if amount.g is not None else None,
        amount.count * scale if amount.count is not None else None,
        part.measure.unit if part.measure is not None else "",
    )
