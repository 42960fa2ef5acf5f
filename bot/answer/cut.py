"""Cut -> Answer: water to a strength, the strength after water, blends, and what to do where water cannot help.

Lives here: which of these was asked, and what is missing for it. Must never: do plain arithmetic on volumes that
contract (bot.core.cut and Liquid do it by mass).
"""

from dataclasses import dataclass, replace

from bot.answer.amounts import WEIGHTS, check_volume, first_system, ml_of, ounce_ml, typed
from bot.answer.ingredients import Known, know
from bot.answer.mix import caution_about
from bot.answer.notes import Notes, Question, figure, percent
from bot.answer.spec import per_litre
from bot.core.cut import CannotRaise, blend, stronger_needed, water_to_cut
from bot.core.facts import Answer, Line, Result
from bot.core.liquid import Liquid, mix
from bot.core.units import grams
from bot.told import Told
from grammar.request import Cut, Lot, Measure, Part

__all__ = ["answer_cut", "cannot_raise"]

_A_LITRE_ML = 1000.0
_STRONGER = (0.60, 0.96)  # what is on offer where water cannot raise: an overproof spirit, neutral spirit
_SAME = 0.02


@dataclass(frozen=True, slots=True)
class _Lot:
    """A volume of one strength; ml None: not said."""

    known: Known
    abv: float
    ml: float | None
    unit: str

    @property
    def litre(self) -> Liquid:
        """A litre of it."""
        return per_litre(self.abv, self.known.sugar_g_per_l)

    def of(self, ml: float) -> Liquid:
        """So many mL of it."""
        return self.litre.scaled(ml / _A_LITRE_ML)


def answer_cut(request: Cut, told: Told) -> Answer:
    """The water, the strength or the blend.

    Raises Question cannot_raise, no_strength, no_volume, out_of_range, conflict_total, too_large, two_readings.
    """
    notes = Notes()
    settings = told.settings
    if not request.lots:
        raise Question("no_strength")
    target = request.target
    if target is not None and not 0.0 < target <= 1.0:
        raise Question("out_of_range", percent(target), strength=percent(target))
    names = tuple(lot.name for lot in request.lots)
    lots = [_lot(lot, names, told, notes) for lot in request.lots]
    water_ml = None if request.water is None else ml_of(request.water, settings, notes)
    finished_ml = None if request.finished is None else ml_of(request.finished, settings, notes)
    if target is not None and len(lots) > 1 and any(lot.ml is None for lot in lots) and max(lot.abv for lot in lots) < target:
        raise _all_weaker(lots, target)
    if target is None:
        lots, made = _watered(lots, water_ml, finished_ml, notes)
    elif request.blend and len(lots) > 1 and any(lot.ml is None for lot in lots):
        lots, made = _blended(lots, target, finished_ml, notes), 0.0
    else:
        lots, made = _cut(lots, target, water_ml, finished_ml, notes)
    return _answer(request, lots, made, told, notes)


def _lot(lot: Lot, names: tuple[str, ...], told: Told, notes: Notes) -> _Lot:
    known = know(Part(lot.name, typed=lot.name, abv=lot.abv), names, told, notes)
    if known.abv is None:
        raise Question("no_strength", known.name, name=known.name)
    measure = lot.measure
    if measure is None:
        return _Lot(known, known.abv, None, "")
    if measure.unit in WEIGHTS:
        if not measure.value > 0.0:
            raise Question("out_of_range", typed(measure))
        mass_g = grams(measure.value, measure.unit)
        volume_ml = mass_g * _A_LITRE_ML / per_litre(known.abv, known.sugar_g_per_l).mass_g
        return _Lot(known, known.abv, check_volume(volume_ml, typed(measure)), measure.unit)
    return _Lot(known, known.abv, ml_of(measure, told.settings, notes), measure.unit)


def _mixed(lots: list[_Lot]) -> Liquid:
    return mix(lot.of(lot.ml) for lot in lots if lot.ml is not None)


