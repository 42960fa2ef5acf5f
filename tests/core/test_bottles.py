"""Whole bottles, whole serves and the vessel a volume fits.

Lives here: counts worked by hand (exact) and the properties every plan keeps.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.core.bottles import BOTTLES_ML, KEGS_ML, fit, keg, serves_in, to_buy

#: volume, headspace -> size, count
FITS = [
    (500.0, 0.0, 500.0, 1),
    (500.1, 0.0, 700.0, 1),
    (690.0, 31.0, 750.0, 1),
    (893.2, 31.0, 1000.0, 1),
    (980.0, 31.0, 1750.0, 1),
    (1750.0, 0.0, 1750.0, 1),
    (2100.0, 0.0, 700.0, 3),
    (2000.0, 0.0, 1000.0, 2),
    (3024.0, 0.0, 1750.0, 2),
    (2250.0, 0.0, 750.0, 3),
]

#: needed, bottle, stock -> bottles to buy, left over, what the stock is short of
BUYS = [
    (3000.0, 700.0, 0.0, 5, 500.0, 3000.0),
    (3000.0, 750.0, 0.0, 4, 0.0, 3000.0),
    (300 * 1.5 * 29.5735295625, 1000.0, 0.0, 14, 691.9, 13308.1),
    (80 * 29.5735295625, 750.0, 2250.0, 1, 634.1, 115.9),
    (2000.0, 750.0, 2250.0, 0, 250.0, 0.0),
    (0.0, 700.0, 0.0, 0, 0.0, 0.0),
]

#: vessel, serve -> whole serves
SERVES = [(700.0, 50.0, 14), (750.0, 45.0, 16), (750.0, 60.0, 12), (1000.0, 25.0, 40), (19500.0, 150.0, 130)]

volumes = st.floats(min_value=1.0, max_value=1e5)
headspaces = st.floats(min_value=0.0, max_value=500.0)


@pytest.mark.parametrize(("volume_ml", "headspace_ml", "size_ml", "count"), FITS)
def test_the_vessel_a_volume_fits(volume_ml: float, headspace_ml: float, size_ml: float, count: int) -> None:
    found = fit(volume_ml, headspace_ml)
    assert (found.size_ml, found.count) == (size_ml, count)


@given(volume_ml=volumes, headspace_ml=headspaces)
def test_a_plan_holds_all_of_it_with_its_headspace(volume_ml: float, headspace_ml: float) -> None:
    found = fit(volume_ml, headspace_ml)
    assert found.size_ml in BOTTLES_ML
    assert found.fill_ml * found.count == pytest.approx(volume_ml)
    assert found.fill_ml + found.spare_ml == pytest.approx(found.size_ml)
    assert found.spare_ml * found.count >= headspace_ml * (1 - 1e-6) - 1e-6 * volume_ml


@given(volume_ml=st.floats(min_value=1.0, max_value=1750.0))
def test_a_single_bottle_is_the_smallest_that_does(volume_ml: float) -> None:
    found = fit(volume_ml)
    assert found.count == 1
    assert [size for size in BOTTLES_ML if volume_ml <= size < found.size_ml] == []


@given(volume_ml=volumes)
def test_one_bottle_fewer_would_not_hold_it(volume_ml: float) -> None:
    found = fit(volume_ml)
    assert (found.count - 1) * found.size_ml < volume_ml


@pytest.mark.parametrize(("volume_ml", "size_ml"), [(4000.0, 5000.0), (5000.1, 9000.0), (19500.0, 19500.0)])
def test_the_smallest_keg_that_holds_it(volume_ml: float, size_ml: float) -> None:
    found = keg(volume_ml)
    assert found is not None
    assert (found.size_ml, found.count) == (size_ml, 1)


def test_no_keg_holds_more_than_the_largest() -> None:
    assert keg(KEGS_ML[-1], 1.0) is None


@pytest.mark.parametrize(("size_ml", "serve_ml", "count"), SERVES)
def test_whole_serves_in_a_vessel(size_ml: float, serve_ml: float, count: int) -> None:
    found = serves_in(size_ml, serve_ml)
    assert found.count == count
    assert found.left_ml == pytest.approx(size_ml - count * serve_ml)


@given(serve_ml=st.floats(min_value=0.1, max_value=500.0), count=st.integers(min_value=1, max_value=1000))
def test_a_vessel_of_whole_serves_gives_them_all(serve_ml: float, count: int) -> None:
    assert serves_in(serve_ml * count, serve_ml).count == count


@pytest.mark.parametrize(("needed_ml", "size_ml", "stock_ml", "count", "left_ml", "short_ml"), BUYS)
def test_bottles_to_buy(
    needed_ml: float, size_ml: float, stock_ml: float, count: int, left_ml: float, short_ml: float
) -> None:
    found = to_buy(needed_ml, size_ml, stock_ml)
    assert found.count == count
    assert found.left_ml == pytest.approx(left_ml, abs=0.1)
    assert found.short_ml == pytest.approx(short_ml, abs=0.1)


@given(
    needed_ml=st.floats(min_value=0.01, max_value=1e6),
    size_ml=st.floats(min_value=50.0, max_value=2000.0),
    stock_ml=st.floats(min_value=0.0, max_value=1e6),
)
def test_what_is_bought_is_enough_and_no_bottle_too_many(
    needed_ml: float, size_ml: float, stock_ml: float
) -> None:
    found = to_buy(needed_ml, size_ml, stock_ml)
    have_ml = stock_ml + found.count * size_ml
    assert have_ml >= needed_ml * (1 - 1e-6)
    assert found.count == 0 or have_ml - size_ml < needed_ml


@given(size_ml=st.floats(min_value=1.0, max_value=2000.0), count=st.integers(min_value=0, max_value=1000))
def test_exactly_full_bottles_leave_nothing_over(size_ml: float, count: int) -> None:
    found = to_buy(size_ml * count, size_ml)
    assert found.count == count
    assert found.left_ml == pytest.approx(0.0, abs=1e-6)


@pytest.mark.parametrize(("volume_ml", "headspace_ml"), [(0.0, 0.0), (-1.0, 0.0), (100.0, -1.0)])
def test_an_impossible_volume_is_refused(volume_ml: float, headspace_ml: float) -> None:
    with pytest.raises(ValueError, match="bottle"):
        fit(volume_ml, headspace_ml)


def test_an_impossible_serve_or_purchase_is_refused() -> None:
    with pytest.raises(ValueError, match="serve"):
        serves_in(700.0, 0.0)
    with pytest.raises(ValueError, match="bottle"):
        to_buy(1000.0, 0.0)
