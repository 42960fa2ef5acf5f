"""Strengths of mixes and conversions, against arithmetic and the factors of NIST Handbook 44, Appendix C.

True strengths lie up to 0.4 points above plain arithmetic (contraction); hence the tolerance.
"""

import pytest

from bot.core.facts import Note
from bot.told import FRESH, Settings, Told
from grammar.request import Convert, Measure, Recipe, Strength, Water, Yield
from tests.answer.requests import answered, codes, lines, part, recipe, share

OZ = 29.5735295625
IMPERIAL = Told(Settings(ounce="imperial"))


@pytest.mark.parametrize(
    ("spec", "makes", "abv"),
    [
        (recipe("40% 60 ml gin", "18% 30 ml dry vermouth", water=Water("amount", 22, "ml")), Yield(), 0.2625),
        (recipe("45% 300 ml ", "35% 100 ml "), Yield(), 0.425),
        (recipe("40% 1 part gin", "16% 1 part sweet vermouth", "25% 1 part bitter red aperitif"), Yield(), 0.27),
        (recipe("47% 3 part gin", "18% 1 part dry vermouth", water=share(0.25)), Yield(), 0.318),
        (recipe("25% 1 l ", water=Water("amount", 250, "ml")), Yield(), 0.20),
        (recipe("43% 45 ml gin"), Yield(serves=8, volume=Measure(2, "l")), 0.0774),
        (Recipe((part("43% 45 ml ", whole=True),)), Yield(serves=8, volume=Measure(2, "l")), 0.0774),
        (recipe("40% 700 ml vodka", "1400 ml juice"), Yield(), 0.1333),
        (recipe("600 ml gin", "150 ml dry vermouth", water=Water("rest")), Yield(volume=Measure(1, "l")), 0.267),
    ],
)
def test_strength(spec: Recipe, makes: Yield, abv: float) -> None:
    assert answered(Strength(spec, makes)).abv == pytest.approx(abv, abs=0.004)


def test_a_ratio_has_a_strength_and_no_size() -> None:
    made = answered(Strength(recipe("3 part gin", "1 part dry vermouth")))
    assert (made.lines, made.measured_ml, made.serves, made.vessels) == ((), None, None, None)
    assert "serve_size" not in codes(made.assumed)
    assert made.freezer is not None
    assert made.freezer.headspace_ml is None


def test_filling_a_bowl_is_stated() -> None:
    made = answered(Strength(recipe("43% 45 ml gin"), Yield(serves=8, volume=Measure(2, "l"))))
    assert Note("filled_up", (2000.0,)) in made.assumed


@pytest.mark.parametrize(
    ("value", "unit", "to", "told", "result", "result_unit"),
    [
        (1.5, "oz", "ml", FRESH, 44.3603, "ml"),
        (45, "ml", "oz", FRESH, 1.5216, "us_fl_oz"),
        (45, "ml", "", FRESH, 1.5216, "us_fl_oz"),
        (2, "oz", "", FRESH, 59.1471, "ml"),
        (3, "oz", "ml", IMPERIAL, 85.2392, "ml"),
        (85.2392, "ml", "oz", IMPERIAL, 3.0, "imp_fl_oz"),
        (500, "ml", "cup", FRESH, 2.1134, "cup"),
        (1, "gallon", "l", FRESH, 3.7854, "l"),
        (16, "dash", "oz", FRESH, 0.5, "us_fl_oz"),
        (10, "ml", "dash", Told(Settings(dash_ml=0.8)), 12.5, "dash"),
        (86, "proof", "percent", FRESH, 43.0, "percent"),
        (46, "percent", "proof", FRESH, 92.0, "proof_us"),
        (46, "percent", "", FRESH, 92.0, "proof_us"),
        (-18, "c", "f", FRESH, -0.4, "f"),
        (0, "f", "c", FRESH, -17.7778, "c"),
        (38, "f", "", FRESH, 3.3333, "c"),
        (1, "lb", "g", FRESH, 453.59237, "g"),
        (100, "g", "", FRESH, 3.5274, "ozw"),
    ],
)
def test_one_amount(value: float, unit: str, to: str, told: Told, result: float, result_unit: str) -> None:
    (found,) = answered(Convert((Measure(value, unit),), to), told).results
    assert (found.unit, found.of) == (result_unit, f"{value:g} {unit}")
    assert found.value == pytest.approx(result, rel=1e-4)


def test_a_cup_with_no_unit_asked_comes_in_both_systems() -> None:
    made = answered(Convert((Measure(2, "cup"),)))
    assert [(r.unit, round(r.value, 2)) for r in made.results] == [("ml", 473.18), ("us_fl_oz", 16.0)]


@pytest.mark.parametrize(
    ("amounts", "parts"),
    [((50, 25, 25), [2, 1, 1]), ((60, 22.5, 15), [8, 3, 2]), ((100, 1.3), [77, 1])],
)
def test_parts(amounts: tuple[float, ...], parts: list[float]) -> None:
    made = answered(Convert(tuple(Measure(a, "ml") for a in amounts), "parts"))
    assert [r.value for r in made.results] == pytest.approx(parts, rel=0.02)


def test_pours_and_what_is_left() -> None:
    pours, left = answered(Convert((Measure(2, "l"),), "pours", None, Measure(1.5, "oz"))).results
    assert (pours.unit, left.unit, left.of) == ("pours", "ml", "left")
    assert pours.value == pytest.approx(2000 / 44.36029)
    assert left.value == pytest.approx(2000 - 45 * 44.36029, abs=0.01)


def test_a_spec_in_another_unit_keeps_its_amounts_and_says_nothing_of_strength() -> None:
    spec = recipe("60 ml gin", "22.5 ml lime juice", "15 ml simple syrup")
    made = answered(Convert((), "oz", spec))
    assert lines(made) == pytest.approx({"gin": 60, "lime juice": 22.5, "simple syrup": 15})
    assert (made.first, made.assumed, made.abv) == ("oz", (), None)
    in_cl = answered(Convert((), "cl", spec))
    assert [(r.value, r.unit) for r in in_cl.results] == [(6.0, "cl"), (2.25, "cl"), (1.5, "cl")]
    in_parts = answered(Convert((), "parts", spec))
    assert [r.value for r in in_parts.results] == [8, 3, 2]
