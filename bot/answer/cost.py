"""Cost -> Answer: what a serve and a batch cost, pour cost and margin, the price for a target.

Lives here: which figures were given, whose price a part has, and whether tax is in. Must never: invent a price, a tax
rate or a currency.
"""

from dataclasses import dataclass, replace
from math import isfinite

from bot.answer.amounts import WEIGHTS, measured_serves, ml_of, ounce_ml
from bot.answer.ingredients import shelf_bottle
from bot.answer.notes import Notes, Question, figure, percent
from bot.answer.resolve import resolve
from bot.answer.spec import Item, Spec, with_house
from bot.core import cost as core
from bot.core.facts import Answer, CostFacts
from bot.core.units import G_PER
from bot.told import Settings, Told
from grammar.request import Cost, Measure, Money, Part, Recipe

__all__ = ["answer_cost"]

_UNPRICED = frozenset(["bitters", "seasoning", "water"])  # so little money that a spec is costed without them
_MOST_MONEY = 1e9
_OF_WINE = frozenset(["wine"])
_WINE_ML = 750.0  # common practice, no source
_USUAL_SIZE_ML = 700.0


@dataclass(frozen=True, slots=True)
class _Costed:
    """What the liquid costs: of one serve, of everything (None for one serve), and by ingredient."""

    per_serve: float | None
    total: float | None = None
    serves: float | None = None
    items: tuple[tuple[str, float], ...] = ()
    spec: Spec | None = None


def answer_cost(request: Cost, told: Told) -> Answer:
    """The money. Raises Question no_price, out_of_range, no_serves, no_amounts, two_readings, and as resolve does."""
    notes = Notes()
    _check(request)
    currency = _currency(request, told.settings)
    costed = _wasting(_costed(request, told, notes), request.waste, notes)
    facts = _facts(request, costed, told.settings, notes)
    if request.moved is not None:
        facts = _with_before(request, request.moved, facts, told)
    spec = costed.spec
    unsaid = ("abv", "serve_size", "whole_batch") if costed.serves == 1.0 else ("abv", "serve_size")
    return Answer(
        "cost",
        title=spec.title if spec is not None else "",
        understood=tuple(notes.understood),
        serves=costed.serves,
        cost=replace(facts, currency=currency, items=costed.items),
        first=spec.first if spec is not None else told.settings.first,
        ounce_ml=ounce_ml(told.settings),
        focus=request.ask,
        assumed=tuple(note for note in notes.assumed if note.code not in unsaid),
        remarks=tuple(note for note in notes.remarks if note.code != "unknown_strength"),
    )


def _wasting(costed: _Costed, waste: float, notes: Notes) -> _Costed:
    """What it costs with so much poured away on top, noted."""
    if not waste:
        return costed
    if not 0.0 < waste <= 1.0:
        raise Question("out_of_range", f"{percent(waste)} waste", most="100 %")
    notes.assume("waste", waste)
    more = 1.0 + waste
    return replace(
        costed,
        per_serve=None if costed.per_serve is None else costed.per_serve * more,
        total=None if costed.total is None else costed.total * more,
        items=tuple((name, cost * more) for name, cost in costed.items),
    )


def _with_before(request: Cost, moved: tuple[Money, Money], facts: CostFacts, told: Told) -> CostFacts:
    """The facts with the cost and the pour cost as they were at the old price."""
    old, new = moved
    recipe, cost = request.recipe, request.cost
    if recipe is not None:
        same = [part.price is not None and part.price.value == new.value for part in recipe.parts]
        parts = tuple(replace(p, price=old) if now else p for p, now in zip(recipe.parts, same, strict=True))
        recipe = replace(recipe, parts=parts)
    if cost is not None and cost.value == new.value:
        cost = old
    price = old if request.price is not None and request.price.value == new.value else request.price
    before = replace(request, recipe=recipe, cost=cost, price=price, moved=None)
    if before == replace(request, moved=None):
        raise Question("unclear_number", f"{old.value:g}")
    notes = Notes()
    was = _facts(before, _wasting(_costed(before, told, notes), request.waste, notes), told.settings, notes)
    per_serve = was.per_serve if was.per_serve != facts.per_serve else None
    return replace(facts, was_per_serve=per_serve, was_pour_cost=was.pour_cost)


