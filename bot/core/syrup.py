"""Syrups: sweetener and water for a volume, from what is at hand, by weight, by volume, by Brix; saline.

Lives here: the sweeteners (sugar, honey, agave), shares of a ratio, the finished syrup, saline by percent.
Must never: know names of drinks or spellings; round. Volumes are mL at 20 C, masses g, shares fractions
of the syrup's mass. A syrup's volume comes from Liquid, which follows the CRC Handbook's sucrose densities.
"""

from dataclasses import dataclass
from typing import Literal

from bot.core.liquid import Liquid
from bot.core.units import ML_PER

__all__ = [
    "AGAVE",
    "HONEY",
    "SUGAR",
    "SWEETENERS",
    "Saline",
    "Sweetener",
    "Syrup",
    "brix_of",
    "from_sweet",
    "from_volume",
    "from_water",
    "g_per_l_of",
    "more_of",
    "saline",
    "share_of",
    "share_of_brix",
    "to_share",
    "water_to_thin",
]

_WATER_G_PER_ML = Liquid.water(1.0).mass_g

#: mL a gram of salt adds to water: 0.31 at 5 % to 0.35 at 20 % (CRC Handbook NaCl densities, from memory)
SALT_ML_PER_G = 0.33
#: most salt a litre of solution holds at 20 C: 26.4 % by mass at 1.20 g/mL (CRC Handbook, from memory)
_SALT_G_PER_L_AT_MOST = 317.0


@dataclass(frozen=True, slots=True)
class Sweetener:
    """What a syrup is made of: g_per_ml as a cup measures it (sugar: bulk), sugar as a fraction of mass."""

    name: str
    g_per_ml: float
    sugar: float
    source: str


SUGAR = Sweetener("sugar", 200.0 / ML_PER["us_cup"], 1.0, "200 g a US cup: common practice, no source")
HONEY = Sweetener(
    "honey", 339.0 / ML_PER["us_cup"], 0.821, "USDA FoodData Central: 82.1 g sugars per 100 g, cup 339 g"
)
AGAVE = Sweetener(
    "agave", 1.379, 0.75, "75 % dissolved sugars: common practice; density: CRC sucrose table at 75 %"
)
SWEETENERS: dict[str, Sweetener] = {s.name: s for s in (SUGAR, HONEY, AGAVE)}


@dataclass(frozen=True, slots=True)
class Syrup:
    """A finished syrup: what to weigh or measure (sweet, water) and what it comes to (liquid)."""

    sweetener: Sweetener
    sweet_g: float
    water_g: float
    liquid: Liquid

    @property
    def sweet_ml(self) -> float:
        """The sweetener as a cup measures it, mL."""
        return self.sweet_g / self.sweetener.g_per_ml

    @property
    def water_ml(self) -> float:
        """The water to add, mL at 20 C."""
        return self.water_g / _WATER_G_PER_ML

    @property
    def volume_ml(self) -> float:
        """What it makes, mL at 20 C: less than sweet_ml + water_ml."""
        return self.liquid.volume_ml

    @property
    def sugar_g(self) -> float:
        """Sugar in it, g (of honey and agave only their sugars)."""
        return self.liquid.sugar_g

    @property
    def sugar_g_per_l(self) -> float:
        """Sugar in a litre of it, g."""
        return self.liquid.sugar_g_per_l

    @property
    def brix(self) -> float:
        """Degrees Brix: sugar in percent of the mass."""
        return 100.0 * self.liquid.sugar_g / self.liquid.mass_g


def _made(sweetener: Sweetener, sweet_g: float, water_g: float) -> Syrup:
    sugar_g = sweet_g * sweetener.sugar
    return Syrup(sweetener, sweet_g, water_g, Liquid(0.0, water_g + sweet_g - sugar_g, sugar_g))


def share_of(
    ratio: tuple[float, float], by: Literal["weight", "volume"] = "weight", sweetener: Sweetener = SUGAR
) -> float:
    """Sweetener as a fraction of the syrup's mass for a ratio sweetener : water, e.g. (2, 1).

    By volume the sweetener is measured in a cup (granulated sugar 0.845 g/mL: common practice, no source).
    ValueError when a side is negative or the sweetener's side is not above zero.
    """
    sweet, water = ratio
    if not (sweet > 0.0 and water >= 0.0):
        raise ValueError(f"a ratio of {sweet:g} to {water:g} is impossible")
    if by == "volume":
        sweet, water = sweet * sweetener.g_per_ml, water * _WATER_G_PER_ML
    return sweet / (sweet + water)


def share_of_brix(brix: float, sweetener: Sweetener = SUGAR) -> float:
    """Sweetener as a fraction of the mass for so many degrees Brix (percent sugar by mass).

    ValueError outside 0 to what the sweetener itself holds (100 for sugar, 82.1 for honey).
    """
    if not 0.0 < brix <= 100.0 * sweetener.sugar:
        raise ValueError(f"{brix:g} Brix is impossible from {sweetener.name}")
    return brix / 100.0 / sweetener.sugar


