"""Labels: the strength a label states, standard drinks, allergens, keeping, cautions.

Lives here: the rules of the US, the EU and the UK as data with their source, and what follows from them.
Must never: word anything (cautions and reasons are codes), know spellings, give advice on health or law.
Strengths are fractions of volume at 20 C. Keeping times are common practice, no source.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from decimal import ROUND_HALF_UP, Decimal
from typing import Literal

from bot.core.alcoholometry import RHO_ETHANOL_20
from bot.core.ingredient import Ingredient
from bot.core.units import ML_PER

__all__ = [
    "RULES",
    "Keeping",
    "LabelStrength",
    "Rule",
    "StandardDrinks",
    "allergens",
    "cautions",
    "keeping",
    "label_strength",
    "standard_drinks",
]

FLAMMABLE_FROM = 0.40  # fraction of volume; flash point 26 C at 40 % by either published reading

Market = Literal["us", "eu", "uk"]
Drink = Literal["spirit", "wine", "beer", "cider", "macerated"]


@dataclass(frozen=True, slots=True)
class Rule:
    """How a market states strength: decimals, tolerance in points either way, from which percent on."""

    decimals: int
    tolerance: float
    above_percent: float
    source: str


_US_SPIRIT = "27 CFR 5.65(c): 0.3 points; one decimal from memory"
_US_WINE = "27 CFR 4.36: 1.5 points up to 14 %, 1 above (from memory)"
_EU = "Reg. (EU) 1169/2011 Annex XII: one decimal, at 20 C, over 1.2 % vol"
_UK = "retained Reg. (EU) 1169/2011 Annex XII, as in Business Companion guidance (England and Wales)"

#: market -> kind of drink -> rule; "beer" up to 5.5 %, stronger beer takes the cider row
RULES: dict[Market, dict[Drink, Rule]] = {
    "us": {
        "spirit": Rule(1, 0.3, 0.5, _US_SPIRIT),
        "wine": Rule(1, 1.5, 7.0, _US_WINE),
        "beer": Rule(1, 0.3, 0.5, "27 CFR 7.65: 0.3 points, one decimal (from memory)"),
        "cider": Rule(1, 1.5, 7.0, _US_WINE),
        "macerated": Rule(1, 0.3, 0.5, _US_SPIRIT),
    },
    "eu": {
        "spirit": Rule(1, 0.3, 1.2, _EU),
        "wine": Rule(1, 0.5, 1.2, "Reg. (EU) 2019/33 Art. 44: unit or half unit, 0.5 points (from memory)"),
        "beer": Rule(1, 0.5, 1.2, _EU),
        "cider": Rule(1, 1.0, 1.2, _EU),
        "macerated": Rule(1, 1.5, 1.2, _EU),
    },
}
RULES["uk"] = {kind: replace(rule, source=_UK) for kind, rule in RULES["eu"].items()}


@dataclass(frozen=True, slots=True)
class LabelStrength:
    """percent as the label states it (None: no statement is asked for), tolerance in points, source."""

    percent: float | None
    tolerance: float
    source: str


def label_strength(abv: float, market: Market = "us", drink: Drink = "spirit") -> LabelStrength:
    """A true strength (fraction at 20 C) as a label of that market states it: one decimal.

    A mixed drink with a spirit base is "spirit", with whole fruit or herbs left in it "macerated".
    percent is None at or below the strength the market asks for a statement. ValueError outside 0..1.
    The rules fix decimals, not direction: half up is common practice. Grape wine has rules of its own.
    """
    if not 0.0 <= abv <= 1.0:
        raise ValueError(f"a strength of {abv * 100:g} % is impossible; it must be between 0 and 100 %")
    rule = RULES[market][drink]
    if market != "us" and drink == "beer" and abv > 0.055:
        rule = RULES[market]["cider"]
    if market == "us" and drink in ("wine", "cider") and abv > 0.14:
        rule = replace(rule, tolerance=1.0)
    # twelve digits drop float noise: 0.1845 is 18.45 % and rounds up
    exact = Decimal(f"{abv * 100.0:.12g}")
    percent = float(exact.quantize(Decimal(1).scaleb(-rule.decimals), ROUND_HALF_UP))
    stated = percent if exact > Decimal(str(rule.above_percent)) else None
    return LabelStrength(stated, rule.tolerance, rule.source)


@dataclass(frozen=True, slots=True)
class StandardDrinks:
    """One amount of ethanol in the standard drinks of four places."""

    us: float
    uk: float
    au: float
    who: float


def standard_drinks(volume_ml: float, abv: float) -> StandardDrinks:
    """Standard drinks in a volume (mL at 20 C) of a strength (fraction).

    US 0.6 US fl oz of ethanol (14 g): UPitt SBIRT. UK unit 10 mL: OpenLearn. Australia 10 g, as
    L x % x 0.789: AU Dept of Health. WHO (AUDIT) 10 g: quoted.
    ValueError for a negative volume or a strength outside 0..1.
    """
    if not (volume_ml >= 0.0 and 0.0 <= abv <= 1.0):
        raise ValueError("standard drinks need a volume and a strength between 0 and 100 %")
    ethanol_ml = volume_ml * abv
    return StandardDrinks(
        us=ethanol_ml / (0.6 * ML_PER["us_fl_oz"]),
        uk=ethanol_ml / 10.0,
        au=ethanol_ml * 0.789 / 10.0,
        who=ethanol_ml * RHO_ETHANOL_20 / 1000.0 / 10.0,
    )


def allergens(ingredients: Iterable[Ingredient]) -> tuple[str, ...]:
    """Allergen groups of a drink's ingredients, sorted (groups of Reg. (EU) 1169/2011 Annex II).

    Typical ingredients, not this bottle's: the bottle's own label decides. Sulphites count from any wine
    (over 10 mg/L there), even where the drink itself falls below the limit.
    """
    return tuple(sorted({group for ingredient in ingredients for group in ingredient.allergens}))


@dataclass(frozen=True, slots=True)
class Keeping:
    """Where a batch keeps ("cold" is at or below 4 C, FDA) and for how many days at most; why is a code."""

    place: Literal["cold", "room"]
    days: int
    why: Literal["egg", "dairy", "juice", "fresh", "low_strength", "wine", "syrup", "spirit"]


#: why -> where and for how long: common practice, no source
_KEEPING: dict[str, Keeping] = {
    "egg": Keeping("cold", 1, "egg"),
    "dairy": Keeping("cold", 2, "dairy"),
    "juice": Keeping("cold", 2, "juice"),
    "fresh": Keeping("cold", 3, "fresh"),
    "low_strength": Keeping("cold", 7, "low_strength"),
    "wine": Keeping("cold", 30, "wine"),
    "syrup": Keeping("cold", 30, "syrup"),
    "spirit": Keeping("room", 180, "spirit"),
}
_WINES = ("vermouth", "aromatised wine", "fortified wine", "wine", "beer", "cider")


def keeping(ingredients: Iterable[Ingredient], abv: float) -> Keeping:
    """How long a batch keeps, by its most delicate ingredient, then by strength (fraction).

    Common practice, no source; cold is at or below 4 C (40 F), FDA. Below 20 % without anything fresh it
    counts as low_strength; wines and syrups beyond that want the cold, spirits alone do not.
    """
    found = tuple(ingredients)
    families = {ingredient.family for ingredient in found}
    if "egg" in families:
        return _KEEPING["egg"]
    if "dairy" in families:
        return _KEEPING["dairy"]
    if families & {"juice", "puree"}:
        return _KEEPING["juice"]
    if any(ingredient.perishable for ingredient in found):
        return _KEEPING["fresh"]
    if abv < 0.20:
        return _KEEPING["low_strength"]
    if families.intersection(_WINES):
        return _KEEPING["wine"]
    if "syrup" in families:
        return _KEEPING["syrup"]
    return _KEEPING["spirit"]


def cautions(ingredients: Iterable[Ingredient], abv: float, market: Market | None = None) -> tuple[str, ...]:
    """Codes of what to be careful with, the weightiest first; bot.reply words them.

    raw_egg: pasteurised egg replaces raw (Food Code 3-302.13). nuts: an allergen that kills.
    flammable: 40 % and above ignites at a warm bar (flash point 26 C). keep_cold: something perishable.
    mix_ahead: US federal rule on premixing, 27 CFR 31.233 (market "us" only).
    """
    found = tuple(ingredients)
    codes: list[str] = []
    if any(ingredient.family == "egg" for ingredient in found):
        codes.append("raw_egg")
    if any("nuts" in ingredient.allergens for ingredient in found):
        codes.append("nuts")
    if abv >= FLAMMABLE_FROM:
        codes.append("flammable")
    if any(ingredient.perishable for ingredient in found):
        codes.append("keep_cold")
    if market == "us":
        codes.append("mix_ahead")
    return tuple(codes)
