"""Label strength, standard drinks, allergens, keeping and cautions against their rules.

Lives here: the rules' own figures with source and tolerance.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.core.label import (
    RULES,
    Drink,
    Market,
    allergens,
    cautions,
    keeping,
    label_strength,
    standard_drinks,
)
from bot.core.pantry import INGREDIENTS

ANNEX_XII = "Reg. (EU) 1169/2011 Annex XII"
#: source, market, drink, true strength -> stated percent, tolerance in points
LABELS: list[tuple[str, Market, Drink, float, float | None, float]] = [
    ("27 CFR 5.65(c)", "us", "spirit", 0.2953, 29.5, 0.3),
    ("27 CFR 4.36 (from memory)", "us", "wine", 0.12, 12.0, 1.5),
    ("27 CFR 4.36 (from memory)", "us", "wine", 0.15, 15.0, 1.0),
    (ANNEX_XII, "eu", "spirit", 0.2953, 29.5, 0.3),
    (ANNEX_XII, "eu", "spirit", 0.2955, 29.6, 0.3),
    (ANNEX_XII, "eu", "spirit", 0.1845, 18.5, 0.3),
    (ANNEX_XII, "eu", "beer", 0.055, 5.5, 0.5),
    (ANNEX_XII, "eu", "beer", 0.056, 5.6, 1.0),
    (ANNEX_XII, "eu", "cider", 0.045, 4.5, 1.0),
    (ANNEX_XII, "eu", "macerated", 0.28, 28.0, 1.5),
    (ANNEX_XII, "eu", "spirit", 0.012, None, 0.3),
    ("Business Companion (England and Wales)", "uk", "spirit", 0.40, 40.0, 0.3),
    ("Business Companion (England and Wales)", "uk", "beer", 0.056, 5.6, 1.0),
]

US_OZ = 29.5735295625
#: mL, strength -> US, UK, AU, WHO; tolerance 0.01 (UPitt SBIRT, OpenLearn, AU Dept of Health, AUDIT)
POURS: list[tuple[float, float, float, float, float, float]] = [
    (50.0, 0.40, 1.127, 2.00, 1.578, 1.578),
    (1.5 * US_OZ, 0.40, 1.000, 1.77, 1.40, 1.40),
    (5 * US_OZ, 0.12, 1.000, 1.77, 1.40, 1.40),
    (700.0, 0.25, 9.862, 17.5, 13.81, 13.81),
]

#: ingredients, batch strength -> place, days, why (common practice, no source)
KEEPS = [
    (("gin", "egg white", "lemon juice"), 0.2, "cold", 1, "egg"),
    (("coffee liqueur", "cream", "vodka"), 0.2, "cold", 2, "dairy"),
    (("white rum", "lime juice", "simple syrup"), 0.22, "cold", 2, "juice"),
    (("aged rum", "tea", "simple syrup"), 0.2, "cold", 3, "fresh"),
    (("fino sherry", "tonic"), 0.05, "cold", 7, "low_strength"),
    (("gin", "dry vermouth"), 0.29, "cold", 30, "wine"),
    (("bourbon", "simple syrup", "aromatic bitters"), 0.33, "cold", 30, "syrup"),
    (("gin", "maraschino liqueur"), 0.38, "room", 180, "spirit"),
]

CAUTIONS: list[tuple[tuple[str, ...], float, Market | None, tuple[str, ...]]] = [
    (("gin", "egg white", "lemon juice"), 0.18, None, ("raw_egg", "keep_cold")),
    (("aged rum", "orgeat", "lime juice"), 0.22, None, ("nuts", "keep_cold")),
    (("gin",), 0.40, None, ("flammable",)),
    (("gin", "dry vermouth"), 0.30, "us", ("mix_ahead",)),
    (("gin", "dry vermouth"), 0.30, None, ()),
]


@pytest.mark.parametrize(("source", "market", "drink", "abv", "percent", "tolerance"), LABELS)
def test_the_strength_a_label_states(
    source: str, market: Market, drink: Drink, abv: float, percent: float | None, tolerance: float
) -> None:
    found = label_strength(abv, market, drink)
    assert (found.percent, found.tolerance) == (percent, tolerance), source
    assert found.source


@given(
    abv=st.floats(min_value=0.08, max_value=1.0),
    market=st.sampled_from(list(RULES)),
    drink=st.sampled_from(list(RULES["eu"])),
)
def test_rounding_alone_never_breaks_the_tolerance(abv: float, market: Market, drink: Drink) -> None:
    found = label_strength(abv, market, drink)
    assert found.percent is not None
    assert abs(found.percent - abv * 100) <= 0.05 + 1e-9 < found.tolerance


@pytest.mark.parametrize(("volume_ml", "abv", "us", "uk", "au", "who"), POURS)
def test_standard_drinks(volume_ml: float, abv: float, us: float, uk: float, au: float, who: float) -> None:
    found = standard_drinks(volume_ml, abv)
    assert found.us == pytest.approx(us, abs=0.01)
    assert found.uk == pytest.approx(uk, abs=0.01)
    assert found.au == pytest.approx(au, abs=0.01)
    assert found.who == pytest.approx(who, abs=0.01)


def test_allergens_are_those_of_any_ingredient_once() -> None:
    names = ("amaretto", "egg white", "dry vermouth", "sweet vermouth", "lemon juice")
    assert allergens(INGREDIENTS[name] for name in names) == ("egg", "nuts", "sulphites")


@pytest.mark.parametrize(("names", "abv", "place", "days", "why"), KEEPS)
def test_keeping_follows_the_most_delicate(
    names: tuple[str, ...], abv: float, place: str, days: int, why: str
) -> None:
    found = keeping([INGREDIENTS[name] for name in names], abv)
    assert (found.place, found.days, found.why) == (place, days, why)


@pytest.mark.parametrize(("names", "abv", "market", "codes"), CAUTIONS)
def test_cautions_are_codes(
    names: tuple[str, ...], abv: float, market: Market | None, codes: tuple[str, ...]
) -> None:
    assert cautions([INGREDIENTS[name] for name in names], abv, market) == codes


@pytest.mark.parametrize("abv", [-0.01, 1.01, float("nan")])
def test_an_impossible_strength_is_refused(abv: float) -> None:
    with pytest.raises(ValueError, match="strength"):
        label_strength(abv)
    with pytest.raises(ValueError, match="strength"):
        standard_drinks(100.0, abv)
