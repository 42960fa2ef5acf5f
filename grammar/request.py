"""What was asked: one frozen dataclass per kind of request, and one for what could not be read.

What they are made of (measures, parts, water, yield) is in spec_parts.py, and can be imported from here.
"""

from dataclasses import dataclass, field
from typing import Literal

from grammar.spec_parts import Measure, Money, Part, Recipe, Unit, Water, Yield

__all__ = [
    "Batch", "Bottles", "BottlesAsk", "Convert", "Cost", "Cut", "Dilution", "FollowUp", "Freezer", "FreezerAsk", "Help", "House",
    "Label", "LabelAsk", "Lot", "Measure", "Money", "Part", "Recipe", "Request", "Setting", "Shelf", "Strength", "Syrup",
    "SyrupBy", "Trouble", "Unit", "Water", "Yield",
]  # fmt: skip

FreezerAsk = Literal["verdict", "point", "least_abv", "most_water", "headspace", "ice"]
BottlesAsk = Literal["buy", "enough", "serves", "hold", "left"]
LabelAsk = Literal["label", "drinks", "allergens"]
SyrupBy = Literal["", "weight", "volume"]


@dataclass(frozen=True, slots=True)
class Batch:
    """Measure out a batch."""

    recipe: Recipe
    makes: Yield = Yield()
    focus: str = ""  # what was asked of it: "", "water", "serve", "serves", or an ingredient's name
    unit: Unit = ""  # unit asked for
    at_c: float | None = None  # the freezer's temperature, when said
    kind: Literal["batch"] = "batch"


@dataclass(frozen=True, slots=True)
class Strength:
    """The ABV or proof of a mix."""

    recipe: Recipe
    makes: Yield = Yield()
    at_c: float | None = None  # the freezer's temperature, when said
    kind: Literal["strength"] = "strength"


@dataclass(frozen=True, slots=True)
class Convert:
    """Amounts, or a whole spec, in another unit. to "" means: show mL and oz."""

    items: tuple[Measure, ...] = ()
    to: Unit = ""
    recipe: Recipe | None = None
    pour: Measure | None = None  # "2 L in 1.5 oz pours": how many
    also: Unit = ""  # "in ml and oz": the second unit
    other_pours: tuple[Measure, ...] = ()  # "25 or 35 ml shots in a 70 cl": those after the first
    together: bool = False  # "3 cups 2 tbsp to ml": the items are one amount
    kind: Literal["convert"] = "convert"


@dataclass(frozen=True, slots=True)
class Lot:
    """A volume of one strength. measure None: not said."""

    abv: float | None
    measure: Measure | None = None
    name: str = ""


@dataclass(frozen=True, slots=True)
class Cut:
    """Bring lots to a strength, or find the strength after water. target None: with `water` given, find it."""

    lots: tuple[Lot, ...]
    target: float | None = None
    finished: Measure | None = None  # the volume wanted at the end
    water: Measure | None = None
    by_weight: bool = False
    blend: bool = False  # the two lots are to be blended to the target, no water
    held_in: Measure | None = None  # what it is to go into
    kind: Literal["cut"] = "cut"


@dataclass(frozen=True, slots=True)
class Freezer:
    """Will it freeze. Of a strength, a recipe, or (asking "least_abv") of nothing but a temperature."""

    at_c: float | None = None
    abv: float | None = None
    recipe: Recipe | None = None
    makes: Yield = Yield()
    ask: FreezerAsk = "verdict"
    volume: Measure | None = None
    sugar_g_per_l: float | None = None  # said beside a strength
    kind: Literal["freezer"] = "freezer"


@dataclass(frozen=True, slots=True)
class Dilution:
    """Water for an amount, or the share an amount is, or what stirring adds."""

    volume: Measure | None = None
    share: float | None = None
    of_finished: bool = False
    water: Measure | None = None
    serves: float | None = None
    finished: Measure | None = None
    technique: str = ""  # stirred, shaken: ask what it adds
    abv: float | None = None
    recipe: Recipe | None = None
    makes: Yield = Yield()
    kind: Literal["dilution"] = "dilution"


@dataclass(frozen=True, slots=True)
class Syrup:
    """Sugar (or honey, agave, salt) and water."""

    sweet: str = "sugar"  # sugar, honey, agave, salt
    ratio: tuple[float, float] | None = None
    volume: Measure | None = None  # of finished syrup
    sugar: Measure | None = None  # at hand
    water: Measure | None = None  # at hand
    by: SyrupBy = ""
    percent: float | None = None  # saline, Brix
    ask: Literal["make", "sugar_content", "in_place"] = "make"
    had: tuple[float, float] | None = None  # the ratio at hand, to be brought to `ratio` or, "in_place", poured for it
    g_per_ml: float | None = None  # the density said beside its Brix
    unit: Unit = ""  # the measure asked for: "water in oz?"
    kind: Literal["syrup"] = "syrup"


@dataclass(frozen=True, slots=True)
class Cost:
    """Cost, price, pour cost and margin."""

    recipe: Recipe | None = None
    makes: Yield = Yield()
    cost: Money | None = None  # of one serve
    price: Money | None = None  # charged for one serve
    pour_cost: float | None = None  # fraction of the price
    margin: float | None = None  # fraction of the price
    markup: float | None = None  # times the cost
    tax: float | None = None  # rate
    tax_in: bool | None = None  # the price includes it
    bottle: Part | None = None
    ask: str = ""  # price, cost, pour_cost, margin
    waste: float = 0.0  # share of the cost that is poured away on top of it
    moved: tuple[Money, Money] | None = None  # the price of a bottle, or the cost of a drink, before and now
    kind: Literal["cost"] = "cost"


