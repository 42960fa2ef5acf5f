"""A bare figure of an ingredient, where the strength is asked for: its strength, or how much of it goes in."""

from dataclasses import replace

from bot.answer.notes import Question
from grammar.request import FollowUp, Part, Recipe

__all__ = ["sure_strengths"]


def sure_strengths(change: FollowUp, recipe: Recipe) -> tuple[Part, ...]:
    """What is said of the ingredients, a figure beside a ratio being a strength. Raises Question two_readings beside amounts."""
    out: list[Part] = []
    for part in change.parts:
        if part.measure is None or part.measure.unit or part.abv is None:
            out.append(part)
            continue
        if any(p.measure is not None and p.measure.unit != "part" for p in recipe.parts):
            figure = f"{part.measure.value:g}"
            raise Question("two_readings", f"{figure}% {part.typed} or {figure} ml of it")
        out.append(replace(part, measure=None))
    return tuple(out)
