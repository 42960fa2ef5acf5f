"""Whole bottles, pours and vessels by arithmetic; labels and standard drinks by bot.core.label's rules
(US 0.6 US fl oz of ethanol, UK 10 mL, AU volume x % x 0.789 / 10, WHO 10 g).
"""

import pytest

from bot.core.facts import Note
from bot.told import FRESH, Settings, ShelfBottle, Told
from grammar.request import Bottles, Label, Measure, Recipe, Yield
from tests.answer.requests import answered, codes, part, recipe

SHELF = Told(Settings(), (ShelfBottle("gin", 0.42, None, 1000.0, 30.0),))


def ml(value: float) -> Measure:
    return Measure(value, "ml")


@pytest.mark.parametrize(
    ("request_", "told", "name", "count", "size", "left"),
    [
        (Bottles(recipe("40 ml tequila"), Yield(guests=120, each=1), 700.0), FRESH, "tequila", 7, 700, 100),
        (Bottles(recipe("60 ml gin"), Yield(serves=35), 700.0), FRESH, "gin", 3, 700, 0),  # 2100 mL, just three
        (Bottles(recipe("60 ml gin"), Yield(serves=50)), SHELF, "gin", 3, 1000, 0),
        (Bottles(recipe("60 ml gin"), Yield(serves=50)), FRESH, "gin", 5, 700, 500),
        (Bottles(recipe("60 ml gin"), Yield(serves=50)), Told(Settings(country="us")), "gin", 4, 750, 0),
        (Bottles(recipe("30 ml sweet vermouth"), Yield(serves=50)), FRESH, "sweet vermouth", 2, 750, 0),
        (Bottles(recipe("2 dash orange bitters"), Yield(serves=50)), FRESH, "orange bitters", 1, 200, 107.6),
    ],
)
def test_bottles_to_buy(request_: Bottles, told: Told, name: str, count: int, size: float, left: float) -> None:
    (facts,) = answered(request_, told).bottles
    assert (facts.name, facts.count, facts.size_ml) == (name, count, size)
    assert facts.left_ml == pytest.approx(left, abs=0.1)


@pytest.mark.parametrize(
    ("request_", "count", "left", "short"),
    [
        (Bottles(recipe("35 ml gin"), Yield(serves=45), stock=2, stock_ml=1400, ask="enough"), 1, None, 175),
        (Bottles(recipe("50 ml vodka"), Yield(serves=60), stock=4, stock_ml=4000, ask="enough"), 0, 1000, None),
        (Bottles(recipe("2 oz rye"), Yield(serves=40), 750.0, 3, ask="enough"), 1, None, 115.88),
        (Bottles(recipe("60 ml mezcal"), Yield(serves=14), 750.0, stock_ml=750, ask="enough"), 1, None, 90),
    ],
)
def test_stock(request_: Bottles, count: int, left: float | None, short: float | None) -> None:
    (facts,) = answered(request_).bottles
    assert facts.count == count
    assert facts.left_ml == (None if left is None else pytest.approx(left))
    assert facts.short_ml == (None if short is None else pytest.approx(short, abs=0.01))
    assert facts.have is not None


@pytest.mark.parametrize(
    ("request_", "value", "unit", "left"),
    [
        (Bottles(size_ml=700.0, pour=ml(35), ask="serves"), 20, "pours", 0),
        (Bottles(size_ml=1000.0, pour=ml(45), ask="serves"), 22.222, "pours", 10),
        (Bottles(size_ml=700.0, stock=0.5, pour=ml(50), ask="serves"), 7, "pours", 0),
        (Bottles(makes=Yield(volume=Measure(4.5, "l"), serve=ml(90)), ask="serves"), 50, "serves", 0),
        (Bottles(size_ml=700.0, pour=ml(45), used=9, ask="left"), 6.556, "pours", 25),
    ],
)
def test_pours(request_: Bottles, value: float, unit: str, left: float) -> None:
    pours, rest = answered(request_).results
    assert pours.unit == unit
    assert pours.value == pytest.approx(value, abs=0.001)
    assert (rest.unit, rest.of) == ("ml", "left")
    assert rest.value == pytest.approx(left, abs=1e-6)


def test_what_is_left_in_a_bottle() -> None:
    spec = Recipe((part("45 ml gin"),))
    (facts,) = answered(Bottles(spec, size_ml=700.0, pour=ml(45), used=9, ask="left")).bottles
    assert facts.name == "gin"
    assert facts.left_ml == pytest.approx(295)


