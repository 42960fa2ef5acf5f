"""Freezing points, ice and swelling against CRC, Melinder and the worked drinks; then the properties."""

import math

import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import assume, given
from hypothesis import strategies as st

from bot.core.alcoholometry import mass_fraction_from_abv
from bot.core.freezing import (
    Freezer,
    freezer,
    freezing_point_c,
    ice_mass_fraction,
    least_abv,
    most_water_ml,
    volume_ratio,
)
from bot.core.liquid import EMPTY, Liquid, mix
from bot.core.water_activity import COLDEST_C
from tests.core.liquids import drinks, freezers_c, spirited

# % ABV, CRC °C, accepted range. CRC Handbook 102nd ed. (2021), interpolated; the range also takes in
# Melinder 2010 (CoolProp 8.0 INCOMP::MEA).
ETHANOL = [
    (5, -1.64, -1.9, -1.3),
    (10, -3.48, -3.8, -3.1),
    (12.5, -4.50, -4.8, -4.1),
    (18, -7.08, -7.4, -6.8),
    (22, -9.31, -9.8, -9.0),
    (25, -11.23, -11.7, -10.9),
    (28, -13.43, -13.9, -13.1),
    (32, -16.73, -17.0, -16.4),
    (35, -19.36, -19.7, -18.8),
    (40, -23.64, -23.9, -23.0),
    (45, -27.46, -27.8, -27.2),
    (55, -35.36, -35.8, -35.1),
]
# % ABV, g/L sucrose, after Ross, after ZSR, accepted range (°C). Computed on the CRC curve.
WITH_SUGAR = [
    (10, 100, -4.41, -4.56, -5.0, -4.0),
    (15, 150, -7.46, -7.90, -8.3, -7.1),
    (20, 50, -8.86, -9.05, -9.4, -8.5),
    (25, 100, -13.18, -13.78, -14.2, -12.8),
    (35, 100, -22.29, -22.77, -23.2, -21.9),
]
# mass % sucrose in water, °C, tolerance 0.05: CRC 102nd ed.; 12 % also in The Science of Ice Cream, fig. 2.8.
SUCROSE = [(5, -0.29), (12, -0.77), (20, -1.47), (40, -4.45)]
# % ABV, % of mass that is ice at -18 °C: accepted range; volume at -18 / at 20 °C, tolerance 0.008.
# Lever rule on CRC, Melinder and R 22.
ICE_AT_MINUS_18 = [
    (5, 84, 88, 1.0717),
    (12, 63, 67, 1.0489),
    (18, 45, 50, 1.0303),
    (22, 33, 38, 1.0181),
    (27, 18, 22, 1.0025),
    (30, 9, 13, 0.9929),
    (35, 0, 2, 0.9802),
]
# (mL, % ABV, g/L) each, freezing after Ross and ZSR (°C), ice % of mass at -18 °C likewise.
# Tolerances: 0.5 °C and 3 points about the pair.
WHOLE_DRINKS = [
    (((50, 46, 0), (25, 17, 20), (18.75, 0, 0)), (-14.5, -14.5), (13, 13)),
    (((60, 40, 0), (10, 18, 30), (17.5, 0, 0)), (-14.7, -14.8), (12, 12)),
    (((60, 40, 0), (22.5, 0, 614.75), (22.5, 0, 20)), (-12.3, -13.1), (19, 16)),
    (((700, 40, 0), (350, 15, 130), (210, 0, 0)), (-12.9, -13.2), (18, 17)),
]
STATES = [
    (0.40, "liquid"),
    (0.34, "liquid"),
    (0.33, "slush"),
    (0.14, "slush"),
    (0.10, "hard"),
    (0.0, "hard"),
]


def at_strength(percent: float, sugar_g_per_l: float = 0.0) -> Liquid:
    return Liquid.from_volume(1000.0, percent / 100, sugar_g_per_l)


def poured(parts: tuple[tuple[float, float, float], ...]) -> Liquid:
    return mix(Liquid.from_volume(ml, percent / 100, sugar) for ml, percent, sugar in parts)


@pytest.mark.parametrize(("abv", "crc_c", "low_c", "high_c"), ETHANOL)
def test_spirit_freezes_where_crc_says(abv: float, crc_c: float, low_c: float, high_c: float) -> None:
    point_c = freezing_point_c(at_strength(abv))
    assert point_c == pytest.approx(crc_c, abs=0.02)
    assert low_c <= point_c <= high_c


