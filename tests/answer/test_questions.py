"""What is asked instead of answered: contradictions, impossible figures, what is missing; with what would work."""

import pytest

from bot.answer import answer, ask
from bot.told import FRESH
from grammar.request import (
    Batch,
    Bottles,
    Convert,
    Cost,
    Cut,
    Dilution,
    Freezer,
    Label,
    Lot,
    Measure,
    Money,
    Part,
    Recipe,
    Request,
    Strength,
    Syrup,
    Trouble,
    Water,
    Yield,
)  # fmt: skip
from tests.answer.requests import part, recipe, share

MARTINI = recipe("60 ml gin", "10 ml dry vermouth")
RATIO = recipe("2 part rye", "1 part sweet vermouth")
NAN, INF = float("nan"), float("inf")


def ml(value: float) -> Measure:
    return Measure(value, "ml")


UNSAID = Water()
EIGHT = Yield(serves=8)


def batch(*parts: str, water: Water = UNSAID, makes: Yield = EIGHT) -> Batch:
    return Batch(recipe(*parts, water=water), makes)


@pytest.mark.parametrize(
    ("request_", "code"),
    [
        # a total that is not the spec times the serves
        (Batch(MARTINI, Yield(serves=8, volume=ml(2000))), "conflict_total"),
        (Batch(Recipe(MARTINI.parts, Water("none")), Yield(serves=8, volume=ml(2000))), "conflict_total"),
        (Batch(MARTINI, Yield(serves=10, guests=12, each=1)), "conflict_total"),
        (Batch(RATIO, Yield(serves=10, volume=ml(500), serve=ml(95), serve_is="finished")), "conflict_total"),
        (batch("600 ml gin", "600 ml dry vermouth", water=Water("rest"), makes=Yield(volume=ml(1000))), "conflict_total"),
        (Batch(recipe("2 part rye", "60 ml amaro"), Yield(serves=20, volume=ml(1000))), "conflict_total"),
        (Strength(recipe("60 ml gin"), Yield(serves=8, volume=ml(200))), "conflict_total"),
        # absurd
        (Batch(MARTINI, Yield(serves=1e9)), "too_large"),
        (Batch(MARTINI, Yield(guests=1e5, each=3)), "too_large"),
        (Batch(RATIO, Yield(volume=Measure(9e5, "l"))), "too_large"),
        (batch("50000 l gin", "25 ml lime juice"), "too_large"),
        # impossible
        (Batch(MARTINI, Yield(serves=0)), "out_of_range"),
        (Batch(MARTINI, Yield(serves=-5)), "out_of_range"),
        (Batch(MARTINI, Yield(serves=NAN)), "out_of_range"),
        (batch("-60 ml gin"), "out_of_range"),
        (batch("0 ml gin"), "out_of_range"),
        (Batch(Recipe((Part("gin", ml(INF)),))), "out_of_range"),
        (batch("140% 60 ml gin"), "out_of_range"),
        (batch("60 ml gin", water=share(1.0, True)), "out_of_range"),
        (batch("60 ml gin", water=share(-0.25)), "out_of_range"),
        (batch("60 ml gin", water=share(4.0)), "out_of_range"),
        (Convert((Measure(250, "proof"),), "percent"), "out_of_range"),
        (Convert((Measure(-300, "c"),), "f"), "out_of_range"),
        (Convert((ml(700),), "pours", None, ml(0)), "out_of_range"),
        (Cut((Lot(1.3, ml(1000)),), 0.4), "out_of_range"),
        (Cut((Lot(0.6, ml(1000)),), 0.0), "out_of_range"),
        (Cut((Lot(0.6, ml(0)),), 0.4), "out_of_range"),
        (Freezer(-18.0, 1.3), "out_of_range"),
        (Freezer(-400.0, 0.3), "out_of_range"),
        (Dilution(ml(1000), 1.1, of_finished=True), "out_of_range"),
        (Dilution(technique="stirred", abv=0.8), "out_of_range"),
        (Syrup(ratio=(2, 1), sugar=Measure(-200, "g")), "out_of_range"),
        (Syrup(percent=1.5, volume=ml(1000)), "out_of_range"),
        (Syrup("salt", percent=0.5, volume=ml(100)), "out_of_range"),
        (Cost(cost=Money(2), price=Money(0)), "out_of_range"),
        (Cost(cost=Money(2), margin=1.0), "out_of_range"),
        (Cost(cost=Money(2), pour_cost=0.0), "out_of_range"),
        (Label(ml(700), abv=2.5), "out_of_range"),
        # water cannot raise
        (Cut((Lot(0.4, ml(1000)),), 0.5), "cannot_raise"),
        (Cut((Lot(0.4), Lot(0.6)), 0.7, blend=True), "cannot_raise"),
        # a weight of a liquid
        (batch("60 g gin", "20 g dry vermouth"), "weight"),
        (Convert((Measure(100, "g"),), "ml"), "weight"),
        (Syrup("salt", percent=0.2, sugar=ml(50)), "weight"),
        # something is missing
        (Batch(Recipe(), Yield(serves=20)), "no_spec"),
        (Batch(Recipe((Part("gin", None), Part("lime juice", ml(20))))), "no_amounts"),
        (Batch(recipe("60 ml gin", water=Water("part", 1))), "no_amounts"),
        (Batch(recipe("60 ml gin", water=Water("rest"))), "no_volume"),
        (Batch(Recipe((part("60 ml flurble", known=False),))), "unread"),
        (Strength(Recipe((part("60 ml gin"), part("20 ml flurble", known=False)))), "no_strength"),
        (Freezer(-18.0), "no_strength"),
        (Freezer(None, None, Recipe((part("60 ml gin"), part("20 ml flurble", known=False)))), "no_strength"),
        (Cut((Lot(None, ml(900), "my infusion"),), 0.35), "no_strength"),
        (Cut((Lot(0.6), Lot(0.5, ml(700))), 0.4), "no_volume"),
        (Dilution(share=0.25), "no_volume"),
        (Dilution(technique="stirred"), "no_strength"),
        (Dilution(volume=ml(1000)), "no_amounts"),
        (Cost(MARTINI), "no_price"),
        (Cost(price=Money(14)), "no_price"),
        (Cost(Recipe((Part("gin", ml(700), price=Money(25), size=ml(700)),)), pour_cost=0.2), "no_serves"),
        (Bottles(recipe("50 ml gin")), "no_serves"),
        (Bottles(Recipe()), "no_amounts"),
        (Bottles(ask="hold"), "no_volume"),
        (Label(ask="drinks", abv=0.4), "no_volume"),
        (Label(ml(700)), "no_strength"),
        (Convert((), "oz"), "no_amounts"),
        (Batch(MARTINI, Yield(serves=8), unit="zz"), "unread"),
        # figures that contradict each other
        (Syrup(ratio=(1, 1), sugar=Measure(500, "g"), water=ml(250)), "conflict_amounts"),
        (Cut((Lot(0.6, ml(1000)),), 0.4, water=ml(100)), "conflict_total"),
    ],
)  # fmt: skip
def test_asks(request_: Request, code: str) -> None:
    made = answer(request_, FRESH)
    assert made.problem is not None, made
    assert (made.kind, made.problem.code) == ("question", code)


