"""Every exchange in the README is what the bot really says, and every setting and topic has its help."""

import re
from pathlib import Path

import pytest

from bot.answer.help import EXAMPLES
from bot.answer.turn import turn
from bot.desk import answer_once, now_utc
from bot.reply.render_text import to_text
from bot.told import FRESH

README = (Path(__file__).parent.parent / "README.md").read_text("utf-8")
EXCHANGES = re.findall(r"You say: `([^`]+)`\n\n```text\n(.*?)\n```", README, re.DOTALL)


def test_the_readme_shows_five_exchanges() -> None:
    assert len(EXCHANGES) >= 5


@pytest.mark.parametrize(("asked", "shown"), EXCHANGES)
def test_the_readme_shows_what_the_bot_says(asked: str, shown: str) -> None:
    assert to_text(answer_once(asked).reply) == shown


NEEDS_A_CHAT = frozenset(["house", "follow", "shelf"])


@pytest.mark.parametrize(
    ("topic", "example"),
    [(topic, e) for topic, examples in EXAMPLES.items() for e in examples if topic not in NEEDS_A_CHAT],
)
def test_every_help_example_is_answered(topic: str, example: str) -> None:
    made = turn(example, FRESH, now_utc())
    assert made.answer.kind != "question", to_text(answer_once(example).reply)


def test_every_follow_up_example_is_answered_after_a_batch() -> None:
    told = turn("20 serves: 50 gin, 20 dry vermouth, 25% water", FRESH, now_utc()).told
    for example in EXAMPLES["follow"]:
        assert turn(example, told, now_utc()).answer.kind != "question", example
