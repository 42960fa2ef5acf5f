"""One message in a chat: read it, answer it, and say what the chat has told us after it. Pure; the clock is an argument.

turn is all that bot.desk calls. An answer that a follow-up can build on becomes the last one; a question changes nothing
but that its own answer is waited for.
"""

from dataclasses import dataclass, replace
from datetime import datetime
from typing import assert_never

from bot.answer import answer, ask
from bot.answer.asked import answered_before, completed, waiting, with_question
from bot.answer.earlier import earlier_of, last_of, same_drink, taken_back, with_earlier
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

        last = request_kind(last_of(answered_before(told.last.body)))
    return Known(tuple(spec.name for spec in told.specs), last)


def _turn(request: Request, told: Told, now: datetime, remembers: bool) -> Turn:
    before = ""
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
        case FollowUp(back=back):
            request = _followed(request, told)
            before = "" if back else _before(request, told)
        case Batch() | Strength() | Convert() | Cut() | Freezer() | Dilution() | Syrup() | Cost() | Bottles() | Label():
            pass
        case _:
            assert_never(request)
    made = answer(request, told)
    if made.kind == "question" or not remembers:
        return Turn(made, told, None if made.kind == "question" else request)
    from bot.answer.keep import request_to_text

    return Turn(made, replace(told, last=Last(now, with_earlier(request_to_text(request), before))), request)


def _request(text: str) -> Request | None:
    from bot.answer.keep import request_from_text

    return request_from_text(text)


def _last(told: Told) -> Request | None:
    return None if told.last is None else _request(last_of(answered_before(told.last.body)))


def _before(request: Request, told: Told) -> str:
    """What a change is taken back to: the last request, or the one before it where the drink is still the same."""
    body, last = answered_before(told.last.body if told.last is not None else ""), _last(told)
    recipe = _looked_up(recipe_of(last), told)
    if last is not None and recipe is not None and same_drink(last, recipe, request):
        return earlier_of(body)
    return last_of(body)


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
    if change.back:
        earlier = _request(earlier_of(answered_before(told.last.body))) if told.last is not None else None
        recipes = [_looked_up(recipe_of(r), told) for r in (last, earlier)]
        return taken_back(change.back, last, earlier, *recipes)
    recipe = _looked_up(recipe_of(last), told)
    if change.house and (recipe is None or recipe.drink != change.house):
        last, recipe = in_its_place(last), _looked_up(Recipe(house=change.house), told)
    return apply(replace(change, house=""), last, recipe)
