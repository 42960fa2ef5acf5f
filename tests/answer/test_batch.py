"""Batches: amounts, ratios, serves, volumes and water, each against a batch worked by hand.

mL are arithmetic and hold to 0.01 %; strengths and true volumes are bot.core's own tests.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.core.facts import Note
from bot.told import Settings, Told
from grammar.request import Batch, Measure, Part, Recipe, Water, Yield
from tests.answer.requests import answered, codes, lines, part, recipe, share

OZ = 29.5735295625
MARTINI = ("60 ml gin", "15 ml dry vermouth")
TWO_TO_ONE = ("2 part rye", "1 part sweet vermouth")
NEGRONI = ("700 ml gin", "350 ml sweet vermouth", "350 ml bitter red aperitif")
TOP_UP = Water("rest")
HALF_OUNCE = Water("amount", 0.5, "oz")


def ml(value: float) -> Measure:
    return Measure(value, "ml")


@pytest.mark.parametrize(
    ("spec", "makes", "expected"),
    [
        # amounts per serve
        (recipe(*MARTINI), Yield(serves=10), {"gin": 600, "dry vermouth": 150}),
        (recipe(*MARTINI), Yield(guests=6, each=3), {"gin": 1080, "dry vermouth": 270}),
        (recipe(*MARTINI), Yield(guests=6), {"gin": 360, "dry vermouth": 90}),
        (recipe(*MARTINI), Yield(guests=80, serves=2), {"gin": 9600, "dry vermouth": 2400}),
        (recipe(*MARTINI), Yield(), {"gin": 60, "dry vermouth": 15}),
        (recipe("200 ml gin", "80 ml lemon juice", base=4), Yield(serves=30), {"gin": 1500, "lemon juice": 600}),
        (recipe("200 ml gin", "80 ml lemon juice", base=4), Yield(), {"gin": 200, "lemon juice": 80}),
        (recipe("2 oz gin", "15 ml lime juice"), Yield(serves=20), {"gin": 40 * OZ, "lime juice": 300}),
        (recipe("60 ml rye", "2 dash orange bitters"), Yield(serves=12), {"rye": 720, "orange bitters": 24 * OZ / 32}),
        (recipe("60 ml bourbon", "1 count egg white"), Yield(serves=9), {"bourbon": 540, "egg white": 270}),
        # amounts for the whole batch
        (recipe(*NEGRONI, water=share(0.2)), Yield(), {"gin": 700, "water": 280}),
        (recipe(*NEGRONI, water=share(0.2)), Yield(serves=14), {"gin": 700, "water": 280}),
        (
            Recipe((part("60 ml gin"), part("750 ml dry vermouth", whole=True))),
            Yield(serves=10),
            {"gin": 600, "dry vermouth": 750},
        ),
        # a ratio and its size
        (recipe(*TWO_TO_ONE), Yield(serves=20), {"rye": 1200, "sweet vermouth": 600}),
        (recipe(*TWO_TO_ONE, water=HALF_OUNCE), Yield(serves=12), {"rye": 24 * OZ, "water": 6 * OZ}),
        (recipe(*TWO_TO_ONE), Yield(serves=10, serve=Measure(3, "oz")), {"rye": 20 * OZ, "sweet vermouth": 10 * OZ}),
        (
            recipe("5 part gin", "1 part dry vermouth", water=share(0.2)),
            Yield(serves=24, serve=ml(95), serve_is="finished"),
            {"gin": 1583.333, "dry vermouth": 316.667, "water": 380},
        ),
        (
            recipe("3 part gin", "1 part dry vermouth", water=share(0.25)),
            Yield(serves=8, serve=ml(80), serve_is="undiluted"),
            {"gin": 480, "water": 160},
        ),
        (
            recipe(*TWO_TO_ONE, "2 dash aromatic bitters"),
            Yield(serves=10),
            {"rye": 600, "sweet vermouth": 300, "aromatic bitters": 20 * OZ / 32},
        ),
        (
            recipe("4 part gin", "1 part dry vermouth", water=Water("part", 1)),
            Yield(serves=9),
            {"gin": 648, "dry vermouth": 162, "water": 162},
        ),
        # a volume to fill
        (recipe(*TWO_TO_ONE, water=share(0.2)), Yield(volume=ml(1500)), {"rye": 833.333, "water": 250}),
        (recipe(*TWO_TO_ONE, water=share(0.2, True)), Yield(volume=ml(1500)), {"rye": 800, "water": 300}),
        (recipe("60 ml gin", "10 ml fino sherry", water=share(0.25)), Yield(volume=ml(1400)), {"gin": 960, "water": 280}),
        (recipe(*MARTINI, water=Water("amount", 15, "ml")), Yield(volume=ml(900)), {"gin": 600, "water": 150}),
        (
            recipe("1 part lime juice", "2 part simple syrup", "3 part rum", water=Water("part", 4)),
            Yield(volume=Measure(10, "l")),
            {"lime juice": 1000, "simple syrup": 2000, "rum": 3000, "water": 4000},
        ),
        (
            recipe(*TWO_TO_ONE, "2 dash aromatic bitters"),
            Yield(volume=ml(1000), serves=10),
            {"rye": (1000 - 20 * OZ / 32) * 2 / 3, "aromatic bitters": 20 * OZ / 32},
        ),
        # water as the rest
        (recipe("600 ml gin", "150 ml dry vermouth", water=TOP_UP), Yield(volume=ml(1000)), {"gin": 600, "water": 250}),
        (recipe("60 ml gin", "30 ml rye", water=TOP_UP), Yield(volume=ml(1000), serves=8), {"gin": 480, "water": 280}),
        (recipe(*MARTINI, water=TOP_UP), Yield(serves=10, serve=ml(100)), {"gin": 600, "water": 250}),
        # water for the batch or for each
        (recipe(*MARTINI, water=Water("amount", 200, "ml", whole=True)), Yield(serves=8), {"gin": 480, "water": 200}),
        (recipe(*MARTINI, water=Water("amount", 1, "l")), Yield(serves=8), {"gin": 480, "water": 1000}),
        (recipe(*MARTINI, water=Water("none")), Yield(serves=8), {"gin": 480, "dry vermouth": 120}),
    ],
)  # fmt: skip
def test_amounts(spec: Recipe, makes: Yield, expected: dict[str, float]) -> None:
    found = lines(answered(Batch(spec, makes)))
    assert {name: found.get(name) for name in expected} == pytest.approx(expected, rel=1e-4)
    assert ("water" in found) == ("water" in expected or spec.water.how not in ("unsaid", "none"))


@pytest.mark.parametrize(
    ("spec", "makes", "assumed"),
    [
        (recipe(*TWO_TO_ONE), Yield(serves=20), [Note("serve_size", (90.0,))]),
        (recipe(*TWO_TO_ONE), Yield(), [Note("serve_size", (90.0,)), Note("one_serve")]),
        (recipe(*TWO_TO_ONE), Yield(volume=ml(750)), []),
        (
            recipe(*TWO_TO_ONE, water=HALF_OUNCE),
            Yield(serves=2),
            [Note("serve_size", (3 * OZ,)), Note("ounce", ("us",))],
        ),
        (recipe(*MARTINI), Yield(guests=6), [Note("one_each")]),
        (recipe(*NEGRONI), Yield(serves=14), [Note("whole_batch")]),
        (recipe(*NEGRONI), Yield(), []),
        (recipe("60 ml rye", "2 dash aromatic bitters"), Yield(serves=2), [Note("dash", (OZ / 32,))]),
        (recipe("1 shot gin"), Yield(serves=2), [Note("shot", (1.5 * OZ,))]),
        (recipe("1 barspoon gin"), Yield(serves=2), [Note("barspoon", (5.0,))]),
        (recipe("60 ml gin", "1 count egg white"), Yield(serves=2), [Note("each_ml", ("egg white", 30.0))]),
        (recipe(*MARTINI), Yield(serves=10, serve=ml(90)), [Note("scaled_to_serve", (90.0,))]),
        (recipe(*MARTINI), Yield(serves=10, serve=ml(75)), []),
        (recipe(*MARTINI, water=share(0.2)), Yield(serves=10, serve=ml(90)), []),  # 75 and its water
    ],
)
def test_assumptions_are_stated_and_only_those_used(spec: Recipe, makes: Yield, assumed: list[Note]) -> None:
    made = answered(Batch(spec, makes))
    about_size = [note for note in made.assumed if note.code != "abv"]
    assert sorted(about_size, key=lambda n: n.code) == sorted(assumed, key=lambda n: n.code)


def test_the_facts_of_a_batch_belong_together() -> None:
    spec = recipe("47% 60 ml gin", "18% 20 ml dry vermouth", water=share(0.25), drink="martini")
    made = answered(Batch(spec, Yield(serves=8)))
    assert (made.title, made.serves, made.first) == ("martini", 8, "ml")
    assert (made.undiluted_ml, made.measured_ml, made.spec_ml) == pytest.approx((640, 800, 80))
    assert made.finished_ml is not None
    assert 796 < made.finished_ml < 800  # contraction
    assert made.per_serve_ml == pytest.approx(made.finished_ml / 8)
    assert made.water_share == pytest.approx(0.25)
    assert made.abv == pytest.approx(0.318, abs=0.002)  # (480 x 47 + 160 x 18) / 800 = 31.8 %, a little more true
    assert made.freezer is not None
    assert made.freezer.at_c == -18.0
    assert made.vessels is not None
    assert made.vessels.count == 1


def test_most_water_is_where_the_drink_just_stays_liquid() -> None:
    spec = recipe("60 ml gin", "10 ml dry vermouth")
    wet = answered(Batch(Recipe(spec.parts, share(0.5)), Yield(serves=10)))
    assert wet.freezer is not None
    assert wet.freezer.most_water is not None
    assert wet.freezer.state == "slush"
    at_edge = answered(Batch(Recipe(spec.parts, share(wet.freezer.most_water)), Yield(serves=10)))
    assert at_edge.freezer is not None
    assert at_edge.freezer.freezing_point_c == pytest.approx(-18.0, abs=0.01)
    assert at_edge.abv == pytest.approx(wet.freezer.least_abv, abs=1e-4)


def test_sugar_lowers_the_strength_that_just_stays_liquid() -> None:
    dry = answered(Batch(recipe("1 part gin", "1 part fino sherry"), Yield(serves=10))).freezer
    sweet = answered(Batch(recipe("1 part gin", "1 part sweet vermouth", "1 part amaro"), Yield(serves=10))).freezer
    assert dry is not None
    assert sweet is not None
    assert (dry.most_water, sweet.most_water) == (None, None)
    assert dry.least_abv is not None
    assert sweet.least_abv is not None
    assert 0.332 < dry.least_abv < 0.334 + 0.002  # CRC: 33.3 % without sugar
    assert 0.25 < sweet.least_abv < dry.least_abv - 0.02


@pytest.mark.parametrize(
    ("spec", "makes", "size", "count", "asked"),
    [
        (recipe(*MARTINI, water=share(0.2)), Yield(serves=10), 1000.0, 1, False),  # 900 mL
        (recipe(*TWO_TO_ONE), Yield(volume=ml(750)), 750.0, 1, True),
        (recipe(*TWO_TO_ONE), Yield(volume=ml(1400), vessels=2, vessel_ml=700), 700.0, 2, True),
        (recipe(*TWO_TO_ONE), Yield(volume=Measure(19, "l")), 19500.0, 1, False),
    ],
)
def test_vessels(spec: Recipe, makes: Yield, size: float, count: int, asked: bool) -> None:
    vessels = answered(Batch(spec, makes)).vessels
    assert vessels is not None
    assert (vessels.size_ml, vessels.count, vessels.asked) == (size, count, asked)


def test_a_batch_too_large_for_the_vessel_named_says_so() -> None:
    makes = Yield(serves=20, volume=ml(1000), vessels=1, vessel_ml=1000)
    made = answered(Batch(recipe(*MARTINI), makes))
    assert made.remarks == (Note("does_not_fit", (1500.0, 1000.0)),)
    assert lines(made)["gin"] == pytest.approx(1200)


@pytest.mark.parametrize(
    ("spec", "makes", "settings", "unit", "first"),
    [
        (recipe("2 oz gin", "15 ml lime juice", "1 oz simple syrup"), Yield(serves=2), Settings(), "", "oz"),
        (recipe("60 ml gin", "1 dash orange bitters"), Yield(serves=2), Settings(), "", "ml"),
        (recipe("60 ml gin"), Yield(serves=2), Settings(first="oz"), "", "oz"),
        (recipe("60 ml gin"), Yield(serves=2), Settings(), "oz", "oz"),
        (recipe("2 oz gin"), Yield(serves=2), Settings(first="oz"), "ml", "ml"),
        (recipe(*TWO_TO_ONE), Yield(serves=2), Settings(), "", "ml"),
    ],
)
def test_which_system_comes_first(spec: Recipe, makes: Yield, settings: Settings, unit: str, first: str) -> None:
    assert answered(Batch(spec, makes, unit=unit), Told(settings)).first == first


def test_a_unit_the_table_does_not_show_comes_as_results() -> None:
    made = answered(Batch(recipe(*MARTINI), Yield(serves=10), unit="cl"))
    assert [(r.value, r.unit, r.of) for r in made.results] == [(60.0, "cl", "gin"), (15.0, "cl", "dry vermouth")]


@pytest.mark.parametrize(
    ("settings", "gin_ml"),
    [(Settings(), 40 * OZ), (Settings(ounce="imperial"), 40 * 28.4130625), (Settings(ounce="30ml"), 1200.0)],
)
def test_the_chats_ounce(settings: Settings, gin_ml: float) -> None:
    made = answered(Batch(recipe("2 oz gin"), Yield(serves=20)), Told(settings))
    assert lines(made)["gin"] == pytest.approx(gin_ml)
    assert made.ounce_ml == pytest.approx(gin_ml / 40)


def test_settings_of_serve_and_dash() -> None:
    told = Told(Settings(serve_ml=85.0, dash_ml=0.8))
    assert answered(Batch(recipe(*TWO_TO_ONE), Yield(serves=10)), told).undiluted_ml == pytest.approx(850)
    made = answered(Batch(recipe("60 ml rye", "2 dash aromatic bitters"), Yield(serves=25)), told)
    assert lines(made)["aromatic bitters"] == pytest.approx(40)


def test_counted_things_scale_and_carry_no_volume() -> None:
    made = answered(Batch(recipe("60 ml gin", "8 count mint leaf"), Yield(serves=15)))
    mint = next(line for line in made.lines if line.name == "mint leaf")
    assert (mint.count, mint.ml) == (120, None)
    assert made.measured_ml == pytest.approx(900)


def test_sugar_by_weight_is_dissolved() -> None:
    made = answered(Batch(recipe("600 ml water", "1000 g sugar", "400 ml gin"), Yield()))
    sugar = next(line for line in made.lines if line.name == "sugar")
    assert (sugar.g, sugar.ml) == (1000, None)
    assert made.finished_ml == pytest.approx(1000 + 620, rel=0.02)  # 0.62 mL a gram


@pytest.mark.parametrize(
    ("spec", "cautions"),
    [
        (recipe("60 ml bourbon", "25 ml lemon juice", "1 count egg white"), ["raw_egg", "keep_cold", "headspace"]),
        (recipe("60 ml gin", "25 ml lime juice"), ["keep_cold", "headspace"]),
        (recipe("57% 60 ml navy strength gin"), ["flammable"]),
        (recipe("60 ml gin", "10 ml dry vermouth"), []),
    ],
)
def test_cautions(spec: Recipe, cautions: list[str]) -> None:
    assert codes(answered(Batch(spec, Yield(serves=12))).cautions) == cautions


@pytest.mark.parametrize(("technique", "code"), [("stirred", "stirred_water"), ("shaken", "shaken_water")])
def test_water_that_ice_would_add_when_water_is_asked(technique: str, code: str) -> None:
    spec = recipe("60 ml rye", "30 ml sweet vermouth", technique=technique)
    made = answered(Batch(spec, Yield(serves=12), focus="water"))
    assert code in codes(made.assumed)
    assert made.water_share is not None
    assert 0.35 < made.water_share < 0.65
    assert answered(Batch(spec, Yield(serves=12))).water_share is None


def test_water_asked_for_without_a_technique_follows_the_ingredients() -> None:
    cloudy = answered(Batch(recipe("60 ml gin", "25 ml lime juice"), Yield(serves=2), focus="water"))
    clear = answered(Batch(recipe("60 ml gin", "25 ml dry vermouth"), Yield(serves=2), focus="water"))
    assert "shaken_water" in codes(cloudy.assumed)
    assert "stirred_water" in codes(clear.assumed)


AMOUNT = st.floats(1.0, 120.0)


@given(gin=AMOUNT, wine=AMOUNT, serves=st.integers(1, 200), water=st.floats(0.0, 0.9))
def test_a_bigger_batch_is_the_same_drink(gin: float, wine: float, serves: int, water: float) -> None:
    spec = Recipe((Part("gin", ml(gin)), Part("dry vermouth", ml(wine))), share(water))
    one, many = answered(Batch(spec)), answered(Batch(spec, Yield(serves=serves)))
    assert one.measured_ml is not None
    assert many.measured_ml == pytest.approx(one.measured_ml * serves)
    assert many.abv == pytest.approx(one.abv)
    assert sum(lines(many).values()) == pytest.approx(many.measured_ml)


@given(gin=AMOUNT, wine=AMOUNT, volume=st.floats(100.0, 1e5), water=st.floats(0.0, 0.9), finished=st.booleans())
def test_a_volume_is_filled_exactly(gin: float, wine: float, volume: float, water: float, finished: bool) -> None:
    spec = Recipe((Part("gin", ml(gin)), Part("dry vermouth", ml(wine))), share(water, finished))
    made = answered(Batch(spec, Yield(volume=ml(volume))))
    found = lines(made)
    assert sum(found.values()) == pytest.approx(volume)
    assert found["gin"] / found["dry vermouth"] == pytest.approx(gin / wine)
