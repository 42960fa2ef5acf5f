"""From an Answer to a Reply: which layout a kind of answer has. Sentences are in words*.py, rounding in numbers.py.

The answer first, then the bottle, the strength, the freezer, then one line of assumptions and at most one caution.
Must never: compute (an absent fact is left out), know a platform or markup.
"""

from typing import assert_never

from bot.core.facts import Answer
from bot.reply import say_book, say_mix, say_sums
from bot.reply.spans import Reply


def say(answer: Answer) -> Reply:
    """The reply to an answer, as tagged lines."""
    match answer.kind:
        case "batch":
            lines = say_mix.batch(answer)
        case "strength":
            lines = say_mix.strength(answer)
        case "cut":
            lines = say_mix.cut(answer)
        case "dilution":
            lines = say_mix.dilution(answer)
        case "freezer":
            lines = say_mix.freezer(answer)
        case "convert":
            lines = say_sums.convert(answer)
        case "syrup":
            lines = say_sums.syrup(answer)
        case "cost":
            lines = say_sums.cost(answer)
        case "bottles":
            lines = say_sums.bottles(answer)
        case "label":
            lines = say_sums.label(answer)
        case "question":
            lines = say_book.question(answer)
        case "saved" | "listed" | "forgotten" | "setting" | "help":
            lines = say_book.book(answer)
        case _:
            assert_never(answer.kind)
    return Reply(tuple(lines))
