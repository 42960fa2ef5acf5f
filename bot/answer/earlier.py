"""The request before the last one, kept in the last one's text, so that one change can be taken back: "undo that".

One step only: after it is taken back, nothing earlier is known. A question about the last answer ("abv?") is no step.
"""

from dataclasses import replace

import msgspec

from bot.answer.follow import recipe_of
from bot.answer.follow_ask import find
from bot.answer.notes import Question
from grammar.request import Batch, Bottles, Cost, Dilution, Freezer, Label, Recipe, Request, Strength, Yield

_MARK = "since "
_MADE = (Batch, Strength, Freezer, Cost, Label, Bottles, Dilution)


class _Kept(msgspec.Struct, array_like=True):
    now: str
    before: str


def _kept(body: str) -> _Kept:
    if not body.startswith(_MARK):
        return _Kept(body, "")
    try:
        return msgspec.json.decode(body[len(_MARK) :], type=_Kept)
    except msgspec.MsgspecError:
        return _Kept("", "")


def last_of(body: str) -> str:
    """The last request's own text."""
    return _kept(body).now


def earlier_of(body: str) -> str:
    """The text of the request before it; "" when none is known."""
    return _kept(body).before


def with_earlier(text: str, before: str) -> str:
    """A request's text with the one before it."""
    return _MARK + msgspec.json.encode(_Kept(text, before)).decode() if before else text


def same_drink(last: Request, recipe: Recipe, made: Request) -> bool:
    """Whether a request is of the last one's recipe, and as much of it: then it changed nothing."""
    return recipe_of(made) == recipe and _makes(last) == _makes(made)


def _makes(request: Request) -> Yield | None:
    return request.makes if isinstance(request, _MADE) else None


def taken_back(what: str, last: Request, earlier: Request | None, now: Recipe | None, then: Recipe | None) -> Request:
    """The last request as it was before, all of it or only what is named. now, then: their recipes, house specs looked up.

    Raises Question no_last where that is not known, or was not what was changed.
    """
    if earlier is not None and what == "all":
        return earlier
    if earlier is None or now is None or then is None or not isinstance(last, _MADE):
        raise Question("no_last", back=what)
    back = replace(now, water=then.water) if what == "water" else _with_part(what, now, then)
    if back is None or back == now:
        raise Question("no_last", back=what)
    return replace(last, recipe=back)


def _with_part(name: str, now: Recipe, then: Recipe) -> Recipe | None:
    """The recipe with one ingredient as it was: what took its place goes, what was left out comes back; None when unsure."""
    old, new = find(name, then), find(name, now)
    if old is None:
        return None
    parts = list(now.parts)
    if new is not None:
        parts[new] = then.parts[old]
    elif len(parts) < len(then.parts):
        parts.insert(old, then.parts[old])
    elif len(parts) == len(then.parts) and parts[old].name not in {p.name for p in then.parts}:
        parts[old] = then.parts[old]
    else:
        return None
    return replace(now, parts=tuple(parts))
