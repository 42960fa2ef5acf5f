"""Mixing, contraction and sugar's volume against R 22, CRC densities and the reference drinks."""

from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.core.liquid import EMPTY, SUCROSE_DENSITIES, Liquid, mix, sugar_ml_per_g
from tests.core.liquids import drinks, strengths, sugars_g_per_l, volumes_ml

Part = tuple[float, float, float]  # mL, % vol, g/L of sugar

# (mL, % vol) each, mL and % vol of the mix at 20 °C, tolerances. OIML R 22 densities; 51.8 % also in a
# published wine glossary (100 + 100 L).
CONTRACTION = [
    ((20, 100), (80, 0), 98.28, 20.35, 0.03, 0.03),
    ((40, 100), (60, 0), 96.70, 41.36, 0.03, 0.03),
    ((50, 100), (50, 0), 96.46, 51.83, 0.03, 0.03),
    ((100, 50), (25, 0), 124.47, 40.17, 0.05, 0.03),
    ((100, 25), (25, 0), 125.07, 19.99, 0.05, 0.03),
]
# parts, % vol by simple sum, % vol really, mL really, g/L of sugar. Masses by R 22 and CRC sucrose.
# Tolerances: simple sum 0.01, strength 0.05 points, volume 0.1 %, sugar 0.1 g/L (given to one decimal).
WHOLE_DRINKS: list[tuple[list[Part], float, float, float, float]] = [
    ([(50, 46, 0), (25, 17, 20), (18.75, 0, 0)], 29.07, 29.16, 93.46, 5.3),
    ([(60, 40, 0), (10, 18, 30), (17.5, 0, 0)], 29.49, 29.53, 87.36, 3.4),
    ([(60, 40, 0), (22.5, 0, 614.75), (22.5, 0, 20)], 22.86, 22.91, 104.78, 136.3),
    ([(700, 40, 0), (350, 15, 130), (210, 0, 0)], 26.39, 26.43, 1258.04, 36.2),
]


def poured(parts: list[Part]) -> Liquid:
    return mix(Liquid.from_volume(ml, percent / 100, sugar) for ml, percent, sugar in parts)


@pytest.mark.parametrize(("one", "other", "ml", "abv", "ml_tolerance", "abv_tolerance"), CONTRACTION)
def test_mixing_contracts_as_r22_says(
    one: tuple[float, float],
    other: tuple[float, float],
    ml: float,
    abv: float,
    ml_tolerance: float,
    abv_tolerance: float,
) -> None:
    mixed = poured([(*one, 0), (*other, 0)])
    assert mixed.volume_ml == pytest.approx(ml, abs=ml_tolerance)
    assert mixed.abv * 100 == pytest.approx(abv, abs=abv_tolerance)


@pytest.mark.parametrize(("parts", "additive", "abv", "ml", "sugar"), WHOLE_DRINKS)
def test_whole_drink(parts: list[Part], additive: float, abv: float, ml: float, sugar: float) -> None:
    drink = poured(parts)
    assert sum(m * p for m, p, _ in parts) / sum(m for m, _, _ in parts) == pytest.approx(additive, abs=0.01)
    assert drink.abv * 100 == pytest.approx(abv, abs=0.05)
    assert drink.volume_ml == pytest.approx(ml, rel=0.001)
    assert drink.sugar_g_per_l == pytest.approx(sugar, abs=0.1)


@pytest.mark.parametrize(("percent", "density"), SUCROSE_DENSITIES)
def test_syrup_has_the_density_of_the_crc_table(percent: float, density: float) -> None:
    """CRC Handbook 102nd ed., sucrose, g/mL at 20 °C; the table's own rounding is 0.00005."""
    assert 100 / Liquid(0, 100 - percent, percent).volume_ml == pytest.approx(density, abs=0.00005)


# Rows of the same table that the curve is not drawn through; g/mL, tolerance 0.0003.
@pytest.mark.parametrize(("percent", "density"), [(12, 1.0465), (24, 1.0990), (36, 1.1562), (46, 1.2079)])
def test_syrup_between_the_rows(percent: float, density: float) -> None:
    assert 100 / Liquid(0, 100 - percent, percent).volume_ml == pytest.approx(density, abs=0.0003)


