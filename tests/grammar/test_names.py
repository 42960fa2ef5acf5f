"""Spelling repair: what it mends, and that it never turns one known word into another."""

import pytest

from grammar.ingredients import GARNISHES, SPELLINGS
from grammar.lexer import lex
from grammar.lexicon import LEXICON
from grammar.names import NEVER, nearest, repair
from grammar.words_measures import UNITS

MENDED = [
    ("watter", "water"), ("vermuoth", "vermouth"), ("bourbn", "bourbon"), ("manhatan", "manhattan"), ("daquiri", "daiquiri"),
    ("dilutoin", "dilution"), ("maraschinno", "maraschino"), ("tequilla", "tequila"),
]  # fmt: skip


def meaning(word: str) -> object:
    """What a single known word stands for."""
    return next((entries[0] for spelling, entries in LEXICON.by_first.get(word, ()) if len(spelling) == 1), word)


@pytest.mark.parametrize(("typed", "meant"), MENDED)
def test_a_slip_is_mended(typed: str, meant: str) -> None:
    mended = repair(typed)
    assert mended is not None
    assert meaning(mended) == meaning(meant)


@pytest.mark.parametrize("word", ["weather", "joke", "menus", "driver", "write", "gin", "oz", "capital"])
def test_plain_english_is_left_alone(word: str) -> None:
    assert repair(word) is None


def test_no_known_word_is_ever_taken_for_another() -> None:
    """All pairs: a word that is known is read as itself, so no ingredient becomes another and no unit another unit."""
    spellings = [s for name, others in {**SPELLINGS, **GARNISHES}.items() for s in (name, *others)]
    spellings += [s for spelled in UNITS.values() for s in spelled.split("|")]
    for spelling in spellings:
        for tok in lex(f"2 {spelling}"):
            assert tok.type != "WORD", f"{spelling!r}: {tok.text!r} is not known"


def test_each_ingredient_spelling_is_read_as_that_ingredient() -> None:
    for name, others in SPELLINGS.items():
        if name == "water":
            continue
        for spelling in (name, *others):
            read = [tok for tok in lex(f"60 ml {spelling}") if tok.type == "ING"]
            assert [tok.value for tok in read] == [name], f"{spelling!r} is read as {[tok.value for tok in read]}"


def test_words_that_are_never_mended_are_not_known() -> None:
    assert not {word for word in NEVER if word in LEXICON.words}


def test_a_house_specs_name_is_found_over_one_slip_but_not_over_a_tie() -> None:
    assert nearest("fog bel", ["fog bell", "low tide"]) == "fog bell"
    assert nearest("fog beld", ["fog bell", "fog belt"]) is None
    assert nearest("tide", ["tied"]) is None
