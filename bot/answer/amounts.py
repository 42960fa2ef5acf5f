"""Amounts as typed -> mL, grams, pieces or parts, with a note for every size that is only common practice.

Lives here: what each unit means in this chat (its ounce, its dash), what a weight may be, what one piece gives, and the
limits of a sensible amount. Must never: scale anything.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from math import isfinite

from bot.answer.ingredients import Known
from bot.answer.notes import Notes, Question, figure
from bot.core.syrup import AGAVE, HONEY
from bot.core.units import G_PER, ML_PER, from_ml, sized
from bot.told import First, Settings
from grammar.request import Measure, Part

__all__ = [
    "MOST_ML", "MOST_SERVES", "OUNCE_UNITS", "WEIGHTS", "Amount", "amount_of", "check_volume", "first_system", "ml_of",
    "ounce_ml", "result_unit", "speaks_ounces", "typed",
]  # fmt: skip

OUNCE_UNITS = frozenset(["oz", "us_fl_oz", "imp_fl_oz"])
METRIC_UNITS = frozenset(["ml", "cl", "dl", "l", ""])
WEIGHTS = frozenset(["g", "kg", "mg", "lb", "ozw"])
MOST_SERVES = 20_000.0
MOST_ML = 1e8  # 100,000 L
DRY_SUGARS = frozenset(["sugar", "demerara sugar"])
_WEIGHED = {"honey": HONEY.g_per_ml, "agave nectar": AGAVE.g_per_ml}
# Sizes that nobody has fixed: used, they are stated. The shared names that follow the choice of ounce are, too.
_PRACTICE = frozenset(["barspoon", "shot", "jigger", "pony", "drop", "splash"])
_BY_SYSTEM = frozenset(["cup", "pint", "quart", "gallon"])


@dataclass(frozen=True, slots=True)
class Amount:
    """One of: mL, grams of a thing that is weighed, pieces, parts of a ratio. sugar_g: dissolved sugar it stands for.

    takes_ml is what it takes up in the drink: its mL, or what its sugar takes up dissolved.
    """

    ml: float | None = None
    g: float | None = None
    count: float | None = None
    parts: float | None = None
    sugar_g: float | None = None
    takes_ml: float = 0.0

    def times(self, k: float) -> "Amount":
        """So many times as much; parts of a ratio stay what they are."""
        ml, g, count, sugar_g = (None if x is None else x * k for x in (self.ml, self.g, self.count, self.sugar_g))
        return Amount(ml, g, count, self.parts, sugar_g, self.takes_ml * k)

    def of_parts(self, one_ml: float) -> "Amount":
        """Parts of a ratio as mL."""
        volume_ml = (self.parts or 0.0) * one_ml
        return replace(self, ml=volume_ml, takes_ml=volume_ml)


#: mL a gram of sugar takes up dissolved (CRC densities give 0.615 at 3 % to 0.628 at 60 %; see bot.core.liquid)
_DISSOLVED_ML_PER_G = 0.62


def typed(measure: Measure) -> str:
    """An amount as it was typed, near enough for a question: "2 l", "60 ml", "3 parts"."""
    return f"{measure.value:g} {measure.unit}".strip()


def check_volume(volume_ml: float, found: str = "") -> float:
    """The volume. Raises Question out_of_range below or at zero or not finite, too_large above 100,000 L."""
    if not (isfinite(volume_ml) and volume_ml > 0.0):
        raise Question("out_of_range", found or f"{volume_ml:g} ml")
    if volume_ml > MOST_ML:
        raise Question("too_large", found or f"{volume_ml / 1000.0:g} l", most="100,000 L")
    return volume_ml


def ml_of(measure: Measure, settings: Settings, notes: Notes) -> float:
    """An amount of a unit of volume in mL; the sizes that are assumed are noted. A bare number is mL.

    Raises Question weight for a weight, no_amounts for parts and pieces, out_of_range and too_large.
    """
    value, unit = measure.value, measure.unit or "ml"
    if unit == "ml":
        return check_volume(value, typed(measure))
    if unit in WEIGHTS:
        raise Question("weight", typed(measure), amount=typed(measure))
    if unit == "dash":
        notes.assume("dash", settings.dash_ml)
        return check_volume(value * settings.dash_ml, typed(measure))
    try:
        one_ml = ML_PER[sized(unit, settings.ounce)]
    except KeyError:
        raise Question("no_amounts", typed(measure)) from None
    if unit == "oz":
        notes.assume("ounce", settings.ounce)
    elif unit in _PRACTICE:
        notes.assume(unit, one_ml)
    elif unit in _BY_SYSTEM:
        notes.assume("measure", unit, one_ml)
    return check_volume(value * one_ml, typed(measure))


def amount_of(part: Part, known: Known, settings: Settings, notes: Notes) -> Amount:
    """A part's amount. Raises Question no_amounts without one, weight for a liquid by weight, and as ml_of."""
    measure = part.measure
    if measure is None:
        raise Question("no_amounts", part.typed or known.name, names=part.typed or known.name)
    value, unit = measure.value, measure.unit
    if not isfinite(value) or value <= 0.0:
        raise Question("out_of_range", f"{typed(measure)} {part.typed or known.name}")
    if unit == "part":
        return Amount(parts=check_volume(value, typed(measure)))
    if unit == "count":
        check_volume(value, f"{value:g} {part.typed or known.name}")
        each_ml = known.ingredient.each_ml if known.ingredient is not None else None
        if each_ml is None:
            return Amount(count=value)
        notes.assume("each_ml", known.name, each_ml)
        return Amount(ml=value * each_ml, count=value, takes_ml=value * each_ml)
    if unit in WEIGHTS:
        grams = check_volume(value * G_PER[unit], typed(measure))  # a weight has the same limits
        if known.name in DRY_SUGARS:
            return Amount(g=grams, sugar_g=grams, takes_ml=grams * _DISSOLVED_ML_PER_G)
        if known.name in _WEIGHED:
            volume_ml = check_volume(grams / _WEIGHED[known.name])
            return Amount(ml=volume_ml, g=grams, takes_ml=volume_ml)
        if known.ingredient is not None or known.bottle is not None or (known.abv is not None and known.abv > 0.0):
            raise Question(
                "weight", f"{typed(measure)} {part.typed or known.name}", name=known.name, amount=typed(measure)
            )
        return Amount(g=grams)
    volume_ml = ml_of(measure, settings, notes)
    if known.name in DRY_SUGARS:
        grams = volume_ml * known.sugar_g_per_l / 1000.0
        return Amount(ml=volume_ml, g=grams, sugar_g=grams, takes_ml=grams * _DISSOLVED_ML_PER_G)
    return Amount(ml=volume_ml, takes_ml=volume_ml)


