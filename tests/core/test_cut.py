"""Proofing down and blending against gauging tables, a pharmacopoeia and 27 CFR."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from bot.core.alcoholometry import SIXTY_F_C, density_kg_m3, mass_fraction_from_abv
from bot.core.cut import CannotRaise, blend, spirit_and_water, stronger_needed, water_to_cut
from bot.core.liquid import EMPTY, Liquid
from tests.core.liquids import spirited

# % from, % to, volumes of water to 100 of spirit: printed, tolerance; at 60 °F and 20 °C by R 22 (0.02).
# Printed: the Alcohol Dilution Reduction Table, based on the US Gauging Manual (60 °F).
WATER_TO_100 = [
    (95, 50, 95.9, 0.15, 95.91, 95.76),
    (80, 40, 104.0, 0.6, 103.98, 103.87),
    (70, 40, 77.6, 0.15, 77.57, 77.49),
    (60, 40, 51.4, 0.15, 51.43, 51.39),
    (60, 45, 34.5, 0.15, 34.46, 34.42),
    (40, 30, 33.5, 0.15, 33.53, 33.55),
    (40, 20, 100.0, 0.6, 100.01, 100.09),
]
# % from, % to, mL of spirit, mL of water to 1 L, tolerance 0.3: State Pharmacopoeia dilution table, 20 °C.
PHARMACOPOEIA = [(95.6, 40, 418.4, 610.6), (96, 80, 833.3, 186.8)]


@pytest.mark.parametrize(("high", "low", "printed", "tolerance", "at_60_f", "at_20_c"), WATER_TO_100)
def test_water_to_cut_100_volumes(
    high: float, low: float, printed: float, tolerance: float, at_60_f: float, at_20_c: float
) -> None:
    cut = water_to_cut(Liquid.from_volume(100.0, high / 100), low / 100)
    assert cut.water_ml == pytest.approx(printed, abs=tolerance)
    assert cut.water_ml == pytest.approx(at_20_c, abs=0.02)
    p, q = (mass_fraction_from_abv(percent / 100, SIXTY_F_C) for percent in (high, low))
    spirit_g = density_kg_m3(p, SIXTY_F_C) / 10
    water_g = spirit_g * (p / q - 1)
    assert water_g / density_kg_m3(0.0, SIXTY_F_C) * 1000 == pytest.approx(at_60_f, abs=0.02)


def test_112_to_100_us_proof() -> None:
    """12.42 gallons of water to 100 gallons: the example of 27 CFR 30.66; tolerance 0.05."""
    cut = water_to_cut(Liquid.from_volume(100.0, 0.56), 0.50)
    assert cut.water_ml == pytest.approx(12.42, abs=0.05)


@pytest.mark.parametrize(("high", "low", "spirit_ml", "water_ml"), PHARMACOPOEIA)
def test_spirit_and_water_for_a_litre(high: float, low: float, spirit_ml: float, water_ml: float) -> None:
    spirit, water = spirit_and_water(1000.0, high / 100, low / 100)
    assert spirit == pytest.approx(spirit_ml, abs=0.3)
    assert water == pytest.approx(water_ml, abs=0.3)


@given(spirited, st.floats(0.001, 0.75))
def test_cut_then_measured_is_the_target(drink: Liquid, abv: float) -> None:
    assume(abv <= drink.abv)
    cut = water_to_cut(drink, abv)
    assert cut.finished.abv == pytest.approx(abv, abs=1e-9)
    assert cut.water_ml >= 0.0
    assert (drink + Liquid.water(cut.water_ml)).abv == pytest.approx(abv, abs=1e-9)
    assert cut.finished.mass_g == pytest.approx(drink.mass_g + cut.water_g)


@given(spirited)
def test_no_water_when_already_there(drink: Liquid) -> None:
    cut = water_to_cut(drink, drink.abv)
    assert cut.water_ml == pytest.approx(0.0, abs=1e-6 * drink.volume_ml)
    assert cut.finished.mass_g == pytest.approx(drink.mass_g)


@given(st.floats(1.0, 1e5), st.floats(0.01, 1.0), st.floats(0.01, 1.0))
def test_spirit_and_water_make_what_was_asked(finished_ml: float, one: float, other: float) -> None:
    low, high = sorted((one, other))
    spirit_ml, water_ml = spirit_and_water(finished_ml, high, low)
    made = Liquid.from_volume(spirit_ml, high) + Liquid.water(water_ml)
    assert made.volume_ml == pytest.approx(finished_ml, rel=1e-8)
    assert made.abv == pytest.approx(low, abs=1e-8)
    assert (
        0.998 <= (spirit_ml + water_ml) / finished_ml <= 1.04
    )  # contraction, or a trace of swelling when weak


@given(st.floats(1.0, 1e5), st.floats(0.0, 0.9), st.floats(0.05, 0.1), st.floats(0.0, 1.0))
def test_blend_makes_what_was_asked(volume_ml: float, low: float, gap: float, part: float) -> None:
    high, abv = low + gap, low + gap * part
    low_ml, high_ml = blend(volume_ml, low, high, abv)
    made = Liquid.from_volume(low_ml, low) + Liquid.from_volume(high_ml, high)
    assert made.volume_ml == pytest.approx(volume_ml, rel=1e-6)
    assert made.abv == pytest.approx(abv, abs=1e-6)
    assert blend(volume_ml, high, low, abv) == pytest.approx((high_ml, low_ml))


@given(spirited, st.floats(0.01, 0.9))
def test_stronger_needed_reaches_the_target(drink: Liquid, target: float) -> None:
    assume(target > drink.abv)
    added_ml = stronger_needed(drink, target, 0.96)
    whole = drink + Liquid.from_volume(added_ml, 0.96)
    assert whole.abv == pytest.approx(target, abs=1e-9)


def test_blend_of_two_alike_is_either() -> None:
    assert blend(700.0, 0.4, 0.4, 0.4) == (0.0, 700.0)


def test_nothing_stronger_needed_when_already_there() -> None:
    drink = Liquid.from_volume(700.0, 0.4)
    assert stronger_needed(drink, drink.abv, 0.6) == 0.0


def test_water_cannot_raise() -> None:
    with pytest.raises(CannotRaise, match="water cannot raise 20 % to 40 %"):
        water_to_cut(Liquid.from_volume(100.0, 0.2), 0.4)
    with pytest.raises(CannotRaise, match="water cannot raise 20 % to 40 %"):
        spirit_and_water(1000.0, 0.2, 0.4)
    with pytest.raises(CannotRaise, match="water cannot raise 0 %"):
        water_to_cut(EMPTY, 0.4)


def test_neither_blending_nor_a_weaker_one_raises_above_the_stronger() -> None:
    with pytest.raises(CannotRaise, match="cannot make 50 %"):
        blend(1000.0, 0.2, 0.4, 0.5)
    with pytest.raises(CannotRaise, match="cannot raise anything to 40 %"):
        stronger_needed(Liquid.from_volume(100.0, 0.2), 0.4, 0.4)


def test_going_down_is_sent_to_water() -> None:
    with pytest.raises(ValueError, match="above 10 %"):
        blend(1000.0, 0.2, 0.4, 0.1)
    with pytest.raises(ValueError, match="add water"):
        stronger_needed(Liquid.from_volume(100.0, 0.4), 0.2, 0.6)


@pytest.mark.parametrize("abv", [0.0, -0.1, 1.1, float("nan")])
def test_impossible_target_is_refused(abv: float) -> None:
    with pytest.raises(ValueError, match="no strength to cut to"):
        water_to_cut(Liquid.from_volume(100.0, 0.4), abv)
