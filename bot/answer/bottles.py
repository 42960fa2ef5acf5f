"""Bottles -> Answer: what to buy, whether the stock is enough, serves from a bottle, what is left, vessels for a batch.

Lives here: whose bottle is how large, and what comes in bottles at all. Must never: round anything but whole bottles.
"""

from bot.answer.amounts import MOST_SERVES, check_volume, first_system, measured_serves, ml_of, ounce_ml, typed
from bot.answer.ingredients import shelf_bottle
from bot.answer.mix import vessels_for
from bot.answer.notes import Notes, Question, figure
from bot.answer.resolve import resolve
from bot.answer.spec import Item, Spec
from bot.core import bottles as core
from bot.core.facts import Answer, BottleFacts, Result, Vessels
from bot.told import Told
from grammar.request import Bottles, Part, Yield

__all__ = ["answer_bottles"]

_USUAL_ML = {"us": 750.0}  # a spirit's bottle: 27 CFR 5.203; elsewhere 700 mL, Directive 2007/45/EC (both from memory)
_USUAL_ELSEWHERE_ML = 700.0
_WINE_ML = 750.0  # common practice, no source
_BITTERS_ML = 200.0  # common practice, no source
_MIXER_ML = 1000.0  # common practice, no source
_OF_WINE = frozenset(["wine", "vermouth", "aromatised wine", "fortified wine", "cider"])
_OF_SPIRIT = frozenset(["spirit", "liqueur"])
_HELD = 1.002


def answer_bottles(request: Bottles, told: Told) -> Answer:
    """Whole bottles, or what they give. Raises Question no_serves, no_amounts, no_volume, too_large, and as resolve."""
    notes = Notes()
    _check(request)
    match request.ask:
        case "serves" | "left":
            return _from_bottle(request, told, notes)
        case "hold":
            return _hold(request, told, notes)
        case "buy" | "enough":
            return _buy(request, told, notes)


def _check(request: Bottles) -> None:
    """Every figure of the request within reason."""
    for ml in (request.size_ml, request.makes.vessel_ml):
        if ml is not None:
            check_volume(ml)
    for count in (request.stock, request.used):
        if count is not None and not 0.0 <= count <= MOST_SERVES:
            raise Question("too_large" if count > MOST_SERVES else "out_of_range", f"{count:g}")
    if request.makes.serves is not None:
        measured_serves(request.makes.serves)
    if request.stock_ml is not None and request.stock_ml != 0.0:
        check_volume(request.stock_ml)


def _spec(request: Bottles, told: Told, notes: Notes) -> Spec:
    """The spec for the serves wanted."""
    assert request.recipe is not None
    spec = resolve(request.recipe, request.makes, told, notes)
    makes = request.makes
    said = makes.serves is not None or makes.guests is not None or makes.volume is not None
    if not said and (spec.serves is not None and spec.serves == 1.0):
        raise Question("no_serves", ", ".join(item.known.name for item in spec.items))
    return spec


def _buy(request: Bottles, told: Told, notes: Notes) -> Answer:
    if request.recipe is None or not (request.recipe.parts or request.recipe.house):
        raise Question("no_amounts", "how much goes in each")
    spec = _spec(request, told, notes)
    facts: list[BottleFacts] = []
    for at, item in enumerate(spec.items):
        if item.total_ml is None:
            continue
        if item.total_ml > 0.0:
            facts.append(_bottle(request, item, at, told, notes))
    if not facts:
        raise Question("no_amounts", ", ".join(item.known.name for item in spec.items))
    return Answer(
        "bottles",
        title=spec.title,
        understood=tuple(notes.understood),
        lines=spec.lines,
        serves=spec.serves,
        bottles=tuple(facts),
        first=spec.first,
        ounce_ml=spec.ounce_ml,
        focus=request.ask,
        assumed=tuple(note for note in notes.assumed if note.code not in ("abv",)),
        remarks=tuple(note for note in notes.remarks if note.code != "unknown_strength"),
    )


