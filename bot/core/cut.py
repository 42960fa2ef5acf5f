"""Bringing a liquid to a strength: with water, by blending two, or with something stronger.

Lives here: the amounts, with contraction (masses add, volumes do not).
Must never: raise a strength with water; know about names or bottles.
Strengths are fractions of volume at 20 °C, volumes mL at 20 °C.
"""

from dataclasses import dataclass

from bot.core.alcoholometry import RHO_WATER_20
from bot.core.liquid import Liquid

_SAME_G = 1e-9  # of the liquid's mass: less water than this to take away is rounding


class CannotRaise(ValueError):
    """The strength asked for is above what these liquids can give."""


@dataclass(frozen=True, slots=True)
class Cut:
    """Water to add, in mL at 20 °C and in grams, and what that makes."""

    water_ml: float
    water_g: float
    finished: Liquid


def _percent(abv: float) -> str:
    return f"{abv * 100:.4g} %"


def _check_target(abv: float) -> None:
    if not 0.0 < abv <= 1.0:
        raise ValueError(f"{_percent(abv)} is no strength to cut to; it must be above 0 and at most 100 %")


def water_to_cut(liquid: Liquid, abv: float) -> Cut:
    """Water that brings a liquid down to ``abv``; nothing when it is there already.

    Contraction by OIML R 22, so more than the simple sum: 100 mL of 95 % take 95.8 mL to reach 50 %, not
    90. CannotRaise when the liquid is weaker than that; ValueError for a target outside 0..1 or of 0.
    """
    _check_target(abv)
    finished_ml = liquid.ethanol_ml / abv
    if finished_ml <= 0.0 or liquid.abv < abv * (1.0 - 1e-9):
        raise CannotRaise(f"water cannot raise {_percent(liquid.abv)} to {_percent(abv)}")
    target = Liquid.from_volume(finished_ml, abv, liquid.sugar_g * 1000.0 / finished_ml)
    water_g = max(0.0, target.water_g - liquid.water_g)
    if water_g < _SAME_G * liquid.mass_g:
        return Cut(0.0, 0.0, liquid)
    finished = Liquid(liquid.ethanol_g, liquid.water_g + water_g, liquid.sugar_g)
    return Cut(water_g * 1000.0 / RHO_WATER_20, water_g, finished)


def spirit_and_water(finished_ml: float, abv_from: float, abv_to: float) -> tuple[float, float]:
    """mL of a spirit and of water that make ``finished_ml`` at ``abv_to``.

    No sugar. Spirits contract, so the two measure up to 4 % more than the finished volume; below about
    20 % ABV a trace less. CannotRaise when the spirit is weaker than the target; ValueError for
    impossible figures.
    """
    _check_target(abv_to)
    finished = Liquid.from_volume(finished_ml, abv_to)
    if abv_from < abv_to:
        raise CannotRaise(f"water cannot raise {_percent(abv_from)} to {_percent(abv_to)}")
    spirit_ml = finished_ml * abv_to / abv_from
    water_g = max(0.0, finished.water_g - Liquid.from_volume(spirit_ml, abv_from).water_g)
    return spirit_ml, water_g * 1000.0 / RHO_WATER_20


def blend(volume_ml: float, abv_low: float, abv_high: float, abv: float) -> tuple[float, float]:
    """mL of the weaker and of the stronger that make ``volume_ml`` at ``abv``; no sugar.

    Both masses are met exactly, so the two need not measure just the blend's volume. CannotRaise when the
    target is above the stronger; ValueError below the weaker, or when the two are one strength but not it.
    """
    if abv_low > abv_high:
        high_ml, low_ml = blend(volume_ml, abv_high, abv_low, abv)
        return low_ml, high_ml
    if abv > abv_high:
        raise CannotRaise(f"{_percent(abv_low)} and {_percent(abv_high)} cannot make {_percent(abv)}")
    if abv < abv_low:
        raise ValueError(f"{_percent(abv_low)} and {_percent(abv_high)} are both above {_percent(abv)}")
    finished = Liquid.from_volume(volume_ml, abv)
    if abv_low == abv_high:
        return 0.0, volume_ml
    low, high = Liquid.from_volume(1.0, abv_low), Liquid.from_volume(1.0, abv_high)
    ruler = low.water_g * high.ethanol_g - high.water_g * low.ethanol_g
    low_ml = (finished.water_g * high.ethanol_g - high.water_g * finished.ethanol_g) / ruler
    high_ml = (low.water_g * finished.ethanol_g - finished.water_g * low.ethanol_g) / ruler
    return max(0.0, low_ml), max(0.0, high_ml)


def stronger_needed(liquid: Liquid, abv_target: float, abv_stronger: float) -> float:
    """mL of something at ``abv_stronger`` (no sugar) to add so that the whole reaches ``abv_target``.

    0 when it is there already. CannotRaise when the stronger one is not above the target; ValueError when
    the liquid is above the target (that wants water: ``water_to_cut``) or a strength is impossible.
    """
    _check_target(abv_target)
    stronger = Liquid.from_volume(1.0, abv_stronger)
    short_ml = abv_target * liquid.volume_ml - liquid.ethanol_ml
    if short_ml < -1e-9 * liquid.volume_ml:
        raise ValueError(f"it is {_percent(liquid.abv)} already, above {_percent(abv_target)}: add water")
    if short_ml <= 1e-9 * liquid.volume_ml:
        return 0.0
    if abv_stronger <= abv_target:
        raise CannotRaise(f"{_percent(abv_stronger)} cannot raise anything to {_percent(abv_target)}")
    added_ml = 0.0
    for _ in range(30):  # each round adds what the true volume is still short of
        added_ml += short_ml / (abv_stronger - abv_target)
        whole = liquid + stronger.scaled(added_ml)
        volume_ml = whole.volume_ml
        short_ml = abv_target * volume_ml - whole.ethanol_ml
        if abs(short_ml) < 1e-12 * volume_ml:
            break
    return added_ml
