"""How many times a spec is made: serves, guests, volumes, serve sizes and water put together.

Lives here: the reading of Yield and Water into mL, the size of a ratio's part, and the conflicts between what was said.
Must never: know names or strengths of ingredients. mL are as measured, water inside a volume to fill.
"""

from dataclasses import dataclass, replace

from bot.answer.amounts import check_volume, measured_serves, ml_of, ounce_ml
from bot.answer.notes import Notes, Question, figure, percent
from bot.core.batch import Fill, fill, undiluted_of, water_for
from bot.told import Settings
from grammar.request import Measure, Water, Yield

__all__ = ["ONE_SERVE_ML", "Dose", "Plan", "Wanted", "dose_of", "part_ml", "plan", "wanted"]

ONE_SERVE_ML = 400.0  # amounts adding up to more are a batch, not a serve: common practice, no source
_SAME = 0.02  # spec x serves and a stated total may differ by bar rounding
_BIGGEST_SERVE_ML = 5000.0
_MOST_SHARE = 3.0
_LEAST_SCALED, _MOST_SCALED = 0.6, 1.7  # a spec is not stretched further to a size of serve: common practice, no source
_OUNCES_A_SERVE = 3.0  # common practice, no source
_USUAL_SERVE_ML = 90.0


@dataclass(frozen=True, slots=True)
class Wanted:
    """How much is wanted; None where nothing was said. in_vessels: the volume is that of vessels named."""

    serves: float | None = None
    volume_ml: float | None = None
    serve_ml: float | None = None
    serve_is: str = "unsaid"
    in_vessels: bool = False
    base: float | None = None


@dataclass(frozen=True, slots=True)
class Dose:
    """Water: a share, an amount with every spec, an amount once, parts beside a ratio, or the rest of a volume."""

    share: float = 0.0
    of_finished: bool = False
    per_spec_ml: float = 0.0
    once_ml: float = 0.0
    parts: float = 0.0
    rest: bool = False
    said: bool = False

    def water_ml(self, undiluted_ml: float, times: float) -> float:
        """Water for an undiluted volume that is so many specs."""
        return self.once_ml + self.per_spec_ml * times + water_for(undiluted_ml, self.share, self.of_finished)


@dataclass(frozen=True, slots=True)
class Plan:
    """times: the spec's amounts; once: the amounts for the whole batch (1 unless all was scaled)."""

    times: float
    once: float
    serves: float | None
    water_ml: float


def wanted(makes: Yield, base: float | None, settings: Settings, notes: Notes) -> Wanted:
    """A Yield in mL and serves. Raises Question conflict_total (two counts), out_of_range, too_large, weight."""
    serves = makes.serves
    if makes.guests is not None:
        each = makes.each
        if serves is not None and each is None and serves * 3.0 < makes.guests:
            serves, each = None, serves  # "80 people x 2 drinks": so few are each guest's
        if serves is None:
            if each is None:
                notes.assume("one_each")
            serves = makes.guests * (1.0 if each is None else each)
            notes.understand("guests", makes.guests, 1.0 if each is None else each)
        elif each is not None and abs(makes.guests * each - serves) > 1e-9 * serves:
            found = f"{makes.guests:g} x {each:g} is {makes.guests * each:g} serves, not {serves:g}"
            raise Question("conflict_total", found, serves=f"{serves:g}", guests=f"{makes.guests:g}", each=f"{each:g}")
    if serves is not None:
        measured_serves(serves)
        notes.understand("serves", serves)
    if base is not None:
        measured_serves(base)
        notes.understand("base_serves", base)
    volume_ml = None if makes.volume is None else ml_of(makes.volume, settings, notes)
    serve_ml = None if makes.serve is None else ml_of(makes.serve, settings, notes)
    if makes.vessel_ml is not None:
        check_volume(makes.vessel_ml)
    if volume_ml is not None:
        notes.understand("fill", volume_ml)
    if serve_ml is not None and makes.serve_is == "finished" and serves is not None:
        total_ml = serves * serve_ml
        if volume_ml is not None and abs(total_ml - volume_ml) > _SAME * volume_ml:
            raise _conflict(serves, serve_ml, total_ml, volume_ml)
    return Wanted(serves, volume_ml, serve_ml, makes.serve_is, makes.vessel_ml is not None, base)