@pytest.mark.parametrize(
    ("request_", "size", "count"),
    [
        (Bottles(makes=Yield(volume=Measure(2.4, "l")), size_ml=700.0, ask="hold"), 700, 4),
        (Bottles(makes=Yield(serves=24, serve=ml(110)), size_ml=1000.0, ask="hold"), 1000, 3),
        (Bottles(makes=Yield(volume=ml(680)), ask="hold"), 700, 1),
        (Bottles(recipe("60 ml gin", "20 ml dry vermouth"), Yield(serves=30), 750.0, ask="hold"), 750, 4),
    ],
)
def test_vessels_to_hold_a_volume(request_: Bottles, size: float, count: int) -> None:
    made = answered(request_)
    assert made.vessels is not None
    assert (made.vessels.size_ml, made.vessels.count) == (size, count)
    assert made.results[0].value == count


def test_room_in_a_bottle_is_said() -> None:
    made = answered(Bottles(makes=Yield(volume=ml(680)), size_ml=700.0, ask="hold"))
    assert made.remarks == (Note("fits", (20.0,)),)


def test_vessels_named_that_do_not_hold_it() -> None:
    makes = Yield(serves=12, vessels=1, vessel_ml=1000, volume=ml(1000))
    made = answered(Bottles(recipe("50 ml rye", "40 ml amaro"), makes, ask="hold"))
    assert made.remarks == (Note("does_not_fit", (1080.0, 1000.0)),)


@pytest.mark.parametrize(
    ("request_", "told", "drinks"),
    [
        (Label(ml(700), abv=0.22, ask="drinks"), FRESH, {"us": 8.682, "uk": 15.4, "au": 12.151, "who": 12.155}),
        (Label(ml(50), abv=0.40, country="uk", ask="drinks"), FRESH, {"uk": 2.0}),
        (Label(ml(50), 2, 0.40, country="uk", ask="drinks"), FRESH, {"uk": 4.0}),
        (Label(ml(700), abv=0.25), Told(Settings(country="au")), {"au": 13.81}),
        (
            Label(recipe=recipe("40% 60 ml gin", "18% 10 ml dry vermouth"), country="uk", ask="drinks"),
            FRESH,
            {"uk": 2.58},
        ),
        (Label(recipe=recipe("40% 60 ml gin"), makes=Yield(serves=10), country="uk", ask="drinks"), FRESH, {"uk": 2.4}),
    ],
)
def test_standard_drinks(request_: Label, told: Told, drinks: dict[str, float]) -> None:
    facts = answered(request_, told).label
    assert facts is not None
    assert dict(facts.drinks_serve or facts.drinks_bottle) == pytest.approx(drinks, rel=1e-3)


def test_a_label_states_the_rounded_strength_its_tolerance_and_to_measure_first() -> None:
    made = answered(Label(ml(700), abv=0.2437, country="eu"))
    assert made.label is not None
    assert (made.label.percent, made.label.tolerance, made.label.market) == (24.4, 0.3, "eu")
    assert codes(made.cautions) == ["measure_first"]
    assert made.label.drinks_bottle
    assert not made.label.drinks_serve


def test_no_country_said_is_stated() -> None:
    assert Note("country", ("eu",)) in answered(Label(ml(700), abv=0.24)).assumed


@pytest.mark.parametrize(
    ("spec", "expected"),
    [
        (recipe("50 ml bourbon", "15 ml egg white"), ("egg",)),
        (recipe("45 ml cognac", "30 ml cream"), ("milk",)),
        (recipe("60 ml rum", "20 ml orgeat"), ("nuts",)),
        (recipe("45 ml gin", "45 ml sweet vermouth"), ("sulphites",)),
        (recipe("200 ml beer"), ("cereals",)),
        (recipe("60 ml gin", "20 ml lime juice"), ()),
    ],
)
def test_allergens(spec: Recipe, expected: tuple[str, ...]) -> None:
    made = answered(Label(recipe=spec, ask="allergens"))
    assert made.label is not None
    assert made.label.allergens == expected
    assert made.assumed == ()


def test_allergens_of_an_unknown_ingredient_are_not_guessed() -> None:
    spec = Recipe((part("60 ml gin"), part("20 ml flurble", known=False)))
    assert answered(Label(recipe=spec, ask="allergens")).remarks == (Note("unknown_allergens", ("flurble",)),)


def test_a_labelled_spec_keeps_as_its_most_delicate_part() -> None:
    made = answered(Label(recipe=recipe("60 ml gin", "25 ml lime juice")))
    assert made.label is not None
    assert (made.label.keep_place, made.label.keep_days) == ("cold", 2)
