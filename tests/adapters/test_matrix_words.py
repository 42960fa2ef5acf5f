"""What a Matrix message means to the bot, and what one of its own looks like: plain contents, no server."""

import json
from datetime import UTC, datetime
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.adapters.matrix_words import Heard, Names, notice, packed, thread_of
from bot.desk import answer_once
from bot.post.steps import Step, steps
from bot.reply import words_post

US = "@barback:plover.example"
NAMES = Names(US, "Bar Back")
NOON = datetime(2026, 5, 1, 12, 0, tzinfo=UTC)


def text(body: str, **more: Any) -> dict[str, Any]:
    return {"msgtype": "m.text", "body": body, **more}


def relates(**relation: Any) -> dict[str, Any]:
    return {"m.relates_to": relation}


REPLY = {"m.in_reply_to": {"event_id": "$earlier"}}


@pytest.mark.parametrize(
    ("content", "heard"),
    [
        (text("2 oz to ml"), Heard("2 oz to ml", "$e")),
        (text("barback: 2 oz to ml"), Heard("2 oz to ml", "$e", mentioned=True)),
        (text("BARBACK 2 oz to ml"), Heard("2 oz to ml", "$e", mentioned=True)),
        (text("@barback, 2 oz to ml"), Heard("2 oz to ml", "$e", mentioned=True)),
        (text(f"{US}: 2 oz to ml"), Heard("2 oz to ml", "$e", mentioned=True)),
        (text("Bar Back: 2 oz to ml"), Heard("2 oz to ml", "$e", mentioned=True)),
        (text("2 oz to ml please barback"), Heard("2 oz to ml please", "$e", mentioned=True)),
        (text("barbacks are paid 2 oz"), Heard("barbacks are paid 2 oz", "$e")),
        (text("x@barback:plover.example"), Heard("x@barback:plover.example", "$e")),
        (text("2 oz", **{"m.mentions": {"user_ids": [US]}}), Heard("2 oz", "$e", mentioned=True)),
        (text("2 oz", **{"m.mentions": {"user_ids": ["@ann:x"]}}), Heard("2 oz", "$e")),
        (text("make it 12", **relates(**REPLY)), Heard("make it 12", "$e", about="$earlier")),
        (
            text(f"> <{US}> 8 serves\n> gin 360 mL\n\nmake it 12", **relates(**REPLY)),
            Heard("make it 12", "$e", about="$earlier", mentioned=True),
        ),
        (
            text("> <@ann:x> barback is great\n\nhm", **relates(**REPLY)),
            Heard("hm", "$e", about="$earlier"),
        ),
        (text("> not a reply"), Heard("> not a reply", "$e")),
        (text("2 oz\n> 1 oz", **relates(**REPLY)), Heard("2 oz\n> 1 oz", "$e", about="$earlier")),
        (
            text("2 oz", **relates(rel_type="m.thread", event_id="$root", is_falling_back=True, **REPLY)),
            Heard("2 oz", "$e", thread="$root"),
        ),
        (
            text("2 oz", **relates(rel_type="m.thread", event_id="$root", **REPLY)),
            Heard("2 oz", "$e", about="$earlier", thread="$root"),
        ),
        (
            text("* 3 oz", **{"m.new_content": text("3 oz")}, **relates(rel_type="m.replace", event_id="$first")),
            Heard("3 oz", "$first", edits=True),
        ),
    ],
)
def test_what_is_heard(content: dict[str, Any], heard: Heard) -> None:
    assert NAMES.heard("$e", content) == heard


@pytest.mark.parametrize(
    "content",
    [
        {},
        {"msgtype": "m.notice", "body": "barback: 2 oz"},
        {"msgtype": "m.image", "body": "barback.png"},
        {"msgtype": "m.text"},
        {"msgtype": "m.text", "body": 7},
        text("* x", **relates(rel_type="m.replace", event_id="$first")),
        text("* x", **{"m.new_content": text("x")}, **relates(rel_type="m.replace")),
        text("* x", **{"m.new_content": text("x")}, **relates(rel_type="m.replace", event_id=7)),
        text("* x", **{"m.new_content": {"msgtype": "m.notice", "body": "x"}}, **relates(rel_type="m.replace", event_id="$f")),
    ],
)
def test_what_is_not_for_it(content: dict[str, Any]) -> None:
    assert NAMES.heard("$e", content) is None


ANYTHING = st.recursive(
    st.none() | st.booleans() | st.integers() | st.text(max_size=8),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8), inner, max_size=3),
    max_leaves=8,
)
KEYS = st.sampled_from(
    ["msgtype", "body", "m.relates_to", "m.new_content", "m.mentions", "rel_type", "event_id", "m.in_reply_to"]
)
RELATION = st.dictionaries(KEYS, ANYTHING | st.just("m.replace") | st.just("m.thread"), max_size=4)


@given(st.dictionaries(KEYS, ANYTHING | RELATION, max_size=6), st.text(max_size=20))
def test_no_content_breaks_it(content: dict[str, Any], body: str) -> None:
    heard = NAMES.heard("$e", {**content, "msgtype": "m.text", "body": body})
    assert heard is None or (isinstance(heard.text, str) and isinstance(heard.question, str))
    assert isinstance(thread_of(content), str)


def payload_of(message: str) -> str:
    said = answer_once(message, lambda: NOON)
    return packed(said, steps(said.answer))


def test_next_steps_are_words_to_reply_with() -> None:
    body = json.loads(payload_of("8 serves of 1:1 gin vermouth with 25% water"))["body"]
    offered = body.split("\n")[-1]
    assert offered.startswith(f"{words_post.NEXT} ")
    words = offered.removeprefix(words_post.NEXT).strip().split(" · ")
    assert len(words) == len({"".join(letter for letter in word if not letter.isdigit()) for word in words})
    assert "make it 16" in words


def test_of_steps_alike_the_last_is_offered() -> None:
    said = answer_once("2 oz to ml", lambda: NOON)
    alike = (Step("6 serves", "make it 6"), Step("16 serves", "make it 16"), Step("oz first", "in oz"))
    assert json.loads(packed(said, alike))["body"].endswith(f"{words_post.NEXT} make it 16 · in oz")
    assert words_post.NEXT not in json.loads(packed(said, ()))["body"]


def test_an_answer_is_a_notice_that_notifies_nobody() -> None:
    content = notice(payload_of("2 oz to ml"), question="$e")
    assert content["msgtype"] == "m.notice"
    assert content["m.mentions"] == {}
    assert content["format"] == "org.matrix.custom.html"
    assert content["m.relates_to"] == {"m.in_reply_to": {"event_id": "$e"}}


def test_an_answer_in_a_thread_stays_in_it() -> None:
    relation = notice(payload_of("2 oz to ml"), question="$e", thread="$root")["m.relates_to"]
    assert (relation["rel_type"], relation["event_id"]) == ("m.thread", "$root")
    assert relation["m.in_reply_to"] == {"event_id": "$e"}


def test_a_changed_answer_says_so_first() -> None:
    content = notice(payload_of("2 oz to ml"), question="$e", replaces=True)
    assert content["body"].startswith(f"{words_post.REPLACES}\n")
    assert content["formatted_body"].startswith(f"<em>{words_post.REPLACES}</em><br>")


def test_a_line_of_its_own_replies_to_nothing() -> None:
    assert "m.relates_to" not in notice(payload_of("2 oz to ml"))