def dose_of(water: Water, settings: Settings, notes: Notes) -> Dose:
    """Water in mL and shares. Raises Question out_of_range for a share that leaves no drink, or that no drink takes."""
    value = water.value
    match water.how:
        case "unsaid" | "to_strength":  # the strengths are not known here: resolve.py makes a share of it
            return Dose()
        case "none":
            notes.understand("no_water")
            return Dose(said=True)
        case "rest":
            notes.understand("water_rest")
            return Dose(rest=True, said=True)
        case "part":
            if not 0.0 <= value < float("inf"):
                raise Question("out_of_range", f"{value:g} parts water")
            return Dose(parts=value, said=True)
        case "of_undiluted" | "of_finished":
            of_finished = water.how == "of_finished"
            if not 0.0 <= value <= _MOST_SHARE or (of_finished and value >= 1.0):
                raise Question("out_of_range", f"{percent(value)} water", most="100 %" if of_finished else "300 %")
            notes.understand("water_" + water.how, value)
            return Dose(share=value, of_finished=of_finished, said=True)
        case "amount":
            return _amount_of_water(water, settings, notes)


def _amount_of_water(water: Water, settings: Settings, notes: Notes) -> Dose:
    if water.value == 0.0:
        return Dose(said=True)
    volume_ml = ml_of(Measure(water.value, water.unit), settings, notes)
    if water.whole:
        return Dose(once_ml=volume_ml, said=True)
    return Dose(per_spec_ml=volume_ml, said=True)


def part_ml(
    parts: float, extra_ml: float, once_ml: float, dose: Dose, want: Wanted, settings: Settings, notes: Notes,
    ounces: bool, proportions: bool,
) -> float:  # fmt: skip
    """mL of one part of a ratio in one serve. extra_ml goes into each serve beside the ratio, once_ml into the batch.

    The size of a serve is the one said, what the stated volume leaves for each, or the usual one, which is noted
    unless only proportions are wanted. Raises Question conflict_total when the volume leaves nothing.
    """
    serves, volume_ml = want.serves, want.volume_ml
    if want.serve_ml is not None and want.serve_is == "finished" and volume_ml is None:
        volume_ml = want.serve_ml * (serves or 1.0)
        serves = serves or 1.0
    if volume_ml is not None and serves is not None and not dose.rest:
        room_ml = volume_ml - dose.once_ml - dose.per_spec_ml * serves
        room_ml = undiluted_of(room_ml, dose.share, dose.of_finished) if room_ml > 0.0 else 0.0
        ratio_ml = (room_ml - extra_ml * serves - once_ml) / (1.0 + dose.parts / parts)
        if ratio_ml <= 0.0:
            raise _conflict(serves, extra_ml + dose.per_spec_ml, volume_ml - room_ml + once_ml, volume_ml)
        return ratio_ml / serves / parts
    if want.serve_ml is not None and want.serve_is != "finished":
        return want.serve_ml / parts
    serve_ml = settings.serve_ml
    if ounces and serve_ml == _USUAL_SERVE_ML:
        serve_ml = _OUNCES_A_SERVE * ounce_ml(settings)
    scaled_away = volume_ml is not None and extra_ml == 0.0 and once_ml == 0.0 and not dose.rest
    if not scaled_away and not proportions:
        notes.assume("serve_size", serve_ml)
        if serves is None and volume_ml is None:
            notes.assume("one_serve")
    return serve_ml / parts


