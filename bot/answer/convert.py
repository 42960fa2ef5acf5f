"""Convert -> Answer: amounts or a whole spec in another unit, strengths, temperatures, parts, pours.

Lives here: which unit an amount goes to. Must never: turn a weight of a liquid into a volume.
"""

from bot.answer.amounts import OUNCE_UNITS, WEIGHTS, check_volume, first_system, ml_of, ounce_ml, result_unit, typed
from bot.answer.batch import lines_in
from bot.answer.notes import Notes, Question
from bot.answer.resolve import resolve
from bot.core.alcoholometry import abv_from_proof_us, proof_us
from bot.core.batch import whole_parts
from bot.core.bottles import serves_in
from bot.core.facts import Answer, Result
from bot.core.units import from_grams, grams
from bot.told import Settings, Told
from grammar.request import Convert, Measure, Recipe, Yield

__all__ = ["answer_convert"]

_STRENGTHS = frozenset(["percent", "proof"])
_DEGREES = frozenset(["c", "f"])
_ABSOLUTE_ZERO_C = -273.15
_MOST = {"percent": 100.0, "proof": 200.0}


def answer_convert(request: Convert, told: Told) -> Answer:
    """The figures asked for. Raises Question out_of_range, weight (weight to volume), no_amounts, no_volume, unread."""
    notes = Notes()
    settings = told.settings
    if request.recipe is not None:
        return _recipe(request.recipe, request.to, told, notes)
    if not request.items:
        raise Question("no_amounts", request.to, unit=request.to)
    units = [item.unit for item in request.items]
    results: tuple[Result, ...]
    if request.pour is not None:
        each = (request.pour, *request.other_pours)
        results = tuple(r for whole in request.items for pour in each for r in pours(whole, pour, settings, notes))
        if request.to not in ("", "pours"):  # "2 cases in litres, and in 50 ml pours"
            results = (*(r for whole in request.items for r in _item(whole, request.to, settings, notes)), *results)
        units.append(request.pour.unit)
    elif request.to == "parts":
        results = _parts(request.items, settings, notes)
    else:
        targets = [request.to, request.also] if request.also else [request.to]
        results = tuple(r for item in request.items for to in targets for r in _item(item, to, settings, notes))
        if request.together:
            results = (*_sum(request.items, targets, settings, notes), *results)
    return Answer(
        "convert",
        results=results,
        first=first_system(units, settings, request.to),
        ounce_ml=ounce_ml(settings, request.to),
        assumed=tuple(notes.assumed),
        remarks=tuple(notes.remarks),
    )


def pours(whole: Measure, pour: Measure, settings: Settings, notes: Notes) -> tuple[Result, ...]:
    """How many of the smaller in the larger, and what the last full one leaves."""
    found = serves_in(ml_of(whole, settings, notes), pour_ml := ml_of(pour, settings, notes))
    exact = found.count + found.left_ml / pour_ml
    return Result(exact, "pours", f"{typed(pour)} / {typed(whole)}"), Result(found.left_ml, "ml", "left")


def _parts(items: tuple[Measure, ...], settings: Settings, notes: Notes) -> tuple[Result, ...]:
    sizes = [item.value if item.unit == "part" else ml_of(item, settings, notes) for item in items]
    return tuple(Result(value, "parts", typed(item)) for value, item in zip(_in_parts(sizes), items, strict=True))


def _in_parts(sizes: list[float]) -> list[float]:
    """Whole-number parts where a few small numbers fit, else how often the smallest goes into each."""
    if not all(0.0 < size < float("inf") for size in sizes):
        raise Question("out_of_range", "a part of nothing")
    whole = whole_parts(sizes)
    return [float(n) for n in whole] if whole is not None else [size / min(sizes) for size in sizes]


def _item(item: Measure, to: str, settings: Settings, notes: Notes) -> list[Result]:
    """One amount in the unit asked for; without one, in the other systems of its kind."""
    value, unit, of = item.value, item.unit or "ml", typed(item)
    if unit in _DEGREES:
        return [_degrees(value, unit, to, of)]
    if unit in _STRENGTHS:
        if not 0.0 <= value <= _MOST[unit]:
            raise Question("out_of_range", of, most=f"{_MOST[unit]:g}")
        if to not in ("", "percent", "proof"):
            raise Question("unread", to, unit=to)
        if unit == "proof" and to != "proof":
            return [Result(abv_from_proof_us(value) * 100.0, "percent", of)]
        return [Result(proof_us(value / 100.0) if unit == "percent" else value, "proof_us", of)]
    if unit == "part":
        raise Question("no_amounts", of)
    check_volume(value, of)  # a weight has the same limits
    if unit in WEIGHTS:
        if to and to not in WEIGHTS:
            raise Question("weight", f"{of} in {to}", amount=of)
        mass_g = grams(value, unit)
        targets = [to] if to else ["ozw"] if unit in ("g", "kg") else ["g"]
        return [Result(from_grams(mass_g, target), target, of) for target in targets]
    if to in WEIGHTS:
        raise Question("weight", f"{of} in {to}", amount=of)
    volume_ml = ml_of(item, settings, notes)
    if to:
        if to in OUNCE_UNITS and to == "oz":
            notes.assume("ounce", settings.ounce)
        figure, name = result_unit(volume_ml, to, settings)
        return [Result(figure, name, of)]
    if unit in OUNCE_UNITS:
        return [Result(volume_ml, "ml", of)]
    notes.assume("ounce", settings.ounce)
    in_oz = Result(*result_unit(volume_ml, "oz", settings), of)
    return [in_oz] if unit in ("ml", "cl", "dl", "l") else [Result(volume_ml, "ml", of), in_oz]


def _sum(items: tuple[Measure, ...], targets: list[str], settings: Settings, notes: Notes) -> list[Result]:
    """ "3 cups 2 tbsp": what the items come to as one amount."""
    whole = Measure(sum(ml_of(item, settings, notes) for item in items), "ml")
    of = " + ".join(typed(item) for item in items)
    return [Result(r.value, r.unit, of) for to in targets for r in _item(whole, to, settings, notes)]


def _degrees(value: float, unit: str, to: str, of: str) -> Result:
    celsius = value if unit == "c" else (value - 32.0) / 1.8
    if not _ABSOLUTE_ZERO_C <= celsius <= 1000.0:
        raise Question("out_of_range", of)
    if to not in ("", "c", "f"):
        raise Question("unread", to, unit=to)
    if (to or ("f" if unit == "c" else "c")) == "c":
        return Result(celsius, "c", of)
    return Result(celsius * 1.8 + 32.0, "f", of)


def _recipe(recipe: Recipe, to: str, told: Told, notes: Notes) -> Answer:
    """A spec as typed, in another unit; its strengths are nobody's question."""
    settings = told.settings
    spec = resolve(recipe, Yield(), told, notes, unit="" if to == "parts" else to, proportions=True)
    if to == "parts":
        lines = [line for line in spec.lines if line.ml is not None]
        values = _in_parts([line.ml for line in lines if line.ml is not None])
        results = tuple(Result(value, "parts", line.name) for value, line in zip(values, lines, strict=True))
    else:
        results = lines_in(spec, to, settings)
    return Answer(
        "convert",
        title=recipe.drink,
        lines=spec.lines,
        measured_ml=spec.measured_ml,
        results=results,
        first=spec.first,
        ounce_ml=spec.ounce_ml,
        assumed=tuple(note for note in notes.assumed if note.code not in ("abv", "shelf")),
        remarks=tuple(note for note in notes.remarks if note.code != "unknown_strength"),
        garnish=recipe.garnish,
    )
