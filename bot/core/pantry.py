"""The pantry: what an ingredient is when the chat has not described its own bottle.

Lives here: the four tables merged into INGREDIENTS, and nothing computed beyond the merge. Never here:
figures (pantry_*.py), spellings (grammar), what a chat saved (memory). Every figure is a typical one for its
legal category, with the category as its source; a shelf entry always beats it.
"""

from dataclasses import replace

from bot.core.ingredient import ALLERGENS, FAMILIES, PRACTICE, Ingredient
from bot.core.pantry_liqueurs import LIQUEURS
from bot.core.pantry_soft import EACH_ML, SOFT
from bot.core.pantry_spirits import BITTERS, SPIRITS
from bot.core.pantry_wines import WINES

__all__ = ["ALLERGENS", "FAMILIES", "INGREDIENTS", "PRACTICE", "Ingredient"]

#: canonical name -> Ingredient, for every canonical name the grammar knows
INGREDIENTS: dict[str, Ingredient] = {
    name: replace(found, each_ml=EACH_ML[name]) if name in EACH_ML else found
    for name, found in {**SPIRITS, **BITTERS, **WINES, **LIQUEURS, **SOFT}.items()
}
