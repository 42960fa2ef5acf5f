"""The shelf: the chat's own bottles, with their strength, sugar, size and price."""

from dataclasses import replace

from bot.answer.notes import Question
from bot.core import units
from bot.core.facts import Answer, Note
from bot.told import ShelfBottle, Told
from grammar.request import Shelf

MOST_BOTTLES = 300


def shelf(request: Shelf, told: Told) -> tuple[Answer, Told]:
    """What to say, and what the chat has told us after it. Raises Question no_house_spec, out_of_range, too_large."""
    if request.do == "list":
        return _list(told), told
    name = request.part.name if request.part is not None else ""
    old = next((b for b in told.shelf if b.name == name), None)
    if request.do == "forget":
        if old is None:
            raise Question(
                "no_house_spec", found=name or "that bottle", known=", ".join(b.name for b in told.shelf[:5])
            )
        left = tuple(b for b in told.shelf if b is not old)
        return Answer("forgotten", understood=(Note("shelf_forgotten", (name,)),)), replace(told, shelf=left)
    part = request.part
    assert part is not None
    size_ml: float | None = None
    if part.size is not None:
        try:
            size_ml = units.ml(part.size.value, part.size.unit or "ml", told.settings.ounce)
        except KeyError:
            raise Question("weight", found=f"{part.size.value:g} {part.size.unit}") from None
        if not 5 <= size_ml <= 1_000_000:
            raise Question("out_of_range", found=f"{part.size.value:g} {part.size.unit}")
    price = part.price.value if part.price is not None else None
    if price is not None and not 0 <= price <= 1_000_000:
        raise Question("out_of_range", found=f"{price:g}")
    if request.sugar_g_per_l is not None and not 0 <= request.sugar_g_per_l <= 1000:
        raise Question("out_of_range", found=f"{request.sugar_g_per_l:g} g/l sugar")
    if old is None and len(told.shelf) >= MOST_BOTTLES:
        raise Question("too_large", found=f"{MOST_BOTTLES} bottles")
    new = ShelfBottle(
        name,
        part.abv if part.abv is not None else old.abv if old else None,
        request.sugar_g_per_l if request.sugar_g_per_l is not None else old.sugar_g_per_l if old else None,
        size_ml if size_ml is not None else old.size_ml if old else None,
        price if price is not None else old.price if old else None,
    )
    kept = tuple(new if b is old else b for b in told.shelf) if old else (*told.shelf, new)
    settings = told.settings
    if part.price is not None and part.price.currency and not settings.currency:
        settings = replace(settings, currency=part.price.currency)
    told = replace(told, shelf=kept, settings=settings)
    facts = bottle_facts(new, settings.currency)
    return Answer(
        "saved", understood=(Note("shelf_put", (name, *facts)),), actions=("shelf", f"forget my {name}")
    ), told


def bottle_facts(bottle: ShelfBottle, currency: str) -> tuple[str, ...]:
    """A bottle's figures as short texts."""
    facts = []
    if bottle.abv is not None:
        facts.append(f"{bottle.abv * 100:.4g}%")
    if bottle.sugar_g_per_l is not None:
        facts.append(f"{bottle.sugar_g_per_l:g} g/L sugar")
    if bottle.size_ml is not None:
        facts.append(f"{bottle.size_ml:.4g} mL")
    if bottle.price is not None:
        sign = currency if len(currency) == 1 else ""
        code = f" {currency}" if len(currency) > 1 else ""
        facts.append(f"{sign}{bottle.price:.2f}{code} a bottle")
    return tuple(facts)


def _list(told: Told) -> Answer:
    if not told.shelf:
        return Answer("listed", understood=(Note("empty_list", ("shelf",)),), actions=("my gin is 46.2%, 700 ml, 28",))
    items = tuple((b.name, ", ".join(bottle_facts(b, told.settings.currency))) for b in told.shelf)
    return Answer("listed", understood=(Note("shelf_list"),), items=items)
