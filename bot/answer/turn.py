"""One message in a chat: read it, answer it, and say what the chat has told us after it. Pure; the clock is an argument.

turn is all that bot.desk calls. An answer that a follow-up can build on becomes the last one; a question changes nothing
but that its own answer is waited for.
"""

from dataclasses import dataclass, replace
from datetime import datetime
from typing import assert_never

from bot.answer import answer, ask
from bot.answer.asked import answered_before, completed, waiting, with_question
from bot.answer.follow import apply, in_its_place, recipe_of
from bot.answer.help import help as answer_help
from bot.answer.house import house as answer_house
from bot.answer.notes import Question
from bot.answer.settings import setting as answer_setting
from bot.answer.shelf import shelf as answer_shelf
from bot.core.facts import Answer
from bot.told import Last, Told
from grammar.message import Known, read
from grammar.read import keep_tables_in
from grammar.request import (
    Batch,
    Bottles,
    Convert,
    Cost,
    Cut,
    Dilution,
    FollowUp,
    Freezer,
    Help,
    House,
    Label,
    Recipe,
    Request,
    Setting,
    Shelf,
    Strength,
    Syrup,
    Trouble,
)  # fmt: skip


def start_quickly(folder: str) -> None:
    """Keep what is built at start in this folder, so that the next start need not build it."""
    keep_tables_in(folder)


@dataclass(frozen=True, slots=True)
class Turn:
    """What a message came to. request is what was answered, after a follow-up was worked in; None for a question."""

    answer: Answer
    told: Told
    request: Request | None = None
    forget: bool = False  # the chat asked for everything to be forgotten


def turn(text: str, told: Told, now: datetime, *, remembers: bool = True) -> Turn:
    """Answer one message. remembers False: there is no chat behind it, and nothing is kept for a follow-up."""
    knows = known(told)
    request = read(text, knows)
    asked = waiting(told, now)
    together = completed(asked, text, request, knows) if asked is not None else None
    if together is not None:
        text, request = together
    if isinstance(request, Trouble):
        made = Turn(ask(request), told)
    else:
        try:
            made = _turn(request, told, now, remembers)
        except Question as question:
            made = Turn(Answer("question", problem=question.problem), told)
    if made.answer.kind == "question" and remembers and not isinstance(request, FollowUp):
        return replace(made, told=with_question(told, text, made.answer.problem, now))
    return made


def known(told: Told) -> Known:
    """What of a chat's memory the grammar needs."""
    if not told.specs and told.last is None:
        return Known()
    last = ""
    if told.last is not None:
        from bot.answer.keep import request_kind

        last = request_kind(answered_before(told.last.body))
    return Known(tuple(spec.name for spec in told.specs), last)


def _turn(request: Request, told: Told, now: datetime, remembers: bool) -> Turn:
    match request:
        case Help():
            return Turn(answer_help(request), told, request)
        case Shelf():
            made, told = answer_shelf(request, told)
            return Turn(made, told, request)
        case Setting():
            made, told = answer_setting(request, told)
            return Turn(made, told, request)
        case House():
            made, told = answer_house(request, told, _last_recipe(told) if request.do == "save" else None)
            return Turn(made, told, request, request.do == "forget_all")
        case FollowUp():
            request = _followed(request, told)
        case Batch() | Strength() | Convert() | Cut() | Freezer() | Dilution() | Syrup() | Cost() | Bottles() | Label():
            pass
        case _:
            assert_never(request)
    made = answer(request, told)
    if made.kind == "question" or not remembers:
        return Turn(made, told, None if made.kind == "question" else request)
    from bot.answer.keep import request_to_text

    return Turn(made, replace(told, last=Last(now, request_to_text(request))), request)


def _last(told: Told) -> Request | None:
    if told.last is None:
        return None
    from bot.answer.keep import request_from_text

    return request_from_text(answered_before(told.last.body))


def _looked_up(recipe: Recipe | None, told: Told) -> Recipe | None:
    """The recipe with a house spec's ingredients in the place of its name."""
    if recipe is None or not recipe.house:
        return recipe
    from bot.answer.spec import with_house

    return with_house(recipe, told)


def _last_recipe(told: Told) -> Recipe | None:
    return _looked_up(recipe_of(_last(told)), told)


def _followed(change: FollowUp, told: Told) -> Request:
    last = _last(told)
    if last is None:
        raise Question("no_last")
    recipe = _looked_up(recipe_of(last), told)
    if change.house and (recipe is None or recipe.drink != change.house):
        last, recipe = in_its_place(last), _looked_up(Recipe(house=change.house), told)
    return apply(replace(change, house=""), last, recipe)
