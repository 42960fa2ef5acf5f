"""Vessels: what a batch fits, how many serves a bottle gives, how many bottles to buy.

Lives here: the standard sizes and whole-bottle arithmetic. Must never: know prices, names or freezing; round
anything but whole bottles and whole serves. Volumes are mL at 20 C. The sizes: 500, 700 mL, 1 and 1.75 L are
fills of Directive 2007/45/EC Annex, 750 mL and 1.75 L of 27 CFR 5.203 (both from memory); kegs of 5, 9 and
19.5 L are common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor

__all__ = ["BOTTLES_ML", "KEGS_ML", "Fit", "Purchase", "Serves", "fit", "keg", "serves_in", "to_buy"]

BOTTLES_ML = (500.0, 700.0, 750.0, 1000.0, 1750.0)
KEGS_ML = (5000.0, 9000.0, 19500.0)

#: a bottle more in a plan weighs as much as this much empty space (our own choice, no source)
_BOTTLE_WORTH_ML = 100.0
#: whole bottles and serves ignore float noise of this share
_NOISE = 1e-9


@dataclass(frozen=True, slots=True)
class Fit:
    """count vessels of size_ml, fill_ml of the batch and spare_ml of room (headspace in it) in each."""

    size_ml: float
    count: int
    fill_ml: float
    spare_ml: float


@dataclass(frozen=True, slots=True)
class Serves:
    """Whole serves from a vessel and what is left in it, mL."""

    count: int
    left_ml: float


@dataclass(frozen=True, slots=True)
class Purchase:
    """Whole bottles to buy, what is left over when all is poured, what the stock alone is short of, mL."""

    count: int
    left_ml: float
    short_ml: float


def _whole_up(x: float) -> int:
    return ceil(x * (1.0 - _NOISE))


def _plan(volume_ml: float, needed_ml: float, size_ml: float) -> Fit:
    count = max(1, _whole_up(needed_ml / size_ml))
    fill_ml = volume_ml / count
    return Fit(size_ml, count, fill_ml, size_ml - fill_ml)


def fit(volume_ml: float, headspace_ml: float = 0.0, sizes_ml: Sequence[float] = BOTTLES_ML) -> Fit:
    """The smallest single bottle that holds a volume and its headspace, or equal bottles that do.

    headspace_ml is the room the whole volume must keep free (what it swells by when it freezes). Of several
    equal bottles the plan with the least empty space wins, a bottle more counting as 100 mL of it.
    ValueError for a volume or size not above zero or a negative headspace.
    """
    if not (volume_ml > 0.0 and headspace_ml >= 0.0 and sizes_ml and min(sizes_ml) > 0.0):
        raise ValueError("a volume to bottle must be above zero and its headspace not below")
    needed_ml = volume_ml + headspace_ml
    single = [size for size in sorted(sizes_ml) if needed_ml * (1.0 - _NOISE) <= size]
    if single:
        return _plan(volume_ml, needed_ml, single[0])
    plans = [_plan(volume_ml, needed_ml, size) for size in sizes_ml]
    return min(plans, key=lambda p: p.count * (p.size_ml + _BOTTLE_WORTH_ML))


def keg(volume_ml: float, headspace_ml: float = 0.0) -> Fit | None:
    """The smallest keg that holds a volume and its headspace; None when none does. ValueError as in fit()."""
    if volume_ml + headspace_ml > KEGS_ML[-1]:
        return None
    return fit(volume_ml, headspace_ml, KEGS_ML)


def serves_in(size_ml: float, serve_ml: float) -> Serves:
    """Whole serves of serve_ml in size_ml. ValueError when the serve is not above zero or the size below."""
    if not (serve_ml > 0.0 and size_ml >= 0.0):
        raise ValueError("a serve must be above zero")
    count = floor(size_ml / serve_ml * (1.0 + _NOISE))
    return Serves(count, max(0.0, size_ml - count * serve_ml))


def to_buy(needed_ml: float, size_ml: float, stock_ml: float = 0.0) -> Purchase:
    """Whole bottles of size_ml to buy for needed_ml beyond the stock; 0 when the stock is enough.

    ValueError when the bottle is not above zero or another volume is below.
    """
    if not (size_ml > 0.0 and needed_ml >= 0.0 and stock_ml >= 0.0):
        raise ValueError("a bottle must be above zero, what is needed and the stock not below")
    short_ml = max(0.0, needed_ml - stock_ml)
    if short_ml <= needed_ml * _NOISE:
        short_ml = 0.0
    count = _whole_up(short_ml / size_ml)
    return Purchase(count, max(0.0, stock_ml + count * size_ml - needed_ml), short_ml)