def _bottle(request: Bottles, item: Item, at: int, told: Told, notes: Notes) -> BottleFacts:
    """Bottles of one ingredient. A stock said alone is of the first; count is what to buy beyond it."""
    need_ml = item.total_ml or 0.0
    name = item.known.name
    stock, stock_ml = request.stock, request.stock_ml
    held = next((s for s in request.stocks if _same(s, item)), None)
    if held is not None and held.measure is not None:
        size_ml = ml_of(held.size, told.settings, notes) if held.size is not None else _size_ml(request, item, told, notes)
        stock_ml = held.measure.value * (size_ml if held.measure.unit == "count" else 1.0)
        check_volume(stock_ml)
        stock = stock_ml / size_ml
    elif at > 0 or request.stocks or (stock is None and stock_ml is None):
        size_ml = _size_ml(request, item, told, notes)
        plan = core.to_buy(need_ml, size_ml)
        more = int(request.spare)
        return BottleFacts(name, plan.count + more, size_ml, need_ml, plan.left_ml + more * size_ml)
    elif stock and stock_ml is not None:
        size_ml = check_volume(stock_ml / stock)
    else:
        size_ml = _size_ml(request, item, told, notes)
        stock = stock_ml / size_ml if stock_ml is not None else stock or 0.0
        stock_ml = stock * size_ml
    plan = core.to_buy(need_ml, size_ml, stock_ml)
    left_ml = stock_ml - need_ml if plan.short_ml == 0.0 else None
    return BottleFacts(name, plan.count, size_ml, need_ml, left_ml, plan.short_ml or None, stock)


def _same(held: Part, item: Item) -> bool:
    """Whether it is this ingredient: "vermouth" on the shelf is the dry vermouth of the drink."""
    names = {item.part.name, item.part.typed, item.known.name}
    return bool(names & {held.name, held.typed}) or any(held.name in n.split() or n in held.name.split() for n in names)


def _size_ml(request: Bottles, item: Item, told: Told, notes: Notes) -> float:
    """The size said for it, for all, on the shelf; else the usual one for its kind, noted."""
    if item.part.size is not None:
        return ml_of(item.part.size, told.settings, notes)
    if request.size_ml is not None:
        return check_volume(request.size_ml)
    bottle = item.known.bottle or shelf_bottle(item.known.name, told)
    if bottle is not None and bottle.size_ml is not None:
        notes.assume("shelf", item.known.name)
        return bottle.size_ml
    family = item.known.ingredient.family if item.known.ingredient is not None else "spirit"
    if family in _OF_WINE:
        size_ml = _WINE_ML
    elif family == "bitters":
        size_ml = _BITTERS_ML
    elif family in _OF_SPIRIT:
        size_ml = _USUAL_ML.get(told.settings.country, _USUAL_ELSEWHERE_ML)
    else:
        size_ml = _MIXER_ML
    notes.assume("bottle_size", item.known.name, size_ml)
    return size_ml


def _whole_ml(request: Bottles, told: Told, notes: Notes) -> tuple[float, str]:
    """What there is to pour from, and how it was said."""
    if request.stock_ml is not None:
        return check_volume(request.stock_ml), f"{request.stock_ml:g} ml"
    if request.size_ml is not None:
        many = request.stock if request.stock is not None else 1.0
        return check_volume(request.size_ml * many), f"{request.size_ml * many:g} ml"
    if request.makes.volume is not None:
        return ml_of(request.makes.volume, told.settings, notes), typed(request.makes.volume)
    raise Question("no_volume", "the size of the bottle")