def test_a_conflict_says_what_it_comes_to() -> None:
    problem = answer(Batch(MARTINI, Yield(serves=8, volume=ml(2000))), FRESH).problem
    assert problem is not None
    assert problem.found == "8 x 70 ml is 560 ml, not 2000 ml"
    assert dict(problem.facts)["serves_in_volume"] == "28.6"


def test_within_bar_rounding_a_total_is_no_conflict() -> None:
    assert answer(Batch(MARTINI, Yield(serves=8, volume=ml(565))), FRESH).problem is None


def test_raising_says_how_much_of_something_stronger_would_do() -> None:
    problem = answer(Cut((Lot(0.4, ml(1000)),), 0.5), FRESH).problem
    assert problem is not None
    facts = dict(problem.facts)
    assert (facts["from"], facts["to"], facts["stronger"], facts["neutral"]) == ("40 %", "50 %", "60 %", "96 %")
    # plain arithmetic: 1000 x 10 / 10 and 1000 x 10 / 46; contraction takes up to 4 % off
    assert 950 < float(facts["stronger_ml"]) <= 1000
    assert 205 < float(facts["neutral_ml"]) <= 217.4


@pytest.mark.parametrize("at", [(3, 7), (-1, -1)])
def test_a_trouble_becomes_a_question(at: tuple[int, int]) -> None:
    made = ask(Trouble("unread", at, "2 oz", "oc", "2 oz gin", {"names": "oc"}))
    problem = made.problem
    assert problem is not None
    assert (problem.code, problem.found, problem.try_instead) == ("unread", "oc", "2 oz gin")
    assert problem.at == (at if at[0] >= 0 else None)
    assert dict(problem.facts) == {"names": "oc", "understood": "2 oz"}
