"""Scaling: from the amounts of one spec to a batch, and water in or out of it.

Lives here: factors and sums of plain mL. Must never: know names, units, strengths or what a serve usually is.
Volumes are mL as measured, added up without contraction, because that is how a bar fills a jug; the true volume
after mixing is Liquid's.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import isfinite

__all__ = ["Fill", "fill", "undiluted_of", "water_for", "water_share", "whole_parts"]


def water_for(undiluted_ml: float, share: float, of_finished: bool = False) -> float:
    """Water in mL for an undiluted volume: a share (fraction) of it, or of the finished volume.

    ValueError for a negative volume or share, or a share of the finished volume that leaves no drink (1 and above).
    """
    if not (undiluted_ml >= 0.0 and share >= 0.0 and isfinite(undiluted_ml) and isfinite(share)):
        raise ValueError("water needs a volume and a share not below zero")
    if not of_finished:
        return undiluted_ml * share
    if share >= 1.0:
        raise ValueError(f"{share * 100:g} % of the finished volume leaves no drink")
    return undiluted_ml * share / (1.0 - share)


def undiluted_of(finished_ml: float, share: float, of_finished: bool = False) -> float:
    """What of a finished volume (mL, as measured) is not water; the inverse of water_for. ValueError as there."""
    if not (finished_ml >= 0.0 and share >= 0.0 and isfinite(finished_ml) and isfinite(share)):
        raise ValueError("water needs a volume and a share not below zero")
    if not of_finished:
        return finished_ml / (1.0 + share)
    if share >= 1.0:
        raise ValueError(f"{share * 100:g} % of the finished volume leaves no drink")
    return finished_ml * (1.0 - share)


def water_share(water_ml: float, undiluted_ml: float, of_finished: bool = False) -> float:
    """Water as a fraction of the undiluted volume, or of the finished one. ValueError when that is not above 0."""
    whole_ml = undiluted_ml + water_ml if of_finished else undiluted_ml
    if not (whole_ml > 0.0 and water_ml >= 0.0):
        raise ValueError("a share needs a volume above zero and water not below")
    return water_ml / whole_ml


@dataclass(frozen=True, slots=True)
class Fill:
    """How many times the spec fills a volume, and what that comes to in mL."""

    factor: float
    undiluted_ml: float
    water_ml: float


def fill(
    volume_ml: float,
    spec_ml: float,
    *,
    fixed_ml: float = 0.0,
    share: float = 0.0,
    of_finished: bool = False,
    water_ml: float = 0.0,
    fixed_water_ml: float = 0.0,
) -> Fill:
    """Scale a spec so that everything measured, water included, adds up to a volume (all mL).

    spec_ml and water_ml (water named as an amount in the spec) are scaled; fixed_ml and fixed_water_ml go in once.
    Water is either an amount or a share, as in water_for. ValueError when nothing can be scaled, or when what goes
    in once is already more than the volume.
    """
    if not (volume_ml > 0.0 and spec_ml > 0.0 and min(fixed_ml, water_ml, fixed_water_ml) >= 0.0):
        raise ValueError("filling a volume needs a volume and a spec above zero")
    room_ml = undiluted_of(volume_ml - fixed_water_ml, share, of_finished) if volume_ml > fixed_water_ml else 0.0
    factor = (room_ml - fixed_ml) / (spec_ml + water_ml)
    if factor <= 0.0:
        raise ValueError("what goes in once is already more than the volume")
    undiluted_ml = factor * spec_ml + fixed_ml
    water_left_ml = volume_ml - undiluted_ml
    return Fill(factor, undiluted_ml, water_left_ml if water_left_ml > 1e-9 * volume_ml else 0.0)


def whole_parts(amounts: Sequence[float], most: int = 20, tolerance: float = 0.02) -> tuple[int, ...] | None:
    """The smallest whole numbers in the proportions of the amounts, within a relative tolerance each; None if none fit.

    The smallest amount is at most `most` parts. ValueError when an amount is not above zero.
    """
    if not amounts or not min(amounts) > 0.0:
        raise ValueError("parts need amounts above zero")
    least = min(amounts)
    for parts in range(1, most + 1):
        exact = [amount * parts / least for amount in amounts]
        if all(abs(x - round(x)) <= tolerance * x for x in exact):
            return tuple(round(x) for x in exact)
    return None
