"""What a name stands for: message before shelf before pantry, vermouth by its company, brands read as their kind."""

import pytest

from bot.answer.ingredients import vermouth_kind
from bot.core.facts import Note
from bot.told import FRESH, Settings, ShelfBottle, Told
from grammar.request import Batch, Recipe, Strength, Yield
from tests.answer.requests import answered, lines, part, recipe

SHELF = Told(
    Settings(), (ShelfBottle("gin", 0.45), ShelfBottle("amaro", None, 0.0), ShelfBottle("rye", None, None, 700, 30))
)


@pytest.mark.parametrize(
    ("names", "kind", "beside"),
    [
        (("gin",), "dry vermouth", "gin"),
        (("vodka",), "dry vermouth", "vodka"),
        (("fino sherry",), "dry vermouth", "fino sherry"),
        (("navy strength gin",), "dry vermouth", "navy strength gin"),
        (("rye",), "sweet vermouth", "rye"),
        (("irish whiskey",), "sweet vermouth", "irish whiskey"),
        (("aged rum",), "sweet vermouth", "aged rum"),
        (("apple brandy",), "sweet vermouth", "apple brandy"),
        (("bitter red aperitif",), "sweet vermouth", "bitter red aperitif"),
        (("gin", "bitter red aperitif"), "sweet vermouth", "bitter red aperitif"),
        (("gin", "rye"), "dry vermouth", "gin"),
        (("rye", "gin"), "sweet vermouth", "rye"),
        (("tequila",), "vermouth", ""),
        (("sloe gin",), "vermouth", ""),
        ((), "vermouth", ""),
    ],
)
def test_vermouth_by_its_company(names: tuple[str, ...], kind: str, beside: str) -> None:
    assert vermouth_kind(names) == (kind, beside)


def test_plain_vermouth_is_named_for_what_it_is_taken_for() -> None:
    made = answered(Batch(recipe("60 ml gin", "10 ml vermouth"), Yield(serves=8)))
    assert lines(made)["dry vermouth"] == pytest.approx(80)
    assert Note("vermouth_kind", ("dry vermouth", "gin")) in made.assumed
    assert Note("abv", ("dry vermouth", 0.18)) in made.assumed


@pytest.mark.parametrize(
    ("told", "spec", "abv", "assumed"),
    [
        (FRESH, "60 ml gin", 0.40, (Note("abv", ("gin", 0.40)),)),
        (SHELF, "60 ml gin", 0.45, (Note("shelf", ("gin", 0.45)),)),
        (SHELF, "47% 60 ml gin", 0.47, ()),
        (FRESH, "47% 60 ml gin", 0.47, ()),
        (SHELF, "60 ml rye", 0.40, (Note("abv", ("rye", 0.40)),)),  # a price and a size say nothing of strength
        (FRESH, "60 ml lime juice", 0.0, ()),
    ],
)
def test_message_before_shelf_before_pantry(told: Told, spec: str, abv: float, assumed: tuple[Note, ...]) -> None:
    made = answered(Strength(recipe(spec)), told)
    assert made.abv == pytest.approx(abv, abs=1e-6)
    assert made.assumed == assumed


def test_the_shelfs_sugar_holds_beside_the_pantrys_strength() -> None:
    made = answered(Strength(recipe("60 ml amaro")), SHELF)
    assert made.sugar_g_per_l == 0.0
    assert made.abv == pytest.approx(0.28, abs=1e-6)


@pytest.mark.parametrize(
    ("typed", "name", "noted"),
    [
        ("acme gin", "gin", True),
        ("gin", "gin", False),
        ("fresh lime juice", "lime juice", False),
        ("lime", "lime juice", False),
        ("borbon", "bourbon", False),  # a slip, not a brand
        ("swet vermoth", "sweet vermouth", False),
        ("old hollow bourbon", "bourbon", True),
    ],
)
def test_a_brand_is_read_as_its_kind_and_said_so(typed: str, name: str, noted: bool) -> None:
    made = answered(Batch(Recipe((part(f"60 ml {name}", typed=typed),)), Yield(serves=2)))
    assert (Note("read_as", (typed, name)) in made.assumed) == noted


def test_one_unknown_ingredient_is_scaled_and_named_and_takes_the_strength_away() -> None:
    spec = Recipe((part("60 ml gin"), part("20 ml flurble", known=False)))
    made = answered(Batch(spec, Yield(serves=8)))
    assert lines(made) == pytest.approx({"gin": 480, "flurble": 160})
    assert (made.abv, made.freezer) == (None, None)
    assert made.remarks == (Note("unknown_strength", ("flurble",)),)


def test_an_unknown_ingredient_of_stated_strength_is_like_any_other() -> None:
    made = answered(Batch(Recipe((part("30% 60 ml flurble", known=False),)), Yield(serves=8)))
    assert made.abv == pytest.approx(0.30)
    assert made.remarks == ()


def test_a_nameless_liquid_goes_by_its_strength() -> None:
    made = answered(Strength(Recipe((part("50% 500 ml"), part("40% 500 ml")))))
    assert made.abv == pytest.approx(0.45, abs=0.001)
    assert [line.name for line in made.lines] == ["50%", "40%"]


def test_readings_the_grammar_noted_are_passed_on() -> None:
    spec = Recipe(recipe("60 ml gin").parts, notes=("skipped:few", "drink_parts:martini:gin, dry vermouth"))
    made = answered(Batch(spec, Yield(serves=2)))
    assert Note("skipped", ("few",)) in made.assumed
    assert Note("drink_parts", ("martini", "gin, dry vermouth")) in made.assumed
