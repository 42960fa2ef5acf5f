"""The pantry's figures against the legal categories they claim, and that each makes a possible liquid.

Lives here: least strengths and sugars by category, allergens and keeping by family, syrups against Liquid.
"""

import pytest

from bot.core.ingredient import ALLERGENS, FAMILIES
from bot.core.liquid import Liquid
from bot.core.pantry import INGREDIENTS

#: source, name, least and most % vol, least and most g/L sugar that the category allows
LIMITS = [
    ("Reg. (EU) 2019/787 Annex I, 27 CFR 5.22", "gin", 40, 100, 0, 0.1),
    ("Reg. (EU) 2019/787 Annex I, 27 CFR 5.22", "vodka", 40, 100, 0, 8),
    ("Reg. (EU) 2019/787 Annex I, 27 CFR 5.22", "white rum", 40, 100, 0, 20),
    ("Reg. (EU) 2019/787 Annex I", "whisky", 40, 94.8, 0, 0),
    ("27 CFR 5.22", "bourbon", 40, 80, 0, 0),
    ("27 CFR 5.22", "rye", 40, 80, 0, 0),
    ("27 CFR 5.22", "tequila", 40, 55, 0, 0),
    ("Alcoholic Liquor Duties Act 1979 s.2 (57.15)", "navy strength gin", 56.9, 57.3, 0, 0),
    ("Reg. (EU) 2019/787 Annex I (sloe gin)", "sloe gin", 25, 60, 0, 400),
    ("Reg. (EU) 2019/787 Annex I (sambuca)", "sambuca", 38, 60, 350, 600),
    ("Reg. (EU) 2019/787 Annex I (maraschino)", "maraschino liqueur", 24, 60, 250, 600),
    ("Reg. (EU) 2019/787 Annex I (egg liqueur)", "advocaat", 14, 60, 150, 600),
    ("110/2008 Annex II.32 (cassis)", "creme de cassis", 15, 60, 400, 600),
    ("110/2008 Annex II.32 (creme de)", "creme de cacao", 15, 60, 250, 600),
    ("Reg. 251/2014 Art. 6 (dry)", "dry vermouth", 16, 22, 0, 50),
    ("Reg. 251/2014 Art. 6 (extra-dry)", "extra dry vermouth", 15, 22, 0, 30),
    ("Reg. 251/2014 Art. 6 (sweet)", "sweet vermouth", 14.5, 22, 130, 300),
    ("Reg. 251/2014 Art. 3", "aromatised wine", 14.5, 22, 0, 300),
    ("Reg. (EU) 2019/787 Annex I (bitter)", "bitter red aperitif", 15, 60, 0, 400),
    ("Reg. (EU) 1308/2013 Annex VII", "fino sherry", 15, 22, 0, 4),
    ("27 CFR 4.21", "white wine", 7, 14, 0, 45),
]

#: weight share of sugar in the syrup and its row: CRC Handbook (2021) sucrose densities
SYRUPS = [
    ("simple syrup", 1 / 2, 0.5),
    ("rich syrup", 2 / 3, 0.5),
    ("demerara syrup", 1 / 2, 0.5),
    ("rich demerara syrup", 2 / 3, 0.5),
    ("honey syrup", 0.821 / 2, 1.0),
    ("rich honey syrup", 0.821 * 0.75, 1.0),
    ("agave nectar", 0.75, 1.0),
]

ALLERGENS_OF = [
    ("sweet vermouth", ("sulphites",)),
    ("fino sherry", ("sulphites",)),
    ("prosecco", ("sulphites",)),
    ("egg white", ("egg",)),
    ("advocaat", ("egg",)),
    ("cream", ("milk",)),
    ("cream liqueur", ("milk",)),
    ("orgeat", ("nuts",)),
    ("amaretto", ("nuts",)),
    ("lager", ("cereals",)),
    ("celery bitters", ("celery",)),
    ("bourbon", ()),
    ("gin", ()),
    ("water", ()),
]

PERISHABLE = [("lime juice", True), ("milk", True), ("egg white", True), ("passionfruit puree", True),
              ("dry vermouth", False), ("simple syrup", False), ("gin", False), ("water", False)]  # fmt: skip


@pytest.mark.parametrize(("source", "name", "least", "most", "least_sugar", "most_sugar"), LIMITS)
def test_the_typical_figure_lies_inside_its_legal_category(
    source: str, name: str, least: float, most: float, least_sugar: float, most_sugar: float
) -> None:
    found = INGREDIENTS[name]
    assert least <= found.abv * 100 <= most, source
    assert least_sugar <= found.sugar_g_per_l <= most_sugar, source


@pytest.mark.parametrize("name", [n for n, i in INGREDIENTS.items() if i.family == "liqueur"])
def test_every_liqueur_has_the_sugar_or_the_strength_of_one(name: str) -> None:
    """Liqueur 15 % and 100 g/L, cherry 70 (110/2008 Annex II.32). The light aperitif and falernum fall below
    15 % and are no liqueurs in law; their sources say common practice."""
    found = INGREDIENTS[name]
    assert found.sugar_g_per_l >= 70
    assert found.abv >= 0.15 or "common practice" in found.source


@pytest.mark.parametrize("name", INGREDIENTS)
def test_every_entry_is_a_possible_liquid_with_a_source(name: str) -> None:
    found = INGREDIENTS[name]
    liquid = Liquid.from_volume(100.0, found.abv, found.sugar_g_per_l)
    assert liquid.abv == pytest.approx(found.abv, abs=1e-6)
    assert liquid.sugar_g_per_l == pytest.approx(found.sugar_g_per_l, abs=1e-3)
    assert found.name == name
    assert found.source
    assert found.family in FAMILIES
    assert set(found.allergens) <= set(ALLERGENS)
    assert found.each_ml is None or found.each_ml > 0


@pytest.mark.parametrize(("name", "share", "tolerance"), SYRUPS)
def test_a_syrup_holds_the_sugar_its_ratio_says(name: str, share: float, tolerance: float) -> None:
    assert INGREDIENTS[name].sugar_g_per_l == pytest.approx(
        Liquid(0.0, 1.0 - share, share).sugar_g_per_l, abs=tolerance
    )


@pytest.mark.parametrize(("name", "groups"), ALLERGENS_OF)
def test_an_ingredient_carries_its_allergens(name: str, groups: tuple[str, ...]) -> None:
    assert INGREDIENTS[name].allergens == groups


@pytest.mark.parametrize(("name", "spoils"), PERISHABLE)
def test_what_spoils_is_marked(name: str, spoils: bool) -> None:
    assert INGREDIENTS[name].perishable is spoils
