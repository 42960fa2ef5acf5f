"""A figure that a follow-up puts right by what it was: "it's 63.5 not 55": what held that figure gets the new one.

Where nothing of the last request is that figure, or more than one thing is, it is asked about.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import partial

from bot.answer.notes import Question
from grammar.request import (
    Batch,
    Bottles,
    Convert,
    Cost,
    Cut,
    Dilution,
    FollowUp,
    Freezer,
    Label,
    Lot,
    Measure,
    Part,
    Recipe,
    Request,
    Strength,
)

__all__ = ["put_right"]


@dataclass(frozen=True, slots=True)
class _Slot:
    """A figure of the last request. share: it is a fraction, said in percent. put: the request with another in its place."""

    name: str
    held: float | None
    share: bool
    put: Callable[[float], Request]
    unit: str = ""


def put_right(change: FollowUp, last: Request, recipe: Recipe | None) -> tuple[FollowUp, Request]:
    """The follow-up without the figure, and the last request with it. Raises Question unclear_number, two_readings."""
    new = _new(change, recipe is not None)
    if change.was is None or new is None:
        return change, last
    was, shares_only = change.was, "%" in (change.was.unit, new.unit)
    fitting = [
        slot
        for slot in [*_of_recipe(last, recipe), *_of_figures(last)]
        if slot.held is not None
        and (slot.share or not shares_only)
        and (new.unit in ("", "ml", "%") or slot.unit == new.unit)
        and abs(slot.held * (100.0 if slot.share else 1.0) - was.value) < 1e-6
    ]
    if not fitting:
        raise Question("unclear_number", found=f"{was.value:g}{was.unit}")
    if len(fitting) > 1:
        raise Question("two_readings", " or ".join(f"{new.value:g} for {slot.name}" for slot in fitting[:3]))
    slot = fitting[0]
    rest = replace(change, was=None, makes=replace(change.makes, serves=None), amounts=(), percents=())
    return rest, slot.put(new.value / 100.0 if slot.share else new.value)


def _new(change: FollowUp, poured: bool) -> Measure | None:
    """The one figure that takes the place, unit "%" for a share; None where it has an owner of its own."""
    owned = change.parts or change.moves or change.deltas or change.ratio or change.swap
    if owned or change.counted or change.from_abv is not None:
        return None
    found = [Measure(v * 100.0, "%") for v in change.percents] + [a for a in change.amounts if poured or a.unit in ("", "ml")]
    if change.makes.serves is not None:
        found.append(Measure(change.makes.serves))
    return found[0] if len(found) == 1 else None


def _of_recipe(last: Request, recipe: Recipe | None) -> list[_Slot]:
    """The figures of a request about a recipe."""
    if recipe is None or not isinstance(last, Batch | Strength | Freezer | Cost | Label | Bottles | Dilution):
        return []
    last = replace(last, recipe=recipe)
    makes = last.makes
    slots = [
        _Slot("the serves", makes.serves, False, lambda v: replace(last, makes=replace(makes, serves=v))),
        _Slot("the guests", makes.guests, False, lambda v: replace(last, makes=replace(makes, guests=v))),
    ]

    def with_part(i: int, part: Part) -> Request:
        return replace(last, recipe=replace(recipe, parts=(*recipe.parts[:i], part, *recipe.parts[i + 1 :])))

    def with_water(share: float) -> Request:
        return replace(last, recipe=replace(recipe, water=replace(recipe.water, value=share)))

    for i, p in enumerate(recipe.parts):
        slots.append(_Slot(f"the strength of {p.name}", p.abv, True, partial(_strong, with_part, i, p)))
        if p.measure is not None:
            put = partial(_poured, with_part, i, p, p.measure)
            slots.append(_Slot(f"the {p.name}", p.measure.value, False, put, p.measure.unit))
    if recipe.water.how in ("of_undiluted", "of_finished"):
        slots.append(_Slot("the water", recipe.water.value, True, with_water))
    return slots


def _strong(with_part: Callable[[int, Part], Request], i: int, part: Part, value: float) -> Request:
    return with_part(i, replace(part, abv=value))


def _poured(with_part: Callable[[int, Part], Request], i: int, part: Part, held: Measure, value: float) -> Request:
    return with_part(i, replace(part, measure=replace(held, value=value)))


def _as(held: Measure | None, value: float) -> Measure:
    """An amount in the unit of the one held."""
    return Measure(value, held.unit if held is not None else "ml")


def _of_figures(last: Request) -> list[_Slot]:
    """The figures of a request without a recipe."""
    match last:
        case Cut(lots=lots) if lots:
            first, others = lots[0], lots[1:]
            held = first.measure

            def with_first(lot: Lot) -> Request:
                return replace(last, lots=(lot, *others))

            slots = [
                _Slot("the strength at the start", first.abv, True, lambda v: with_first(replace(first, abv=v))),
                _Slot("the strength at the end", last.target, True, lambda v: replace(last, target=v)),
            ]
            if held is not None:
                slots.append(_Slot("the volume", held.value, False, lambda v: with_first(replace(first, measure=_as(held, v)))))
            return slots
        case Freezer(recipe=None):
            return [
                _Slot("the strength", last.abv, True, lambda v: replace(last, abv=v)),
                _Slot("the temperature", last.at_c, False, lambda v: replace(last, at_c=v)),
            ]
        case Dilution(volume=volume) if volume is not None:
            return [
                _Slot("the water", last.share, True, lambda v: replace(last, share=v)),
                _Slot("the volume", volume.value, False, lambda v: replace(last, volume=_as(volume, v))),
            ]
        case Label(volume=volume) if volume is not None:
            return [
                _Slot("the strength", last.abv, True, lambda v: replace(last, abv=v)),
                _Slot("the volume", volume.value, False, lambda v: replace(last, volume=_as(volume, v))),
            ]
        case Convert(items=items) if len(items) == 1:
            return [_Slot("the amount", items[0].value, False, lambda v: replace(last, items=(replace(items[0], value=v),)))]
        case _:
            return []
