"""A bare figure of an ingredient, where the strength is asked for: its strength, or how much of it goes in."""

from dataclasses import replace

from bot.answer.follow_ask import find
from bot.answer.notes import Question
from grammar.request import FollowUp, Part, Recipe

__all__ = ["sure_strengths"]


_LIKE = 1.35  # times: a bare figure no farther from a strength that was said may be another strength: common practice, no source


def sure_strengths(change: FollowUp, recipe: Recipe, asked_for: bool) -> tuple[Part, ...]:
    """What is said of the ingredients, a figure beside a ratio being a strength. asked_for: the last answer is a strength.

    Raises Question two_readings beside amounts.
    """
    out: list[Part] = []
    for part in change.parts:
        if asked_for and _like_its_strength(part, recipe):  # "oh the gin's 46" after "abv of 50 ml gin 40% ..."
            figure = f"{part.measure.value:g}" if part.measure is not None else ""
            raise Question("two_readings", f"{figure}% {part.name} or {figure} ml of it")
        if part.measure is None or part.measure.unit or part.abv is None:
            out.append(part)
            continue
        if any(p.measure is not None and p.measure.unit != "part" for p in recipe.parts):
            figure = f"{part.measure.value:g}"
            raise Question("two_readings", f"{figure}% {part.typed} or {figure} ml of it")
        out.append(replace(part, measure=None))
    return tuple(out)


def _like_its_strength(part: Part, recipe: Recipe) -> bool:
    """Whether a bare figure of an ingredient is near the strength that was said of it."""
    i = find(part.name, recipe)
    held = recipe.parts[i].abv if i is not None else None
    if held is None or part.measure is None or part.measure.unit or part.abv is not None or part.price is not None:
        return False
    return held * 100.0 / _LIKE <= part.measure.value <= held * 100.0 * _LIKE