@dataclass(frozen=True, slots=True)
class Bottles:
    """Bottles to buy, whether the stock is enough, serves from a bottle, vessels for a volume."""

    recipe: Recipe | None = None
    makes: Yield = Yield()
    size_ml: float | None = None
    stock: float | None = None  # bottles at hand
    stock_ml: float | None = None
    pour: Measure | None = None
    used: float | None = None  # pours already taken
    ask: BottlesAsk = "buy"
    spare: float = 0.0  # bottles of each to buy beyond those needed
    stocks: tuple[Part, ...] = ()  # what is at hand of several: mL or a count of bottles, and the bottle's size
    kind: Literal["bottles"] = "bottles"


@dataclass(frozen=True, slots=True)
class Label:
    """Label strength, standard drinks, allergens."""

    volume: Measure | None = None
    count: float = 1.0
    abv: float | None = None
    recipe: Recipe | None = None
    makes: Yield = Yield()
    country: str = ""
    ask: LabelAsk = "label"
    pour: Measure | None = None  # one serve out of the volume
    kind: Literal["label"] = "label"


@dataclass(frozen=True, slots=True)
class House:
    """House specs: save, show, list, rename, bring_back, forget, export, import, forget_all."""

    do: str
    name: str = ""
    recipe: Recipe | None = None
    text: str = ""  # the spec as typed
    new_name: str = ""
    kind: Literal["house"] = "house"


@dataclass(frozen=True, slots=True)
class Shelf:
    """The chat's own bottles: put, list, forget."""

    do: str
    part: Part | None = None
    sugar_g_per_l: float | None = None
    kind: Literal["shelf"] = "shelf"


@dataclass(frozen=True, slots=True)
class Setting:
    """Show the settings, or set one. value as typed, already in the setting's unit."""

    name: str = ""
    value: str = ""
    kind: Literal["setting"] = "setting"


@dataclass(frozen=True, slots=True)
class Help:
    """Help, on a topic or in general."""

    topic: str = ""
    kind: Literal["help"] = "help"


@dataclass(frozen=True, slots=True)
class Move:
    """So much more or, negative, less of an ingredient. surely: the figure is the difference, and cannot be the new amount."""

    name: str
    typed: str
    by: Measure
    surely: bool = True


@dataclass(frozen=True, slots=True)
class FollowUp:
    """Change or ask something of the last request. Every field but those set stays as it was."""

    times: float | None = None  # double, half
    split: float | None = None  # "split between 3 bottles": into so many, of whatever size holds it
    spare: float = 0.0  # "10% for spillage": a share of all of it on top, in whole serves
    makes: Yield = Yield()
    water: Water = Water()
    water_way: int = 0  # 1 for "more water, 30", -1 for "less water, 15": what the share must be beside the last one
    ratio: tuple[float, ...] = ()
    parts: tuple[Part, ...] = ()  # amounts or strengths to change, or ingredients to add
    swap: tuple[str, str] | None = None  # (old name, new name)
    swap_share: float = 1.0  # of the old one's amount: "swap half the rye for cognac"
    drop: tuple[str, ...] = ()
    deltas: tuple[Part, ...] = ()  # amounts to add to (or, negative, take from) ingredients; in "times", a factor
    moves: tuple[Move, ...] = ()
    from_abv: float | None = None  # of a cut: the strength it begins with
    was: Measure | None = None  # "63.5 not 55": the figure that was, unit "%" when said so; the new one stands without a name
    unit: Unit = ""
    meant_unit: Unit = ""  # "oops meant oz": the amounts typed were in this unit
    at_c: float | None = None
    mild: bool = False  # "minus 3", with no degrees said: so many serves fewer, or no freezer's cold
    percents: tuple[float, ...] = ()
    amounts: tuple[Measure, ...] = ()
    money: tuple[Money, ...] = ()
    margin: bool | None = None  # the one percent is a margin, or a pour cost; None when not said
    markup: float | None = None
    tax: float | None = None
    tax_in: bool | None = None
    of_cost: bool = False  # the money is what it costs: "what if cost is 3.10"
    of_finished: bool = False  # "of the final instead", with no figure
    water_times: float | None = None  # "half the water"
    wanted: bool = False  # the volume is what there shall be at the end: "i need 3 L of it"
    at: bool = False  # the figure that stands alone is led by "at" or "a": "at 1.5?", "and a 100"
    house: str = ""  # the house spec to make in the place of the last one
    country: str = ""  # whose standard drinks
    counted: str = ""  # what makes.serves counts: a drink's name, or "serves"; "" when the number stood alone
    back: str = ""  # "undo that": what goes back to what it was: "all", "water", or an ingredient
    ask: str = ""  # freezer, serve, abv, cost, label, bottles, water, allergens, fit, count, or an ingredient
    kind: Literal["followup"] = "followup"


Request = (
    Batch | Strength | Convert | Cut | Freezer | Dilution | Syrup | Cost | Bottles | Label | House | Shelf | Setting
    | Help | FollowUp
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Trouble:
    """What could not be read: a code, where in the typed text, what was understood, and what was found."""

    code: str
    at: tuple[int, int] = (0, 0)
    understood: str = ""
    found: str = ""
    try_instead: str = ""
    facts: dict[str, str] = field(default_factory=dict)
    kind: Literal["question"] = "question"
