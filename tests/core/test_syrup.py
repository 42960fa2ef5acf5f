"""Syrups against CRC sucrose densities, worked ratios and the bar's usual cases.

Lives here: cases with source and tolerance. CRC Handbook 102nd ed. (2021), Concentrative Properties of
Aqueous Solutions: 50 % sucrose is 1.2295 g/mL, 60 % 1.2864, 20 % 1.0810 at 20 C.
"""

from typing import Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.core.liquid import Liquid
from bot.core.syrup import (
    AGAVE,
    HONEY,
    SUGAR,
    SWEETENERS,
    Sweetener,
    brix_of,
    from_sweet,
    from_volume,
    from_water,
    g_per_l_of,
    saline,
    share_of,
    share_of_brix,
    water_to_thin,
)

By = Literal["weight", "volume"]

#: what is made, by, volume mL -> sugar g, water g, tolerance g; source
VOLUMES: list[tuple[tuple[float, float], By, float, float, float, float, str]] = [
    ((1, 1), "weight", 1000, 614.75, 614.75, 0.1, "CRC 50 %: 1.2295"),
    ((3, 2), "weight", 1000, 771.84, 514.56, 0.1, "CRC 60 %: 1.2864"),
    ((1, 4), "weight", 1000, 216.2, 864.8, 0.1, "CRC 20 %: 1.0810"),
    ((2, 1), "weight", 750, 663.5, 331.7, 2.0, "CRC 60 and 70 %, straight line: 1.3264"),
    ((2, 1), "weight", 500, 442.3, 221.2, 2.0, "CRC 60 and 70 %, straight line: 1.3264"),
    ((1, 1), "volume", 1000, 552.3, 652.2, 6.0, "845 and 998 g make 1843 g of 45.9 %, CRC: 1.2045"),
    ((2, 1), "volume", 1000, 820.5, 484.4, 8.0, "1691 and 998 g make 2689 g of 62.9 %, CRC: 1.3049"),
]

#: sweetener at hand -> water: the ratio itself, exact
AT_HAND: list[tuple[Sweetener, tuple[float, float], By, float, float, float, str]] = [
    (SUGAR, (2, 1), "weight", 1000, 500.0, 1e-6, "1 kg of sugar, 2:1"),
    (SUGAR, (1, 1), "weight", 350, 350.0, 1e-6, "350 g of sugar, 1:1"),
    (HONEY, (3, 1), "weight", 500, 166.67, 0.01, "500 g of honey, 3:1"),
    (HONEY, (3, 1), "volume", 500, 116.1, 0.5, "500 g of honey is 349 mL (339 g a cup), 3:1"),
    (AGAVE, (2, 1), "weight", 300, 150.0, 1e-6, "300 g of agave, 2:1"),
    (SUGAR, (1, 1), "volume", 200, 236.17, 0.1, "a US cup of sugar (200 g), a cup of water at 0.9982 g/mL"),
]

#: Brix -> g/L: CRC density x share
BRIX = [(20, 216.2), (50, 614.75), (60, 771.84), (70, 943.04)]

shares = st.floats(min_value=0.02, max_value=0.84)
volumes = st.floats(min_value=1.0, max_value=1e5)
sweeteners = st.sampled_from(list(SWEETENERS.values()))


@pytest.mark.parametrize(("ratio", "by", "volume_ml", "sugar_g", "water_g", "tolerance", "source"), VOLUMES)
def test_sugar_and_water_for_a_volume(
    ratio: tuple[float, float],
    by: By,
    volume_ml: float,
    sugar_g: float,
    water_g: float,
    tolerance: float,
    source: str,
) -> None:
    made = from_volume(share_of(ratio, by), volume_ml)
    assert made.sweet_g == pytest.approx(sugar_g, abs=tolerance), source
    assert made.water_g == pytest.approx(water_g, abs=tolerance), source
    assert made.volume_ml == pytest.approx(volume_ml, rel=1e-9)


@pytest.mark.parametrize(("sweetener", "ratio", "by", "sweet_g", "water_g", "tolerance", "case"), AT_HAND)
def test_water_for_the_sweetener_at_hand(
    sweetener: Sweetener,
    ratio: tuple[float, float],
    by: By,
    sweet_g: float,
    water_g: float,
    tolerance: float,
    case: str,
) -> None:
    made = from_sweet(share_of(ratio, by, sweetener), sweet_g, sweetener)
    assert made.water_g == pytest.approx(water_g, abs=tolerance), case


