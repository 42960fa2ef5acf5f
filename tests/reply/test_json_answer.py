"""The JSON answer: its shape, unrounded figures, strengths in percent, nothing that is absent."""

import json

import pytest

from bot.core.facts import Answer, Problem
from bot.reply.json_answer import to_json
from bot.reply.render_text import to_text
from bot.reply.say import say
from tests.reply.samples import OZ, SAMPLES

KEYS = {
    *("kind", "text", "title", "understood", "assumed", "lines", "serves", "undiluted_ml", "measured_ml"),
    *("finished_ml", "per_serve_ml", "spec_ml", "abv", "proof_us", "water_percent", "sugar_g", "sugar_g_per_l"),
    *("brix", "freezer", "results", "cost", "bottles", "items", "garnish", "remarks", "cautions", "actions"),
    *("vessels", "standard_drinks", "allergens", "label", "problem"),
}


def answered(name: str) -> dict[str, object]:
    answer = SAMPLES[name]
    return dict(to_json(answer, say(answer)))


def nothing_absent(value: object) -> bool:
    match value:
        case dict():
            return all(nothing_absent(v) for v in value.values())
        case list():
            return bool(value) and all(nothing_absent(v) for v in value)
        case _:
            return value is not None


@pytest.mark.parametrize("name", SAMPLES)
def test_the_shape_holds_for_every_kind(name: str) -> None:
    found = answered(name)
    assert found.keys() <= KEYS
    assert found["kind"] == SAMPLES[name].kind
    assert found["text"] == to_text(say(SAMPLES[name]))
    assert nothing_absent(found)
    assert json.loads(json.dumps(found)) == found


def test_a_batch_is_unrounded_and_in_percent() -> None:
    found = answered("batch")
    assert found["lines"] == [
        {"name": "gin", "ml": 480.0, "us_fl_oz": 480.0 / OZ, "abv": 40.0},
        {"name": "dry vermouth", "ml": 240.0, "us_fl_oz": 240.0 / OZ, "abv": 18.0},
        {"name": "water", "ml": 180.0, "us_fl_oz": 180.0 / OZ, "abv": 0.0},
    ]
    assert found["abv"] == pytest.approx(26.45)
    assert found["proof_us"] == pytest.approx(52.9)
    assert found["water_percent"] == 25.0
    assert found["freezer"] == {
        "at_c": -18.0,
        "freezing_point_c": -11.2,
        "state": "slush",
        "ice_percent": pytest.approx(34.1),
        "headspace_ml": 31.2,
        "most_water_percent": pytest.approx(12.4),
        "least_abv": pytest.approx(33.4),
    }
    assert found["vessels"] == {"count": 1, "size_ml": 1000.0, "fill_ml": 900.0}
    assert found["understood"] == "8 serves · 90 mL spec + 25% water"
    assert found["assumed"] == ["gin 40%", "dry vermouth 18%"]


def test_everything_understood_is_said_in_full() -> None:
    understood = answered("guests")["understood"]
    assert understood == "12 guests × 2, 24 serves, water 20% of the finished volume"


def test_money_carries_its_currency_and_shares_in_percent() -> None:
    assert answered("cost")["cost"] == {
        "currency": "£",
        "total": 33.0286,
        "per_serve": 2.75238,
        "price": 16.5143,
        "price_net": 13.76,
        "pour_cost_percent": 20.0,
        "margin_percent": 80.0,
        "markup": 5.0,
        "tax_percent": 20.0,
        "items": [{"name": "rye", "cost": 27.4286}, {"name": "sweet vermouth", "cost": 5.6}],
    }


def test_bottles_carry_what_is_short() -> None:
    assert answered("bottles short")["bottles"] == [
        {"name": "rye", "count": 1, "size_ml": 750.0, "need_ml": 2366.0, "short_ml": 116.0, "have": 3.0}
    ]


def test_a_label_carries_drinks_and_allergens() -> None:
    found = answered("label")
    assert found["standard_drinks"] == {"us": 9.6, "uk": 17.06, "au": 13.5}
    assert found["allergens"] == ["sulphites", "egg"]


def test_results_carry_value_unit_and_of() -> None:
    assert answered("convert")["results"] == [{"value": 59.147, "unit": "ml", "of": "2 US fl oz"}]


def test_a_question_names_its_problem_and_where() -> None:
    answer = Answer("question", problem=Problem("no_amounts", (0, 16), "gin", "", (("understood", "10 serves"),)))
    found = to_json(answer, say(answer))
    assert found["problem"] == {"code": "no_amounts", "at": [0, 16], "found": "gin"}
    assert found["understood"] == "10 serves"
