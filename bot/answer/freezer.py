"""Freezer -> Answer: freezing point, verdict, ice, headspace, the most water and the least strength.

Lives here: which figure was asked and for how much of what. Must never: compute a freezing point (bot.core.freezing).
"""

from dataclasses import replace

from bot.answer.amounts import first_system, ml_of, ounce_ml
from bot.answer.mix import caution_about, check_cold, freezer_facts, mixed
from bot.answer.notes import Notes, Question, percent
from bot.answer.resolve import known_spec
from bot.answer.spec import per_litre
from bot.core.facts import Answer, FreezerFacts, Result
from bot.core.freezing import least_abv
from bot.told import Told
from grammar.request import Freezer

__all__ = ["answer_freezer"]

_A_LITRE_ML = 1000.0
_SWEETEST_G_PER_L = 600.0  # the sweetest creams hold about 500: common practice, no source


def answer_freezer(request: Freezer, told: Told) -> Answer:
    """The verdict, or the figure asked for (focus names it). Raises Question out_of_range, no_strength, as resolve."""
    notes = Notes()
    settings = told.settings
    at_c = request.at_c
    if at_c is None:
        at_c = settings.freezer_c
        if request.ask != "point":
            notes.assume("freezer", at_c)
    check_cold(at_c)
    if request.ask == "least_abv":
        least = least_abv(at_c)
        facts = FreezerFacts(at_c, least_abv=least)
        results = (Result(least * 100.0, "percent"), Result(least * 200.0, "proof_us"))
        return Answer("freezer", freezer=facts, results=results, focus="least_abv", assumed=tuple(notes.assumed))
    if request.recipe is not None:
        return _of_recipe(request, at_c, told, notes)
    if request.abv is None:
        raise Question("no_strength")
    return _of_strength(request, request.abv, at_c, told, notes)


def _of_strength(request: Freezer, abv: float, at_c: float, told: Told, notes: Notes) -> Answer:
    """A strength, and the sugar said beside it: none is assumed."""
    if not 0.0 <= abv <= 1.0:
        raise Question("out_of_range", percent(abv), strength=percent(abv))
    settings = told.settings
    volume_ml = None if request.volume is None else ml_of(request.volume, settings, notes)
    if volume_ml is None and request.ask in ("headspace", "most_water"):
        notes.assume("per_litre")
    if request.sugar_g_per_l is not None and not 0.0 <= request.sugar_g_per_l <= _SWEETEST_G_PER_L:
        raise Question("out_of_range", f"{request.sugar_g_per_l:g} g/l sugar", most=f"{_SWEETEST_G_PER_L:g} g/l")
    if request.sugar_g_per_l:
        notes.understand("with_sugar", request.sugar_g_per_l)
    liquid = per_litre(abv, request.sugar_g_per_l or 0.0).scaled((volume_ml or _A_LITRE_ML) / _A_LITRE_ML)
    facts = freezer_facts(liquid, liquid, volume_ml or _A_LITRE_ML, at_c, volume_ml)
    _remark(request, facts, notes)
    caution_about(notes, (), None, volume_ml or 0.0, facts)
    return Answer(
        "freezer",
        understood=tuple(notes.understood),
        finished_ml=volume_ml,
        abv=abv,
        freezer=facts,
        results=_results(request, facts, volume_ml or _A_LITRE_ML),
        first=first_system([request.volume.unit] if request.volume is not None else [], settings),
        ounce_ml=ounce_ml(settings),
        focus=request.ask,
        sugar_g_per_l=request.sugar_g_per_l,
        assumed=tuple(notes.assumed),
        remarks=tuple(notes.remarks),
        cautions=tuple(notes.cautions),
    )


def _of_recipe(request: Freezer, at_c: float, told: Told, notes: Notes) -> Answer:
    """A spec: its sugar counts, and the water said is inside."""
    assert request.recipe is not None
    spec, _, _ = known_spec(request.recipe, request.makes, told, notes)
    answer = mixed("freezer", spec, request.makes, told.settings, notes, focus=request.ask, at_c=at_c)
    facts = answer.freezer
    assert facts is not None
    _remark(request, facts, notes)
    results = _results(request, facts, spec.undiluted_ml)
    return replace(answer, results=results, remarks=tuple(notes.remarks))


def _remark(request: Freezer, facts: FreezerFacts, notes: Notes) -> None:
    if request.ask == "most_water" and facts.most_water is None and facts.state != "liquid":
        notes.remark("not_even_undiluted")


def _results(request: Freezer, facts: FreezerFacts, undiluted_ml: float) -> tuple[Result, ...]:
    """The one figure asked for, as a figure."""
    match request.ask:
        case "point" if facts.freezing_point_c is not None:
            return (Result(facts.freezing_point_c, "c"), Result(facts.freezing_point_c * 1.8 + 32.0, "f"))
        case "most_water" if facts.most_water is not None:
            return (Result(facts.most_water * 100.0, "percent"), Result(facts.most_water * undiluted_ml, "ml", "water"))
        case "headspace" if facts.headspace_ml is not None:
            return (Result(facts.headspace_ml, "ml"),)
        case "ice" if facts.ice is not None:
            return (Result(facts.ice * 100.0, "percent"),)
        case _:
            return ()
