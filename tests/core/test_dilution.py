"""Stirred, shaken and heat-balance dilution against the reference rows."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.core.dilution import ice_dilution, ice_equilibrium, shaken_dilution, stirred_dilution
from bot.core.freezing import freezing_point_c
from bot.core.liquid import EMPTY, Liquid

# strength, stirred, shaken / undiluted volume; tolerance 0.0005.
# "Liquid Intelligence" (2014) regressions, digits agreeing in three quotations.
REGRESSION = [(0.20, 0.3458, 0.4887), (0.30, 0.4099, 0.5846), (0.40, 0.4498, 0.6491)]
# strength, °C, water / volume; tolerance 0.03. Heat balance of a 20 °C drink on 0 °C ice.
HEAT_BALANCE = [
    (0.20, -2, 0.29),
    (0.20, -5, 0.36),
    (0.30, -2, 0.28),
    (0.30, -5, 0.35),
    (0.40, -2, 0.27),
    (0.40, -5, 0.33),
]
# strength, °C (tolerance 0.5), water / volume (tolerance 0.03) where the ice stops melting.
EQUILIBRIUM = [(0.20, -5.4, 0.37), (0.30, -8.7, 0.43), (0.40, -12.5, 0.49)]


@pytest.mark.parametrize(("abv", "stirred", "shaken"), REGRESSION)
def test_book_regression(abv: float, stirred: float, shaken: float) -> None:
    assert stirred_dilution(abv) == pytest.approx(stirred, abs=0.0005)
    assert shaken_dilution(abv) == pytest.approx(shaken, abs=0.0005)


@pytest.mark.parametrize("abv", [0.119, 0.501, 0.0, float("nan")])
def test_regression_says_nothing_outside_its_range(abv: float) -> None:
    with pytest.raises(ValueError, match="stirred dilution rule holds from 12 to 50 % ABV"):
        stirred_dilution(abv)
    with pytest.raises(ValueError, match="shaken dilution rule holds from 12 to 50 % ABV"):
        shaken_dilution(abv)


@pytest.mark.parametrize(("abv", "end_c", "dilution"), HEAT_BALANCE)
def test_heat_balance(abv: float, end_c: float, dilution: float) -> None:
    assert ice_dilution(Liquid.from_volume(100.0, abv), 20.0, end_c) == pytest.approx(dilution, abs=0.03)


@pytest.mark.parametrize(("abv", "end_c", "dilution"), EQUILIBRIUM)
def test_equilibrium(abv: float, end_c: float, dilution: float) -> None:
    chilled = ice_equilibrium(Liquid.from_volume(100.0, abv), 20.0)
    assert chilled.temperature_c == pytest.approx(end_c, abs=0.5)
    assert chilled.dilution == pytest.approx(dilution, abs=0.03)


@given(st.floats(0.0, 0.6), st.floats(0.0, 200.0), st.floats(5.0, 30.0))
def test_equilibrium_is_the_freezing_point_of_what_it_makes(abv: float, sugar: float, start_c: float) -> None:
    drink = Liquid.from_volume(100.0, abv, sugar)
    chilled = ice_equilibrium(drink, start_c)
    diluted = drink + Liquid.water(chilled.dilution * drink.volume_ml)
    assert freezing_point_c(diluted) == pytest.approx(chilled.temperature_c, abs=1e-3)


@given(st.floats(0.2, 0.5), st.floats(5.0, 30.0), st.floats(0.0, 3.0))
def test_colder_takes_more_ice(abv: float, start_c: float, by_c: float) -> None:
    drink = Liquid.from_volume(100.0, abv)
    assert ice_dilution(drink, start_c, 0.5 - by_c) >= ice_dilution(drink, start_c, 0.5)


@pytest.mark.parametrize(
    ("liquid", "start_c", "end_c", "why"),
    [
        (EMPTY, 20.0, -2.0, "no drink"),
        (Liquid.from_volume(100.0, 0.3), 0.0, 5.0, "from 0 to 5"),
        (Liquid.from_volume(100.0, 0.3), 20.0, -15.0, "does not get this drink down"),
        (Liquid.water(100.0), 95.0, 0.0, "the ice melts"),
    ],
)
def test_impossible_chilling_is_refused(liquid: Liquid, start_c: float, end_c: float, why: str) -> None:
    with pytest.raises(ValueError, match=why):
        ice_dilution(liquid, start_c, end_c)


@pytest.mark.parametrize(
    ("liquid", "start_c", "why"),
    [
        (EMPTY, 20.0, "no drink"),
        (Liquid.from_volume(100.0, 0.3), -20.0, "already as cold"),
        (Liquid.water(100.0), 95.0, "the ice melts"),
    ],
)
def test_impossible_equilibrium_is_refused(liquid: Liquid, start_c: float, why: str) -> None:
    with pytest.raises(ValueError, match=why):
        ice_equilibrium(liquid, start_c)
