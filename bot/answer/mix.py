"""What a resolved spec comes to: strength, freezer verdict, vessels, cautions, and the Answer that holds them.

Lives here: the facts every answer about a mix shares. Must never: read a request, scale anything, word a sentence.
"""

from dataclasses import replace
from functools import lru_cache
from math import ceil, isfinite

from bot.answer.amounts import check_volume, measured_serves
from bot.answer.notes import Notes, Question
from bot.answer.spec import Spec, per_litre
from bot.core import bottles
from bot.core.facts import Answer, FreezerFacts, Kind, Result, Vessels
from bot.core.freezing import Freezer, freezer, least_abv
from bot.core.ingredient import Ingredient
from bot.core.label import cautions
from bot.core.liquid import Liquid
from bot.told import Settings
from grammar.request import Yield

__all__ = ["COLDEST_C", "caution_about", "check_cold", "freezer_facts", "mixed", "vessels_for"]

COLDEST_C = -49.5  # where the freezing data end
_NECK = 0.002  # share of a bottle its neck takes above its size: common practice, no source
_WARMEST_C = 60.0  # nothing a fridge or a freezer is: our own limit
FIZZY = frozenset(
    ["soda water", "sparkling water", "tonic", "ginger beer", "ginger ale", "cola", "lemonade", "grapefruit soda", "orange soda",
     "cream soda", "root beer", "energy drink", "sparkling wine", "prosecco", "champagne", "cava", "beer", "lager", "cider"]
)  # fmt: skip
_BULK_ML = 500.0  # from here on a strong liquid is handled in bulk: common practice, no source
_BOTTLED_UP_TO_ML = 9000.0  # more goes into kegs: common practice, no source
_SMALLEST_BATCH_ML = 200.0  # less than this is a drink, not something to bottle
_WEIGHT = ("raw_egg", "flammable", "keep_cold")  # of what bot.core.label knows, what a batch is cautioned about


_SUGAR_STEP = 5.0  # g/L: as exact as a least strength has to be (0.05 points), so that it is worked out once


@lru_cache(maxsize=1024)
def _least_abv(at_c: float, sugar_steps: int) -> float:
    try:
        return least_abv(at_c, sugar_steps * _SUGAR_STEP)
    except ValueError:  # more sugar than dissolves at that strength
        return least_abv(at_c)


_GRAM_DIGITS = 8  # of a kilogram's grams: a freezing point moves by less than 1e-8 °C


@lru_cache(maxsize=1024)
def _kilo_verdict(ethanol_g: float, water_g: float, sugar_g: float, at_c: float) -> Freezer:
    """The verdict on a kilogram of a drink; kept, because a bar makes the same drink in many sizes."""
    return freezer(Liquid(ethanol_g, water_g, sugar_g), at_c)


def _verdict(drink: Liquid, at_c: float) -> Freezer:
    """The verdict on a drink: a kilogram's, as large as the drink is. ValueError for an empty one."""
    kg = drink.mass_g / 1000.0
    if kg <= 0.0:
        return freezer(drink, at_c)
    grams = (round(g / kg, _GRAM_DIGITS) for g in (drink.ethanol_g, drink.water_g, drink.sugar_g))
    found = _kilo_verdict(*grams, at_c)
    most_ml = found.most_water_ml
    return replace(found, headspace_ml=found.headspace_ml * kg, most_water_ml=None if most_ml is None else most_ml * kg)


def freezer_facts(
    finished: Liquid, before: Liquid, undiluted_ml: float, at_c: float, measured_ml: float | None = None
) -> FreezerFacts:
    """The verdict on a drink, and the way out: the most water (share of undiluted_ml) that pours, the least strength.

    at_c must be from -49.5 up. least_abv is of this drink with just that water, else of its sugar at a higher strength.
    """
    verdict = _verdict(finished, at_c)
    most_ml = verdict.most_water_ml if before is finished else _verdict(before, at_c).most_water_ml
    most = least = None
    if most_ml is not None and isfinite(most_ml) and undiluted_ml > 0.0:
        most = most_ml / undiluted_ml
    if verdict.state != "liquid":
        if most_ml is None:
            least = _least_abv(at_c, round(finished.sugar_g_per_l / _SUGAR_STEP))
        else:
            least = (before + per_litre(0.0, 0.0).scaled(most_ml / 1000.0)).abv
    return FreezerFacts(
        at_c,
        verdict.freezing_point_c,
        verdict.state,
        verdict.near_edge,
        verdict.ice_fraction,
        verdict.headspace_ml,
        most,
        least,
        measured_ml,
    )


def check_cold(at_c: float) -> float:
    """A fridge's or freezer's temperature in °C. Raises Question out_of_range outside the freezing data, or warmer."""
    if not COLDEST_C <= at_c <= _WARMEST_C:
        raise Question("out_of_range", f"{at_c:g} °C", coldest=f"{COLDEST_C:g} °C", warmest=f"{_WARMEST_C:g} °C")
    return at_c