def plan(spec_ml: float, once_ml: float, dose: Dose, want: Wanted, notes: Notes, *, ratio: bool, fill_up: bool) -> Plan:
    """How often to make a spec of spec_ml (with base serves: of one serve), once_ml going in once for the batch.

    fill_up: a total above the amounts is filled up with something without alcohol (a strength in "a 2 L bowl").
    Raises Question conflict_total, too_large, no_volume, no_amounts.
    """
    serves, volume_ml = want.serves, want.volume_ml
    if serves is not None and dose.per_spec_ml > ONE_SERVE_ML:  # a litre of water is for the batch, not for each serve
        dose = replace(dose, per_spec_ml=0.0, once_ml=dose.once_ml + dose.per_spec_ml)
    if serves is not None and not ratio and want.base is None and spec_ml > ONE_SERVE_ML:
        if spec_ml / serves > _BIGGEST_SERVE_ML:
            raise Question("too_large", f"{figure(spec_ml / 1000.0)} l for {serves:g} serves", most="5 l a serve")
        served_ml = want.serve_ml * serves if want.serve_ml is not None and volume_ml is None and not dose.said else spec_ml
        if want.serve_ml is not None and abs(served_ml - spec_ml) > _SAME * spec_ml:  # "4 L gin, 75 martinis at 60 ml"
            raise _conflict(serves, want.serve_ml, served_ml, spec_ml)
        notes.assume("whole_batch")
        once_ml, spec_ml = once_ml + spec_ml, 0.0
        dose = replace(dose, per_spec_ml=0.0, once_ml=dose.once_ml + dose.per_spec_ml)
        return _checked(_counted(spec_ml, once_ml, dose, want, notes, serves, 1.0, fill_up, ratio), 0.0, once_ml)
    held_against = want.serve_ml if serves is not None and volume_ml is None and not ratio and spec_ml == 0.0 else None
    if held_against is not None and serves is not None and not dose.said and once_ml > ONE_SERVE_ML:
        total_ml = held_against * serves
        if abs(once_ml - total_ml) > _SAME * once_ml:  # "4 x 1 L rum ... 75 at 50 ml"
            raise _conflict(serves, held_against, total_ml, once_ml)
    finished_serve = want.serve_ml if want.serve_is == "finished" else None
    if (
        finished_serve is not None
        and volume_ml is None
        and not dose.rest
        and (serves is not None or spec_ml + once_ml <= ONE_SERVE_ML)
    ):
        serves = serves or 1.0
        if not ratio and once_ml == 0.0:
            filled = _filled(finished_serve * serves, spec_ml, 0.0, dose)
            return _checked(Plan(filled.factor, 1.0, serves, filled.water_ml), spec_ml, 0.0)
        volume_ml = finished_serve * serves
    if volume_ml is not None and serves is None and not dose.rest:
        return _to_volume(volume_ml, spec_ml, once_ml, dose, want)
    times = serves if serves is not None else want.base or 1.0
    scalable = not ratio and not dose.rest and once_ml == 0.0 and spec_ml <= ONE_SERVE_ML
    if want.serve_ml is not None and scalable and finished_serve is None:
        times *= _to_serve(spec_ml, dose, want.serve_ml, notes)
    return _checked(_counted(spec_ml, once_ml, dose, want, notes, serves, times, fill_up, ratio), spec_ml, once_ml)


def _counted(
    spec_ml: float, once_ml: float, dose: Dose, want: Wanted, notes: Notes, serves: float | None, times: float,
    fill_up: bool, ratio: bool,
) -> Plan:  # fmt: skip
    """The spec made `times`, held against the volume where one was said."""
    undiluted_ml = spec_ml * times + once_ml
    volume_ml = want.volume_ml
    if dose.rest:
        return _rest(undiluted_ml, want, serves, times, notes)
    water_ml = dose.water_ml(undiluted_ml, times)
    if serves is None and want.base is not None:
        serves = want.base
    if serves is None and once_ml == 0.0 and undiluted_ml <= ONE_SERVE_ML:
        serves = 1.0
    if serves is None and want.serve_ml is not None:
        whole_ml = undiluted_ml + water_ml if want.serve_is == "finished" else undiluted_ml
        serves = whole_ml / want.serve_ml
    total_ml = undiluted_ml + water_ml
    if volume_ml is not None and not ratio and abs(total_ml - volume_ml) > _SAME * volume_ml:
        if fill_up and total_ml < volume_ml and not dose.said:
            notes.assume("filled_up", volume_ml)
            return Plan(times, 1.0, None, volume_ml - total_ml)
        if not want.in_vessels:
            raise _conflict(want.serves or 1.0, total_ml / (want.serves or 1.0), total_ml, volume_ml)
    return Plan(times, 1.0, serves, water_ml)


