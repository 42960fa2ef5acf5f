"""Every problem code at least once, with its full reply as it stands: a wording is changed here on purpose or not at all."""

from typing import Literal, get_args

import pytest

from bot.answer.turn import turn
from bot.desk import now_utc, said
from bot.told import FRESH

Code = Literal[
    "empty", "not_ours", "health", "too_long", "no_amounts", "no_spec", "no_strength", "no_volume", "no_serves", "no_price",
    "unread", "unclear_number", "conflict_amounts", "conflict_total", "ratio_names", "cannot_raise", "out_of_range", "too_large",
    "weight", "two_readings", "no_last", "no_house_spec",
]  # fmt: skip

QUESTIONS: list[tuple[Code, str]] = [
    ("empty", "?"),
    ("not_ours", "tell me something about the sea"),
    ("health", "am i ok to drive after two"),
    ("too_long", "gin " * 800),
    ("no_amounts", "gin and dry vermouth for 10"),
    ("no_spec", "30 manhattans"),
    ("no_strength", "cut 700 ml to 40%"),
    ("no_volume", "25% water"),
    ("no_serves", "how many bottles of gin at 50 ml each"),
    ("no_price", "cost of 50 gin 20 lime for 8"),
    ("unread", "8 serves 60 gin 20 lime, wozzle"),
    ("unclear_number", "10-12 guests, 60 gin 20 lime each"),
    ("conflict_amounts", "6 x 10 oz / 350 ml gin, 1 oz lime"),
    ("conflict_total", "8 serves 60 ml gin 20 ml lime, total 2 L, no water"),
    ("ratio_names", "2:1:1 gin and sweet vermouth, 1 L"),
    ("cannot_raise", "bring 1 L of 40% up to 55% with water"),
    ("out_of_range", "8 serves 60 gin at 140%, 20 lime"),
    ("too_large", "9999999 serves of 60 gin 20 lime"),
    ("weight", "4 serves: 500 g gin, 200 g dry vermouth"),
    ("two_readings", "3 parts gin, 1 part lime, 400 ml soda"),
    ("no_last", "make it 12"),
    ("no_house_spec", "show iron gate"),
]


def test_every_code_has_a_case() -> None:
    assert {code for code, _ in QUESTIONS} == set(get_args(Code))


@pytest.mark.parametrize(("code", "text"), QUESTIONS, ids=[code for code, _ in QUESTIONS])
def test_a_question_says_what_is_wrong_and_what_would_work(code: str, text: str) -> None:
    got = said(turn(text, FRESH, now_utc())).json()
    assert got["kind"] == "question"
    assert got["problem"]["code"] == code, got["text"]
    assert got["text"] == REPLIES[code]
    start, end = got["problem"].get("at", [0, 0])
    assert 0 <= start <= end <= len(text)


@pytest.mark.parametrize(("code", "text"), QUESTIONS, ids=[code for code, _ in QUESTIONS])
def test_the_message_a_question_offers_would_work(code: str, text: str) -> None:
    reply = said(turn(text, FRESH, now_utc())).json()["text"]
    offered = reply.rpartition("Try: ")[2]
    assert turn(offered, FRESH, now_utc()).answer.kind != "question", offered


REPLIES: dict[str, str] = {
    "empty": (
        "What shall I work out?\n"
        "Try: 8 serves: 60 ml gin, 30 ml dry vermouth, 25% water"
    ),
    "not_ours": (
        "I only do bar maths: batches, strength, dilution, freezing, cost. Got a drink to batch?\n"
        "Try: 8 serves: 60 ml gin, 30 ml dry vermouth, 25% water"
    ),
    "health": (
        "Health and driving are not mine to answer. Is there a batch to work out?\n"
        "Try: 8 serves: 60 ml gin, 30 ml dry vermouth, 25% water"
    ),
    "too_long": (
        "That is too long for one message. Can you send one recipe at a time?\n"
        "Try: 8 serves: 60 ml gin, 30 ml dry vermouth, 25% water"
    ),
    "no_amounts": (
        "How much of each: gin, dry vermouth?\n"
        "Try: 10 serves: 60 ml gin, 30 ml dry vermouth"
    ),
    "no_spec": (
        "What goes into your manhattan? Tell me the recipe for one.\n"
        "Try: 30 manhattans: 60 ml rye, 30 ml sweet vermouth"
    ),
    "no_strength": (
        "Read: 40%\n"
        "What is the strength it has now?\n"
        "Try: cut 700 ml of 60% to 40%"
    ),
    "no_volume": (
        "How much of it is there? I need a volume.\n"
        "Try: 25% water, 1 L"
    ),
    "no_serves": (
        "Read: 50 ml each\n"
        "How many serves, or what volume?\n"
        "Try: 50 ml gin x 40, how many 700 ml bottles?"
    ),
    "no_price": (
        "What is the bottle price and size of gin, lime juice?\n"
        "Try: 50 ml gin, 24 for 700 ml: cost?"
    ),
    "unread": (
        "Read: 8 serves 60 gin 20 lime\n"
        "I did not understand “wozzle”. Can you put it another way?\n"
        "Try: 8 serves 60 gin 20 lime"
    ),
    "unclear_number": (
        "Read: 60 gin 20 lime each\n"
        "I am not sure how to read “10-12 guests”. Which number do you mean?\n"
        "Try: 60 gin 20 lime each"
    ),
    "conflict_amounts": (
        "Read: 6 x, gin, 1 oz lime\n"
        "“10 oz / 350 ml” gives two amounts that do not match. Which one is right?\n"
        "Try: 8 serves: 2 oz gin, 1 oz dry vermouth"
    ),
    "conflict_total": (
        "8 × 80 mL is 640 mL, not 2000 mL. Which one is right?\n"
        "Try: 8 serves: 60 ml gin, 30 ml dry vermouth, 25% water"
    ),
    "ratio_names": (
        "Read: 1 l\n"
        "2:1:1: 3 parts, but 2 ingredients. Which part is whose?\n"
        "Try: 2:1 gin, sweet vermouth, 8 serves"
    ),
    "cannot_raise": (
        "Water can't raise the strength from 40% to 55%; it only lowers it. 2953 mL of 60% would. Is there some?\n"
        "Try: how much 60% to bring 1000 ml of 40% up to 55%"
    ),
    "out_of_range": (
        "Read: 8 serves 60, 140%, 20 lime\n"
        "“gin at 140%” can't be right. What should it be?\n"
        "Try: cut 700 ml from 50% to 40%"
    ),
    "too_large": (
        "That is too large for me; at most 20000. How many did you mean?\n"
        "Try: 8 serves: 60 ml gin, 30 ml dry vermouth, 25% water"
    ),
    "weight": (
        "“500 g gin” is a weight, and I need a volume. How many mL is it?\n"
        "Try: 8 serves: 60 ml gin, 30 ml dry vermouth, 25% water"
    ),
    "two_readings": (
        "That can be read in two ways. Which one do you mean?\n"
        "Try: 8 serves: 60 ml gin, 30 ml dry vermouth, 25% water"
    ),
    "no_last": (
        "I have nothing earlier here to change. What are we making?\n"
        "Try: 8 serves: 60 ml gin, 30 ml dry vermouth, 25% water"
    ),
    "no_house_spec": (
        "I have nothing saved as “iron gate”. What goes in it?\n"
        "Try: save fog bell: 50 gin, 20 dry vermouth"
    ),
}
