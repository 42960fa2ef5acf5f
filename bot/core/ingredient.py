"""The Ingredient type and the sources the pantry's figures follow.

Lives here: the frozen type, the names of families and allergens, and the one helper that builds a table.
Never here: the figures themselves (pantry_*.py) or spellings (grammar). Strengths are fractions of volume
at 20 C, sugar is grams per litre of the ingredient. A source names the legal category the figure falls in
or says that it is common practice; the typical value inside a category is always common practice.
"""

from collections.abc import Iterable
from dataclasses import dataclass

__all__ = ["ALLERGENS", "FAMILIES", "PRACTICE", "USDA", "Ingredient", "Row", "table"]

PRACTICE = "common practice, no source"
USDA = "USDA FoodData Central, typical value (from memory)"

FAMILIES = (
    "spirit", "vermouth", "aromatised wine", "fortified wine", "wine", "liqueur", "bitters", "beer", "cider",
    "syrup", "sweetener", "juice", "puree", "dairy", "egg", "mixer", "tea", "coffee", "seasoning", "water",
)  # fmt: skip

#: the groups of Reg. (EU) 1169/2011 Annex II that a bar meets (the same names label.py reports)
ALLERGENS = ("celery", "cereals", "egg", "fish", "milk", "nuts", "soya", "sulphites")


@dataclass(frozen=True, slots=True)
class Ingredient:
    """One ingredient: abv a fraction at 20 C, sugar_g_per_l grams per litre, each_ml what one piece gives.

    perishable means it spoils within days even cold (juice, dairy, egg, tea); a fortified wine does not.
    """

    name: str
    abv: float
    sugar_g_per_l: float
    source: str
    family: str
    allergens: tuple[str, ...] = ()
    perishable: bool = False
    each_ml: float | None = None


#: name, strength in percent by volume, sugar in grams per litre, source
Row = tuple[str, float, float, str]


def table(
    family: str, rows: Iterable[Row], allergens: tuple[str, ...] = (), perishable: bool = False
) -> dict[str, Ingredient]:
    """Rows with strengths in percent -> Ingredients by name, all of one family, allergens and keeping."""
    return {
        name: Ingredient(name, percent / 100, sugar, source, family, allergens, perishable)
        for name, percent, sugar, source in rows
    }