def _rest(undiluted_ml: float, want: Wanted, serves: float | None, times: float, notes: Notes) -> Plan:
    """Water makes up the volume; what was typed stays as it is."""
    volume_ml = want.volume_ml
    if volume_ml is None and want.serve_ml is not None and want.serve_is != "undiluted":
        volume_ml = want.serve_ml * (serves or 1.0)
    if volume_ml is None:
        raise Question("no_volume", "water to fill up", what="fill up")
    water_ml = volume_ml - undiluted_ml
    if water_ml < -1e-9 * volume_ml:
        found = f"{figure(undiluted_ml)} ml is more than {figure(volume_ml)} ml"
        raise Question("conflict_total", found, total_ml=figure(undiluted_ml), volume_ml=figure(volume_ml))
    return Plan(times, 1.0, serves, max(0.0, water_ml))


def _filled(volume_ml: float, spec_ml: float, once_ml: float, dose: Dose) -> Fill:
    try:
        return fill(
            volume_ml, spec_ml, fixed_ml=once_ml, share=dose.share, of_finished=dose.of_finished,
            water_ml=dose.per_spec_ml, fixed_water_ml=dose.once_ml,
        )  # fmt: skip
    except ValueError:
        if spec_ml + once_ml <= 0.0:
            raise Question("no_amounts", "nothing with a volume") from None
        found = f"{figure(once_ml + dose.once_ml)} ml is more than {figure(volume_ml)} ml"
        raise Question("conflict_total", found, volume_ml=figure(volume_ml)) from None


def _to_volume(volume_ml: float, spec_ml: float, once_ml: float, dose: Dose, want: Wanted) -> Plan:
    """Everything typed, scaled together to fill a volume."""
    filled = _filled(volume_ml, spec_ml + once_ml, 0.0, dose)
    serves = None
    if want.serve_ml is not None:
        serves = (volume_ml if want.serve_is != "undiluted" else filled.undiluted_ml) / want.serve_ml
    return Plan(filled.factor, filled.factor, serves, filled.water_ml)


def _to_serve(spec_ml: float, dose: Dose, serve_ml: float, notes: Notes) -> float:
    """The factor that brings a spec to the size of serve that was said; noted when it is not that size already."""
    with_water_ml = spec_ml + dose.water_ml(spec_ml, 1.0)
    if spec_ml <= 0.0 or any(abs(ml - serve_ml) <= 0.01 * serve_ml for ml in (spec_ml, with_water_ml)):
        return 1.0
    factor = serve_ml / spec_ml
    if not _LEAST_SCALED <= factor <= _MOST_SCALED:
        said, typed_ml = f"{figure(serve_ml)} ml", f"{figure(spec_ml)} ml"
        raise Question("conflict_total", f"{typed_ml} or {said} a serve")
    notes.assume("scaled_to_serve", serve_ml)
    return factor


def _checked(found: Plan, spec_ml: float, once_ml: float) -> Plan:
    check_volume(spec_ml * found.times + once_ml * found.once + found.water_ml + 1e-9)
    return found


def _conflict(serves: float, serve_ml: float, total_ml: float, volume_ml: float) -> Question:
    found = f"{serves:g} x {figure(serve_ml)} ml is {figure(total_ml)} ml, not {figure(volume_ml)} ml"
    fits = volume_ml / serve_ml if serve_ml > 0.0 else 0.0
    return Question(
        "conflict_total", found, serves=f"{serves:g}", serve_ml=figure(serve_ml), total_ml=figure(total_ml),
        volume_ml=figure(volume_ml), serves_in_volume=figure(fits),
    )  # fmt: skip
