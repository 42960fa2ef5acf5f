"""Rounding: figures as a bar measures them, columns that add up, nothing rounded further than half a step."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.reply import numbers
from bot.reply.numbers import US_FL_OZ_ML

VULGAR = {"¼": Fraction(1, 4), "½": Fraction(1, 2), "¾": Fraction(3, 4)}


def value(shown: str) -> Fraction:
    """What a shown figure says: "16¼" -> 16.25."""
    text = shown.split(" ", maxsplit=1)[0].rstrip("%")
    if text and text[-1] in VULGAR:
        return Fraction(text[:-1] or "0") + VULGAR[text[-1]]
    return Fraction(text)


volumes = st.floats(1.0, 200_000.0)
parts = st.lists(volumes, min_size=1, max_size=12)


@pytest.mark.parametrize(
    ("ml", "shown"),
    [
        (480.0, "480 mL"),
        (562.5, "563 mL"),
        (22.5, "22.5 mL"),
        (22.4, "22 mL"),
        (9.96, "10 mL"),
        (7.36, "7.4 mL"),
        (0.924, "0.92 mL"),
        (0.0, "0 mL"),
        (99.99999999, "100 mL"),
        (1350.0, "1350 mL"),
        (-0.001, "0 mL"),
    ],
)
def test_millilitres_as_a_jigger_shows_them(ml: float, shown: str) -> None:
    assert numbers.ml(ml) == shown


@pytest.mark.parametrize(
    ("oz", "shown"),
    [
        (16.23, "16¼ oz"),
        (15.0, "15 oz"),
        (0.5, "½ oz"),
        (5.41, "5.4 oz"),
        (3.38, "3.4 oz"),
        (0.62, "0.62 oz"),
        (0.03, "0.03 oz"),
        (1.0, "1 oz"),
        (338.14, "338¼ oz"),
    ],
)
def test_ounces_to_the_quarter_where_that_is_close(oz: float, shown: str) -> None:
    assert numbers.oz(oz * US_FL_OZ_ML) == shown


@given(volumes)
def test_millilitres_are_off_by_half_a_step_at_most(ml: float) -> None:
    step = 1.0 if ml >= 10.0 else 0.1
    assert abs(float(value(numbers.ml(ml))) - ml) <= step / 2 + 1e-6


@given(st.floats(0.2, 5000.0))
def test_ounces_are_off_by_two_percent_at_most(oz: float) -> None:
    shown = value(numbers.oz(oz * US_FL_OZ_ML))
    quarter = shown.denominator in (1, 2, 4) and shown % Fraction(1, 10) != 0
    assert abs(float(shown) - oz) <= (0.01 if quarter else 0.02) * oz + 0.005


@given(parts, st.booleans())
def test_parts_in_ml_add_up_to_the_sum_shown(mls: list[float], watered: bool) -> None:
    shown, total = numbers.ml_column(mls, len(mls) - 1 if watered else None)
    assert sum(map(value, shown)) == value(total)
    assert abs(float(value(total)) - sum(mls)) <= 0.5 + 0.05 * len(mls) + 1e-6


@given(parts, st.booleans())
def test_each_part_in_ml_is_off_by_a_step_at_most_and_water_by_the_slack(mls: list[float], watered: bool) -> None:
    shown, _ = numbers.ml_column(mls, len(mls) - 1 if watered else None)
    for at, (exact, text) in enumerate(zip(mls, shown, strict=True)):
        slack = numbers.WATER_SLACK_OF_TWINS * exact if watered and at == len(mls) - 1 else 0.0
        step = 1.0 if exact >= 9.95 else 0.05
        assert abs(float(value(text)) - exact) <= max(step, 0.5 + slack) + 1e-6


@given(st.lists(st.floats(0.05, 5000.0), min_size=1, max_size=12))
def test_parts_in_ounces_add_up_or_the_sum_is_within_one_percent(ozs: list[float]) -> None:
    shown, total = numbers.oz_column(ozs, [False] * len(ozs))
    added, exact = float(sum(map(value, shown))), sum(ozs)
    if abs(added - exact) <= 0.01 * exact:
        assert value(total) == sum(map(value, shown))
    else:
        assert abs(float(value(total)) - exact) <= 0.02 * exact + 0.005


@given(st.integers(1, 40), st.integers(1, 500))
def test_what_was_typed_in_quarter_ounces_scales_exactly(quarters: int, serves: int) -> None:
    ml = quarters / 4 * US_FL_OZ_ML * serves
    (shown,), total = numbers.oz_column([ml / US_FL_OZ_ML], [True])
    assert value(shown) == value(total) == Fraction(quarters, 4) * serves


def test_thirds_typed_in_ounces_are_not_pulled_to_the_quarter() -> None:
    assert numbers.oz_column([10 * 7 / 3, 5.0], [True, True]) == (["23.33", "5"], "28.33")


@pytest.mark.parametrize(
    ("mls", "water", "shown", "total"),
    [
        ([312.5, 312.5, 125.0], 2, ["313", "313", "124"], "750"),
        ([583.33, 116.67], 1, ["583", "117"], "700"),
        ([194.444, 194.444, 194.444, 116.667], 3, ["194", "194", "194", "118"], "700"),
        ([233.333, 233.333, 233.333], None, ["234", "233", "233"], "700"),
        ([1000.0, 400.0, 18.48], None, ["1000", "400", "18"], "1418"),
        ([50.0, 20.0, 5.0, 0.924], None, ["50", "20", "5", "0.9"], "75.9"),
        ([360.0, 7.36], None, ["360", "7.4"], "367.4"),
        ([450.4, 450.4, 450.4, 450.4, 1000.4], 4, ["450", "450", "450", "450", "1002"], "2802"),
    ],
)
def test_what_rounding_leaves_over(mls: list[float], water: int | None, shown: list[str], total: str) -> None:
    assert numbers.ml_column(mls, water) == (shown, total)


@given(st.floats(0.0, 1.0))
def test_percents_carry_one_decimal_and_no_noise(fraction: float) -> None:
    shown = numbers.percent(fraction)
    assert abs(float(value(shown)) - fraction * 100.0) <= 0.05 + 1e-6
    assert len(shown) <= 5


@given(st.floats(0.0, 0.99))
def test_the_way_out_errs_on_the_side_that_pours(fraction: float) -> None:
    assert float(value(numbers.percent_down(fraction))) <= fraction * 100.0 + 1e-3
    assert float(value(numbers.percent_up(fraction))) >= fraction * 100.0 - 1e-3


@given(st.floats(-60.0, 60.0))
def test_temperatures_are_whole_or_half_and_never_minus_nought(celsius: float) -> None:
    shown = numbers.degrees(celsius)
    assert value(shown) * 2 % 1 == 0
    assert abs(float(value(shown)) - celsius) <= 0.25 + 1e-6
    assert not shown.startswith("-0 ")
    assert not numbers.fahrenheit(celsius).startswith("-0 ")


@pytest.mark.parametrize(
    ("amount", "currency", "shown"),
    [
        (2.75238, "£", "£2.75"),
        (2.675, "$", "$2.68"),
        (35.0, "kr", "35.00 kr"),
        (4.5, "CHF", "4.50 CHF"),
        (3.0, "", "3.00"),
        (12.0, "A$", "A$12.00"),
        (-1.005, "€", "-€1.01"),
        (-0.001, "€", "€0.00"),
    ],
)
def test_money_has_two_decimals_and_only_the_currency_it_was_given(amount: float, currency: str, shown: str) -> None:
    assert numbers.money(amount, currency) == shown


@pytest.mark.parametrize(
    ("x", "shown"),
    [(59.147, "59.1"), (2.25, "2.25"), (5.9147, "5.91"), (0.0333, "0.033"), (3785.41, "3785"), (-0.0, "0")],
)
def test_plain_figures_keep_three_digits(x: float, shown: str) -> None:
    assert numbers.figure(x) == shown


@pytest.mark.parametrize(
    ("ml", "shown"), [(700.0, "700 mL"), (1000.0, "1 L"), (1750.0, "1.75 L"), (3785.4, "3785 mL"), (19500.0, "19.5 L")]
)
def test_vessels_are_called_by_their_size(ml: float, shown: str) -> None:
    assert numbers.size(ml) == shown


@pytest.mark.parametrize(("abv", "shown"), [(0.234, "47"), (0.4, "80"), (0.2325, "47")])
def test_proof_is_whole(abv: float, shown: str) -> None:
    assert numbers.proof(abv) == shown
