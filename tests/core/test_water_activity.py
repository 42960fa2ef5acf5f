"""The handbook curves: that they pass through their rows, rise, and agree with what was left out."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.core.water_activity import (
    COLDEST_C,
    ETHANOL_DEPRESSION_C,
    PULL_OF_COLD,
    PULL_OF_ETHANOL,
    PULL_OF_SUGAR,
    STRONGEST_PULL,
    SUCROSE_DEPRESSION_C,
    Curve,
)

CURVES = {"cold": PULL_OF_COLD, "ethanol": PULL_OF_ETHANOL, "sugar": PULL_OF_SUGAR}
ENDS = {"cold": -COLDEST_C, "ethanol": 0.68, "sugar": 0.84}
# mass % sucrose, °C below zero, tolerance: CRC 102nd ed.; the rows from 1 to 3 % are not in the curve
# (two decimals), nor are 12, 22, 26, 30 and 38. 12 % also in The Science of Ice Cream, fig. 2.8.
SUCROSE_LEFT_OUT = [
    (1, 0.06), (2, 0.11), (3, 0.17), (12, 0.77), (22, 1.67), (26, 2.12), (30, 2.64), (38, 4.02),
]  # fmt: skip
# °C, -ln(water activity over ice): b θ + a θ² with b = 9.687e-3 and a = 4.835e-6 (Robinson and Stokes 1959,
# as quoted; a from memory). Tolerance 0.4 %, down to 20 °C below zero.
ROBINSON_STOKES = [1.0, 2.0, 5.0, 10.0, 15.0, 20.0]


@pytest.mark.parametrize(("percent", "depression_c"), ETHANOL_DEPRESSION_C)
def test_ethanol_curve_passes_through_every_row(percent: float, depression_c: float) -> None:
    assert PULL_OF_COLD.where(PULL_OF_ETHANOL.at(percent / 100)) == pytest.approx(depression_c, abs=1e-6)


@pytest.mark.parametrize(("percent", "depression_c"), SUCROSE_DEPRESSION_C)
def test_sugar_curve_passes_through_every_row(percent: float, depression_c: float) -> None:
    assert PULL_OF_COLD.where(PULL_OF_SUGAR.at(percent / 100)) == pytest.approx(depression_c, abs=1e-6)


@pytest.mark.parametrize(("percent", "depression_c"), SUCROSE_LEFT_OUT)
def test_sugar_curve_meets_the_rows_left_out(percent: float, depression_c: float) -> None:
    assert PULL_OF_COLD.where(PULL_OF_SUGAR.at(percent / 100)) == pytest.approx(depression_c, abs=0.02)


@pytest.mark.parametrize("below_c", ROBINSON_STOKES)
def test_pull_of_cold_agrees_with_robinson_and_stokes(below_c: float) -> None:
    expected = 9.687e-3 * below_c + 4.835e-6 * below_c**2
    assert PULL_OF_COLD.at(below_c) == pytest.approx(expected, rel=0.004)


@pytest.mark.parametrize("name", CURVES)
@given(part=st.floats(0.0, 1.0))
def test_where_is_the_inverse_of_at(name: str, part: float) -> None:
    x = part * ENDS[name]
    assert CURVES[name].where(CURVES[name].at(x)) == pytest.approx(x, abs=1e-7 * ENDS[name])


@pytest.mark.parametrize("name", CURVES)
@given(part=st.floats(0.0, 0.999))
def test_curves_rise(name: str, part: float) -> None:
    x = part * ENDS[name]
    assert CURVES[name].at(x + 0.001 * ENDS[name]) > CURVES[name].at(x)


def test_curve_is_level_beyond_its_ends() -> None:
    curve = Curve([(0.0, 1.0), (1.0, 2.0), (3.0, 10.0)])
    assert (curve.at(-1.0), curve.at(4.0)) == (1.0, 10.0)
    assert (curve.where(0.0), curve.where(11.0)) == (0.0, 3.0)


def test_sugar_table_reaches_as_far_as_the_ethanol_table() -> None:
    assert PULL_OF_SUGAR.at(0.84) > STRONGEST_PULL == PULL_OF_ETHANOL.at(0.68)