@pytest.mark.parametrize(("share", "ml_per_g"), [(0.03, 0.615), (0.60, 0.628)])
def test_sugars_apparent_volume(share: float, ml_per_g: float) -> None:
    """From CRC sucrose densities, rounded to 0.001 mL/g."""
    assert sugar_ml_per_g(share) == pytest.approx(ml_per_g, abs=0.0005)


@given(volumes_ml, strengths, sugars_g_per_l)
def test_from_volume_is_the_inverse_of_what_it_reads(ml: float, abv: float, sugar: float) -> None:
    liquid = Liquid.from_volume(ml, abv, sugar)
    assert liquid.volume_ml == pytest.approx(ml, rel=1e-6)
    assert liquid.abv == pytest.approx(abv, abs=1e-6)
    assert liquid.sugar_g_per_l == pytest.approx(sugar, abs=1e-4)


@given(st.lists(drinks, max_size=5), st.randoms(use_true_random=False))
def test_mixing_commutes_and_conserves_mass(liquids: list[Liquid], order: Random) -> None:
    shuffled = list(liquids)
    order.shuffle(shuffled)
    one, other = mix(liquids), mix(shuffled)
    assert one.mass_g == pytest.approx(sum(liquid.mass_g for liquid in liquids))
    assert one.ethanol_g == pytest.approx(other.ethanol_g)
    assert one.water_g == pytest.approx(other.water_g)
    assert one.sugar_g == pytest.approx(other.sugar_g)


@given(drinks, drinks)
def test_mixing_never_leaves_the_range_of_its_parts(one: Liquid, other: Liquid) -> None:
    low, high = sorted((one.abv, other.abv))
    assert low - 0.002 <= (one + other).abv <= high + 0.002  # sugar's volume follows the water beside it


@given(drinks, st.floats(0.01, 1000.0))
def test_scaling_there_and_back_is_the_same_liquid(drink: Liquid, n: float) -> None:
    back = drink.scaled(n).scaled(1 / n)
    assert back.ethanol_g == pytest.approx(drink.ethanol_g)
    assert back.water_g == pytest.approx(drink.water_g)
    assert back.sugar_g == pytest.approx(drink.sugar_g)
    assert drink.scaled(n).abv == pytest.approx(drink.abv)
    assert drink.scaled(n).volume_ml == pytest.approx(drink.volume_ml * n)


@given(drinks, st.floats(0.0, 10_000.0))
def test_water_never_makes_a_drink_stronger(drink: Liquid, water_ml: float) -> None:
    assert (drink + Liquid.water(water_ml)).abv <= drink.abv + 1e-12


def test_nothing_is_empty() -> None:
    assert mix([]) == EMPTY
    assert (EMPTY.volume_ml, EMPTY.abv, EMPTY.sugar_g_per_l) == (0.0, 0.0, 0.0)
    assert Liquid.from_volume(0.0, 0.4) == EMPTY


def test_pure_ethanol_and_dry_sugar_have_a_volume() -> None:
    assert Liquid.from_volume(100.0, 1.0).water_g == pytest.approx(0.0, abs=1e-6)
    assert Liquid(0.0, 0.0, 100.0).volume_ml == pytest.approx(63.7, abs=0.1)


@pytest.mark.parametrize(
    ("ml", "abv", "sugar"),
    [
        (-1, 0.4, 0),
        (float("nan"), 0.4, 0),
        (float("inf"), 0.4, 0),
        (1, -0.1, 0),
        (1, 1.1, 0),
        (1, 0.4, -1),
        (1, 0.0, float("inf")),
        (1, 0.9, 400),
        (1, 0.0, 1700),
    ],
)
def test_impossible_liquid_is_refused(ml: float, abv: float, sugar: float) -> None:
    with pytest.raises(ValueError, match=r"impossible|do not fit"):
        Liquid.from_volume(ml, abv, sugar)


@pytest.mark.parametrize("masses", [(-1, 0, 0), (0, -1, 0), (0, 0, -1), (float("nan"), 0, 0)])
def test_negative_mass_is_refused(masses: tuple[float, float, float]) -> None:
    with pytest.raises(ValueError, match="less than nothing"):
        Liquid(*masses)


def test_negative_scale_is_refused() -> None:
    with pytest.raises(ValueError, match="less than nothing"):
        Liquid.water(10).scaled(-1)
