"""Whether a message that was read by itself needs nothing of what came before: then it is a request of its own.

Lives here: what each kind of request must bring. Words that point back ("instead", "that", "add ...") are never whole.
"""

import re

from grammar.request import Batch, Bottles, Convert, Cost, Cut, Freezer, Label, Recipe, Request, Strength, Syrup
from grammar.spec_parts import Yield

_POINTS_BACK = re.compile(
    r"\b(?:that|those|these|them|instead|same|again|also|as well|too|the others?|rather|and for (?:one|each|\d+))\b"
    r"|^\W*(?:and|but|plus|add|now|ok|okay|so|no|nope|sorry|oops|actually|make it|swap|sub|replace|drop|with|without|use|change"
    r"|double|half|halve|triple|less|more|only|what if|what about|how about)\b"
)


def points_nowhere(text: str) -> bool:
    """Whether no word of a cleaned message points back to an earlier one."""
    return _POINTS_BACK.search(text) is None


def is_whole(request: Request, last: str) -> bool:
    """Whether a request has all that its kind needs. last: the kind of the request before, which a figure may change."""
    if isinstance(request, Batch | Strength):
        return _spec(request.recipe, 2) and (_made(request.makes) or isinstance(request, Strength))
    if request.kind == last and isinstance(request, Syrup | Label):
        return False  # "2:1, 500 ml" after a honey syrup is that syrup
    match request:
        case Freezer():
            return request.abv is not None or _spec(request.recipe, 2)
        case Label():
            return (request.volume is not None and request.abv is not None) or _spec(request.recipe, 2)
        case Cost(cost=cost) if cost is not None:
            return any(v is not None for v in (request.price, request.pour_cost, request.margin, request.markup))
        case Bottles():
            return _spec(request.recipe, 1) and _made(request.makes)
        case Cut(lots=lots):
            measured = bool(lots) and all(lot.abv is not None or lot.name for lot in lots) and lots[0].measure is not None
            return measured and (request.target is not None or request.water is not None)
        case Convert():
            return bool(request.items) and bool(request.to)
        case Syrup():
            amount = request.volume or request.sugar or request.water
            return amount is not None and (request.ratio is not None or request.percent is not None)
        case _:
            return False


def _spec(recipe: Recipe | None, least: int) -> bool:
    """Whether a recipe brings at least so many ingredients, each with its amount."""
    return recipe is not None and len(recipe.parts) >= least and all(p.measure is not None for p in recipe.parts)


def _made(makes: Yield) -> bool:
    return makes.serves is not None or makes.guests is not None or makes.volume is not None
