"""Requests written by hand, as short as people type them: what the grammar would have read.

Lives here: the builders and the look-ups tests share. An amount is "60 ml gin", a strength stands in front:
"47% 60 ml gin"; "2 part gin" is a part of a ratio, "8 count mint leaf" is counted.
"""

from bot.answer import answer
from bot.core.facts import Answer, Note
from bot.told import FRESH, Told
from grammar.request import Measure, Part, Recipe, Request, Water

UNSAID = Water()


def part(text: str, whole: bool = False, known: bool = True, typed: str | None = None) -> Part:
    """A part of a spec. A name is everything after the unit."""
    words = text.split()
    abv = float(words.pop(0)[:-1]) / 100 if words[0].endswith("%") else None
    name = " ".join(words[2:])
    return Part(name, Measure(float(words[0]), words[1]), name if typed is None else typed, known, abv, whole=whole)


def recipe(
    *parts: str, water: Water = UNSAID, base: float | None = None, technique: str = "", drink: str = ""
) -> Recipe:
    """A spec of such parts."""
    return Recipe(tuple(part(p) for p in parts), water, drink, base, technique=technique)


def share(value: float, of_finished: bool = False) -> Water:
    """Water as a share."""
    return Water("of_finished" if of_finished else "of_undiluted", value)


def answered(request: Request, told: Told = FRESH) -> Answer:
    """The answer, which must not be a question."""
    made = answer(request, told)
    assert made.problem is None, made.problem
    return made


def lines(made: Answer) -> dict[str, float]:
    """mL by name."""
    return {line.name: line.ml for line in made.lines if line.ml is not None}


def codes(notes: tuple[Note, ...]) -> list[str]:
    """The codes of notes."""
    return [note.code for note in notes]
