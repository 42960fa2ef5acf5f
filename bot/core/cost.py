"""Cost: of an amount from its bottle, of a batch and a serve; pour cost, margin and price both ways.

Lives here: money arithmetic on floats in whatever currency the message speaks. Must never: know currencies,
names or rounding. Pour cost is cost / price before tax, gross margin is 1 - pour cost, markup is
price before tax / cost (common practice, no source). Tax rates are the message's: none is assumed.
"""

from collections.abc import Iterable
from dataclasses import dataclass

__all__ = [
    "Price",
    "Profit",
    "TotalCost",
    "affordable",
    "cost_of",
    "price_at_markup",
    "price_for_margin",
    "price_for_pour_cost",
    "priced",
    "profit",
    "total_cost",
]


@dataclass(frozen=True, slots=True)
class Price:
    """A price before tax (net), the tax on it, and with tax (gross)."""

    net: float
    tax: float
    gross: float


@dataclass(frozen=True, slots=True)
class Profit:
    """What a sale leaves: pour_cost and margin as fractions of the net price, markup as net price / cost."""

    cost: float
    price: Price
    pour_cost: float
    margin: float
    gross_profit: float

    @property
    def markup(self) -> float | None:
        """Net price as a multiple of the cost; None when it costs nothing."""
        return self.price.net / self.cost if self.cost else None


@dataclass(frozen=True, slots=True)
class TotalCost:
    """Cost of a batch and of one serve of it."""

    total: float
    per_serve: float


def cost_of(amount: float, bottle_price: float, bottle_size: float) -> float:
    """Cost of an amount out of a bottle; amount and bottle_size in one unit (mL, g or pieces).

    ValueError when the size is not above zero, or the price or the amount is below it.
    """
    if not (bottle_size > 0.0 and bottle_price >= 0.0 and amount >= 0.0):
        raise ValueError("a bottle needs a size above zero and a price not below")
    return bottle_price * amount / bottle_size


def total_cost(costs: Iterable[float], serves: float = 1.0) -> TotalCost:
    """Batch and serve cost of the ingredients' costs. ValueError without serves or with a negative cost."""
    parts = tuple(costs)
    if not serves > 0.0 or any(part < 0.0 for part in parts):
        raise ValueError("a cost needs at least one serve and no cost below zero")
    total = sum(parts)
    return TotalCost(total, total / serves)


def priced(price: float, tax_rate: float = 0.0, tax_in: bool = True) -> Price:
    """A price as stated, tax_in: the stated price includes the tax. tax_rate is a fraction (0.2 = 20 %).

    ValueError for a price not above zero or a negative rate.
    """
    if not (price > 0.0 and tax_rate >= 0.0):
        raise ValueError("a price must be above zero and a tax rate not below")
    net = price / (1.0 + tax_rate) if tax_in else price
    gross = net * (1.0 + tax_rate)
    return Price(net, gross - net, gross)


def profit(cost: float, price: float, tax_rate: float = 0.0, tax_in: bool = True) -> Profit:
    """Pour cost, margin and gross profit of a serve that costs `cost`, sold at `price`.

    tax_in: the stated price includes the tax; pour cost is always of the price before tax.
    A cost above the price is answered (pour cost above 1, margin below 0). ValueError as in priced().
    """
    if cost < 0.0:
        raise ValueError("a cost cannot be below zero")
    sold = priced(price, tax_rate, tax_in)
    share = cost / sold.net
    return Profit(cost, sold, share, 1.0 - share, sold.net - cost)


def price_for_pour_cost(cost: float, pour_cost: float, tax_rate: float = 0.0) -> Price:
    """The price at which `cost` is the fraction pour_cost of the price before tax.

    ValueError when the cost is not above zero or the pour cost is outside 0 < p <= 1.
    """
    if not 0.0 < pour_cost <= 1.0:
        raise ValueError(f"a pour cost of {pour_cost * 100:g} % is impossible")
    if not cost > 0.0:
        raise ValueError("a price needs a cost above zero")
    return priced(cost / pour_cost, tax_rate, tax_in=False)


def price_for_margin(cost: float, margin: float, tax_rate: float = 0.0) -> Price:
    """The price that leaves the fraction `margin` of the price before tax. ValueError outside 0 <= m < 1."""
    if not 0.0 <= margin < 1.0:
        raise ValueError(f"a margin of {margin * 100:g} % is impossible; it is a share of the price")
    return price_for_pour_cost(cost, 1.0 - margin, tax_rate)


def price_at_markup(cost: float, times: float, tax_rate: float = 0.0) -> Price:
    """The price of `times` the cost before tax (4 is a pour cost of 25 %). ValueError below 1."""
    if not times >= 1.0:
        raise ValueError(f"a markup of {times:g} times is below the cost")
    return price_for_pour_cost(cost, 1.0 / times, tax_rate)


def affordable(price: float, pour_cost: float, tax_rate: float = 0.0, tax_in: bool = True) -> float:
    """The most a serve may cost to keep a pour cost (fraction) at a price. ValueError as in the others."""
    if not 0.0 < pour_cost <= 1.0:
        raise ValueError(f"a pour cost of {pour_cost * 100:g} % is impossible")
    return priced(price, tax_rate, tax_in).net * pour_cost