def ounce_ml(settings: Settings, unit: str = "") -> float:
    """The ounce in force: the one asked for by name, else the chat's."""
    return ML_PER[unit if unit in ("us_fl_oz", "imp_fl_oz") else sized("oz", settings.ounce)]


def speaks_ounces(units: Iterable[str]) -> bool:
    """Whether a message with amounts in these units speaks ounces: some are, and none is metric."""
    found = set(units)
    return bool(found & OUNCE_UNITS) and not found & {"ml", "cl", "dl", "l"}


def first_system(units: Iterable[str], settings: Settings, asked: str = "") -> First:
    """Which system comes first: the unit asked for, else the chat's choice of oz, else that of most amounts typed."""
    if asked in OUNCE_UNITS:
        return "oz"
    if asked in ("ml", "cl", "dl", "l"):
        return "ml"
    if settings.first == "oz":
        return "oz"
    balance = 0
    for unit in units:
        balance += (unit in OUNCE_UNITS) - (unit in METRIC_UNITS)
    return "oz" if balance > 0 else "ml"


def result_unit(volume_ml: float, unit: str, settings: Settings) -> tuple[float, str]:
    """A volume in a unit asked for, and the unit's name in an answer ("oz" becomes the ounce it stands for).

    Raises Question unread for a unit that is none of volume.
    """
    try:
        name = sized(unit, settings.ounce)
    except KeyError:
        raise Question("unread", unit) from None
    if unit == "dash":
        return volume_ml / settings.dash_ml, unit
    return from_ml(volume_ml, name), name if unit == "oz" else unit


def measured_serves(serves: float) -> float:
    """A count of serves. Raises Question out_of_range when not above zero, too_large above 20,000."""
    if not (isfinite(serves) and serves > 0.0):
        raise Question("out_of_range", f"{serves:g} serves")
    if serves > MOST_SERVES:
        raise Question("too_large", f"{serves:g} serves", most=figure(MOST_SERVES))
    return serves
