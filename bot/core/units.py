"""Units of volume and mass: every factor read once from units.txt, our own pint definitions file.

Lives here: ML_PER and G_PER (unit -> mL, g), conversion of amounts, the choice between three ounces.
Never here: how people spell a unit (grammar), rounding (bot.reply), temperatures. The registry is built on
our file alone and is not kept: after import a conversion is one multiplication.
"""

from importlib.resources import files
from typing import Literal

from pint import UnitRegistry

__all__ = ["G_PER", "ML_PER", "OUNCES", "Ounce", "from_grams", "from_ml", "grams", "ml", "sized"]

#: which ounce "oz" means: the US fluid ounce, the imperial fluid ounce, or the bar's 30 mL ounce
Ounce = Literal["us", "imperial", "30ml"]

OUNCES: dict[Ounce, str] = {"us": "us_fl_oz", "imperial": "imp_fl_oz", "30ml": "bar_oz_30"}

#: names whose size follows the choice of ounce. A 30 mL ounce goes with label cups and spoons (240, 15, 5 mL)
#: and US pints and gallons; an imperial bar measures spoons as 15 and 5 mL and a cup as 250 mL.
_FOLLOWS: dict[str, dict[Ounce, str]] = {
    "oz": OUNCES,
    "cup": {"us": "us_cup", "imperial": "metric_cup", "30ml": "label_cup"},
    "tbsp": {"us": "us_tbsp", "imperial": "label_tbsp", "30ml": "label_tbsp"},
    "tsp": {"us": "us_tsp", "imperial": "label_tsp", "30ml": "label_tsp"},
    "pint": {"us": "us_pint", "imperial": "imp_pint", "30ml": "us_pint"},
    "quart": {"us": "us_quart", "imperial": "imp_quart", "30ml": "us_quart"},
    "gallon": {"us": "us_gallon", "imperial": "imp_gallon", "30ml": "us_gallon"},
}
_SHORT = {"ml": "millilitre", "cl": "centilitre", "dl": "decilitre", "l": "litre"}
_SHORT |= {"g": "gram", "kg": "kilogram", "mg": "milligram"}


def _factors() -> tuple[dict[str, float], dict[str, float]]:
    text = files("bot.core").joinpath("units.txt").read_text(encoding="utf-8")
    registry: UnitRegistry[float] = UnitRegistry(text.splitlines(), on_redefinition="raise")
    factors: dict[str, dict[str, float]] = {"[volume]": {}, "[mass]": {}}
    for line in text.splitlines():
        name = line.partition("=")[0].strip()
        if not name or name.startswith("#"):
            continue
        quantity = registry.Quantity(1.0, name)
        ((dimension, _),) = quantity.dimensionality.items()
        factors[dimension][name] = float(quantity.to_root_units().magnitude)
    for short, name in _SHORT.items():
        for table in factors.values():
            if name in table:
                table[short] = table[name]
    return factors["[volume]"], factors["[mass]"]


#: unit -> mL, and unit -> g, for every unit of units.txt and the short metric names
ML_PER, G_PER = _factors()


def sized(unit: str, ounce: Ounce = "us") -> str:
    """The unit of ML_PER that a name stands for: "oz" -> "us_fl_oz", "cup" -> "us_cup", "ml" -> "ml".

    KeyError when the name is no unit of volume.
    """
    name = _FOLLOWS[unit][ounce] if unit in _FOLLOWS else unit
    if name not in ML_PER:
        raise KeyError(unit)
    return name


def ml(amount: float, unit: str, ounce: Ounce = "us") -> float:
    """An amount of a unit of volume in mL; `ounce` settles "oz", "cup", "pint" and the other shared names.

    KeyError when the name is no unit of volume (weights, parts and counts are not). Factors: units.txt.
    """
    return amount * ML_PER[sized(unit, ounce)]


def from_ml(volume_ml: float, unit: str, ounce: Ounce = "us") -> float:
    """A volume in mL as so many of a unit of volume. KeyError as in ml()."""
    return volume_ml / ML_PER[sized(unit, ounce)]


def grams(amount: float, unit: str) -> float:
    """An amount of "g", "kg", "lb" or "ozw" in grams. KeyError when it is no unit of mass."""
    return amount * G_PER[unit]


def from_grams(mass_g: float, unit: str) -> float:
    """A mass in grams as so many of a unit of mass. KeyError as in grams()."""
    return mass_g / G_PER[unit]
