"""Dilution -> Answer: water for a share, the share an amount is, what stirring or shaking adds.

Lives here: which two figures were given and which is wanted. Must never: state what ice adds as more than an estimate:
the book's rule stands beside a heat balance.
"""

from dataclasses import replace

from bot.answer.amounts import first_system, measured_serves, ml_of, ounce_ml
from bot.answer.batch import answer_batch
from bot.answer.mix import mixed
from bot.answer.notes import Notes, Question, percent
from bot.answer.resolve import known_spec, regression
from bot.answer.spec import per_litre
from bot.core.batch import undiluted_of, water_for, water_share
from bot.core.dilution import ice_dilution, ice_equilibrium
from bot.core.facts import Answer, Line, Result
from bot.core.liquid import Liquid
from bot.told import Told
from grammar.request import Batch, Dilution, Measure, Water

__all__ = ["answer_dilution"]

_ROOM_C = 20.0
_STIRRED_TO_C = -5.0  # where stirring usually ends: common practice, no source
_MOST_SHARE = 3.0


def answer_dilution(request: Dilution, told: Told) -> Answer:
    """The water or the share. Raises Question no_volume, no_amounts, no_strength, out_of_range, conflict_total."""
    if request.recipe is not None:
        return _of_recipe(request, told)
    notes = Notes()
    if request.technique:
        return _by_ice(request, told, notes)
    settings = told.settings
    share, of_finished = request.share, request.of_finished
    if share is not None and (not 0.0 <= share <= _MOST_SHARE or (of_finished and share >= 1.0)):
        raise Question("out_of_range", f"{percent(share)} water", most="100 %" if of_finished else "300 %")
    serves = 1.0 if request.serves is None else measured_serves(request.serves)
    volume_ml = _ml(request.volume, serves, told, notes)
    finished_ml = _ml(request.finished, serves, told, notes)
    water_ml = None if request.water is None else ml_of(request.water, settings, notes)
    undiluted_ml, water_ml = _solved(share, of_finished, volume_ml, finished_ml, water_ml)
    results = _shares(water_ml, undiluted_ml, of_finished) if share is None else ()
    focus = "share" if share is None else "water"
    more = share is not None and volume_ml is not None and request.water is not None
    answer = _answer(request, undiluted_ml, water_ml, results, told, notes, focus="more_water" if more else focus)
    if more and not of_finished:
        answer = replace(answer, water_share=share)
    if share is not None:
        notes.understand("water_of_finished" if of_finished else "water_of_undiluted", share)
    return replace(answer, understood=tuple(notes.understood))


def _ml(measure: Measure | None, serves: float, told: Told, notes: Notes) -> float | None:
    return None if measure is None else ml_of(measure, told.settings, notes) * serves


def _solved(
    share: float | None, of_finished: bool, volume_ml: float | None, finished_ml: float | None, water_ml: float | None
) -> tuple[float, float]:
    """Undiluted and water in mL from whichever figures were given."""
    if share is not None:
        if finished_ml is not None and volume_ml is None:
            undiluted_ml = undiluted_of(finished_ml, share, of_finished)
            return undiluted_ml, finished_ml - undiluted_ml
        if volume_ml is not None and water_ml is not None:  # some water is in already: how much more
            more_ml = water_for(volume_ml, share, of_finished) - water_ml
            if more_ml < 0.0:
                raise Question("conflict_total", f"{water_ml:g} ml of water is more than {percent(share)}")
            return volume_ml + water_ml, more_ml
        if volume_ml is not None:
            return volume_ml, water_for(volume_ml, share, of_finished)
        if water_ml is not None and share > 0.0:
            return water_ml / share - (water_ml if of_finished else 0.0), water_ml
        raise Question("no_volume", f"{percent(share)} water")
    if water_ml is None:
        if volume_ml is not None and finished_ml is not None and finished_ml > volume_ml:
            return volume_ml, finished_ml - volume_ml
        raise Question("no_amounts", "water")
    if volume_ml is not None:
        return volume_ml, water_ml
    if finished_ml is None:
        raise Question("no_volume", "what the water goes into")
    if water_ml >= finished_ml:
        raise Question("conflict_total", f"{water_ml:g} ml of water in {finished_ml:g} ml")
    return finished_ml - water_ml, water_ml