def _check(request: Cost) -> None:
    """Every figure of the request within reason."""
    for money, what in ((request.price, "price"), (request.cost, "cost")):
        if money is not None and not 0.0 < money.value <= _MOST_MONEY:
            raise Question("out_of_range", f"{what} {money.value:g}")
    if request.pour_cost is not None and not 0.0 < request.pour_cost <= 1.0:
        raise Question("out_of_range", f"{percent(request.pour_cost)} pour cost", most="100 %")
    if request.margin is not None and not 0.0 <= request.margin < 1.0:
        raise Question("out_of_range", f"{percent(request.margin)} margin", most="99 %")
    if request.markup is not None and not 1.0 <= request.markup < 1e6:
        raise Question("out_of_range", f"{request.markup:g} times the cost")
    if request.tax is not None and not 0.0 <= request.tax <= 1.0:
        raise Question("out_of_range", f"{percent(request.tax)} tax", most="100 %")


def _currency(request: Cost, settings: Settings) -> str:
    """The currency of the message, else the chat's, else none. Raises Question two_readings."""
    moneys: list[Money | None] = [request.price, request.cost]
    if request.bottle is not None:
        moneys.append(request.bottle.price)
    if request.recipe is not None:
        moneys += [part.price for part in request.recipe.parts]
    said = list(dict.fromkeys(money.currency for money in moneys if money is not None and money.currency))
    if len(said) > 1:
        raise Question("two_readings", f"{said[0]} or {said[1]}")  # no rate of exchange is known
    return said[0] if said else settings.currency


def _costed(request: Cost, told: Told, notes: Notes) -> _Costed:
    """Cost of a serve: as said, or of a spec from bottle prices, or of a pour from one bottle."""
    if request.cost is not None:
        serves = None if request.makes.serves is None else measured_serves(request.makes.serves)
        total = request.cost.value * serves if serves is not None and serves > 1.0 else None
        return _Costed(request.cost.value, total, serves)
    recipe = request.recipe
    if request.bottle is not None and (recipe is None or not recipe.parts):
        pour = (
            request.bottle
            if request.bottle.measure is not None
            else replace(request.bottle, measure=request.makes.serve)
        )
        recipe = Recipe((pour,))
        request = replace(request, makes=replace(request.makes, serve=None))
    if recipe is None or not (recipe.parts or recipe.house):
        return _Costed(None)
    return _of_spec(recipe, request, told, notes)


def _of_spec(recipe: Recipe, request: Cost, told: Told, notes: Notes) -> _Costed:
    for part in with_house(recipe, told).parts:
        if part.measure is None:
            raise Question("no_amounts", part.typed or part.name, names=part.typed or part.name)
    spec = resolve(recipe, request.makes, told, notes)
    costs: list[tuple[str, float]] = []
    missing: list[str] = []
    small: list[str] = []
    for item in spec.items:
        price = _item_cost(item, told, notes)
        if price is not None:
            costs.append((item.known.name, price))
        elif item.known.ingredient is None or item.known.ingredient.family in _UNPRICED:
            small.append(item.known.name)
        else:
            missing.append(item.known.name)
    if missing or not costs:
        names = ", ".join(dict.fromkeys(missing or small))
        raise Question("no_price", names, names=names)
    if small:
        notes.assume("unpriced", *small)
    total = sum(cost for _, cost in costs)
    serves = spec.serves
    many = serves is not None and serves != 1.0
    return _Costed(
        total / serves if serves else None, total if many or not serves else None, serves, tuple(costs), spec
    )


