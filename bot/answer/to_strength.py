"""Water to a strength: the share of water that brings a spec down to the strength that was said.

Lives here: the question when water cannot. Must never: measure anything out (resolve.py), do the arithmetic (bot.core.cut).
"""

from collections.abc import Sequence
from dataclasses import replace

from bot.answer.cut import cannot_raise
from bot.answer.notes import Notes, Question, percent
from bot.answer.scale import Dose
from bot.answer.spec import Item, masses
from bot.core.cut import CannotRaise, water_to_cut
from bot.told import Settings

__all__ = ["to_strength"]


def to_strength(items: Sequence[Item], unknown: Sequence[str], abv: float, settings: Settings, notes: Notes) -> Dose:
    """Water as a share of the undiluted volume, from one spec; a ratio is taken at the usual size of a serve.

    Raises Question out_of_range, no_strength, two_readings (amounts a serve beside amounts for the batch), cannot_raise.
    """
    if not 0.0 < abv <= 1.0:
        raise Question("out_of_range", percent(abv), strength=percent(abv))
    if unknown:
        names = ", ".join(unknown)
        raise Question("no_strength", names, names=names, name=names)
    if len({item.part.whole for item in items}) > 1:
        raise Question("two_readings", "amounts for each serve beside amounts for the whole batch")
    parts = sum(item.amount.parts or 0.0 for item in items)
    one_ml = settings.serve_ml / parts if parts else 0.0
    sized = [
        item if item.amount.parts is None else replace(item, amount=item.amount.of_parts(one_ml)) for item in items
    ]
    undiluted_ml = sum(item.amount.takes_ml * item.scale for item in sized)
    spec = masses(sized)
    try:
        water_ml = water_to_cut(spec, abv).water_ml
    except CannotRaise:
        raise cannot_raise(spec, abv) from None
    notes.understand("to_strength", abv)
    return Dose(share=water_ml / undiluted_ml if undiluted_ml > 0.0 else 0.0, said=True)