def _per_litre(lots: list[_Lot], notes: Notes) -> list[_Lot]:
    """The lots with a volume each: a single one without is a bottle of the shelf's size, else a litre; noted."""
    if all(lot.ml is not None for lot in lots):
        return lots
    if len(lots) > 1:
        raise Question("no_volume", ", ".join(lot.known.name for lot in lots if lot.ml is None))
    bottle = lots[0].known.bottle
    if bottle is not None and bottle.size_ml is not None:
        notes.assume("bottle", bottle.size_ml)
        return [replace(lots[0], ml=bottle.size_ml)]
    notes.assume("per_litre")
    return [replace(lots[0], ml=_A_LITRE_ML)]


def _watered(
    lots: list[_Lot], water_ml: float | None, finished_ml: float | None, notes: Notes
) -> tuple[list[_Lot], float]:
    """No target: so much water was added, or the lots were topped up to a volume."""
    if any(lot.ml is None for lot in lots):
        raise Question("no_volume", ", ".join(lot.known.name for lot in lots if lot.ml is None))
    whole = _mixed(lots)
    if water_ml is not None:
        return lots, water_ml
    if finished_ml is None:
        raise Question("no_strength", "the strength wanted")
    if finished_ml < whole.volume_ml:
        found = f"{figure(whole.volume_ml)} ml is more than {figure(finished_ml)} ml"
        raise Question("conflict_total", found, total_ml=figure(whole.volume_ml), volume_ml=figure(finished_ml))
    if whole.ethanol_g <= 0.0:
        return lots, finished_ml - whole.volume_ml
    return lots, water_to_cut(whole, whole.ethanol_ml / finished_ml).water_ml


def _cut(
    lots: list[_Lot], target: float, water_ml: float | None, finished_ml: float | None, notes: Notes
) -> tuple[list[_Lot], float]:
    """Down to a strength with water: what there is, for a finished volume, or for so much water."""
    have = lots
    if finished_ml is not None or water_ml is not None:
        lots = [replace(lots[0], ml=lots[0].ml or _A_LITRE_ML)] if len(lots) == 1 else lots
    lots = _per_litre(lots, notes)
    whole = _mixed(lots)
    try:
        cut = water_to_cut(whole, target)
    except CannotRaise:
        raise cannot_raise(whole, target) from None
    if cut.water_ml == 0.0:
        notes.remark("same_strength")
    factor = 1.0
    if finished_ml is not None:
        factor = finished_ml / cut.finished.volume_ml
    elif water_ml is not None and cut.water_ml > 0.0:
        factor = water_ml / cut.water_ml
        if have[0].ml is not None and abs(factor - 1.0) > _SAME:
            found = f"{figure(cut.water_ml)} ml of water, not {figure(water_ml)} ml"
            raise Question("conflict_total", found, water_ml=figure(cut.water_ml))
    for lot in have if factor > 1.0 + _SAME else ():
        if lot.ml is not None:
            notes.remark("short", lot.known.name, lot.ml * factor - lot.ml)
    return [replace(lot, ml=lot.ml * factor) for lot in lots if lot.ml is not None], cut.water_ml * factor


def _blended(lots: list[_Lot], target: float, finished_ml: float | None, notes: Notes) -> list[_Lot]:
    """Two strengths to a third: for a volume, or as much of one as the amount of the other needs."""
    if len(lots) != 2:
        raise Question("two_readings", ", ".join(lot.known.name for lot in lots))
    first, second = lots
    if first.abv == second.abv:
        raise Question("conflict_total", f"{percent(first.abv)} and {percent(second.abv)}", strength=percent(first.abv))
    try:
        a_ml, b_ml = blend(finished_ml or _A_LITRE_ML, first.abv, second.abv, target)
    except CannotRaise:
        stronger = max(first.abv, second.abv)
        raise cannot_raise(per_litre(stronger, 0.0), target) from None
    except ValueError:
        weaker = min(first.abv, second.abv)
        raise Question("out_of_range", percent(target), weakest=percent(weaker), strength=percent(target)) from None
    given = next((lot.ml for lot in lots if lot.ml is not None), None)
    if given is not None and finished_ml is None:
        share = a_ml if first.ml is not None else b_ml
        if share <= 0.0:
            raise Question("out_of_range", percent(target), strength=percent(target))
        a_ml, b_ml = a_ml * given / share, b_ml * given / share
    elif finished_ml is None:
        notes.assume("per_litre")
    notes.understand("blend", first.abv, second.abv, target)
    return [replace(first, ml=check_volume(a_ml + 1e-9)), replace(second, ml=check_volume(b_ml + 1e-9))]


