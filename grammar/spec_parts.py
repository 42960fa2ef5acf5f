"""What requests are made of: measures, money, the parts and the water of a spec, and how much of it to make.

Amounts stay as typed, in the unit typed; nothing is converted or assumed here. Unit keys are those of
grammar.words_measures.UNITS. Strengths are fractions of volume.
"""

from dataclasses import dataclass
from typing import Literal

Unit = str


@dataclass(frozen=True, slots=True)
class Measure:
    """An amount as typed. unit "" is a bare number, "part" a part of a ratio, "count" a counted thing."""

    value: float
    unit: Unit = ""


@dataclass(frozen=True, slots=True)
class Money:
    """A sum as typed; currency is the sign or code typed, or ""."""

    value: float
    currency: str = ""


@dataclass(frozen=True, slots=True)
class Part:
    """One ingredient of a spec."""

    name: str  # canonical name, or as typed when unknown
    measure: Measure | None = None
    typed: str = ""  # how the message called it
    known: bool = True
    abv: float | None = None
    price: Money | None = None  # of one bottle
    size: Measure | None = None  # of that bottle
    whole: bool = False  # the amount is for the whole batch, not for one serve


@dataclass(frozen=True, slots=True)
class Water:
    """Water as asked. value: a share (fraction), an amount in `unit`, or the strength to come to (fraction)."""

    how: Literal["unsaid", "none", "of_undiluted", "of_finished", "amount", "rest", "part", "to_strength"] = "unsaid"
    value: float = 0.0
    unit: Unit = ""
    whole: bool = False  # an amount for the whole batch


@dataclass(frozen=True, slots=True)
class Recipe:
    """A spec: what goes in, in the order typed."""

    parts: tuple[Part, ...] = ()
    water: Water = Water()
    drink: str = ""
    base_serves: float | None = None  # "serves 4": the amounts typed are for that many
    garnish: tuple[str, ...] = ()
    technique: str = ""  # stirred or shaken, when said
    notes: tuple[str, ...] = ()  # readings to state in the reply
    house: str = ""  # the name of a house spec to look up, instead of parts


@dataclass(frozen=True, slots=True)
class Yield:
    """How much to make."""

    serves: float | None = None
    guests: float | None = None
    each: float | None = None  # drinks a guest
    volume: Measure | None = None  # finished
    vessels: float | None = None
    vessel_ml: float | None = None
    serve: Measure | None = None  # size of one serve
    serve_is: Literal["undiluted", "finished", "unsaid"] = "unsaid"
    as_many: bool = False  # as many vessels as it takes
