"""What a chat has told us: its settings, its shelf, its house specs, and its last answer for follow-ups.

Plain frozen values, so that answering is a pure function: (request, told) -> (answer, new told).
Never here: where this is kept (bot/memory) and what it means for a drink (bot/answer).
"""

from dataclasses import dataclass, field
from datetime import datetime
from typing import Literal

Ounce = Literal["us", "imperial", "30ml"]
First = Literal["ml", "oz"]

US_FL_OZ_ML = 29.5735295625  # 231 in3 / 128 with the inch of 25.4 mm: exact by definition (NIST Handbook 44, app. C)
LONGEST_NAME = 200  # characters of a chat, bottle or house spec name: longer ones are refused by the memory


@dataclass(frozen=True, slots=True)
class Settings:
    """How a chat wants its answers. The defaults are what holds until it says otherwise."""

    ounce: Ounce = "us"
    first: First = "ml"  # which unit system comes first in a reply
    freezer_c: float = -18.0
    serve_ml: float = 90.0  # undiluted, when only a ratio was given: common practice, no source
    dash_ml: float = US_FL_OZ_ML / 32  # common practice, no source
    currency: str = ""  # as typed: a sign or a code; empty means none is shown
    country: str = ""  # whose rules a label follows; empty means all are shown


@dataclass(frozen=True, slots=True)
class ShelfBottle:
    """A bottle as the chat described it; None where it said nothing. abv is a fraction of volume at 20 °C."""

    name: str
    abv: float | None = None
    sugar_g_per_l: float | None = None
    size_ml: float | None = None
    price: float | None = None  # of the whole bottle, in the chat's currency


@dataclass(frozen=True, slots=True)
class HouseSpec:
    """A recipe the chat saved: its words as typed, the recipe itself, and the one it replaced.

    body and previous are the recipe in a form only bot/answer reads and writes (JSON text).
    """

    name: str
    text: str
    body: str
    previous: str | None = None
    previous_text: str | None = None


@dataclass(frozen=True, slots=True)
class Last:
    """The last answer that a follow-up can build on: when (aware, UTC) and what (JSON text of bot/answer)."""

    at: datetime
    body: str


@dataclass(frozen=True, slots=True)
class Told:
    """Everything one chat has told us. Names are unique on the shelf and among the specs; their order is kept."""

    settings: Settings = field(default_factory=Settings)
    shelf: tuple[ShelfBottle, ...] = ()
    specs: tuple[HouseSpec, ...] = ()
    last: Last | None = None


FRESH = Told()