@pytest.mark.parametrize("abv", range(0, 61, 2))
def test_spirit_freezes_within_half_a_degree_of_melinder(abv: int) -> None:
    """Melinder 2010 as CoolProp carries it; 0.5 °C, 0 to 60 % ABV."""
    fluid = f"INCOMP::MEA[{mass_fraction_from_abv(abv / 100)}]"
    melinder_c = PropsSI("T_FREEZE", "T", 300.0, "P", 101325.0, fluid) - 273.15 if abv else 0.0
    assert freezing_point_c(at_strength(abv)) == pytest.approx(melinder_c, abs=0.5)


@pytest.mark.parametrize(("abv", "sugar", "ross_c", "zsr_c", "low_c", "high_c"), WITH_SUGAR)
def test_sugar_lowers_the_freezing_point(
    abv: float, sugar: float, ross_c: float, zsr_c: float, low_c: float, high_c: float
) -> None:
    point_c = freezing_point_c(at_strength(abv, sugar))
    assert zsr_c - 0.02 <= point_c <= ross_c + 0.02  # between the two rules, given to 0.01
    assert low_c <= point_c <= high_c


@pytest.mark.parametrize(("percent", "point_c"), SUCROSE)
def test_syrup_freezes_where_the_handbook_says(percent: float, point_c: float) -> None:
    assert freezing_point_c(Liquid(0, 100 - percent, percent)) == pytest.approx(point_c, abs=0.05)


@pytest.mark.parametrize(("abv", "low", "high", "ratio"), ICE_AT_MINUS_18)
def test_ice_and_swelling_at_minus_18(abv: float, low: float, high: float, ratio: float) -> None:
    drink = at_strength(abv)
    assert low <= ice_mass_fraction(drink, -18.0) * 100 <= high
    assert volume_ratio(drink, -18.0) == pytest.approx(ratio, abs=0.008)


@pytest.mark.parametrize(("parts", "points_c", "ice"), WHOLE_DRINKS)
def test_whole_drink_in_the_freezer(
    parts: tuple[tuple[float, float, float], ...], points_c: tuple[float, float], ice: tuple[float, float]
) -> None:
    verdict = freezer(poured(parts), -18.0)
    assert min(points_c) - 0.5 <= verdict.freezing_point_c <= max(points_c) + 0.5
    assert min(ice) - 3 <= verdict.ice_fraction * 100 <= max(ice) + 3
    assert verdict.state == "slush"


@pytest.mark.parametrize(("abv", "state"), STATES)
def test_state_at_minus_18(abv: float, state: str) -> None:
    """Liquid from 33.5 % (CRC); slush up to 65 % ice, which is 12 % ABV (the table above)."""
    assert freezer(Liquid.from_volume(700.0, abv), -18.0).state == state


@pytest.mark.parametrize(("abv", "near"), [(0.40, False), (0.35, True), (0.33, True), (0.30, False)])
def test_near_edge_within_a_degree_and_a_half(abv: float, near: bool) -> None:
    assert freezer(Liquid.from_volume(700.0, abv), -18.0).near_edge is near


def test_least_strength_that_stays_liquid_at_minus_18() -> None:
    """CRC: 27.57 % of mass freezes at -18 °C, between the rows for 26 % (-16.41) and 28 % (-18.43)."""
    assert least_abv(-18.0) == pytest.approx(0.3346, abs=0.0005)
    assert least_abv(0.0) == least_abv(4.0, 100.0) == 0.0
    assert least_abv(-1.0, 400.0) == 0.0


def test_headspace_is_the_swelling_and_at_least_three_percent() -> None:
    weak, strong = at_strength(5), at_strength(40)
    assert freezer(weak, -18.0).headspace_ml == pytest.approx(71.7, abs=8.0)  # 1.0717 in the table above
    assert freezer(strong, -18.0).headspace_ml == pytest.approx(30.0)


def test_above_zero_everything_stays_liquid() -> None:
    verdict = freezer(Liquid.water(500.0), 4.0)
    assert (verdict.state, verdict.ice_fraction, verdict.most_water_ml) == ("liquid", 0.0, math.inf)
    assert most_water_ml(at_strength(5), 0.0) == math.inf
    assert ice_mass_fraction(at_strength(5), 0.0) == 0.0


def test_water_freezes_whole_at_zero() -> None:
    assert str(freezing_point_c(Liquid.water(10.0))) == "0.0"  # and not "-0.0"
    assert ice_mass_fraction(Liquid.water(10.0), -1.0) == pytest.approx(1.0)
    assert volume_ratio(Liquid.water(10.0), -1.0) == pytest.approx(0.9982 / 0.9167, rel=1e-4)
    assert most_water_ml(Liquid.water(10.0), -18.0) is None


