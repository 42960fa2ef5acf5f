"""Whatever the grammar could ever hand over, there is an answer or a question, and no figure in it is infinite."""

from dataclasses import fields, is_dataclass
from math import isfinite

from hypothesis import given
from hypothesis import strategies as st

from bot.answer import answer
from bot.core.facts import Answer
from bot.told import FRESH, Settings, ShelfBottle, Told
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
    Water,
    Yield,
)  # fmt: skip

FIGURE = st.one_of(st.floats(), st.sampled_from([0.0, -1.0, 1.0, 60.0, 1e308]))
MEASURE = st.builds(Measure, FIGURE, st.sampled_from(["ml", "oz", "dash", "part", "count", "g", "", "zz", "l"]))
PART = st.builds(
    Part, st.sampled_from(["gin", "vermouth", "lime juice", "sugar", "flurble", "water", "mint leaf", ""]),
    st.none() | MEASURE, st.just("typed"), st.booleans(), st.none() | FIGURE, whole=st.booleans(),
)  # fmt: skip
WATERS = st.builds(
    Water, st.sampled_from(["unsaid", "none", "of_undiluted", "of_finished", "amount", "rest", "part"]), FIGURE,
    st.sampled_from(["ml", "oz", "g"]), st.booleans(),
)  # fmt: skip
YIELD = st.builds(
    Yield, st.none() | FIGURE, st.none() | FIGURE, st.none() | FIGURE, st.none() | MEASURE, st.none() | FIGURE,
    st.none() | FIGURE, st.none() | MEASURE, st.sampled_from(["undiluted", "finished", "unsaid"]),
)  # fmt: skip


RECIPE = st.builds(
    Recipe, st.lists(PART, max_size=4).map(tuple), WATERS, st.just("drink"), st.none() | FIGURE, st.just(()),
    st.sampled_from(["", "stirred", "shaken"]),
)  # fmt: skip
MONEY = st.builds(Money, FIGURE, st.sampled_from(["", "$"]))
MAYBE = st.none() | FIGURE
SIZE = st.none() | MEASURE
LOT = st.builds(
    Lot, st.none() | st.sampled_from([0.4, 0.6, 0.0, 1.0]) | FIGURE, SIZE, st.sampled_from(["", "gin", "zz"])
)
REQUEST: st.SearchStrategy[Request] = st.one_of(
    st.builds(Batch, RECIPE, YIELD, st.sampled_from(["", "water", "gin"]), st.sampled_from(["", "oz", "cl", "zz"]), MAYBE),
    st.builds(Strength, RECIPE, YIELD, MAYBE),
    st.builds(
        Convert, st.lists(MEASURE, max_size=3).map(tuple), st.sampled_from(["", "ml", "oz", "parts", "proof", "c", "g"]),
        st.none() | RECIPE, SIZE,
    ),
    st.builds(Cut, st.lists(LOT, max_size=3).map(tuple), MAYBE, SIZE, SIZE, st.booleans(), st.booleans()),
    st.builds(
        Freezer, MAYBE, MAYBE, st.none() | RECIPE, YIELD,
        st.sampled_from(["verdict", "point", "least_abv", "most_water", "headspace", "ice"]), SIZE,
    ),
    st.builds(
        Dilution, SIZE, MAYBE, st.booleans(), SIZE, MAYBE, SIZE, st.sampled_from(["", "stirred", "shaken"]), MAYBE,
        st.none() | RECIPE, YIELD,
    ),
    st.builds(
        Syrup, st.sampled_from(["sugar", "honey", "agave", "salt"]), st.none() | st.tuples(FIGURE, FIGURE), SIZE, SIZE,
        SIZE, st.sampled_from(["", "weight", "volume"]), MAYBE, st.sampled_from(["make", "sugar_content"]),
    ),
    st.builds(
        Cost, st.none() | RECIPE, YIELD, st.none() | MONEY, st.none() | MONEY, MAYBE, MAYBE, MAYBE, MAYBE,
        st.none() | st.booleans(),
    ),
    st.builds(
        Bottles, st.none() | RECIPE, YIELD, MAYBE, MAYBE, MAYBE, SIZE, MAYBE,
        st.sampled_from(["buy", "enough", "serves", "hold", "left"]),
    ),
    st.builds(
        Label, SIZE, FIGURE, MAYBE, st.none() | RECIPE, YIELD, st.sampled_from(["", "us", "uk", "zz"]),
        st.sampled_from(["label", "drinks", "allergens"]),
    ),
)  # fmt: skip
BAR = Told(
    Settings("imperial", "oz", -60.0, 85.0, country="us"),
    (ShelfBottle("gin", 0.5, 10.0, 700.0, 25.0), ShelfBottle("sugar", None, 0.0, None, 3.0)),
)


def figures(fact: object) -> list[float]:
    """Every float in a fact."""
    if is_dataclass(fact):
        return [x for field in fields(fact) for x in figures(getattr(fact, field.name))]
    if isinstance(fact, tuple):
        return [x for part in fact for x in figures(part)]
    return [fact] if isinstance(fact, float) else []


@given(request=REQUEST, told=st.sampled_from([FRESH, BAR]))
def test_an_answer_or_a_question_and_finite(request: Request, told: Told) -> None:
    made: Answer = answer(request, told)
    assert (made.kind == "question") == (made.problem is not None)
    assert all(isfinite(x) for x in figures(made))
    assert answer(request, told) == made
