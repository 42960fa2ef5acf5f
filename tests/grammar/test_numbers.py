"""How numbers are typed, and the ones that must be asked about."""

import math

import pytest

from grammar.clean import clean
from grammar.lexer import lex
from grammar.pieces import number

READ = [
    ("45 ml", 45.0), ("1.5 oz", 1.5), ("1,5 oz", 1.5), (".75 oz", 0.75), ("½ oz", 0.5), ("1½ oz", 1.5),
    ("1 1/2 oz", 1.5), ("1-1/2 oz", 1.5), ("3/4 oz", 0.75), ("2 ¼ oz", 2.25), ("two oz", 2.0),
    ("a dozen serves", 12.0), ("half a dozen serves", 6.0), ("two dozen serves", 24.0), ("twenty five serves", 25.0),
    ("one and a half oz", 1.5), ("third of an oz", 1 / 3), ("three quarters of an oz", 0.75), ("half oz", 0.5),
    ("a couple of drops", 2.0), ("37,5% vodka", 37.5), ("1e3 serves", 1000.0), ("2 dozen serves", 24.0),
    ("1,250 ml", 1250.0), ("0.750 l", 0.75),
]  # fmt: skip


@pytest.mark.parametrize(("typed", "value"), READ)
def test_a_number_as_typed(typed: str, value: float) -> None:
    first = next(tok for tok in lex(clean(typed).text) if tok.type == "NUM")
    assert first.value == pytest.approx(value, rel=1e-12)


@pytest.mark.parametrize("typed", ["1.000", "2.500", "1.500"])
def test_a_point_before_three_digits_that_end_in_nought_is_unsure(typed: str) -> None:
    assert number(typed)[1]


@pytest.mark.parametrize(("typed", "value"), [("1,000", 1000.0), ("12,500", 12500.0), ("1.125", 1.125), ("0,375", 0.375)])
def test_marks_that_can_be_read_one_way(typed: str, value: float) -> None:
    assert number(typed) == (value, False)


def test_marks_that_make_no_number() -> None:
    value, unsure = number("1.2,3")
    assert math.isnan(value)
    assert unsure


WHOLE = ["lime", "lemon", "clove", "ozone", "glass", "campfire", "oldest", "clear", "ginger", "parts"]


@pytest.mark.parametrize("word", WHOLE)
def test_a_word_that_begins_with_a_unit_stays_whole(word: str) -> None:
    tokens = list(lex(f"2 oz {word}"))
    assert [tok.type for tok in tokens[:2]] == ["NUM", "UNIT"]
    assert tokens[2].text == word
