"""Typed characters to plain text, and places in it back to what was typed."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from grammar.clean import clean

PLAIN = [
    ("1½ oz", "1 1/2 oz"),
    ("½ oz", "1/2 oz"),
    ("６０ｍｌ gin", "60ml gin"),
    ("60\u200bml\u00a0gin", "60ml gin"),
    ("crème de cassis", "creme de cassis"),
    ("8 × 60 ml", "8 x 60 ml"),
    ("gin – 60 ml", "gin - 60 ml"),
    ("500ml → 45", "500ml  ->  45"),
    ("−18 °C", "-18 °c"),
    ("bee’s knees", "bee's knees"),
    ("🍸 8 serves", "  8 serves"),
    ("60 gin\r\n10 vermouth", "60 gin\n\n10 vermouth"),
    ("\u202e60 gin", "60 gin"),
]


@pytest.mark.parametrize(("typed", "plain"), PLAIN)
def test_plain_text(typed: str, plain: str) -> None:
    assert clean(typed).text == plain


@given(st.text(max_size=200))
def test_every_plain_character_came_from_somewhere(typed: str) -> None:
    cleaned = clean(typed)
    if cleaned.offsets is not None:
        assert len(cleaned.offsets) == len(cleaned.text) + 1
        assert all(0 <= at <= len(typed) for at in cleaned.offsets)
        assert list(cleaned.offsets) == sorted(cleaned.offsets)
    else:
        assert len(cleaned.text) == len(typed)


def test_a_place_points_into_what_was_typed() -> None:
    typed = "½ oz wörd"
    cleaned = clean(typed)
    start = cleaned.text.index("word")
    assert typed[slice(*cleaned.typed_at(start, start + 4))] == "wörd"
