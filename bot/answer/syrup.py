"""Syrup -> Answer: sweetener and water for a volume or from what is at hand, saline, sugar content.

Lives here: which ratio and which of weight or volume is meant. Must never: know densities (bot.core.syrup).
"""

from dataclasses import replace

from bot.answer.amounts import WEIGHTS, check_volume, first_system, ml_of, ounce_ml, typed
from bot.answer.notes import Notes, Question, figure, percent
from bot.core import syrup as core
from bot.core.batch import whole_parts
from bot.core.facts import Answer, Line, Result
from bot.core.units import grams
from bot.told import Settings, Told
from grammar.request import Measure, Syrup

__all__ = ["answer_syrup"]

_A_LITRE_ML = 1000.0
_USUAL_RATIO = (1.0, 1.0)  # plain syrup: common practice, no source
_USUAL_SALINE = 0.20  # common practice, no source
_MOST_SALT = 0.317
_SAME = 0.02
_NEAR_G_PER_ML = 0.02  # within which a density said beside its Brix is the same thing: common practice, no source
_MOST_TO_ONE = 1000.0  # no syrup is so rich, nor so thin: common practice, no source


def answer_syrup(request: Syrup, told: Told) -> Answer:
    """What to weigh and what it makes. Raises Question out_of_range, conflict_amounts, too_large, weight."""
    notes = Notes()
    if request.sweet == "salt":
        return _saline(request, told, notes)
    sweetener = core.SWEETENERS.get(request.sweet)
    if sweetener is None:
        raise Question("unread", request.sweet, names=request.sweet)
    if request.had is not None and request.ask == "in_place":
        return _in_place(request, request.had, sweetener, told, notes)
    if request.had is not None:
        return _changed(request, request.had, sweetener, told, notes)
    made = _made(request, sweetener, told.settings, notes)
    density = made.liquid.mass_g / made.volume_ml
    if request.g_per_ml is not None and abs(density - request.g_per_ml) > _NEAR_G_PER_ML:
        raise Question("conflict_amounts", f"{request.g_per_ml:g} g/ml beside {made.brix:.3g} Brix")
    content = (
        request.ask == "sugar_content" and request.volume is None and request.sugar is None and request.water is None
    )
    lines: tuple[Line, ...] = ()
    if not content:
        sweet_unit = request.sugar.unit if request.sugar is not None else ""
        lines = (
            Line(sweetener.name, made.sweet_ml, g=made.sweet_g, typed_unit=sweet_unit),
            Line("water", made.water_ml, g=made.water_g),
        )
    return Answer(
        "syrup",
        understood=tuple(notes.understood),
        lines=lines,
        finished_ml=None if content else check_volume(made.volume_ml),
        sugar_g=None if content else made.sugar_g,
        sugar_g_per_l=made.sugar_g_per_l,
        brix=made.brix,
        first=first_system(_units(request), told.settings, request.unit),
        ounce_ml=ounce_ml(told.settings),
        focus=request.ask if request.ask == "sugar_content" else "",
        assumed=tuple(notes.assumed),
        remarks=tuple(notes.remarks),
    )


def _changed(
    request: Syrup, had: tuple[float, float], sweetener: core.Sweetener, told: Told, notes: Notes
) -> Answer:
    """What brings a syrup at hand to another ratio: sweetener, or water. A litre of it where no volume was said."""
    made = _made(replace(request, ratio=had), sweetener, told.settings, notes)
    if request.volume is None:
        notes.assume("per_litre")
    wanted = _share(request, sweetener, Notes())
    sweet_g, water_g = core.to_share(made, wanted)
    after = core.more_of(made, sweet_g, water_g)
    ratio = request.ratio or had
    notes.understand("syrup_to", made.volume_ml, *had, *ratio)
    added = Line(sweetener.name, g=sweet_g) if sweet_g > 0.0 else Line("water", water_g, g=water_g)
    return Answer(
        "syrup",
        understood=tuple(notes.understood),
        lines=(added,),
        finished_ml=check_volume(after.volume_ml),
        sugar_g=after.sugar_g,
        sugar_g_per_l=after.sugar_g_per_l,
        brix=after.brix,
        first=first_system(_units(request), told.settings, request.unit),
        ounce_ml=ounce_ml(told.settings),
        assumed=tuple(notes.assumed),
    )


def _in_place(
    request: Syrup, had: tuple[float, float], sweetener: core.Sweetener, told: Told, notes: Notes
) -> Answer:
    """How much of the syrup at hand is as sweet as the volume a spec asks for of another."""
    asked = _made(request, sweetener, told.settings, notes)
    at_hand = core.from_volume(_share(replace(request, ratio=had), sweetener, Notes()), asked.volume_ml, sweetener)
    volume_ml = check_volume(asked.volume_ml * asked.sugar_g_per_l / at_hand.sugar_g_per_l)
    if volume_ml < asked.volume_ml:
        notes.remark("same_volume", asked.volume_ml - volume_ml)
    notes.understand("in_place", asked.volume_ml, *(request.ratio or had))
    return Answer(
        "syrup",
        understood=tuple(notes.understood),
        results=(Result(volume_ml, "ml", f"{had[0]:g}:{had[1]:g} {sweetener.name}"),),
        sugar_g=asked.sugar_g,
        first=first_system(_units(request), told.settings, request.unit),
        ounce_ml=ounce_ml(told.settings),
        assumed=tuple(notes.assumed),
        remarks=tuple(notes.remarks),
    )


def _units(request: Syrup) -> list[str]:
    measures = (request.volume, request.sugar, request.water)
    return [m.unit for m in measures if m is not None and m.unit not in WEIGHTS]


