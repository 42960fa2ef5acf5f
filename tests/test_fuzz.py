"""Whatever is typed gets an answer or a question: no exception, no slow reading, the same reading twice."""

import time

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bot.answer.turn import turn
from bot.desk import now_utc, said
from bot.told import FRESH
from grammar.ingredients import DRINKS, SPELLINGS
from grammar.message import Known, read
from grammar.words import CUES
from grammar.words_measures import COUNTED, UNITS

SLOWEST_S = 0.05  # one message; a reading that grows worse than linearly is far beyond it
WORDS = sorted(
    {w for spelled in (*UNITS.values(), *CUES.values(), COUNTED) for w in spelled.split("|")} | set(SPELLINGS) | set(DRINKS)
)
MARKS = list(" ,.:;/-+*%°@()[]|=?!\n$€£~#&'\"½¼→×")
pieces = st.one_of(
    st.sampled_from(WORDS),
    st.sampled_from(MARKS),
    st.integers(-5, 2000).map(str),
    st.floats(0, 200, allow_nan=False).map(lambda x: f"{x:.2f}"),
    st.sampled_from(["1/2", "3:1", "50/50", "1.000", "1,5", "x8", "8x", "-18c", "0f", "1e9", "98 proof", "NaN", "inf"]),
    st.text(max_size=6),
)
messages = st.lists(pieces, max_size=25).map(" ".join)


def answered(text: str) -> None:
    """The message is answered, in time, and read the same twice."""
    start = time.perf_counter()
    made = turn(text, FRESH, now_utc())
    reply = said(made)
    took = time.perf_counter() - start
    assert reply.json()["text"]
    assert read(text) == read(text)
    if took > SLOWEST_S:  # once may be the machine's doing
        start = time.perf_counter()
        turn(text, FRESH, now_utc())
        assert time.perf_counter() - start < SLOWEST_S, text
    if made.told.last is not None:
        said(turn("make it 12", made.told, now_utc()))
        said(turn("in oz", made.told, now_utc()))


@settings(max_examples=400, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(messages)
def test_any_message_is_answered(text: str) -> None:
    answered(text)


@pytest.mark.slow
@settings(max_examples=50_000, deadline=None, suppress_health_check=list(HealthCheck))
@given(messages)
def test_any_of_very_many_messages_is_answered(text: str) -> None:
    answered(text)


@settings(max_examples=200, deadline=None)
@given(st.text(max_size=3000))
def test_any_text_is_read_without_an_exception(text: str) -> None:
    read(text, Known(("fog bell", "low tide"), "batch"))
