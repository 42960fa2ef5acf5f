"""Factors against the published definitions, and conversion there and back.

Lives here: exact factors with their source; tolerance 1e-12 of the value, floats only.
"""

import re
from importlib.resources import files

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.core.units import G_PER, ML_PER, OUNCES, Ounce, from_grams, from_ml, grams, ml, sized

NIST = "NIST HB 44 App. C: 231 in3 / 128"
UK = "UK Weights and Measures Act 1985"
LABEL = "21 CFR 101.9(b)(5)(viii)"
PRACTICE = "common practice, no source"
POUND = "international yard and pound, 1959"

VOLUMES = [
    (NIST, "us_fl_oz", 29.5735295625),
    (NIST, "us_tbsp", 14.78676478125),
    (NIST, "us_tsp", 4.92892159375),
    (NIST, "us_cup", 236.5882365),
    (NIST, "us_pint", 473.176473),
    (NIST, "us_quart", 946.352946),
    (NIST, "us_gallon", 3785.411784),
    (UK, "imp_fl_oz", 28.4130625),
    (UK, "imp_pint", 568.26125),
    (UK, "imp_gallon", 4546.09),
    (LABEL, "label_tsp", 5.0),
    (LABEL, "label_tbsp", 15.0),
    (LABEL, "label_cup", 240.0),
    ("SI", "litre", 1000.0),
    ("SI", "cl", 10.0),
    ("SI", "dl", 100.0),
    (PRACTICE, "bar_oz_30", 30.0),
    (PRACTICE, "dash", 29.5735295625 / 32),
    (PRACTICE, "barspoon", 5.0),
    (PRACTICE, "jigger", 1.5 * 29.5735295625),
    (PRACTICE, "pony", 29.5735295625),
]
MASSES = [("SI", "kg", 1000.0), (POUND, "lb", 453.59237), (POUND, "ozw", 28.349523125)]

#: amount, unit, which ounce -> mL
SIZED: list[tuple[float, str, Ounce, float]] = [
    (2, "oz", "us", 59.147059125),
    (2, "oz", "imperial", 56.826125),
    (2, "oz", "30ml", 60.0),
    (1, "pint", "us", 473.176473),
    (1, "pint", "imperial", 568.26125),
    (1, "gallon", "imperial", 4546.09),
    (1, "cup", "us", 236.5882365),
    (1, "cup", "30ml", 240.0),
    (2, "tbsp", "us", 29.5735295625),
    (2, "tbsp", "imperial", 30.0),
    (1.5, "l", "us", 1500.0),
    (1, "us_fl_oz", "imperial", 29.5735295625),
]

#: keys the grammar hands over (grammar.words_measures.UNITS), "part" excepted: a part is no unit
TYPED = ["ml", "cl", "dl", "l", "oz", "us_fl_oz", "imp_fl_oz", "cup", "pint", "imp_pint", "quart", "gallon",
         "imp_gallon", "tbsp", "tsp", "barspoon", "dash", "drop", "shot", "jigger", "pony"]  # fmt: skip

positive = st.floats(min_value=1e-3, max_value=1e6)


@pytest.mark.parametrize(("source", "unit", "size_ml"), VOLUMES)
def test_a_volume_is_the_size_its_source_gives(source: str, unit: str, size_ml: float) -> None:
    assert ML_PER[unit] == pytest.approx(size_ml, rel=1e-12), source


@pytest.mark.parametrize(("source", "unit", "size_g"), MASSES)
def test_a_mass_is_the_size_its_source_gives(source: str, unit: str, size_g: float) -> None:
    assert G_PER[unit] == pytest.approx(size_g, rel=1e-12), source


def test_us_over_imperial_fluid_ounce() -> None:
    """1.04084, the 4 % trap in "oz" (from NIST HB 44 and the 1985 Act), tolerance half a last digit."""
    assert ML_PER["us_fl_oz"] / ML_PER["imp_fl_oz"] == pytest.approx(1.04084, abs=5e-6)


@pytest.mark.parametrize(("amount", "unit", "ounce", "volume_ml"), SIZED)
def test_shared_names_follow_the_chosen_ounce(
    amount: float, unit: str, ounce: Ounce, volume_ml: float
) -> None:
    assert ml(amount, unit, ounce) == pytest.approx(volume_ml, rel=1e-12)


@pytest.mark.parametrize("unit", TYPED)
@pytest.mark.parametrize("ounce", OUNCES)
def test_every_unit_people_type_has_a_size(unit: str, ounce: Ounce) -> None:
    assert 0.0 < ML_PER[sized(unit, ounce)] <= 4546.09


@pytest.mark.parametrize("unit", ["part", "count", "g", "lb", "ozw", "femtolitre", ""])
def test_what_is_no_volume_is_refused(unit: str) -> None:
    with pytest.raises(KeyError):
        ml(1.0, unit)


@pytest.mark.parametrize("unit", ["oz", "ml", "part"])
def test_what_is_no_mass_is_refused(unit: str) -> None:
    with pytest.raises(KeyError):
        grams(1.0, unit)


@given(amount=positive, unit=st.sampled_from(TYPED), ounce=st.sampled_from(list(OUNCES)))
def test_a_volume_comes_back_as_it_was(amount: float, unit: str, ounce: Ounce) -> None:
    assert from_ml(ml(amount, unit, ounce), unit, ounce) == pytest.approx(amount, rel=1e-12)


@given(amount=positive, unit=st.sampled_from(sorted(G_PER)))
def test_a_mass_comes_back_as_it_was(amount: float, unit: str) -> None:
    assert from_grams(grams(amount, unit), unit) == pytest.approx(amount, rel=1e-12)


def test_every_line_that_is_not_exact_says_where_it_comes_from() -> None:
    text = files("bot.core").joinpath("units.txt").read_text(encoding="utf-8")
    bar = text[text.index("# bar measures") : text.index("# mass")]
    lines = [line for line in bar.splitlines() if "=" in line]
    assert len(lines) >= 8
    assert [line for line in lines if not re.search(r"# .*(no source|from memory)", line)] == []
