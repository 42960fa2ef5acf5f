"""Request -> Answer: the only place that knows both the grammar and the core. Pure: no I/O, no clock.

Lives here: the dispatch by kind, and how a question becomes an Answer. Everything else is a file per kind beside this
one; spec.py resolves a recipe for all of them.
"""

from typing import assert_never

from bot.answer.batch import answer_batch
from bot.answer.bottles import answer_bottles
from bot.answer.convert import answer_convert
from bot.answer.cost import answer_cost
from bot.answer.cut import answer_cut
from bot.answer.dilution import answer_dilution
from bot.answer.freezer import answer_freezer
from bot.answer.label import answer_label
from bot.answer.notes import Question
from bot.answer.strength import answer_strength
from bot.answer.syrup import answer_syrup
from bot.core.facts import Answer, Problem
from bot.told import Told
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
    Request,
    Setting,
    Shelf,
    Strength,
    Syrup,
    Trouble,
)

__all__ = ["answer", "ask"]


def answer(request: Request, told: Told) -> Answer:
    """What a request comes to, given what the chat has told us: facts, or a question (kind "question")."""
    try:
        return _answer(request, told)
    except Question as question:
        return Answer("question", problem=question.problem)


def ask(trouble: Trouble) -> Answer:
    """The question for a message that could not be read."""
    at = trouble.at if trouble.at[0] >= 0 else None
    facts = tuple(trouble.facts.items())
    if trouble.understood:
        facts += (("understood", trouble.understood),)
    return Answer("question", problem=Problem(trouble.code, at, trouble.found, trouble.try_instead, facts))


def _answer(request: Request, told: Told) -> Answer:
    match request:
        case Batch():
            return answer_batch(request, told)
        case Strength():
            return answer_strength(request, told)
        case Convert():
            return answer_convert(request, told)
        case Cut():
            return answer_cut(request, told)
        case Freezer():
            return answer_freezer(request, told)
        case Dilution():
            return answer_dilution(request, told)
        case Syrup():
            return answer_syrup(request, told)
        case Cost():
            return answer_cost(request, told)
        case Bottles():
            return answer_bottles(request, told)
        case Label():
            return answer_label(request, told)
        case House() | Shelf() | Setting() | Help() | FollowUp():
            raise TypeError("what changes or needs a chat's memory is answered by bot.answer.turn")
        case _:
            assert_never(request)
