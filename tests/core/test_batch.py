"""Scaling: the worked batches of the water rules, and that scaling and its inverse agree."""

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.core.batch import fill, undiluted_of, water_for, water_share, whole_parts

ML = st.floats(1.0, 1e6)
SHARE = st.floats(0.0, 0.95)


@pytest.mark.parametrize(
    ("undiluted_ml", "share", "of_finished", "water_ml"),
    [
        (750.0, 0.20, False, 150.0),
        (750.0, 0.20, True, 187.5),  # 750 / 0.8 - 750
        (3000.0, 0.22, False, 660.0),
        (2000.0, 0.20, True, 500.0),
        (500.0, 0.0, True, 0.0),
    ],
)
def test_water_for_a_share(undiluted_ml: float, share: float, of_finished: bool, water_ml: float) -> None:
    assert water_for(undiluted_ml, share, of_finished) == pytest.approx(water_ml)
    assert undiluted_of(undiluted_ml + water_ml, share, of_finished) == pytest.approx(undiluted_ml)


@given(undiluted_ml=ML, share=SHARE, of_finished=st.booleans())
def test_a_share_of_water_is_found_again(undiluted_ml: float, share: float, of_finished: bool) -> None:
    water_ml = water_for(undiluted_ml, share, of_finished)
    assert water_share(water_ml, undiluted_ml, of_finished) == pytest.approx(share)


@pytest.mark.parametrize(
    ("options", "factor", "water_ml"),
    [
        ({"share": 0.25}, 16.0, 280.0),  # 2 x 700 of 60 + 10 with 25 % water
        ({"share": 0.20, "of_finished": True}, 16.0, 280.0),
        ({"water_ml": 15.0}, 1400.0 / 85.0, 1400.0 * 15.0 / 85.0),
        ({"fixed_water_ml": 280.0}, 16.0, 280.0),
        ({"fixed_ml": 140.0}, 18.0, 0.0),
    ],
)
def test_a_spec_of_70_ml_fills_1400(options: dict[str, Any], factor: float, water_ml: float) -> None:
    filled = fill(1400.0, 70.0, **options)
    assert filled.factor == pytest.approx(factor)
    assert filled.water_ml == pytest.approx(water_ml)
    assert filled.undiluted_ml + filled.water_ml == pytest.approx(1400.0)


@given(volume_ml=ML, spec_ml=ML, share=SHARE, of_finished=st.booleans())
def test_what_fills_a_volume_adds_up_to_it(volume_ml: float, spec_ml: float, share: float, of_finished: bool) -> None:
    filled = fill(volume_ml, spec_ml, share=share, of_finished=of_finished)
    assert filled.factor * spec_ml == pytest.approx(filled.undiluted_ml)
    assert water_for(filled.undiluted_ml, share, of_finished) == pytest.approx(filled.water_ml, abs=1e-9 * volume_ml)


@pytest.mark.parametrize(
    ("amounts", "parts"),
    [
        ((50.0, 25.0, 25.0), (2, 1, 1)),
        ((2.0, 0.75, 0.5), (8, 3, 2)),
        ((60.0, 22.5, 15.0), (8, 3, 2)),
        ((30.0,), (1,)),
        ((1000.0, 1.0), (1000, 1)),
        ((3.14159, 1.0), (16, 5)),  # within 2 %
    ],
)
def test_whole_parts(amounts: tuple[float, ...], parts: tuple[int, ...]) -> None:
    assert whole_parts(amounts) == parts


def test_no_small_whole_parts_are_made_up() -> None:
    assert whole_parts((1.0, 1.4142, 1.7321), most=2, tolerance=0.001) is None


@pytest.mark.parametrize(
    "impossible",
    [
        lambda: water_for(100.0, 1.0, True),
        lambda: water_for(-1.0, 0.2),
        lambda: water_for(100.0, float("nan")),
        lambda: undiluted_of(100.0, 1.5, True),
        lambda: water_share(10.0, 0.0),
        lambda: fill(0.0, 70.0),
        lambda: fill(1000.0, 0.0),
        lambda: fill(1000.0, 70.0, fixed_ml=1000.0),
        lambda: fill(1000.0, 70.0, fixed_water_ml=1200.0),
        lambda: whole_parts(()),
        lambda: whole_parts((1.0, 0.0)),
    ],
)
def test_impossible_figures_are_refused(impossible: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match=r"\w"):
        impossible()
