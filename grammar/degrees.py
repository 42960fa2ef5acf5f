"""Strengths typed in degrees, as many labels have them: "700 ml at 38° and 300 ml at 17°".

Lives here: when a figure with a bare degree sign is a strength and no temperature. Changes phrases in place.
"""

from itertools import pairwise

from grammar.phrase import Phrase

_COLD = ("freezer", "slush", "fridge", "point", "ice_share", "headspace", "sweeten", "convert")
_LEAST, _MOST = 5.0, 97.0  # % of alcohol; no drink kept outside them: common practice, no source


def degrees_of_strength(phrases: list[Phrase]) -> None:
    """Two or more volumes, each "at" or "of" so many degrees without a scale: those are their strengths.

    Nothing is changed where cold is spoken of, or any of the figures says C or F.
    """
    found = [p for p in phrases if p.kind == "temperature"]
    if len(found) < 2 or any(p.unit or not _LEAST <= p.value <= _MOST for p in found) or any(p.is_cue(*_COLD) for p in phrases):
        return
    said = [p for p in phrases if p.kind != "filler"]
    led = 0
    for before, p in pairwise(said):
        led += p.kind == "temperature" and (before.is_cue("at", "of") or before.kind in ("amount", "name"))
    if led != len(found) or sum(p.kind == "amount" for p in phrases) < len(found):
        return
    for p in found:
        p.kind, p.value = "percent", p.value / 100.0
