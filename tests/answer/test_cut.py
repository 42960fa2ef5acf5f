"""Cuts and blends. Water by the Alcohol Dilution Reduction Table (ADRT, 100 volumes, 60 F, 0.15) where a row is named;
elsewhere a range from plain arithmetic (volumes add) to 6 % above it, which holds the true water.
"""

import pytest

from bot.core.facts import Answer, Note
from bot.core.liquid import Liquid
from bot.told import FRESH, Settings, ShelfBottle, Told
from grammar.request import Cut, Lot, Measure
from tests.answer.requests import answered, codes, lines

SHELF = Told(Settings(), (ShelfBottle("rye", 0.57, None, 700.0, 39.0),))


def ml(value: float) -> Measure:
    return Measure(value, "ml")


@pytest.mark.parametrize(
    ("start", "target", "water_ml", "tolerance"),
    [
        (0.95, 0.50, 95.9, 0.2),  # ADRT
        (0.70, 0.40, 77.6, 0.2),  # ADRT
        (0.60, 0.45, 34.5, 0.2),  # ADRT
        (0.40, 0.20, 100.0, 0.6),  # ADRT
    ],
)
def test_water_for_a_hundred(start: float, target: float, water_ml: float, tolerance: float) -> None:
    made = answered(Cut((Lot(start, ml(100)),), target))
    assert lines(made)["water"] == pytest.approx(water_ml, abs=tolerance)
    assert made.abv == pytest.approx(target, abs=1e-6)
    assert made.focus == "water"


@pytest.mark.parametrize(
    ("request_", "told", "expected"),
    [
        (Cut((Lot(0.63, Measure(1, "l")),), 0.46), FRESH, {"water": (369, 391)}),
        (Cut((Lot(0.43, ml(700)), Lot(0.60, ml(350))), 0.40), FRESH, {"43%": (700, 700), "water": (227, 241)}),
        (Cut((Lot(None, Measure(1, "l"), "gin"),), 0.35), FRESH, {"gin": (1000, 1000), "water": (142, 146)}),
        (Cut((Lot(None, None, "rye"),), 0.40), SHELF, {"rye": (700, 700), "water": (297, 309)}),
        (Cut((Lot(0.62),), 0.45), FRESH, {"62%": (1000, 1000), "water": (377, 400)}),
        (Cut((Lot(0.60, name="gin"),), 0.40, ml(700)), FRESH, {"gin": (466, 467), "water": (233, 247)}),
        (Cut((Lot(0.60),), 0.40, water=ml(500)), FRESH, {"60%": (960, 1000), "water": (500, 500)}),
        (Cut((Lot(0.63), Lot(0.40)), 0.50, Measure(1, "l"), blend=True), FRESH, {"63%": (430, 440), "40%": (560, 572)}),
        (Cut((Lot(0.75), Lot(0.38, ml(1000))), 0.45, blend=True), FRESH, {"75%": (222, 234), "38%": (1000, 1000)}),
    ],
)
def test_cuts(request_: Cut, told: Told, expected: dict[str, tuple[float, float]]) -> None:
    made = answered(request_, told)
    found = lines(made)
    assert ("water" in found) == ("water" in expected)
    for name, (low, high) in expected.items():
        assert low - 0.01 <= found[name] <= high + 0.01
    assert made.abv == pytest.approx(request_.target, abs=1e-6)
    if request_.finished is not None:
        assert made.finished_ml == pytest.approx(1000 if request_.finished.unit == "l" else 700)


def assert_assumed(made: Answer, *expected: str) -> None:
    assert codes(made.assumed) == list(expected)


def test_what_a_cut_assumes() -> None:
    assert_assumed(answered(Cut((Lot(0.62),), 0.45)), "per_litre")
    assert_assumed(answered(Cut((Lot(0.62), Lot(0.40)), 0.45, blend=True)), "per_litre")
    assert_assumed(answered(Cut((Lot(None, ml(700), "gin"),), 0.35)), "abv")
    assert_assumed(answered(Cut((Lot(None, None, "rye"),), 0.40), SHELF), "shelf", "bottle")
    assert_assumed(answered(Cut((Lot(0.62, ml(700)),), 0.45)))


@pytest.mark.parametrize(
    ("request_", "abv"),
    [
        (Cut((Lot(0.57, ml(700)),), water=ml(300)), 0.399),
        (Cut((Lot(0.46, ml(1000)),), water=ml(150)), 0.40),
        (Cut((Lot(0.55, ml(500)),), finished=ml(700)), 0.3929),  # 275 mL of ethanol in just 700
    ],
)
def test_strength_after_water(request_: Cut, abv: float) -> None:
    made = answered(request_)
    assert made.abv == pytest.approx(abv, abs=0.004)
    assert made.focus == "abv"


def test_by_weight_needs_no_volume() -> None:
    made = answered(Cut((Lot(0.70, Measure(2, "kg")),), 0.40, by_weight=True))
    grams = {line.name: line.g for line in made.lines}
    assert grams["70%"] == pytest.approx(2000)
    # mass shares 62.386 % and 33.300 % (OIML R 22): 2000 x 62.386 / 33.300 - 2000
    assert grams["water"] == pytest.approx(1746.9, abs=1.0)


def test_nothing_to_add_is_said() -> None:
    made = answered(Cut((Lot(0.40, ml(1000)),), 0.40))
    assert lines(made) == {"40%": 1000}
    assert made.remarks == (Note("same_strength"),)


def test_a_finished_volume_larger_than_the_lot_gives_says_what_is_short() -> None:
    made = answered(Cut((Lot(0.60, ml(300), "gin"),), 0.40, ml(700)))
    ((code, args),) = [(note.code, note.args) for note in made.remarks if note.code == "short"]
    assert (code, args[0]) == ("short", "gin")
    assert args[1] == pytest.approx(166.67, abs=0.1)


def test_masses_are_kept() -> None:
    made = answered(Cut((Lot(0.60, ml(1000)),), 0.40))
    assert made.finished_ml is not None
    assert made.abv is not None
    finished = Liquid.from_volume(made.finished_ml, made.abv)
    assert finished.ethanol_g == pytest.approx(Liquid.from_volume(1000, 0.60).ethanol_g)


def test_strong_in_bulk_is_cautioned_about() -> None:
    assert codes(answered(Cut((Lot(0.60, ml(1000)),), 0.40)).cautions) == ["flammable"]
    assert codes(answered(Cut((Lot(0.60, ml(100)),), 0.40)).cautions) == []
