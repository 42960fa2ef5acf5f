"""Cost, pour cost, margin and price, worked by hand.

Lives here: cases with exact money (tolerance 1e-9) and that price and pour cost undo each other.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.core.cost import (
    affordable,
    cost_of,
    price_at_markup,
    price_for_margin,
    price_for_pour_cost,
    priced,
    profit,
    total_cost,
)

#: amount mL, bottle price, bottle mL -> cost
OF_A_BOTTLE = [
    (50.0, 21.0, 700.0, 1.5),
    (700.0, 21.0, 700.0, 21.0),
    (25.0, 18.0, 750.0, 0.6),
    (0.0, 21.0, 700.0, 0.0),
]

#: cost, price, rate, tax in -> pour cost
SALES = [
    (2.80, 14.0, 0.0, True, 0.20),
    (3.0, 15.0, 0.0, True, 0.20),
    (2.5, 12.0, 0.20, True, 0.25),
    (2.5, 10.0, 0.20, False, 0.25),
    (6.0, 5.0, 0.0, True, 1.2),
]

#: cost, margin, rate -> price before and with tax
MARGINS = [(2.10, 0.75, 0.0, 8.40, 8.40), (2.10, 0.75, 0.20, 8.40, 10.08), (1.0, 0.0, 0.10, 1.0, 1.10)]

money = st.floats(min_value=0.01, max_value=1e5)
fractions = st.floats(min_value=0.01, max_value=1.0)
rates = st.floats(min_value=0.0, max_value=0.5)


@pytest.mark.parametrize(("amount", "price", "size", "cost"), OF_A_BOTTLE)
def test_an_amount_costs_its_share_of_the_bottle(
    amount: float, price: float, size: float, cost: float
) -> None:
    assert cost_of(amount, price, size) == pytest.approx(cost)


def test_a_batch_costs_what_goes_in_and_a_serve_its_share() -> None:
    found = total_cost([12.0, 6.0, 1.5], 13.0)
    assert found.total == pytest.approx(19.5)
    assert found.per_serve == pytest.approx(1.5)


@pytest.mark.parametrize(("cost", "price", "rate", "tax_in", "pour_cost"), SALES)
def test_pour_cost_is_of_the_price_before_tax(
    cost: float, price: float, rate: float, tax_in: bool, pour_cost: float
) -> None:
    found = profit(cost, price, rate, tax_in)
    assert found.pour_cost == pytest.approx(pour_cost)
    assert found.margin == pytest.approx(1 - pour_cost)
    assert found.gross_profit == pytest.approx(found.price.net - cost)
    assert found.markup == pytest.approx(1 / pour_cost)


def test_what_costs_nothing_has_no_markup() -> None:
    assert profit(0.0, 5.0).markup is None


@pytest.mark.parametrize(("cost", "margin", "rate", "net", "gross"), MARGINS)
def test_price_for_a_margin(cost: float, margin: float, rate: float, net: float, gross: float) -> None:
    found = price_for_margin(cost, margin, rate)
    assert found.net == pytest.approx(net)
    assert found.gross == pytest.approx(gross)
    assert found.tax == pytest.approx(gross - net)


def test_what_can_be_spent_at_a_price() -> None:
    """12 a drink at 21 % pour cost: 2.52; the same price with 20 % tax inside: 2.10."""
    assert affordable(12.0, 0.21) == pytest.approx(2.52)
    assert affordable(12.0, 0.21, 0.20) == pytest.approx(2.10)


def test_markup_of_four_is_a_pour_cost_of_a_quarter() -> None:
    assert price_at_markup(2.5, 4.0).net == pytest.approx(10.0)


@given(cost=money, share=fractions, rate=rates)
def test_the_price_for_a_pour_cost_has_that_pour_cost(cost: float, share: float, rate: float) -> None:
    price = price_for_pour_cost(cost, share, rate)
    assert profit(cost, price.gross, rate, tax_in=True).pour_cost == pytest.approx(share)
    assert profit(cost, price.net, rate, tax_in=False).pour_cost == pytest.approx(share)
    assert affordable(price.gross, share, rate) == pytest.approx(cost)


@given(price=money, rate=rates)
def test_tax_in_and_tax_out_undo_each_other(price: float, rate: float) -> None:
    assert priced(priced(price, rate, tax_in=True).net, rate, tax_in=False).gross == pytest.approx(price)


@pytest.mark.parametrize(
    ("price", "size", "amount"), [(21.0, 0.0, 50.0), (-1.0, 700.0, 50.0), (21.0, 700.0, -1.0)]
)
def test_an_impossible_bottle_is_refused(price: float, size: float, amount: float) -> None:
    with pytest.raises(ValueError, match="bottle"):
        cost_of(amount, price, size)


@pytest.mark.parametrize("share", [0.0, -0.1, 1.01])
def test_an_impossible_pour_cost_is_refused(share: float) -> None:
    with pytest.raises(ValueError, match="impossible"):
        price_for_pour_cost(2.0, share)
    with pytest.raises(ValueError, match="impossible"):
        affordable(12.0, share)


@pytest.mark.parametrize("margin", [1.0, 1.5, -0.1])
def test_an_impossible_margin_is_refused(margin: float) -> None:
    with pytest.raises(ValueError, match="margin"):
        price_for_margin(2.0, margin)


def test_a_sale_without_a_price_and_a_cost_below_zero_are_refused() -> None:
    with pytest.raises(ValueError, match="price"):
        profit(1.0, 0.0)
    with pytest.raises(ValueError, match="below zero"):
        profit(-1.0, 5.0)
    with pytest.raises(ValueError, match="serve"):
        total_cost([1.0], 0.0)
    with pytest.raises(ValueError, match="cost above zero"):
        price_for_pour_cost(0.0, 0.2)
    with pytest.raises(ValueError, match="markup"):
        price_at_markup(2.0, 0.5)