@pytest.mark.parametrize("abv", [0.76, 0.95, 1.0])
def test_stronger_than_the_table_is_given_its_end(abv: float) -> None:
    assert freezing_point_c(Liquid.from_volume(10.0, abv)) == COLDEST_C
    assert freezer(Liquid.from_volume(10.0, abv), -40.0).state == "liquid"


@pytest.mark.parametrize("function", [freezer, ice_mass_fraction, volume_ratio, most_water_ml])
@pytest.mark.parametrize(
    ("liquid", "at_c", "why"),
    [
        (EMPTY, -18.0, "nothing here"),
        (at_strength(40), -60.0, "colder than"),
        (at_strength(40), float("nan"), "colder than"),
    ],
)
def test_no_verdict_without_a_drink_or_data(function: object, liquid: Liquid, at_c: float, why: str) -> None:
    assert callable(function)
    with pytest.raises(ValueError, match=why):
        function(liquid, at_c)


@given(drinks, st.floats(0.0, 10_000.0))
def test_water_never_lowers_the_freezing_point(drink: Liquid, water_ml: float) -> None:
    assert freezing_point_c(drink + Liquid.water(water_ml)) >= freezing_point_c(drink) - 1e-6


@given(drinks, st.floats(0.1, 100.0))
def test_a_batch_freezes_like_a_serve(drink: Liquid, n: float) -> None:
    one, many = freezer(drink, -18.0), freezer(drink.scaled(n), -18.0)
    assert many.freezing_point_c == pytest.approx(one.freezing_point_c, abs=1e-6)
    assert many.ice_fraction == pytest.approx(one.ice_fraction, abs=1e-6)


@given(drinks, freezers_c, freezers_c)
def test_colder_means_more_ice_and_never_more_than_all(drink: Liquid, one_c: float, other_c: float) -> None:
    cold_c, mild_c = sorted((one_c, other_c))
    cold, mild = ice_mass_fraction(drink, cold_c), ice_mass_fraction(drink, mild_c)
    assert 0.0 <= mild <= cold + 1e-7
    assert cold <= 1.0


@given(drinks, freezers_c)
def test_ice_forms_just_below_the_freezing_point(drink: Liquid, at_c: float) -> None:
    verdict = freezer(drink, at_c)
    assert (verdict.state == "liquid") == (verdict.freezing_point_c <= at_c + 1e-6)
    assert (verdict.ice_fraction > 1e-9) <= (verdict.freezing_point_c > at_c)
    assert verdict.ice_fraction == pytest.approx(ice_mass_fraction(drink, at_c), abs=1e-6)


@given(spirited, freezers_c)
def test_most_water_brings_the_freezing_point_to_the_freezers(drink: Liquid, at_c: float) -> None:
    most_ml = most_water_ml(drink, at_c)
    assume(most_ml is not None)
    assert most_ml is not None
    diluted = drink + Liquid.water(most_ml)
    assert freezing_point_c(diluted) == pytest.approx(at_c, abs=1e-4)
    assert freezer(diluted, at_c).state == "liquid"
    assert freezer(drink, at_c).most_water_ml == pytest.approx(most_ml, abs=1e-5 * drink.mass_g)


@given(spirited, freezers_c, freezers_c)
def test_a_milder_freezer_takes_more_water(drink: Liquid, one_c: float, other_c: float) -> None:
    cold_c, mild_c = sorted((one_c, other_c))
    in_cold, in_mild = most_water_ml(drink, cold_c), most_water_ml(drink, mild_c)
    assert in_cold is None or (in_mild is not None and in_mild >= in_cold - 1e-6 * drink.mass_g)


@given(st.floats(-45.0, -0.1), st.floats(0.0, 250.0))
def test_least_strength_freezes_at_the_freezers_temperature(at_c: float, sugar: float) -> None:
    abv = least_abv(at_c, sugar)
    point_c = freezing_point_c(Liquid.from_volume(1000.0, abv, sugar))
    assert point_c <= at_c + 1e-4
    assert abv == 0.0 or point_c == pytest.approx(at_c, abs=1e-4)


def test_verdict_carries_its_own_temperature() -> None:
    assert isinstance(freezer(at_strength(40), -18.0), Freezer)
    assert freezer(at_strength(40), -18.0).at_c == -18.0