def _made(request: Syrup, sweetener: core.Sweetener, settings: Settings, notes: Notes) -> core.Syrup:
    """The finished syrup, from whichever two of ratio, volume, sweetener and water were said."""
    sweet_g = None if request.sugar is None else _sweet_g(request.sugar, sweetener, settings, notes)
    water_g = None if request.water is None else _water_g(request.water, settings, notes)
    if request.ratio is None and request.percent is None and sweet_g is not None and water_g is not None:
        if request.sugar is not None and request.sugar.unit in WEIGHTS:
            notes.remark("ratio_is", *_ratio_of(sweet_g, water_g))
        return core.from_sweet(sweet_g / (sweet_g + water_g), sweet_g, sweetener)
    share = _share(request, sweetener, notes)
    if sweet_g is not None:
        made = core.from_sweet(share, sweet_g, sweetener)
        if water_g is not None and abs(made.water_g - water_g) > _SAME * water_g:
            found = f"{figure(made.water_ml)} ml of water, not {figure(water_g)} ml"
            raise Question(
                "conflict_amounts", found, first=f"{figure(made.water_ml)} ml", second=f"{figure(water_g)} ml"
            )
        return made
    if water_g is not None:
        if share >= 1.0:
            raise Question("out_of_range", percent(share))
        return core.from_water(share, water_g, sweetener)
    if request.volume is None:
        if request.ask == "make":
            notes.assume("per_litre")
        return core.from_volume(share, _A_LITRE_ML, sweetener)
    if request.volume.unit in WEIGHTS:
        mass_g = _positive(grams(request.volume.value, request.volume.unit), request.volume)
        return core.from_sweet(share, mass_g * share, sweetener)
    return core.from_volume(share, ml_of(request.volume, settings, notes), sweetener)


def _ratio_of(sweet_g: float, water_g: float) -> tuple[float, float]:
    """The ratio by weight in small whole numbers where they fit, else to one of the lesser."""
    whole = whole_parts([sweet_g, water_g])
    least = min(sweet_g, water_g)
    return (float(whole[0]), float(whole[1])) if whole is not None else (sweet_g / least, water_g / least)


def _share(request: Syrup, sweetener: core.Sweetener, notes: Notes) -> float:
    """The sweetener's share of the mass, from Brix, or from a ratio by weight unless volumes were meant."""
    if request.percent is not None:
        if not 0.0 < request.percent <= sweetener.sugar:
            raise Question("out_of_range", f"{request.percent * 100:g} Brix", most=f"{sweetener.sugar * 100:g} Brix")
        return core.share_of_brix(request.percent * 100.0, sweetener)
    ratio = request.ratio
    if ratio is None:
        notes.assume("one_to_one")
        ratio = _USUAL_RATIO
    if not (min(ratio) > 0.0 and sum(ratio) < float("inf") and max(ratio) <= _MOST_TO_ONE * min(ratio)):
        raise Question("out_of_range", f"{ratio[0]:g}:{ratio[1]:g}")
    notes.understand("ratio", f"{ratio[0]:g} {sweetener.name} : {ratio[1]:g} water")
    measured = [m for m in (request.sugar, request.water) if m is not None]
    by_volume = request.by == "volume"
    if not request.by:
        by_volume = request.sugar is not None and all(m.unit not in WEIGHTS for m in measured)
        notes.assume("by_volume" if by_volume else "by_weight")
    return core.share_of(ratio, "volume" if by_volume else "weight", sweetener)


def _sweet_g(measure: Measure, sweetener: core.Sweetener, settings: Settings, notes: Notes) -> float:
    if measure.unit in WEIGHTS:
        return _positive(grams(measure.value, measure.unit), measure)
    notes.assume("cup_weight", sweetener.name, sweetener.g_per_ml)
    return ml_of(measure, settings, notes) * sweetener.g_per_ml


def _water_g(measure: Measure, settings: Settings, notes: Notes) -> float:
    if measure.unit in WEIGHTS:
        return _positive(grams(measure.value, measure.unit), measure)
    return ml_of(measure, settings, notes)


def _positive(mass_g: float, measure: Measure) -> float:
    if not 0.0 < mass_g < float("inf"):
        raise Question("out_of_range", typed(measure))
    check_volume(mass_g, typed(measure))
    return mass_g


def _saline(request: Syrup, told: Told, notes: Notes) -> Answer:
    """Salt solution by percent, g in 100 mL of solution; the bar's usual 20 % when none was said, and noted."""
    settings = told.settings
    share = request.percent
    if share is None:
        share = _USUAL_SALINE
        notes.assume("saline", share)
    if not 0.0 < share <= _MOST_SALT:
        raise Question("out_of_range", f"{percent(share)} salt", most=percent(_MOST_SALT))
    notes.understand("saline", share)
    if request.sugar is not None:
        if request.sugar.unit not in WEIGHTS:
            raise Question("weight", f"{typed(request.sugar)} salt", amount=typed(request.sugar))
        volume_ml = _positive(grams(request.sugar.value, request.sugar.unit), request.sugar) / share
    elif request.water is not None:
        volume_ml = _water_g(request.water, settings, notes) / (1.0 - share * core.SALT_ML_PER_G)
    elif request.volume is not None:
        volume_ml = ml_of(request.volume, settings, notes)
    else:
        notes.assume("per_litre")
        volume_ml = _A_LITRE_ML
    made = core.saline(share * 100.0, check_volume(volume_ml))
    return Answer(
        "syrup",
        understood=tuple(notes.understood),
        lines=(Line("salt", g=made.salt_g), Line("water", made.water_ml)),
        finished_ml=made.volume_ml,
        first=first_system(_units(request), settings, request.unit),
        ounce_ml=ounce_ml(settings),
        assumed=tuple(notes.assumed),
    )