def _from_bottle(request: Bottles, told: Told, notes: Notes) -> Answer:
    """Pours in what there is, and after those already taken."""
    pour = request.pour or request.makes.serve
    if pour is None and request.recipe is not None:
        pour = next((part.measure for part in request.recipe.parts if part.measure is not None), None)
    if pour is None:
        raise Question("no_amounts", "how much a serve")
    pour_ml = ml_of(pour, told.settings, notes)
    whole_ml, said = _whole_ml(request, told, notes)
    name = request.recipe.parts[0].name if request.recipe is not None and request.recipe.parts else ""
    left_ml = whole_ml
    bottles: tuple[BottleFacts, ...] = ()
    if request.used is not None:
        used_ml = request.used * pour_ml
        if not 0.0 <= used_ml <= whole_ml * _HELD:
            raise Question(
                "conflict_total", f"{request.used:g} x {figure(pour_ml)} ml is {figure(used_ml)} ml, not {said}"
            )
        left_ml = max(0.0, whole_ml - used_ml)
        size_ml = request.size_ml or whole_ml
        bottles = (BottleFacts(name or "bottle", 0, size_ml, used_ml, left_ml, None, whole_ml / size_ml),)
    found = core.serves_in(left_ml, pour_ml)
    unit = "serves" if request.pour is None or request.pour == request.makes.serve else "pours"
    of = f"{typed(pour)} / {said}" if request.used is None else ""
    results = (Result(left_ml / pour_ml, unit, of), Result(found.left_ml, "ml", "left"))
    units = [pour.unit] + ([request.makes.volume.unit] if request.makes.volume is not None else [])
    return Answer(
        "bottles",
        understood=tuple(notes.understood),
        results=results,
        bottles=bottles,
        first=first_system(units, told.settings),
        ounce_ml=ounce_ml(told.settings),
        focus=request.ask,
        assumed=tuple(notes.assumed),
    )


def _hold(request: Bottles, told: Told, notes: Notes) -> Answer:
    """Vessels for a volume: said, or serves of a size, or what a spec comes to."""
    makes = request.makes
    units: list[str] = []
    lines: Spec | None = None
    if request.recipe is not None and (request.recipe.parts or request.recipe.house):
        lines = _spec(request, told, notes)
        volume_ml = lines.measured_ml
    elif makes.volume is not None:
        volume_ml = ml_of(makes.volume, told.settings, notes)
        units.append(makes.volume.unit)
    elif makes.serves is not None and makes.serve is not None:
        volume_ml = measured_serves(makes.serves) * ml_of(makes.serve, told.settings, notes)
        units.append(makes.serve.unit)
    else:
        raise Question("no_volume", "the volume to hold")
    check_volume(volume_ml)
    vessels = _vessels(request, volume_ml, notes)
    results = (Result(float(vessels.count), "bottles", f"{vessels.size_ml:g} ml"),) if vessels is not None else ()
    return Answer(
        "bottles",
        understood=tuple(notes.understood),
        serves=makes.serves,
        measured_ml=volume_ml,
        vessels=vessels,
        results=results,
        first=lines.first if lines is not None else first_system(units, told.settings),
        ounce_ml=ounce_ml(told.settings),
        focus=request.ask,
        assumed=tuple(note for note in notes.assumed if note.code != "abv"),
        remarks=tuple(note for note in notes.remarks if note.code != "unknown_strength"),
    )


def _vessels(request: Bottles, volume_ml: float, notes: Notes) -> Vessels | None:
    """The vessels said: enough of them, or, where their number was said, whether it is enough."""
    makes = request.makes
    size_ml = request.size_ml or makes.vessel_ml
    if size_ml is None:
        return vessels_for(max(volume_ml, 200.0), 0.0, Yield(), notes)
    check_volume(size_ml)
    if makes.vessel_ml is not None and makes.vessels is not None and request.size_ml is None:
        return vessels_for(volume_ml, 0.0, makes, notes)
    found = core.fit(volume_ml, 0.0, (size_ml,))
    if found.count == 1:
        notes.remark("fits", found.spare_ml)
    return Vessels(size_ml, found.count, found.fill_ml, True)