def _all_weaker(lots: list[_Lot], target: float) -> Question:
    """ "700 ml of 40% up to 45% with 16% vermouth": what is to be added is below the strength wanted too."""
    added = next(lot for lot in lots if lot.ml is None)
    held = [lot for lot in lots if lot.ml is not None]
    have = _mixed(held) if held else per_litre(max(lot.abv for lot in lots), 0.0)
    return cannot_raise(have, target, f"{percent(added.abv)} {added.known.name}".strip())


def cannot_raise(have: Liquid, target: float, by: str = "Water") -> Question:
    """Why water, or what else was to be added, will not do, and how much of something stronger would."""
    volume_ml, abv = have.volume_ml, have.abv
    facts = {"from": percent(abv), "to": percent(target), "volume_ml": figure(volume_ml), "by": by}
    try_instead = ""
    for stronger in _STRONGER:
        if stronger > target + 0.01:
            amount = figure(stronger_needed(have, target, stronger))
            if not try_instead:
                facts["stronger"], facts["stronger_ml"] = percent(stronger), amount
                to = f"{abv * 100:.4g}% up to {target * 100:.4g}%"
                try_instead = f"how much {stronger * 100:g}% to bring {figure(volume_ml)} ml of {to}"
            else:
                facts["neutral"], facts["neutral_ml"] = percent(stronger), amount
    return Question("cannot_raise", f"{percent(abv)} to {percent(target)}", try_instead, **facts)


def _answer(request: Cut, lots: list[_Lot], water_ml: float, told: Told, notes: Notes) -> Answer:
    by_weight = request.by_weight or any(lot.unit in WEIGHTS for lot in lots)
    liquids = [(lot, lot.of(lot.ml)) for lot in lots if lot.ml is not None]
    water = per_litre(0.0, 0.0).scaled(water_ml / _A_LITRE_ML)
    finished = mix([*(liquid for _, liquid in liquids), water])
    lines = [
        Line(lot.known.name, lot.ml, lot.abv, liquid.mass_g if by_weight else None, None, lot.unit)
        for lot, liquid in liquids
    ]
    if water_ml > 0.0:
        lines.append(Line("water", water_ml, g=water.mass_g if by_weight else None))
    undiluted_ml = sum(lot.ml or 0.0 for lot in lots)
    measured_ml = check_volume(undiluted_ml + water_ml)
    finished_ml = finished.volume_ml
    ingredients = tuple(lot.known.ingredient for lot in lots if lot.known.ingredient is not None)
    caution_about(notes, ingredients, max(lot.abv for lot in lots), measured_ml)
    measures = [lot.measure for lot in request.lots] + [request.finished, request.water]
    units = [measure.unit for measure in measures if isinstance(measure, Measure)]
    held_ml = None if request.held_in is None else ml_of(request.held_in, told.settings, notes)
    if held_ml is not None and finished_ml > held_ml:
        notes.remark("does_not_fit", finished_ml, held_ml)
    if measured_ml - finished.volume_ml >= 5.0:
        notes.remark("contraction", measured_ml - finished.volume_ml)
    results: tuple[Result, ...] = ()
    if water_ml > 0.0:
        results = (Result(water.mass_g, "g", "water") if by_weight else Result(water_ml, "ml", "water"),)
    return Answer(
        "strength" if request.target is None else "cut",
        understood=tuple(notes.understood),
        lines=tuple(lines),
        undiluted_ml=undiluted_ml,
        measured_ml=measured_ml,
        finished_ml=finished_ml,
        abv=finished.abv,
        water_share=water_ml / undiluted_ml if water_ml > 0.0 and undiluted_ml > 0.0 else None,
        sugar_g_per_l=finished.sugar_g_per_l if finished.sugar_g > 0.0 else None,
        results=results,
        first=first_system(units, told.settings),
        ounce_ml=ounce_ml(told.settings),
        focus="abv" if request.target is None else "" if request.blend else "water",
        assumed=tuple(notes.assumed),
        remarks=tuple(notes.remarks),
        cautions=tuple(notes.cautions),
    )