def _item_cost(item: Item, told: Told, notes: Notes) -> float | None:
    """What an item costs in the whole batch, from its price in the message, else on the shelf; None without one."""
    part, bottle = item.part, item.known.bottle or shelf_bottle(item.known.name, told)
    if part.price is not None:
        if not 0.0 <= part.price.value <= _MOST_MONEY:
            raise Question("out_of_range", f"{part.typed or part.name} {part.price.value:g}")
        price = part.price.value
    elif bottle is not None and bottle.price is not None:
        price = bottle.price
        notes.assume("shelf", item.known.name)
    else:
        return None
    if item.amount.g is not None and part.size is not None and part.size.unit in WEIGHTS:
        return core.cost_of(item.amount.g * item.scale, price, part.size.value * G_PER[part.size.unit])
    if item.amount.count is not None and item.total_ml is None:
        pieces = part.size.value if part.size is not None and part.size.unit == "count" else 1.0
        return core.cost_of(item.amount.count * item.scale, price, pieces)
    if item.total_ml is None:
        return None
    size_ml = _size_ml(part, told, notes)
    if size_ml is None and bottle is not None:
        size_ml = bottle.size_ml
    if size_ml is None:
        of_wine = item.known.ingredient is not None and item.known.ingredient.family in _OF_WINE
        size_ml = _WINE_ML if of_wine else _USUAL_SIZE_ML
        notes.assume("bottle_size", item.known.name, size_ml)
    return core.cost_of(item.total_ml, price, size_ml)


def _size_ml(part: Part, told: Told, notes: Notes) -> float | None:
    size: Measure | None = part.size
    return None if size is None else ml_of(size, told.settings, notes)


def _tax(request: Cost, settings: Settings, notes: Notes) -> tuple[float, bool]:
    """Tax rate, and whether the price holds it: said without "in" or "out" it is in, in the US on top. Noted."""
    rate = request.tax or 0.0
    if request.tax_in is not None:
        if rate:
            notes.assume("tax_in" if request.tax_in else "tax_out")
        return rate, request.tax_in
    if not rate:
        return 0.0, True
    inside = settings.country != "us"
    notes.assume("tax_in" if inside else "tax_out")
    return rate, inside


def _facts(request: Cost, costed: _Costed, settings: Settings, notes: Notes) -> CostFacts:
    """Cost with price, cost with a target, price with a target, or the cost alone."""
    rate, inside = _tax(request, settings, notes)
    asked = (
        request.price is not None
        or request.pour_cost is not None
        or request.margin is not None
        or request.markup is not None
    )
    cost = costed.per_serve
    if asked and cost is None and costed.total is not None:
        raise Question("no_serves", "", what="price")
    if cost is not None and not isfinite(cost):
        raise Question("out_of_range", figure(cost))
    total = costed.total
    price = request.price.value if request.price is not None else None
    if price is not None and cost is not None:
        found = core.profit(cost, price, rate, inside)
        return CostFacts(
            "", total, cost, price, found.price.net, found.pour_cost, found.margin, found.markup, rate or None
        )
    share = request.pour_cost
    if share is None and request.margin is not None:
        share = 1.0 - request.margin
    if share is None and request.markup is not None:
        share = 1.0 / request.markup
    if price is not None:
        if share is None:
            raise Question("no_price", "", what="cost")
        may_cost = core.affordable(price, share, rate, inside)
        net = core.priced(price, rate, inside).net
        return CostFacts("", None, may_cost, price, net, share, 1.0 - share, 1.0 / share, rate or None)
    if cost is None and costed.total is None:
        raise Question("no_price", "", what="cost")
    if share is None or cost is None:
        return CostFacts("", total, cost)
    if cost <= 0.0:
        raise Question("out_of_range", "a cost of nothing")
    target = core.price_for_pour_cost(cost, share, rate)
    paid = target.gross if inside or request.tax_in is None else target.net
    return CostFacts("", total, cost, paid, target.net, share, 1.0 - share, 1.0 / share, rate or None)
