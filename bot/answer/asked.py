"""A question that waits for its answer: "martini for 20 people", "What goes into your martini?", "60 gin 10 vermouth".

The message that was asked about is kept in front of the last answer, in the same text, and the next message is tried
behind it. It stands aside for whatever makes sense alone and lacks nothing.
"""

import re
from dataclasses import dataclass
from datetime import datetime, timedelta

import msgspec

from bot.core.facts import Problem
from bot.told import Last, Told
from grammar.message import Known, read
from grammar.request import Batch, Convert, FollowUp, Request, Strength, Trouble, Yield

_MARK = "asked "
#: questions that ask for something left out, so that what comes next may be just that
_LEFT_OUT = frozenset(["no_amounts", "no_spec", "no_strength", "no_volume", "no_serves", "no_price"])
_WAITS = timedelta(minutes=10)  # after that nobody remembers the question: common practice, no source
_LONGEST = 500  # characters of a message that is kept: common practice, no source
_FEWEST_WORDS = 5  # an answer to "what size" is short: common practice, no source
_FIGURE = re.compile(r"\s*\d+(?:\.\d+)?\s*")
#: begins a request of its own, which lacks something too: "cut 700 ml of 57%", "30 daiquiris"
_OF_ITS_OWN = re.compile(r"\b(?:cut|dilute|bring|batch|cost|price|how|what|whats|abv|freeze|freezer|label|convert)\b")
_COUNTED = re.compile(r"\W*\d+ ?x? ?[^\W\d]{4,}")
_IN_UNITS = re.compile(r"\b(?:in|to|into|as|what|whats|how|convert)\b|[?=]")


@dataclass(frozen=True, slots=True)
class Asked:
    """The message that was asked about and what was missing."""

    code: str
    text: str


class _Kept(msgspec.Struct, array_like=True):
    code: str
    text: str
    before: str


def _kept(body: str) -> _Kept | None:
    if not body.startswith(_MARK):
        return None
    try:
        return msgspec.json.decode(body[len(_MARK) :], type=_Kept)
    except msgspec.MsgspecError:
        return _Kept("", "", "")


def answered_before(body: str) -> str:
    """The last answer's text, without the question that was asked after it; "" when there was no answer."""
    kept = _kept(body)
    return body if kept is None else kept.before


def waiting(told: Told, now: datetime) -> Asked | None:
    """The question that waits for an answer, or None."""
    if told.last is None or not told.last.body.startswith(_MARK) or now - told.last.at > _WAITS:
        return None
    kept = _kept(told.last.body)
    return Asked(kept.code, kept.text) if kept is not None and kept.text else None


def with_question(told: Told, text: str, problem: Problem | None, now: datetime) -> Told:
    """What the chat has told once a message was asked about: kept when something was left out that can still be said."""
    if problem is None or problem.code not in _LEFT_OUT or len(text) > _LONGEST:
        return told
    before = answered_before(told.last.body) if told.last is not None else ""
    body = msgspec.json.encode(_Kept(problem.code, text, before)).decode()
    return Told(told.settings, told.shelf, told.specs, Last(now, _MARK + body))


def completed(asked: Asked, text: str, alone: Request | Trouble, known: Known) -> tuple[str, Request] | None:
    """The message asked about with this one behind it, and what both ask together; None when this one stands alone."""
    if not _wants_more(asked, text, alone):
        return None
    said = f"to {text.strip()}%" if asked.code == "no_strength" and _FIGURE.fullmatch(text) else text
    for both in (f"{asked.text}\n{said}", f"{asked.text}, {said}", f"{asked.text} {said}", f"{said}\n{asked.text}"):
        made = read(both, Known(known.house))
        if not isinstance(made, Trouble) and made.kind not in ("followup", "help", "house", "setting", "shelf"):
            return both, made
    return None


def _wants_more(asked: Asked, text: str, alone: Request | Trouble) -> bool:
    """Whether a message is no whole request: not understood, a change of something, a spec for nobody, a lone figure."""
    if isinstance(alone, Trouble):
        counted = alone.code == "no_spec" and asked.code != "no_serves" and _COUNTED.match(text) is not None
        return not (alone.code in _LEFT_OUT and (counted or _OF_ITS_OWN.search(text.lower()) is not None))
    if isinstance(alone, Batch | Strength):
        return alone.makes == Yield()
    if isinstance(alone, Convert):
        return len(text.split()) < _FEWEST_WORDS and _IN_UNITS.search(text.lower()) is None
    return isinstance(alone, FollowUp) and not alone.back