@pytest.mark.parametrize(("brix", "g_per_l"), BRIX)
def test_brix_and_grams_per_litre(brix: float, g_per_l: float) -> None:
    """CRC sucrose densities, tolerance 0.1 g/L and 0.01 Brix."""
    assert g_per_l_of(brix) == pytest.approx(g_per_l, abs=0.1)
    assert brix_of(g_per_l) == pytest.approx(brix, abs=0.01)
    assert from_volume(share_of_brix(brix), 1000).sugar_g == pytest.approx(g_per_l, abs=0.1)


def test_honey_syrup_counts_only_the_sugars_of_honey() -> None:
    """USDA: 82.1 g sugars per 100 g; 1:1 by weight is 41.05 Brix."""
    made = from_volume(share_of((1, 1), "weight", HONEY), 1000, HONEY)
    assert made.brix == pytest.approx(41.05, abs=1e-6)
    assert made.sugar_g == pytest.approx(0.821 * made.sweet_g)


def test_honey_weighs_what_a_cup_of_it_weighs() -> None:
    """USDA cup of 339 g: 1.433 g/mL, and its sugar as sucrose (CRC 82.1 %) is within 1 % of it."""
    assert pytest.approx(1.433, abs=1e-3) == HONEY.g_per_ml
    assert Liquid(0.0, 17.9, 82.1).volume_ml == pytest.approx(100 / HONEY.g_per_ml, rel=0.01)


def test_thinning_a_rich_syrup_to_one_to_one() -> None:
    """2:1 by weight to 1:1: 100 g sugar with 50 g water wants 50 g more, 50.09 mL at 0.9982 g/mL."""
    assert water_to_thin(Liquid(0.0, 50.0, 100.0), 50.0) == pytest.approx(50.09, abs=0.01)


@pytest.mark.parametrize(
    ("percent", "volume_ml", "salt_g", "water_ml"),
    [(20, 100, 20.0, 93.4), (10, 500, 50.0, 483.5), (5, 100, 5.0, 98.4)],
)
def test_salt_in_a_saline_solution(percent: float, volume_ml: float, salt_g: float, water_ml: float) -> None:
    """w/v by definition; water from CRC NaCl densities (from memory), tolerance 1 % of the volume."""
    made = saline(percent, volume_ml)
    assert made.salt_g == pytest.approx(salt_g)
    assert made.water_ml == pytest.approx(water_ml, abs=0.01 * volume_ml)


@given(share=shares, volume_ml=volumes, sweetener=sweeteners)
def test_three_ways_to_the_same_syrup(share: float, volume_ml: float, sweetener: Sweetener) -> None:
    made = from_volume(share, volume_ml, sweetener)
    assert made.volume_ml == pytest.approx(volume_ml, rel=1e-9)
    assert from_sweet(share, made.sweet_g, sweetener).water_g == pytest.approx(made.water_g, rel=1e-9)
    assert from_water(share, made.water_ml, sweetener).sweet_g == pytest.approx(made.sweet_g, rel=1e-9)


@given(share=shares, volume_ml=volumes, k=st.floats(min_value=0.01, max_value=100))
def test_a_syrup_scales(share: float, volume_ml: float, k: float) -> None:
    assert from_volume(share, k * volume_ml).sweet_g == pytest.approx(
        k * from_volume(share, volume_ml).sweet_g, rel=1e-9
    )


@pytest.mark.parametrize("ratio", [(0, 1), (-1, 1), (1, -1), (float("nan"), 1)])
def test_an_impossible_ratio_is_refused(ratio: tuple[float, float]) -> None:
    with pytest.raises(ValueError, match="impossible"):
        share_of(ratio)


@pytest.mark.parametrize("brix", [-1.0, 0.0, 101.0])
def test_impossible_brix_is_refused(brix: float) -> None:
    with pytest.raises(ValueError, match="impossible"):
        share_of_brix(brix)


def test_honey_cannot_make_a_syrup_sweeter_than_itself() -> None:
    with pytest.raises(ValueError, match="honey"):
        share_of_brix(85.0, HONEY)


@pytest.mark.parametrize(("share", "amount"), [(0.0, 100.0), (1.2, 100.0), (0.5, 0.0), (0.5, -1.0)])
def test_a_syrup_of_nothing_is_refused(share: float, amount: float) -> None:
    for make in (from_volume, from_sweet, from_water):
        with pytest.raises(ValueError, match="share"):
            make(share, amount)


def test_water_cannot_sweeten() -> None:
    with pytest.raises(ValueError, match="cannot sweeten"):
        water_to_thin(Liquid(0.0, 50.0, 50.0), 60.0)


@pytest.mark.parametrize(("percent", "volume_ml"), [(32, 100), (0, 100), (-5, 100), (20, 0)])
def test_salt_beyond_what_dissolves_is_refused(percent: float, volume_ml: float) -> None:
    with pytest.raises(ValueError, match="salt"):
        saline(percent, volume_ml)