def vessels_for(volume_ml: float, headspace_ml: float, makes: Yield, notes: Notes) -> Vessels | None:
    """The vessels named, with a remark when the batch does not fit; else the usual ones; None for a single drink.

    Raises Question no_volume where it is split between bottles larger than the usual ones.
    """
    if makes.vessel_ml is not None:
        check_volume(makes.vessel_ml)
        takes = ceil((volume_ml + headspace_ml) / makes.vessel_ml - _NECK) if makes.as_many else makes.vessels or 1.0
        count = max(1, round(measured_serves(float(takes))))
        held_ml = makes.vessel_ml * count
        if volume_ml > held_ml * (1.0 + _NECK):
            notes.remark("does_not_fit", volume_ml, held_ml)
        elif volume_ml + headspace_ml > held_ml * (1.0 + _NECK):
            notes.remark("no_headspace", headspace_ml)
        return Vessels(makes.vessel_ml, count, volume_ml / count, True)
    if makes.vessels is not None and makes.vessels > 1.0:  # "split across 4 bottles"
        each_ml = volume_ml / makes.vessels
        found = bottles.fit(each_ml, headspace_ml / makes.vessels)
        if found.count > 1:  # no usual bottle holds that
            raise Question("no_volume", "the size of the bottle")
        return Vessels(found.size_ml, round(makes.vessels), each_ml)
    if volume_ml < _SMALLEST_BATCH_ML:
        return None
    sizes = bottles.BOTTLES_ML if volume_ml + headspace_ml <= _BOTTLED_UP_TO_ML else bottles.KEGS_ML
    found = bottles.fit(volume_ml, headspace_ml, sizes)
    return Vessels(found.size_ml, found.count, found.fill_ml)


def caution_about(
    notes: Notes,
    ingredients: tuple[Ingredient, ...],
    abv: float | None,
    volume_ml: float,
    freezer: FreezerFacts | None = None,
) -> None:
    """The cautions that matter, the weightiest first: raw egg, something flammable in bulk, spoiling, swelling."""
    found = set(cautions(ingredients, abv if abv is not None and volume_ml >= _BULK_ML else 0.0))
    for code in _WEIGHT:
        if code in found:
            notes.caution(code)
    if any(i.name in FIZZY for i in ingredients):
        notes.caution("fizz")
    swells = freezer is not None and freezer.state in ("slush", "hard")
    if freezer is not None and swells and freezer.headspace_ml is not None:
        notes.caution("headspace", freezer.headspace_ml)


def _bottle_filled(makes: Yield, spec: Spec) -> Yield:
    """A volume that is just a bottle's ("fill a 750") names that bottle."""
    if makes.vessel_ml is not None or makes.volume is None:
        return makes
    size_ml = next((size for size in bottles.BOTTLES_ML if abs(size - spec.measured_ml) < 1e-6 * size), None)
    return makes if size_ml is None else replace(makes, vessels=1.0, vessel_ml=size_ml)


def mixed(
    kind: Kind,
    spec: Spec,
    makes: Yield,
    settings: Settings,
    notes: Notes,
    *,
    focus: str = "",
    results: tuple[Result, ...] = (),
    at_c: float | None = None,
) -> Answer:
    """The Answer for a spec, whatever was asked of it."""
    finished, before = spec.finished, spec.before
    cold_asked = at_c is not None
    at_c = settings.freezer_c if at_c is None else check_cold(at_c)
    finished_ml = spec.measured_ml
    abv = sugar_g_per_l = None
    verdict = None
    if finished is not None and before is not None:
        finished_ml = finished.volume_ml
        abv, sugar_g_per_l = finished.ethanol_ml / finished_ml, finished.sugar_g * 1000.0 / finished_ml
        if at_c >= COLDEST_C:
            without = before if spec.water_ml > 0.0 else finished
            verdict = freezer_facts(finished, without, spec.undiluted_ml, at_c, spec.measured_ml)
            verdict = replace(verdict, asked=cold_asked)
            if not spec.sized:
                verdict = replace(verdict, headspace_ml=None, measured_ml=None)
    swells = verdict is not None and verdict.state != "liquid"
    headspace_ml = verdict.headspace_ml if verdict is not None and swells and verdict.headspace_ml is not None else 0.0
    vessels = None
    if spec.sized and spec.measured_ml > 0.0 and (makes.vessel_ml is not None or spec.serves != 1.0):
        makes = _bottle_filled(makes, spec)
        asked = makes.vessel_ml is not None
        vessels = vessels_for(spec.measured_ml, headspace_ml if kind == "freezer" or not asked else 0.0, makes, notes)
    if spec.serves != 1.0 and kind != "strength":
        caution_about(notes, spec.ingredients, abv, finished_ml if spec.sized else 0.0, verdict)
    sized = spec.sized and spec.measured_ml > 0.0
    serves = spec.serves if sized or not spec.undiluted_ml else None
    pours = serves or spec.fills
    return Answer(
        kind,
        title=spec.title,
        understood=tuple(notes.understood),
        lines=spec.lines if spec.sized else (),
        serves=serves,
        undiluted_ml=spec.undiluted_ml if sized else None,
        measured_ml=spec.measured_ml if sized else None,
        finished_ml=finished_ml if sized else None,
        per_serve_ml=finished_ml / pours if sized and pours else None,
        fills=spec.fills if sized and not serves else None,
        spec_ml=spec.undiluted_ml / serves if sized and serves else None,
        abv=abv,
        water_share=spec.water_ml / spec.undiluted_ml if spec.water_ml > 0.0 and spec.undiluted_ml > 0.0 else None,
        sugar_g_per_l=sugar_g_per_l,
        freezer=verdict,
        vessels=vessels,
        results=results,
        first=spec.first,
        ounce_ml=spec.ounce_ml,
        focus=focus,
        assumed=tuple(notes.assumed),
        remarks=tuple(notes.remarks),
        cautions=tuple(notes.cautions),
        garnish=spec.garnish,
    )
