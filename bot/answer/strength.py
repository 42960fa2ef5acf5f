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
    on_ice = request.recipe.technique in ("stirred", "shaken")  # then its water counts, and the reply says how much
    spec, before, _ = known_spec(request.recipe, request.makes, told, notes, stirred=on_ice, fill_up=True)
    if any(note.code in ("stirred_water", "shaken_water") for note in notes.assumed):
        notes.remark("before_ice", before.abv)
    return mixed("strength", spec, request.makes, told.settings, notes, focus="abv", at_c=request.at_c)
