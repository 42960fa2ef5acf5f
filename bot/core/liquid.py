"""A liquid is masses of ethanol, water and sugar; mixing adds masses.

Lives here: the Liquid, its volume, true strength and sugar per litre at 20 °C, and mixing.
Must never: know about names, prices, ice or recipes; round anything.
Everything a drink holds besides ethanol and sugar (acids, bitters' extract, flavour) counts as water.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable
from dataclasses import dataclass

from bot.core.alcoholometry import RHO_ETHANOL_20, RHO_WATER_20, density_and_slope_at_20_c

# Sucrose in water: mass % and density at 20 °C in g/mL. CRC Handbook of Chemistry and Physics,
# 102nd ed. (2021), "Concentrative Properties of Aqueous Solutions", read in an open transcription.
SUCROSE_DENSITIES = (
    (3, 1.0099),
    (5, 1.0178),
    (10, 1.0381),
    (15, 1.0592),
    (20, 1.0810),
    (30, 1.1270),
    (40, 1.1765),
    (50, 1.2295),
    (60, 1.2864),
    (70, 1.3472),
    (80, 1.4117),
    (84, 1.4383),
)
_RHO_ETHANOL = RHO_ETHANOL_20 / 1000.0  # g/mL
_RHO_WATER = RHO_WATER_20 / 1000.0

# What a gram of dissolved sugar adds to the volume (mL), by sugar's share of the water-and-sugar mass:
# the solution's volume less that of its water. 0.615 at 3 % to 0.628 at 60 %; level outside the table.
_SHARES = tuple(percent / 100.0 for percent, _ in SUCROSE_DENSITIES)
_ML_PER_G = tuple(
    (1.0 / rho - (1.0 - share) / _RHO_WATER) / share
    for share, (_, rho) in zip(_SHARES, SUCROSE_DENSITIES, strict=True)
)
_SLOPES = tuple(
    (_ML_PER_G[i + 1] - _ML_PER_G[i]) / (_SHARES[i + 1] - _SHARES[i]) for i in range(len(_SHARES) - 1)
)


def sugar_ml_per_g(share: float) -> float:
    """Apparent volume of dissolved sugar in mL/g, for sugar as a fraction of the water-and-sugar mass.

    From CRC sucrose densities at 20 °C, straight lines between the rows; level below 3 % and above 84 %.
    With ethanol present the same figure is used: no measured table was found, and 0.01 mL/g is 0.1 % of
    the volume of a 100 g/L drink.
    """
    if share <= _SHARES[0]:
        return _ML_PER_G[0]
    if share >= _SHARES[-1]:
        return _ML_PER_G[-1]
    i = bisect_right(_SHARES, share) - 1
    return _ML_PER_G[i] + _SLOPES[i] * (share - _SHARES[i])


def _volume_ml(ethanol_g: float, water_g: float, sugar_g: float) -> float:
    solvent_g = ethanol_g + water_g
    volume = 0.0
    if solvent_g > 0.0:
        rho, _ = density_and_slope_at_20_c(ethanol_g / solvent_g)
        volume = solvent_g * 1000.0 / rho
    if sugar_g > 0.0:
        volume += sugar_g * sugar_ml_per_g(sugar_g / (water_g + sugar_g))
    return volume


@dataclass(frozen=True, slots=True)
class Liquid:
    """Grams of ethanol, water and sugar (as sucrose). ValueError when one is negative or not a number."""

    ethanol_g: float
    water_g: float
    sugar_g: float = 0.0

    def __post_init__(self) -> None:
        """Refuse masses that cannot be."""
        if not (self.ethanol_g >= 0.0 and self.water_g >= 0.0 and self.sugar_g >= 0.0):
            raise ValueError("a liquid cannot hold less than nothing of ethanol, water or sugar")

    @classmethod
    def from_volume(cls, volume_ml: float, abv: float, sugar_g_per_l: float = 0.0) -> Liquid:
        """The liquid that fills ``volume_ml`` at 20 °C at a strength (fraction) with sugar in g/L.

        The inverse of volume_ml, abv and sugar_g_per_l: water fills what ethanol and sugar leave, found by
        Newton's method on the OIML R 22 density to 1e-10 of the volume. ValueError for a negative volume,
        a strength outside 0..1, negative sugar, or more of them than the volume holds.
        """
        if not 0.0 <= volume_ml < float("inf"):
            raise ValueError(f"a volume of {volume_ml:g} ml is impossible")
        if not 0.0 <= abv <= 1.0:
            raise ValueError(f"a strength of {abv * 100:g} % is impossible; it must be between 0 and 100 %")
        if not 0.0 <= sugar_g_per_l < float("inf"):
            raise ValueError(f"{sugar_g_per_l:g} g of sugar a litre is impossible")
        ethanol_g = volume_ml * abv * _RHO_ETHANOL
        sugar_g = volume_ml * sugar_g_per_l / 1000.0
        if abv == 0.0 and sugar_g == 0.0:
            return cls(0.0, volume_ml * _RHO_WATER, 0.0)
        if _volume_ml(ethanol_g, 0.0, sugar_g) > volume_ml * (1.0 + 1e-9):
            raise ValueError(f"{abv * 100:g} % alcohol and {sugar_g_per_l:g} g/L sugar do not fit")
        water_g = max(0.0, volume_ml - ethanol_g / _RHO_ETHANOL - 0.62 * sugar_g)
        for _ in range(30):
            solvent_g = ethanol_g + water_g
            if solvent_g > 0.0:
                fraction = ethanol_g / solvent_g
                rho, slope = density_and_slope_at_20_c(fraction)
                volume, ml_per_g = solvent_g * 1000.0 / rho, (1.0 + fraction * slope / rho) * 1000.0 / rho
            else:
                volume, ml_per_g = 0.0, 1.0 / _RHO_WATER
            if sugar_g > 0.0:
                volume += sugar_g * sugar_ml_per_g(sugar_g / (water_g + sugar_g))
            step = (volume_ml - volume) / ml_per_g
            water_g = max(0.0, water_g + step)
            if abs(step) < 1e-10 * volume_ml:
                break
        return cls(ethanol_g, water_g, sugar_g)

    @classmethod
    def water(cls, volume_ml: float) -> Liquid:
        """Plain water, mL at 20 °C. ValueError for a negative volume."""
        return cls.from_volume(volume_ml, 0.0)

    def __add__(self, other: Liquid) -> Liquid:
        """Both liquids in one vessel: masses add, volumes do not."""
        return Liquid(
            self.ethanol_g + other.ethanol_g, self.water_g + other.water_g, self.sugar_g + other.sugar_g
        )

    def scaled(self, k: float) -> Liquid:
        """``k`` times as much of the same liquid. ValueError for a negative ``k``."""
        return Liquid(self.ethanol_g * k, self.water_g * k, self.sugar_g * k)

    @property
    def mass_g(self) -> float:
        """Mass in grams."""
        return self.ethanol_g + self.water_g + self.sugar_g

    @property
    def volume_ml(self) -> float:
        """Volume in mL at 20 °C: OIML R 22 density of the ethanol and water, plus dissolved sugar (CRC)."""
        return _volume_ml(self.ethanol_g, self.water_g, self.sugar_g)

    @property
    def ethanol_ml(self) -> float:
        """The ethanol as pure ethanol, mL at 20 °C."""
        return self.ethanol_g / _RHO_ETHANOL

    @property
    def abv(self) -> float:
        """True strength at 20 °C, a fraction of the volume after contraction; 0 for an empty liquid."""
        volume = self.volume_ml
        return self.ethanol_g / _RHO_ETHANOL / volume if volume else 0.0

    @property
    def sugar_g_per_l(self) -> float:
        """Grams of sugar in a litre at 20 °C; 0 for an empty liquid."""
        volume = self.volume_ml
        return self.sugar_g * 1000.0 / volume if volume else 0.0


EMPTY = Liquid(0.0, 0.0, 0.0)


def mix(liquids: Iterable[Liquid]) -> Liquid:
    """All of them in one vessel; EMPTY when there are none."""
    ethanol_g = water_g = sugar_g = 0.0
    for liquid in liquids:
        ethanol_g += liquid.ethanol_g
        water_g += liquid.water_g
        sugar_g += liquid.sugar_g
    return Liquid(ethanol_g, water_g, sugar_g)
