"""A request of its own is answered as one, whatever was asked before it; what only changes the last one changes it."""

import itertools

import pytest

from bot.answer.help import EXAMPLES
from bot.answer.turn import turn
from bot.desk import now_utc
from bot.told import FRESH

WHOLE = [e for topic, examples in EXAMPLES.items() for e in examples if topic not in ("follow", "house", "settings")]
PAIRS = [(a, b) for a, b in itertools.product(WHOLE, WHOLE) if a != b]


@pytest.mark.parametrize("second", WHOLE)
def test_a_whole_request_is_the_same_request_after_any_other(second: str) -> None:
    alone = turn(second, FRESH, now_utc())
    for first in WHOLE:
        told = turn(first, FRESH, now_utc()).told
        if told.shelf:
            continue  # a bottle described is used from then on, rightly
        assert turn(second, told, now_utc()).request == alone.request, f"{second!r} after {first!r}"


@pytest.mark.parametrize("change", EXAMPLES["follow"])
def test_a_change_is_a_change_after_a_batch_and_a_question_before_any(change: str) -> None:
    told = turn("20 serves: 50 gin, 20 dry vermouth, 25% water", FRESH, now_utc()).told
    assert turn(change, told, now_utc()).answer.kind != "question"
    made = turn(change, FRESH, now_utc()).answer
    assert made.problem is not None
