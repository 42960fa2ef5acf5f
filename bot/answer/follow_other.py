"""What else a follow-up may say of a request without a recipe: its freezer, another sweetener, water of a known amount.

Lives here too: what such a request has no place for, which is asked about and never passed over.
"""

from dataclasses import replace

from bot.answer.notes import Question
from grammar.request import (
    Bottles,
    Convert,
    Cost,
    Cut,
    Dilution,
    FollowUp,
    Freezer,
    Label,
    Measure,
    Request,
    Syrup,
)

__all__ = ["bottles_of_cut", "other_question", "refuse_unused"]

_SWEET = {"honey": "honey", "honey syrup": "honey", "agave": "agave", "agave syrup": "agave", "sugar": "sugar", "salt": "salt"}
#: a bottle of spirit
_ONE_BOTTLE = frozenset(
    [(500.0, "ml"), (700.0, "ml"), (750.0, "ml"), (1000.0, "ml"), (50.0, "cl"), (70.0, "cl"), (75.0, "cl"), (1.0, "l")]
)
#: what can be asked of each kind by its own figures
_ASKED: dict[type, frozenset[str]] = {
    Cut: frozenset(["abv", "water"]),
    Dilution: frozenset(["water"]),
    Freezer: frozenset(["freezer"]),
    Label: frozenset(["label", "drinks", "serve"]),
    Cost: frozenset(["cost", "serve"]),
    Bottles: frozenset(["bottles", "fit"]),
    Convert: frozenset(["serve", "count"]),
    Syrup: frozenset(),
}
_QUESTIONS = frozenset(
    ["abv", "freezer", "bottles", "cost", "water", "serve", "fit", "label", "drinks", "allergens", "headspace", "count"]
)


def other_question(change: FollowUp, last: Request) -> Request | None:
    """The last request with another question asked of it; None where the follow-up only changes a figure."""
    match last:
        case Cut(lots=lots) if change.water.how == "amount":
            return replace(last, water=Measure(change.water.value, change.water.unit or "ml"), target=None, finished=None)
        case Cut(lots=lots, target=target) if change.ask in ("freezer", "headspace") and target is not None:
            return Freezer(change.at_c, target)
        case Cut(lots=lots) if change.wanted and len(change.amounts) == 1 and len(lots) == 1:
            return replace(last, lots=(replace(lots[0], measure=None),), finished=change.amounts[0])
        case Cut(lots=lots) if len(change.parts) == 1 and change.parts[0].abv is not None and len(lots) == 1:
            return replace(last, lots=(replace(lots[0], abv=change.parts[0].abv),))  # "the gin is 45%"
        case Freezer(recipe=None) if change.ask in ("water", "most_water"):
            return replace(last, ask="most_water", at_c=change.at_c if change.at_c is not None else last.at_c)
        case Syrup() if len(change.parts) == 1 and change.parts[0].measure is not None:
            part = change.parts[0]
            if _SWEET.get(part.name) == last.sweet or (part.name in _SWEET and last.sweet == "sugar"):
                return replace(last, sweet=_SWEET[part.name], sugar=part.measure, volume=None, water=None)
        case Syrup() if change.ask in _SWEET:
            return replace(last, sweet=_SWEET[change.ask])
        case _:
            pass
    return None


def bottles_of_cut(change: FollowUp, last: Request) -> FollowUp:
    """ "and if it's 2 bottles" after one bottle was cut: so many times it."""
    many = change.makes.vessels
    held = last.lots[0].measure if isinstance(last, Cut) and len(last.lots) == 1 else None
    one = held is not None and (held.value, held.unit) in _ONE_BOTTLE
    if many is None or change.makes.vessel_ml is not None or not one or change.times is not None:
        return change
    return replace(change, times=many, makes=replace(change.makes, vessels=None))


def refuse_unused(change: FollowUp, last: Request) -> None:
    """Ask about what the last request has no place for. Raises Question unread."""
    said = [p.typed or p.name for p in change.parts] + [m.typed for m in change.moves] + [d.typed for d in change.deltas]
    said += list(change.drop) + ([change.swap[0] or change.swap[1]] if change.swap is not None else [])
    if said:
        raise Question("unread", found=said[0])
    asked = change.ask not in ("", "show", "more", "limit") and change.ask not in _ASKED.get(type(last), frozenset())
    if asked:
        raise Question("unread", found="" if change.ask in _QUESTIONS else change.ask)
    if change.makes.vessels is not None and change.makes.vessel_ml is None:
        raise Question("no_volume", found="the size of the bottle")
