"""What a freezer does to a drink: freezing point, ice, swelling, and the water it can still take.

Lives here: the verdicts and the rule that joins ethanol and sugar; the curves are water_activity.py.
Must never: claim more than the data: a freezing point is good to about 1.5 °C, and a drink may stay
liquid below it for hours (undercooling). Everything is equilibrium after long standing.
All sugar counts as sucrose; fruit and invert sugar lower the freezing point about 1.9 times as much.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from bot.core.alcoholometry import COLDEST_C as COLDEST_DENSITY_C
from bot.core.alcoholometry import (
    RHO_WATER_20,
    WARMEST_C,
    abv_from_mass_fraction,
    density_kg_m3,
)
from bot.core.liquid import Liquid, sugar_ml_per_g
from bot.core.water_activity import COLDEST_C, PULL_OF_COLD, PULL_OF_ETHANOL, PULL_OF_SUGAR, STRONGEST_PULL

ICE_G_PER_ML = 0.9167  # at 0 °C, encyclopedia text; 0.919 at -20 °C, so the swelling errs on the large side
SLUSH_UP_TO = 0.65  # share of the mass that is ice above which nothing pours; common practice, no source
LEAST_HEADSPACE = 0.03  # of the volume, whatever the freezer does; common practice, no source
NEAR_C = 1.5  # how far handbook series disagree between 15 and 38 % ABV (Lange against CRC)
_CLOSE = 1e-8  # of what is solved for: well under _SAME_C
_SAME_C = 1e-6  # a drink cut to exactly the freezer's temperature is liquid, not slush by rounding

State = Literal["liquid", "slush", "hard"]


@dataclass(frozen=True, slots=True)
class Freezer:
    """What a freezer at ``at_c`` makes of a drink; ``ice_fraction`` is of its mass, mL are at 20 °C.

    ``most_water_ml`` is as the function of that name; ``near_edge`` says the freezing point lies within
    1.5 °C of the freezer's, so that the verdict could go either way.
    """

    at_c: float
    freezing_point_c: float
    state: State
    ice_fraction: float
    headspace_ml: float
    near_edge: bool
    most_water_ml: float | None


def _solve(falling: Callable[[float], float], target: float, guess: float) -> float:
    """The ``x`` at which a function falling roughly as 1/x reaches ``target``: a secant in 1/x."""
    u0, y0 = 1.0 / guess, falling(guess)
    u1 = u0 * target / y0
    for _ in range(40):
        y1 = falling(1.0 / u1)
        if abs(y1 - target) <= _CLOSE * target or y1 == y0:
            break
        u0, y0, u1 = u1, y1, min(4.0 * u1, max(0.25 * u1, u1 + (target - y1) * (u1 - u0) / (y1 - y0)))
    return 1.0 / u1


def _kept_water_g(ethanol_g: float, sugar_g: float, pull: float) -> float:
    """Grams of water that stay liquid beside this ethanol and sugar where ice pulls at ``pull``.

    Ethanol and sucrose each have a measured curve (CRC); together none was found. Two rules join them:
    Ross (J. Food Sci. 40 (1975) 26) multiplies the two water activities; Zdanovskii-Stokes-Robinson
    (Stokes and Robinson, J. Phys. Chem. 70 (1966) 2126) gives each its own share of the water. Both
    citations are from memory. The water is the mean of the two: their freezing points differ by 0.1 °C
    at 20 g/L of sugar and up to 1.2 at 200.
    """
    apart = 0.0
    if ethanol_g > 0.0:
        share = PULL_OF_ETHANOL.where(pull)
        apart = ethanol_g * (1.0 - share) / share
    if sugar_g > 0.0:
        share = PULL_OF_SUGAR.where(pull)
        apart += sugar_g * (1.0 - share) / share
    if not (ethanol_g > 0.0 and sugar_g > 0.0):
        return apart

    def ross(water_g: float) -> float:
        return PULL_OF_ETHANOL.at(ethanol_g / (ethanol_g + water_g)) + PULL_OF_SUGAR.at(
            sugar_g / (sugar_g + water_g)
        )

    return 0.5 * (apart + _solve(ross, pull, apart))


def _pull(ethanol_g: float, water_g: float, sugar_g: float) -> float:
    """How hard ethanol and sugar hold this water, -ln(activity): the inverse of ``_kept_water_g``."""
    pull = PULL_OF_ETHANOL.at(ethanol_g / (ethanol_g + water_g)) if ethanol_g > 0.0 else 0.0
    if sugar_g > 0.0:
        pull += PULL_OF_SUGAR.at(sugar_g / (sugar_g + water_g))
    if not (ethanol_g > 0.0 and sugar_g > 0.0) or pull < 1e-9:  # a trace: 1e-7 °C
        return min(pull, STRONGEST_PULL)
    if water_g <= _kept_water_g(ethanol_g, sugar_g, STRONGEST_PULL):
        return STRONGEST_PULL

    def kept_water_g(g: float) -> float:  # carried on beyond the table so that the secant has a slope
        return _kept_water_g(ethanol_g, sugar_g, min(g, STRONGEST_PULL)) * min(1.0, STRONGEST_PULL / g)

    return min(STRONGEST_PULL, _solve(kept_water_g, water_g, pull))


def _check(liquid: Liquid, temperature_c: float) -> None:
    if liquid.mass_g <= 0.0:
        raise ValueError("there is nothing here to freeze")
    if not temperature_c >= COLDEST_C:
        raise ValueError(f"{temperature_c:g} °C is colder than the freezing data ({COLDEST_C} °C)")


def freezing_point_c(liquid: Liquid) -> float:
    """Temperature in °C at which the first ice forms, from 0 down to -49.52.

    CRC curves for ethanol and sucrose, joined as ``_kept_water_g`` says; within 0.4 °C of CRC and
    Melinder for ethanol alone. The ethanol table ends at 68 % of mass (75.5 % ABV, -49.52 °C): anything
    stronger gets -49.52, meaning "at or below". ValueError for an empty liquid.
    """
    _check(liquid, 0.0)
    return 0.0 - PULL_OF_COLD.where(_pull(liquid.ethanol_g, liquid.water_g, liquid.sugar_g))


def ice_mass_fraction(liquid: Liquid, temperature_c: float) -> float:
    """Share of the drink's mass that is ice after long standing at ``temperature_c``, 0 to 1.

    Lever rule: ice is pure water, and what is left has concentrated until it freezes just there.
    ValueError for an empty liquid or below -49.5 °C.
    """
    _check(liquid, temperature_c)
    if temperature_c > -_SAME_C:
        return 0.0
    kept = _kept_water_g(liquid.ethanol_g, liquid.sugar_g, PULL_OF_COLD.at(-temperature_c))
    return max(0.0, liquid.water_g - kept) / liquid.mass_g


def _volume_ratio(liquid: Liquid, temperature_c: float, ice_g: float) -> float:
    water_g = liquid.water_g - ice_g
    solvent_g = liquid.ethanol_g + water_g
    volume = ice_g / ICE_G_PER_ML
    if solvent_g > 0.0:
        clamped_c = min(WARMEST_C, max(COLDEST_DENSITY_C, temperature_c))
        volume += solvent_g * 1000.0 / density_kg_m3(liquid.ethanol_g / solvent_g, clamped_c)
    if liquid.sugar_g > 0.0:
        volume += liquid.sugar_g * sugar_ml_per_g(liquid.sugar_g / (water_g + liquid.sugar_g))
    return volume / liquid.volume_ml


def volume_ratio(liquid: Liquid, temperature_c: float) -> float:
    """Volume at ``temperature_c`` / volume at 20 °C, ice included (0.9167 g/mL).

    The liquid part is OIML R 22 at that temperature, which ends at -20 and 40 °C: beyond, the density at
    the end is used (0.1 % a degree at most). Dissolved sugar keeps its 20 °C volume. ValueError for an
    empty liquid or below -49.5 °C.
    """
    ice_g = ice_mass_fraction(liquid, temperature_c) * liquid.mass_g
    return _volume_ratio(liquid, temperature_c, ice_g)


def most_water_ml(liquid: Liquid, at_c: float) -> float | None:
    """Most water (mL at 20 °C) that can be added so that the drink still stays liquid at ``at_c``.

    None when it does not stay liquid even undiluted; math.inf at 0 °C and above, where any amount may be
    added. With that water the freezing point is just ``at_c``. ValueError for an empty liquid or below
    -49.5 °C.
    """
    _check(liquid, at_c)
    if at_c > -_SAME_C:
        return math.inf
    return _spare_water_ml(liquid, _kept_water_g(liquid.ethanol_g, liquid.sugar_g, PULL_OF_COLD.at(-at_c)))


def _spare_water_ml(liquid: Liquid, kept_g: float) -> float | None:
    spare_g = kept_g - liquid.water_g
    if spare_g < -_SAME_C * kept_g or kept_g == 0.0:
        return None
    return max(0.0, spare_g) * 1000.0 / RHO_WATER_20


def freezer(liquid: Liquid, at_c: float) -> Freezer:
    """The whole verdict on a drink in a freezer at ``at_c`` (°C, from -49.5 up).

    liquid: the freezing point is at or below ``at_c``. slush: up to 65 % of the mass is ice. hard: more.
    headspace_ml is the swelling over the 20 °C volume, and never less than 3 % of it. The 65 % and the
    3 % are common practice, no source. ValueError for an empty liquid or below -49.5 °C.
    """
    _check(liquid, at_c)
    point_c = 0.0 - PULL_OF_COLD.where(_pull(liquid.ethanol_g, liquid.water_g, liquid.sugar_g))
    stays_liquid = point_c <= at_c + _SAME_C
    ice_g, most_ml = 0.0, None
    if at_c > -_SAME_C:
        most_ml = math.inf
    else:
        kept_g = _kept_water_g(liquid.ethanol_g, liquid.sugar_g, PULL_OF_COLD.at(-at_c))
        if stays_liquid:
            most_ml = _spare_water_ml(liquid, max(kept_g, liquid.water_g))
        else:
            ice_g = max(0.0, liquid.water_g - kept_g)
    ice_fraction = ice_g / liquid.mass_g
    state: State = "liquid" if stays_liquid else "slush" if ice_fraction <= SLUSH_UP_TO else "hard"
    swelling = max(LEAST_HEADSPACE, _volume_ratio(liquid, at_c, ice_g) - 1.0)
    return Freezer(
        at_c=at_c,
        freezing_point_c=point_c,
        state=state,
        ice_fraction=ice_fraction,
        headspace_ml=swelling * liquid.volume_ml,
        near_edge=abs(point_c - at_c) <= NEAR_C,
        most_water_ml=most_ml,
    )


def least_abv(at_c: float, sugar_g_per_l: float = 0.0) -> float:
    """Strength (fraction) that just stays liquid at ``at_c``, with so many g/L of sugar in it.

    0 at 0 °C and above, or where the sugar alone is enough. ValueError below -49.5 °C, or for more sugar
    than can be dissolved at that strength.
    """
    _check(Liquid.water(1.0), at_c)
    if at_c > -_SAME_C:
        return 0.0
    pull = PULL_OF_COLD.at(-at_c)
    strong = abv_from_mass_fraction(PULL_OF_ETHANOL.where(pull))
    if sugar_g_per_l <= 0.0:
        return strong

    def spare_g(abv: float) -> float:
        drink = Liquid.from_volume(1000.0, abv, sugar_g_per_l)
        return _kept_water_g(drink.ethanol_g, drink.sugar_g, pull) - drink.water_g

    if spare_g(0.0) >= 0.0:
        return 0.0
    # Sugar only helps, so the answer is below ``strong``; spare water is nearly straight in the strength.
    before, at = strong, 0.9 * strong
    spare_before, spare = spare_g(before), spare_g(at)
    for _ in range(40):
        if abs(spare) < 1e-5 or spare == spare_before:  # grams in a litre
            break
        step = spare * (at - before) / (spare - spare_before)
        before, spare_before, at = at, spare, min(strong, max(0.1 * at, at - step))
        spare = spare_g(at)
    return at
