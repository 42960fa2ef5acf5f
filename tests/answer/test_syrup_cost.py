"""Syrups and money. Syrup: CRC sucrose densities (1:1 is 614.8 g/L, 2:1 886 g/L); money is arithmetic."""

import pytest

from bot.core.facts import Note
from bot.told import FRESH, Settings, ShelfBottle, Told
from grammar.request import Cost, Measure, Money, Part, Recipe, Syrup, Yield
from tests.answer.requests import answered, codes, recipe

SHELF = Told(
    Settings(currency="£"),
    (ShelfBottle("gin", 0.42, None, 700.0, 28.0), ShelfBottle("dry vermouth", 0.17, None, 750.0, 12.5)),
)


def g(value: float) -> Measure:
    return Measure(value, "g")


def ml(value: float) -> Measure:
    return Measure(value, "ml")


@pytest.mark.parametrize(
    ("request_", "sweet_g", "water_ml", "makes_ml"),
    [
        (Syrup(ratio=(1, 1), volume=Measure(1, "l"), by="weight"), 614.8, 615.9, 1000),
        (Syrup(ratio=(2, 1), sugar=g(1000)), 1000, 500.9, 1130),
        (Syrup(ratio=(3, 2), sugar=g(900), by="weight"), 900, 601.1, 1165),
        (Syrup(ratio=(1, 1), sugar=ml(500)), 422.7, 500, 762),  # by volume: 0.845 g/mL
        (Syrup(sugar=Measure(2, "cup"), water=Measure(1, "cup")), 400, 236.6, 488),
        (Syrup(ratio=(2, 1), water=ml(500)), 998.2, 500, 1128),
        (Syrup(percent=0.5, volume=Measure(1, "l")), 614.8, 615.9, 1000),
        (Syrup("honey", (3, 1), sugar=g(600), by="weight"), 600, 200.4, None),
        (Syrup("agave", (2, 1), sugar=g(350), by="weight"), 350, 175.3, None),
        (Syrup("salt", percent=0.20, volume=ml(100)), 20, 93.4, 100),
        (Syrup("salt", percent=0.20, sugar=g(50)), 50, 233.5, 250),
    ],
)
def test_syrup(request_: Syrup, sweet_g: float, water_ml: float, makes_ml: float | None) -> None:
    made = answered(request_)
    sweet, water = made.lines
    assert sweet.g == pytest.approx(sweet_g, rel=2e-3)
    assert water.ml == pytest.approx(water_ml, rel=2e-3)
    if makes_ml is not None:
        assert made.finished_ml == pytest.approx(makes_ml, rel=3e-3)


@pytest.mark.parametrize(
    ("request_", "assumed"),
    [
        (Syrup(ratio=(2, 1), sugar=g(1000)), ["by_weight"]),
        (Syrup(ratio=(2, 1), sugar=g(1000), by="weight"), []),
        (Syrup(volume=Measure(1, "l")), ["one_to_one", "by_weight"]),
        (Syrup(ratio=(2, 1)), ["by_weight", "per_litre"]),
        (Syrup(ratio=(1, 1), sugar=ml(500)), ["cup_weight", "by_volume"]),
        (Syrup("salt", volume=ml(100)), ["saline"]),
    ],
)
def test_what_a_syrup_assumes(request_: Syrup, assumed: list[str]) -> None:
    assert codes(answered(request_).assumed) == assumed


def test_sugar_content_has_no_lines() -> None:
    made = answered(Syrup(ratio=(2, 1), by="weight", ask="sugar_content"))
    assert (made.lines, made.finished_ml) == ((), None)
    assert made.brix == pytest.approx(66.67, abs=0.01)
    assert made.sugar_g_per_l == pytest.approx(886, rel=3e-3)
    assert answered(Syrup(ratio=(2, 1), volume=ml(25), ask="sugar_content")).sugar_g == pytest.approx(22.1, abs=0.1)


def priced(text: str, price: float, size_ml: float) -> Part:
    only = recipe(text).parts[0]
    return Part(only.name, only.measure, only.typed, True, None, Money(price), ml(size_ml))


GIN, VERMOUTH = priced("60 ml gin", 28, 700), priced("10 ml dry vermouth", 12, 750)


