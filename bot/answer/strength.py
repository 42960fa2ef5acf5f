"""Strength -> Answer: how strong a mix is. Must never: need a size for what is only a proportion."""

from bot.answer.mix import mixed
from bot.answer.notes import Notes
from bot.answer.resolve import known_spec
from bot.core.facts import Answer
from bot.told import Told
from grammar.request import Strength

__all__ = ["answer_strength"]


def answer_strength(request: Strength, told: Told) -> Answer:
    """The true strength. Raises Question no_strength when an ingredient's is unknown, and as resolve does."""
    notes = Notes()
    spec, _, _ = known_spec(request.recipe, request.makes, told, notes, fill_up=True)
    return mixed("strength", spec, request.makes, told.settings, notes, focus="abv", at_c=request.at_c)