def from_volume(share: float, volume_ml: float, sweetener: Sweetener = SUGAR) -> Syrup:
    """What to weigh for a volume of syrup in mL at 20 C. ValueError for a share outside 0..1 or no volume."""
    if not (0.0 < share <= 1.0 and volume_ml > 0.0):
        raise ValueError("a syrup needs a volume and a share of sweetener between 0 and 1")
    of_one_g = _made(sweetener, share, 1.0 - share)
    mass_g = volume_ml / of_one_g.volume_ml
    return _made(sweetener, share * mass_g, (1.0 - share) * mass_g)


def from_sweet(share: float, sweet_g: float, sweetener: Sweetener = SUGAR) -> Syrup:
    """The syrup that uses up so many g of sweetener. ValueError for a share outside 0..1 or no sweetener."""
    if not (0.0 < share <= 1.0 and sweet_g > 0.0):
        raise ValueError("a syrup needs some sweetener and a share between 0 and 1")
    return _made(sweetener, sweet_g, sweet_g * (1.0 - share) / share)


def from_water(share: float, water_ml: float, sweetener: Sweetener = SUGAR) -> Syrup:
    """The syrup that uses up so much water, mL at 20 C. ValueError for a share outside 0..1 or no water."""
    if not (0.0 < share < 1.0 and water_ml > 0.0):
        raise ValueError("a syrup needs some water and a share between 0 and 1")
    water_g = water_ml * _WATER_G_PER_ML
    return _made(sweetener, water_g * share / (1.0 - share), water_g)


def water_to_thin(liquid: Liquid, brix: float) -> float:
    """Water in mL at 20 C that brings a syrup down to `brix`. ValueError when it is not sweeter than that."""
    if not 0.0 < brix < 100.0:
        raise ValueError(f"{brix:g} Brix is impossible")
    water_g = liquid.sugar_g * 100.0 / brix - liquid.mass_g
    if water_g < 0.0:
        raise ValueError(f"the syrup is below {brix:g} Brix already; water cannot sweeten it")
    return water_g / _WATER_G_PER_ML


def to_share(made: Syrup, share: float) -> tuple[float, float]:
    """Sweetener in g, and water in g, that bring a syrup to another share of sweetener; one of them is 0.

    ValueError outside 0 to below 1.
    """
    if not 0.0 < share < 1.0:
        raise ValueError(f"a share of {share:g} is impossible")
    mass_g = made.sweet_g + made.water_g
    sweet_g = (share * mass_g - made.sweet_g) / (1.0 - share)
    return (sweet_g, 0.0) if sweet_g > 0.0 else (0.0, made.sweet_g / share - mass_g)


def more_of(made: Syrup, sweet_g: float, water_g: float) -> Syrup:
    """A syrup with so many g of sweetener and of water added."""
    return _made(made.sweetener, made.sweet_g + sweet_g, made.water_g + water_g)


def brix_of(sugar_g_per_l: float) -> float:
    """Brix of a sugar solution of so many g/L at 20 C (CRC sucrose densities). ValueError when impossible."""
    liquid = Liquid.from_volume(1000.0, 0.0, sugar_g_per_l)
    return 100.0 * liquid.sugar_g / liquid.mass_g


def g_per_l_of(brix: float) -> float:
    """Grams of sugar a litre of a solution of so many Brix at 20 C (CRC sucrose densities).

    ValueError outside 0..100.
    """
    if not 0.0 <= brix <= 100.0:
        raise ValueError(f"{brix:g} Brix is impossible")
    return Liquid(0.0, 100.0 - brix, brix).sugar_g_per_l


@dataclass(frozen=True, slots=True)
class Saline:
    """Salt in g and water in mL for volume_ml of solution at 20 C."""

    salt_g: float
    water_ml: float
    volume_ml: float


def saline(percent: float, volume_ml: float) -> Saline:
    """Salt solution by percent, g of salt in 100 mL of solution (w/v), the bar's usual 20 % among them.

    The water is what the salt leaves of the volume (0.33 mL a gram, right to 1 % of the volume up to 20 %).
    ValueError above what dissolves at 20 C (31.7 % w/v) or without a volume.
    """
    if not volume_ml > 0.0:
        raise ValueError("a salt solution needs a volume")
    if not 0.0 < percent <= _SALT_G_PER_L_AT_MOST / 10.0:
        raise ValueError(f"{percent:g} % salt does not dissolve; at most 31.7 % at 20 C")
    salt_g = volume_ml * percent / 100.0
    return Saline(salt_g, volume_ml - salt_g * SALT_ML_PER_G, volume_ml)
