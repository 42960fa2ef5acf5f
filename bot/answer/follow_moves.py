"""What a follow-up's moves make of the ingredients: so much more or less of what each has."""

from dataclasses import replace

from bot.answer.follow_ask import find, not_in_it
from bot.answer.notes import Question
from grammar.request import Measure, Move, Part, Recipe

__all__ = ["moved"]

_SURELY_LESS = 0.4  # of what it has: "drop the vermouth 5" of 25 is by 5; above that it may be to 5: common practice, no source


def moved(parts: list[Part], recipe: Recipe, moves: tuple[Move, ...]) -> list[Part]:
    """The parts with every move made. Raises Question unread, unclear_number, out_of_range, two_readings."""
    parts = list(parts)
    for move in moves:
        i = find(move.name, replace(recipe, parts=tuple(parts)))
        by = move.by
        if i is None:
            if by.value <= 0:
                raise not_in_it(move.typed, recipe)
            unit = by.unit or (parts[0].measure.unit if parts and parts[0].measure else "ml")
            parts.append(Part(move.name, Measure(by.value, unit), move.typed))
            continue
        held = parts[i].measure
        if held is None or by.unit not in ("", held.unit):
            raise Question("unclear_number", found=f"{abs(by.value):g} {by.unit or move.typed}")
        parts[i] = replace(parts[i], measure=replace(held, value=_amount(move, held.value)))
    return parts


def _amount(move: Move, held: float) -> float:
    """What the ingredient has after the move; a figure that may be the new amount as well is asked about."""
    by = move.by.value
    if not move.surely and by > held:
        return by  # "bump the rye 60" of 50
    if not move.surely and by < -_SURELY_LESS * held:
        unit = move.by.unit or "ml"
        raise Question("two_readings", f"{move.typed} down by {-by:g} {unit} or down to {-by:g} {unit}")
    if held + by <= 0:
        raise Question("out_of_range", found=f"{held + by:g} {move.typed}")
    return held + by
