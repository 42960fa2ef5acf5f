"""How much water stirring, shaking or plain ice adds to a drink, as a fraction of its undiluted volume.

Lives here: the book regression on strength, and a heat balance of drink against ice.
Must never: pick a method for someone, or add the water: callers do that.
"""

from dataclasses import dataclass
from itertools import pairwise

from bot.core.alcoholometry import RHO_WATER_20
from bot.core.freezing import freezing_point_c
from bot.core.liquid import Liquid

# Regression on strength in "Liquid Intelligence" (2014), digits from three agreeing quotations; one copy
# drops the first minus of the shaken one. The book's range was not found; the curves turn down past
# 0.515 and 0.556, so nothing is said outside 0.12 to 0.50.
STIRRED = (-1.21, 1.246, 0.145)
SHAKEN = (-1.567, 1.742, 0.203)
WEAKEST, STRONGEST = 0.12, 0.50

MELTING_J_PER_G = 334.0  # heat of melting ice at 0 °C, encyclopedia text
ICE_J_PER_G_C = 2.10  # heat capacity of ice, encyclopedia text
WATER_J_PER_G_C = 4.19  # Melinder 2010 at 10 °C, as the row for 0 % below
# Heat capacity of ethanol and water at 10 °C in J/(g °C), by mass %: Melinder, "Properties of secondary
# working fluids" (2010), as CoolProp 8.0 INCOMP::MEA evaluates it; ethanol alone from memory.
HEAT_CAPACITIES = (
    (0.0, 4.192),
    (0.1, 4.351),
    (0.2, 4.349),
    (0.3, 4.193),
    (0.4, 3.967),
    (0.5, 3.738),
    (0.6, 3.449),
    (1.0, 2.40),
)
SUGAR_J_PER_G_C = 1.24  # sucrose, from memory; 0.5 % of the heat of a 100 g/L drink hangs on it
ICE_G_PER_ML_OF_DRINK = 1.0  # as much ice as drink in the glass; common practice, no source


@dataclass(frozen=True, slots=True)
class Chilled:
    """Where a drink on ice ends up: water added as a fraction of its volume, and its temperature in °C."""

    dilution: float
    temperature_c: float


def _regression(coefficients: tuple[float, float, float], abv: float, technique: str) -> float:
    if not WEAKEST <= abv <= STRONGEST:
        raise ValueError(
            f"the {technique} dilution rule holds from {WEAKEST * 100:g} to {STRONGEST * 100:g} % ABV; "
            f"this is {abv * 100:.3g} %"
        )
    square, straight, constant = coefficients
    return (square * abv + straight) * abv + constant


def stirred_dilution(abv: float) -> float:
    """Water from stirring on ice / undiluted volume, by undiluted strength (0.12 to 0.50, else ValueError).

    Regression in "Liquid Intelligence" (2014), as quoted by third parties.
    """
    return _regression(STIRRED, abv, "stirred")


def shaken_dilution(abv: float) -> float:
    """Water from shaking on ice / undiluted volume, by undiluted strength (0.12 to 0.50, else ValueError).

    Regression in "Liquid Intelligence" (2014), as quoted by third parties.
    """
    return _regression(SHAKEN, abv, "shaken")


def _heat_j_per_c(liquid: Liquid) -> float:
    solvent_g = liquid.ethanol_g + liquid.water_g
    heat = liquid.sugar_g * SUGAR_J_PER_G_C
    if solvent_g <= 0.0:
        return heat
    share = liquid.ethanol_g / solvent_g
    for (low, at_low), (high, at_high) in pairwise(HEAT_CAPACITIES):
        if share <= high:
            return heat + solvent_g * (at_low + (at_high - at_low) * (share - low) / (high - low))
    return heat + solvent_g * HEAT_CAPACITIES[-1][1]


def _melted_g(heat_j_per_c: float, ice_g: float, start_c: float, end_c: float) -> float:
    """Grams of 0 °C ice that melt; the melted water and all the ice left end at ``end_c`` as well."""
    ice_cools_j = ice_g * ICE_J_PER_G_C * max(0.0, -end_c)
    per_gram = MELTING_J_PER_G + (WATER_J_PER_G_C - (ICE_J_PER_G_C if end_c < 0.0 else 0.0)) * end_c
    return (heat_j_per_c * (start_c - end_c) + ice_cools_j) / per_gram


def _diluted(liquid: Liquid, melted_g: float) -> Liquid:
    return liquid + Liquid(0.0, melted_g, 0.0)


def ice_dilution(liquid: Liquid, start_c: float, end_c: float) -> float:
    """Water that 0 °C ice adds while it takes a drink from ``start_c`` to ``end_c`` / undiluted volume.

    Heat the drink gives up melts ice and cools the rest of it (1 g of ice for each mL, common practice);
    glass, air and the heat of mixing (up to 0.04 more) are left out. ValueError when there is no drink,
    it is to get warmer, the ice would not last, or it cannot get that cold: that is ``ice_equilibrium``.
    """
    volume_ml = liquid.volume_ml
    if volume_ml <= 0.0:
        raise ValueError("there is no drink to chill")
    if not end_c < start_c:
        raise ValueError(f"ice cannot take a drink from {start_c:g} to {end_c:g} °C")
    ice_g = volume_ml * ICE_G_PER_ML_OF_DRINK
    melted_g = _melted_g(_heat_j_per_c(liquid), ice_g, start_c, end_c)
    if not 0.0 < melted_g <= ice_g:
        raise ValueError(f"the ice melts before the drink gets from {start_c:g} to {end_c:g} °C")
    if end_c < 0.0 and freezing_point_c(_diluted(liquid, melted_g)) > end_c:
        raise ValueError(f"ice alone does not get this drink down to {end_c:g} °C")
    return melted_g * 1000.0 / RHO_WATER_20 / volume_ml


def ice_equilibrium(liquid: Liquid, start_c: float) -> Chilled:
    """Where ice stops melting: the diluted drink's freezing point is its own temperature.

    The coldest and wettest that stirring without end could get it; same heat balance as ``ice_dilution``.
    ValueError when there is no drink, it starts colder than that, or the ice would not last.
    """
    volume_ml = liquid.volume_ml
    if volume_ml <= 0.0:
        raise ValueError("there is no drink to chill")
    heat, ice_g = _heat_j_per_c(liquid), volume_ml * ICE_G_PER_ML_OF_DRINK

    end_c = freezing_point_c(liquid)
    if not start_c > end_c:
        raise ValueError(f"at {start_c:g} °C the drink is already as cold as ice can make it")
    for _ in range(40):
        melted_g = max(0.0, _melted_g(heat, ice_g, start_c, end_c))
        # A degree colder melts enough to raise the freezing point by about 0.4: hence 1.4.
        step = (freezing_point_c(_diluted(liquid, melted_g)) - end_c) / 1.4
        end_c += step
        if abs(step) < 1e-6:
            break
    melted_g = _melted_g(heat, ice_g, start_c, end_c)
    if melted_g > ice_g:
        raise ValueError(f"the ice melts before a drink from {start_c:g} °C is cold")
    return Chilled(melted_g * 1000.0 / RHO_WATER_20 / volume_ml, end_c)
