"""The request before the last one, kept in the last one's text: texts of every age are read, and a question keeps it."""

from datetime import UTC, datetime

from bot.answer.asked import answered_before
from bot.answer.earlier import earlier_of, last_of, with_earlier
from bot.answer.keep import request_kind
from bot.answer.turn import turn
from bot.told import FRESH, Last, Told

NOW = datetime(2030, 1, 1, 20, 0, tzinfo=UTC)
FIRST, CHANGE = "16 of 60 gin 20 dry vermouth, 20% water", "make it 30"


def after(*messages: str) -> Told:
    """What a chat has told once these were said."""
    told = FRESH
    for message in messages:
        told = turn(message, told, NOW).told
    return told


def body(told: Told) -> str:
    assert told.last is not None
    return told.last.body


def test_a_text_without_an_earlier_request_is_the_request_itself() -> None:
    plain = body(after(FIRST))
    assert (last_of(plain), earlier_of(plain), request_kind(plain)) == (plain, "", "batch")


def test_the_request_before_a_change_is_kept_and_no_more_than_that() -> None:
    plain, changed = body(after(FIRST)), body(after(FIRST, CHANGE))
    assert earlier_of(changed) == plain
    assert earlier_of(body(after(FIRST, CHANGE, "25% water"))) == last_of(changed)
    assert "since" not in earlier_of(body(after(FIRST, CHANGE, "25% water")))


def test_an_old_text_can_be_changed_and_taken_back() -> None:
    old = Told(last=Last(NOW, last_of(body(after(FIRST)))))
    assert turn("undo that", turn(CHANGE, old, NOW).told, NOW).answer.serves == 16


def test_what_cannot_be_read_counts_as_nothing_said() -> None:
    for broken in ("since {", "since [1]", "since"):
        assert turn("undo that", Told(last=Last(NOW, broken)), NOW).answer.kind == "question"


def test_a_question_between_keeps_what_is_taken_back() -> None:
    told = after(FIRST, CHANGE, "negroni for 12 people")
    assert answered_before(body(told)) == body(after(FIRST, CHANGE))
    assert turn("undo that", told, NOW).answer.serves == 16


def test_nothing_is_kept_behind_a_request_without_one_before() -> None:
    assert with_earlier("batch {}", "") == "batch {}"
