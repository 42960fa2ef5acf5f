"""Freezer and dilution. Freezing points, ice and swelling: CRC ethanol-water, with the accept ranges of the check values.
Regression of stirring and shaking: "Liquid Intelligence" (2014), as quoted, -1.21 a2 + 1.246 a + 0.145 and
-1.567 a2 + 1.742 a + 0.203.
"""

import pytest

from bot.core.facts import Note
from bot.told import FRESH, Settings, Told
from grammar.request import Dilution, Freezer, Measure, Part, Recipe, Yield
from tests.answer.requests import answered, codes, lines, recipe, share


def ml(value: float) -> Measure:
    return Measure(value, "ml")


@pytest.mark.parametrize(
    ("abv", "at_c", "state"),
    [
        (0.30, -18.0, "slush"),
        (0.40, -18.0, "liquid"),
        (0.40, -25.0, "slush"),
        (0.05, -18.0, "hard"),
        (0.15, 4.0, "liquid"),
    ],
)
def test_verdict(abv: float, at_c: float, state: str) -> None:
    facts = answered(Freezer(at_c, abv)).freezer
    assert facts is not None
    assert (facts.state, facts.at_c) == (state, at_c)


@pytest.mark.parametrize(
    ("request_", "low", "high", "unit"),
    [
        (Freezer(abv=0.25, ask="point"), -11.7, -10.9, "c"),
        (Freezer(abv=0.35, ask="point"), -19.7, -18.8, "c"),
        (Freezer(-18.0, 0.18, ask="ice"), 45, 50, "percent"),
        (Freezer(-18.0, 0.12, ask="headspace", volume=ml(1000)), 41, 57, "ml"),  # 1.0489, tol 0.008
        (Freezer(-18.0, 0.45, ask="most_water"), 31.9, 37.9, "percent"),
        (Freezer(-22.0, ask="least_abv"), 37.1, 39.1, "percent"),
    ],
)
def test_the_figure_asked_for(request_: Freezer, low: float, high: float, unit: str) -> None:
    made = answered(request_)
    assert made.focus == request_.ask
    assert made.results[0].unit == unit
    assert low <= made.results[0].value <= high


def test_the_chats_freezer_is_used_and_stated() -> None:
    made = answered(Freezer(abv=0.34), Told(Settings(freezer_c=-22.0)))
    assert made.freezer is not None
    assert made.freezer.state == "slush"
    assert made.assumed == (Note("freezer", (-22.0,)),)
    assert answered(Freezer(-22.0, 0.34)).assumed == ()


def test_a_spec_in_the_freezer_with_its_water() -> None:
    spec = recipe("40% 60 ml gin", "18% 10 ml dry vermouth", water=share(0.25))
    made = answered(Freezer(-18.0, None, spec))
    assert made.freezer is not None
    assert made.freezer.freezing_point_c == pytest.approx(-14.75, abs=0.5)  # check value, 3.4 g/L sugar
    assert made.abv == pytest.approx(0.2953, abs=0.001)


def test_a_bottle_by_name_alone() -> None:
    spec = Recipe((Part("vodka", Measure(1, "part"), "vodka"),))
    made = answered(Freezer(-18.0, None, spec, Yield(volume=Measure(1, "l"))))
    assert made.freezer is not None
    assert made.freezer.state == "liquid"
    assert Note("abv", ("vodka", 0.40)) in made.assumed


def test_when_even_undiluted_freezes_it_says_so() -> None:
    made = answered(Freezer(-18.0, 0.20, ask="most_water"))
    assert made.freezer is not None
    assert made.freezer.most_water is None
    assert codes(made.remarks) == ["not_even_undiluted"]


def test_a_full_bottle_of_what_swells_needs_room() -> None:
    spec = recipe("1 part gin", "1 part dry vermouth", water=share(0.25))
    makes = Yield(volume=ml(750), vessels=1, vessel_ml=750)
    assert codes(answered(Freezer(-18.0, None, spec, makes)).remarks) == ["no_headspace"]


@pytest.mark.parametrize(
    ("request_", "undiluted_ml", "water_ml"),
    [
        (Dilution(Measure(3, "l"), 0.22), 3000, 660),
        (Dilution(Measure(2, "l"), 0.20, True), 2000, 500),
        (Dilution(share=0.25, of_finished=True, finished=ml(1500)), 1125, 375),
        (Dilution(share=0.25, finished=ml(100)), 80, 20),
        (Dilution(ml(75), 0.30, serves=12), 900, 270),
        (Dilution(ml(600), water=ml(150)), 600, 150),
        (Dilution(water=ml(200), finished=ml(1000)), 800, 200),
        (Dilution(ml(80), finished=ml(100)), 80, 20),
        (Dilution(Measure(24, "oz"), water=Measure(6, "oz")), 709.765, 177.441),
    ],
)
def test_dilution(request_: Dilution, undiluted_ml: float, water_ml: float) -> None:
    made = answered(request_)
    assert made.undiluted_ml == pytest.approx(undiluted_ml, rel=1e-5)
    assert lines(made) == pytest.approx({"water": water_ml}, rel=1e-5)
    assert made.measured_ml == pytest.approx(undiluted_ml + water_ml, rel=1e-5)
    assert made.water_share == pytest.approx(water_ml / undiluted_ml, rel=1e-5)


@pytest.mark.parametrize(("of_finished", "shares"), [(False, [25, 20]), (True, [20, 25])])
def test_a_share_comes_both_ways_the_one_asked_for_first(of_finished: bool, shares: list[float]) -> None:
    made = answered(Dilution(ml(800), of_finished=of_finished, water=ml(200)))
    assert [r.value for r in made.results] == pytest.approx(shares)


@pytest.mark.parametrize(
    ("technique", "abv", "percent"),
    [
        ("stirred", 0.20, 34.58),
        ("stirred", 0.30, 40.99),
        ("stirred", 0.40, 44.98),
        ("shaken", 0.20, 48.87),
        ("shaken", 0.40, 64.91),
    ],
)
def test_what_ice_adds(technique: str, abv: float, percent: float) -> None:
    made = answered(Dilution(technique=technique, abv=abv))
    rule, balance = made.results
    assert rule.value == pytest.approx(percent, abs=0.05)
    assert made.water_share == pytest.approx(percent / 100, abs=0.0005)
    assert 20 < balance.value < 50
    assert codes(made.assumed) == [f"{technique}_water"]


def test_what_stirring_adds_to_a_spec() -> None:
    made = answered(Dilution(technique="stirred", recipe=recipe("40% 60 ml gin", "18% 10 ml dry vermouth")))
    assert made.kind == "dilution"
    assert made.water_share == pytest.approx(0.44, abs=0.012)  # 36.9 % before ice
    assert lines(made)["water"] == pytest.approx(70 * 0.44, abs=0.9)


def test_a_spec_with_its_own_share_is_batched() -> None:
    made = answered(Dilution(share=0.25, recipe=recipe("60 ml gin"), makes=Yield(serves=8)), FRESH)
    assert lines(made) == pytest.approx({"gin": 480, "water": 120})