@pytest.mark.parametrize(
    ("request_", "told", "figures"),
    [
        (Cost(Recipe((priced("50 ml gin", 26, 700),))), FRESH, {"per_serve": 1.857143, "total": None}),
        (Cost(Recipe((GIN, VERMOUTH))), FRESH, {"per_serve": 2.56}),
        (Cost(Recipe((GIN, VERMOUTH)), Yield(serves=12)), FRESH, {"per_serve": 2.56, "total": 30.72}),
        (Cost(recipe("60 ml gin", "15 ml dry vermouth")), SHELF, {"per_serve": 2.65}),
        (Cost(Recipe((GIN, *recipe("2 dash orange bitters").parts))), FRESH, {"per_serve": 2.4}),
        (Cost(bottle=priced("50 ml rye", 34, 750)), FRESH, {"per_serve": 2.266667}),
        (Cost(cost=Money(2.8), price=Money(14)), FRESH, {"pour_cost": 0.2, "margin": 0.8, "markup": 5}),
        (Cost(Recipe((priced("35 ml gin", 24, 700),)), price=Money(6)), FRESH, {"per_serve": 1.2, "margin": 0.8}),
        (Cost(cost=Money(2.25), pour_cost=0.18), FRESH, {"price": 12.5}),
        (Cost(cost=Money(2.1), margin=0.75), FRESH, {"price": 8.4}),
        (Cost(cost=Money(2), markup=4), FRESH, {"price": 8, "pour_cost": 0.25}),
        (Cost(cost=Money(2.1), margin=0.8, tax=0.2, tax_in=True), FRESH, {"price": 12.6, "price_net": 10.5}),
        (Cost(cost=Money(2.1), margin=0.8, tax=0.2, tax_in=False), FRESH, {"price": 10.5}),
        (Cost(cost=Money(2.4), price=Money(12), tax=0.2, tax_in=True), FRESH, {"margin": 0.76, "price_net": 10}),
        (Cost(cost=Money(3), price=Money(15), tax_in=False), FRESH, {"pour_cost": 0.2}),
        (Cost(price=Money(12), pour_cost=0.21), FRESH, {"per_serve": 2.52}),
        (Cost(cost=Money(2), makes=Yield(serves=30)), FRESH, {"total": 60}),
    ],
)
def test_cost(request_: Cost, told: Told, figures: dict[str, float | None]) -> None:
    facts = answered(request_, told).cost
    assert facts is not None
    for name, value in figures.items():
        assert getattr(facts, name) == pytest.approx(value), name


@pytest.mark.parametrize(
    ("request_", "told", "currency"),
    [
        (Cost(cost=Money(2, "$"), price=Money(10)), FRESH, "$"),
        (Cost(recipe("60 ml gin")), SHELF, "£"),
        (Cost(cost=Money(2, "kr"), price=Money(10)), SHELF, "kr"),
        (Cost(cost=Money(2), price=Money(10)), FRESH, ""),
    ],
)
def test_no_currency_is_invented(request_: Cost, told: Told, currency: str) -> None:
    facts = answered(request_, told).cost
    assert facts is not None
    assert facts.currency == currency


@pytest.mark.parametrize(("country", "code", "net"), [("", "tax_in", 10.0), ("us", "tax_out", 12.0)])
def test_tax_said_without_in_or_out(country: str, code: str, net: float) -> None:
    made = answered(Cost(cost=Money(2), price=Money(12), tax=0.2), Told(Settings(country=country)))
    assert codes(made.assumed) == [code]
    assert made.cost is not None
    assert made.cost.price_net == pytest.approx(net)


def test_what_has_no_price_but_costs_next_to_nothing_is_named() -> None:
    made = answered(Cost(Recipe((GIN, *recipe("2 dash orange bitters").parts))))
    assert Note("unpriced", ("orange bitters",)) in made.assumed


def test_a_price_without_a_size_is_for_the_usual_bottle_and_says_so() -> None:
    only = recipe("50 ml gin").parts[0]
    made = answered(Cost(Recipe((Part("gin", only.measure, "gin", price=Money(28)),))))
    assert Note("bottle_size", ("gin", 700.0)) in made.assumed
