"""The water that a follow-up wants, beside what the last spec has: what its bare figure is, and whether it is less or more."""

from dataclasses import replace

from bot.answer.notes import Question
from grammar.request import FollowUp, Recipe, Water, Yield

__all__ = ["water_wanted"]

_MOST_SHARE = 50.0  # a larger bare figure is no share but an amount: common practice, no source


def water_wanted(change: FollowUp, recipe: Recipe, makes: Yield) -> Water:
    """The water of the changed spec. Raises Question two_readings, unclear_number."""
    water = change.water
    if change.water_times is not None or change.of_finished:
        old = recipe.water
        shared = old.how in ("of_undiluted", "of_finished")
        if not shared and (change.of_finished or old.how not in ("amount", "part")):
            raise Question("unclear_number", found="the water")
        value = old.value * (change.water_times or 1.0)
        return replace(old, value=value, how="of_finished" if change.of_finished else old.how)
    if change.water_way and recipe.water.how in ("of_undiluted", "of_finished", "none", "unsaid"):
        held = recipe.water.value if recipe.water.how.startswith("of_") else 0.0
        if (water.value - held) * change.water_way <= 0.0:
            share, less = f"{water.value * 100.0:g}%", "more" if change.water_way > 0 else "less"
            raise Question("two_readings", f"{share} water or {share} {less}", "20% water")
        return replace(water, how="of_finished" if recipe.water.how == "of_finished" else "of_undiluted")
    if water.how != "amount" or water.unit:
        return water
    units = [p.measure.unit for p in recipe.parts if p.measure is not None]
    unit = next((u for u in units if u not in ("", "part", "count", "dash", "drop", "barspoon")), "ml")
    counted = makes.serves is not None or makes.guests is not None or makes.volume is not None or "part" in units
    if not water.whole or not counted:
        return replace(water, unit=unit)
    figure = f"{water.value:g}"
    if water.value <= _MOST_SHARE:
        raise Question("two_readings", f"{figure}% water or {figure} {unit} in each")
    raise Question("two_readings", f"{figure} {unit} of water in each or in all of it")
