"""What a request comes to: plain facts, unrounded, with no sentence in them.

One Answer holds whatever its kind has; absent facts are None or empty. Notes carry a code and its arguments; the
sentences for every code are in bot.reply.words. Strengths and shares are fractions; volumes mL at 20 °C; masses g.
"""

from dataclasses import dataclass
from typing import Literal

Kind = Literal[
    "batch", "strength", "cut", "convert", "freezer", "dilution", "syrup", "cost", "bottles", "label",
    "saved", "listed", "forgotten", "setting", "help", "question",
]  # fmt: skip


@dataclass(frozen=True, slots=True)
class Note:
    """An assumption, caution, reading or remark: a code and what goes into its sentence."""

    code: str
    args: tuple[str | float, ...] = ()


@dataclass(frozen=True, slots=True)
class Line:
    """One thing to measure, for the whole batch."""

    name: str
    ml: float | None = None
    abv: float | None = None
    g: float | None = None
    count: float | None = None
    typed_unit: str = ""  # unit it was typed in: "oz" amounts come out in exact ounces first


@dataclass(frozen=True, slots=True)
class FreezerFacts:
    """What the freezer does to the finished drink."""

    at_c: float
    freezing_point_c: float | None = None
    state: Literal["liquid", "slush", "hard", ""] = ""
    near_edge: bool = False
    ice: float | None = None  # share of the drink's mass
    headspace_ml: float | None = None
    most_water: float | None = None  # as a share of the undiluted volume; None when even undiluted it does not stay liquid
    least_abv: float | None = None  # the strength that just stays liquid at at_c
    measured_ml: float | None = None
    asked: bool = False  # the message said the temperature


@dataclass(frozen=True, slots=True)
class Vessels:
    """How a volume goes into vessels."""

    size_ml: float
    count: int
    fill_ml: float  # in each
    asked: bool = False  # the message named them


@dataclass(frozen=True, slots=True)
class Result:
    """A figure asked for: value in unit, of what ("" when plain)."""

    value: float
    unit: str
    of: str = ""


@dataclass(frozen=True, slots=True)
class CostFacts:
    """Money. Every figure in the currency of the message, tax out unless said."""

    currency: str = ""
    total: float | None = None
    per_serve: float | None = None
    price: float | None = None  # what the guest pays
    price_net: float | None = None  # without tax
    pour_cost: float | None = None
    margin: float | None = None
    markup: float | None = None
    tax: float | None = None
    items: tuple[tuple[str, float], ...] = ()  # cost of each ingredient
    was_per_serve: float | None = None  # before a price moved
    was_pour_cost: float | None = None


@dataclass(frozen=True, slots=True)
class BottleFacts:
    """Bottles of one thing."""

    name: str
    count: int
    size_ml: float
    need_ml: float | None = None
    left_ml: float | None = None
    short_ml: float | None = None
    have: float | None = None  # bottles at hand


@dataclass(frozen=True, slots=True)
class LabelFacts:
    """What a label wants."""

    market: str = ""
    percent: float | None = None  # rounded as the rule rounds, in percent
    tolerance: float | None = None  # percentage points
    source: str = ""
    drinks_serve: tuple[tuple[str, float], ...] = ()  # ("us", 1.1), ...
    drinks_bottle: tuple[tuple[str, float], ...] = ()
    volume_ml: float | None = None
    allergens: tuple[str, ...] = ()
    keep_place: str = ""
    keep_days: int | None = None


@dataclass(frozen=True, slots=True)
class Problem:
    """Why there is a question instead of an answer."""

    code: str
    at: tuple[int, int] | None = None
    found: str = ""
    try_instead: str = ""
    facts: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Answer:
    """The facts of a reply."""

    kind: Kind
    title: str = ""  # the drink or house spec
    understood: tuple[Note, ...] = ()
    lines: tuple[Line, ...] = ()
    serves: float | None = None
    undiluted_ml: float | None = None
    measured_ml: float | None = None  # as measured, added up
    finished_ml: float | None = None  # true volume after mixing
    per_serve_ml: float | None = None  # one pour of the finished drink
    fills: float | None = None  # serves that a filled volume gives, where nobody counted them
    spec_ml: float | None = None  # one serve undiluted
    abv: float | None = None
    water_share: float | None = None  # of the undiluted volume
    sugar_g_per_l: float | None = None
    sugar_g: float | None = None
    brix: float | None = None
    freezer: FreezerFacts | None = None
    vessels: Vessels | None = None
    results: tuple[Result, ...] = ()
    cost: CostFacts | None = None
    bottles: tuple[BottleFacts, ...] = ()
    label: LabelFacts | None = None
    first: Literal["ml", "oz"] = "ml"
    ounce_ml: float = 29.5735295625  # the ounce in force
    focus: str = ""  # the one figure asked for
    assumed: tuple[Note, ...] = ()
    remarks: tuple[Note, ...] = ()
    cautions: tuple[Note, ...] = ()
    actions: tuple[str, ...] = ()  # next messages that would work
    items: tuple[tuple[str, str], ...] = ()  # for lists: (name, text)
    garnish: tuple[str, ...] = ()
    problem: Problem | None = None
