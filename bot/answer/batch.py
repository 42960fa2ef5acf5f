"""Batch -> Answer: what to measure out.

Lives here: what a batch request adds to the shared facts of a mix (a unit asked for, water asked about). Must never:
scale or judge a mix itself (spec.py, mix.py).
"""

from dataclasses import replace

from bot.answer.amounts import OUNCE_UNITS, result_unit
from bot.answer.mix import mixed
from bot.answer.notes import Notes
from bot.answer.resolve import resolve
from bot.answer.spec import Spec
from bot.core.facts import Answer, Result
from bot.told import Settings, Told
from grammar.request import Batch

__all__ = ["answer_batch", "lines_in"]

_SHOWN_ANYWAY = OUNCE_UNITS | {"", "ml"}


def lines_in(spec: Spec, unit: str, settings: Settings) -> tuple[Result, ...]:
    """Every line in a unit that the reply does not show anyway ("in cl", "in cups")."""
    if unit in _SHOWN_ANYWAY:
        return ()
    found: list[Result] = []
    for line in spec.lines:
        if line.ml is not None:
            value, name = result_unit(line.ml, unit, settings)
            found.append(Result(value, name, line.name))
    return tuple(found)


def answer_batch(request: Batch, told: Told) -> Answer:
    """The batch. Raises Question as resolve does."""
    notes = Notes()
    spec = resolve(request.recipe, request.makes, told, notes, unit=request.unit, stirred=request.focus == "water")
    focus = request.focus
    if focus not in ("", "water", "serve", "serves", "sugar") and not any(line.name == focus for line in spec.lines):
        focus = next((item.known.name for item in spec.items if item.part.name == focus), "")
    results = lines_in(spec, request.unit, told.settings)
    answer = mixed("batch", spec, request.makes, told.settings, notes, focus=focus, results=results, at_c=request.at_c)
    if focus == "sugar" and answer.sugar_g_per_l is not None and answer.finished_ml is not None:
        answer = replace(answer, sugar_g=answer.sugar_g_per_l * answer.finished_ml / 1000.0)
    return replace(answer, actions=_actions(answer))


def _actions(answer: Answer) -> tuple[str, ...]:
    """Messages that would work next."""
    found: list[str] = []
    freezer = answer.freezer
    most = freezer.most_water if freezer is not None and freezer.state != "liquid" else None
    if most is not None and most >= 0.01:
        found.append(f"{int(most * 100.0)}% water")
    found.append("in ml" if answer.first == "oz" else "in oz")
    if answer.serves is not None and answer.serves != 1.0:
        found.append("per serve?")
    return tuple(found)