def _shares(water_ml: float, undiluted_ml: float, of_finished: bool) -> tuple[Result, ...]:
    """The share both ways, the one asked for first."""
    both = (
        Result(water_share(water_ml, undiluted_ml) * 100.0, "percent", "undiluted"),
        Result(water_share(water_ml, undiluted_ml, True) * 100.0, "percent", "finished"),
    )
    return both[::-1] if of_finished else both


def _answer(
    request: Dilution,
    undiluted_ml: float,
    water_ml: float,
    results: tuple[Result, ...],
    told: Told,
    notes: Notes,
    focus: str,
) -> Answer:
    measures = [request.volume, request.water, request.finished]
    units = [measure.unit for measure in measures if measure is not None]
    abv = None
    measured_ml = undiluted_ml + water_ml
    finished_ml = measured_ml
    if request.abv is not None:
        drink = per_litre(request.abv, 0.0).scaled(undiluted_ml / 1000.0) + Liquid.water(water_ml)
        abv, finished_ml = drink.abv, drink.volume_ml
    serves = request.serves
    return Answer(
        "dilution",
        understood=tuple(notes.understood),
        lines=(Line("water", water_ml, typed_unit=units[0] if units else ""),),
        serves=serves,
        undiluted_ml=undiluted_ml,
        measured_ml=measured_ml,
        finished_ml=finished_ml,
        per_serve_ml=finished_ml / serves if serves else None,
        spec_ml=undiluted_ml / serves if serves else None,
        abv=abv,
        water_share=water_share(water_ml, undiluted_ml) if undiluted_ml > 0.0 else None,
        results=results,
        first=first_system(units, told.settings),
        ounce_ml=ounce_ml(told.settings),
        focus=focus,
        assumed=tuple(notes.assumed),
        remarks=tuple(notes.remarks),
    )


def _ice_results(undiluted: Liquid, technique: str, share: float) -> tuple[Result, ...]:
    """The book's rule, and beside it a heat balance down to -5 °C, or as cold as ice gets this drink."""
    rule = Result(share * 100.0, "percent", technique)
    try:
        balance = ice_dilution(undiluted, _ROOM_C, _STIRRED_TO_C)
    except ValueError:
        try:
            balance = ice_equilibrium(undiluted, _ROOM_C).dilution
        except ValueError:
            return (rule,)
    return (rule, Result(balance * 100.0, "percent", "heat balance"))


def _by_ice(request: Dilution, told: Told, notes: Notes) -> Answer:
    """What stirring or shaking adds to a strength, and to a volume of it when there is one."""
    abv = request.abv
    if abv is None:
        raise Question("no_strength", "drink before the water")
    if not 0.0 <= abv <= 1.0:
        raise Question("out_of_range", percent(abv), strength=percent(abv))
    undiluted = per_litre(abv, 0.0)
    share = regression(undiluted, request.technique)
    notes.assume(f"{request.technique}_water", share)
    results = _ice_results(undiluted, request.technique, share)
    if request.volume is None:
        diluted = undiluted + Liquid.water(share * 1000.0)
        assumed = tuple(notes.assumed)
        return Answer("dilution", abv=diluted.abv, water_share=share, results=results, focus="share", assumed=assumed)
    serves = 1.0 if request.serves is None else measured_serves(request.serves)
    volume_ml = ml_of(request.volume, told.settings, notes) * serves
    return _answer(request, volume_ml, volume_ml * share, results, told, notes, focus="water")


def _of_recipe(request: Dilution, told: Told) -> Answer:
    """A spec: with a share or its own water a batch whose water is asked for, else what ice adds to it."""
    assert request.recipe is not None
    recipe = request.recipe
    if request.technique:
        recipe = replace(recipe, technique=request.technique)
    if request.share is not None:
        recipe = replace(recipe, water=Water("of_finished" if request.of_finished else "of_undiluted", request.share))
    if recipe.water.how not in ("unsaid", "none"):
        return replace(answer_batch(Batch(recipe, request.makes, "water"), told), kind="dilution")
    notes = Notes()
    recipe = replace(recipe, water=Water())
    spec, before, _ = known_spec(recipe, request.makes, told, notes, stirred=True)
    technique = "shaken" if any(note.code == "shaken_water" for note in notes.assumed) else "stirred"
    results = _ice_results(before, technique, spec.water_ml / spec.undiluted_ml)
    return mixed("dilution", spec, request.makes, told.settings, notes, focus="water", results=results)
