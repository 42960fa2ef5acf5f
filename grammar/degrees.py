"""Strengths typed in degrees, as many labels have them: "700 ml at 38° and 300 ml at 17°".

Lives here: when a figure with a bare degree sign is a strength and no temperature. Changes phrases in place.
"""

from itertools import pairwise

from grammar.phrase import Phrase

_COLD = ("freezer", "slush", "fridge", "point", "ice_share", "headspace", "sweeten", "convert")
_WARM = frozenset(["cool", "cooled", "chill", "chilled", "chilling", "cold", "heat", "heated", "warm", "temp", "temperature"])
_LEAST_WANTED = 15.0  # % of alcohol below which "to 5°" is a temperature: common practice, no source
_LEAST, _MOST = 5.0, 97.0  # % of alcohol; no drink kept outside them: common practice, no source


def degrees_of_strength(phrases: list[Phrase]) -> None:
    """Volumes "at" or "of" so many degrees without a scale, two figures or more: strengths, one of them perhaps wanted.

    Nothing is changed where cold is spoken of, or any of the figures says C or F.
    """
    found = [p for p in phrases if p.kind == "temperature"]
    if len(found) < 2 or any(p.unit or not _LEAST <= p.value <= _MOST for p in found):
        return
    if any(p.is_cue(*_COLD) or p.text in _WARM for p in phrases):
        return
    said = [p for p in phrases if p.kind != "filler"]
    led = wanted = 0
    for before, p in pairwise(said):
        led += p.kind == "temperature" and (before.is_cue("at", "of", "to", "cut") or before.kind in ("amount", "name"))
        wanted += p.kind == "temperature" and before.is_cue("to", "cut")  # "1 L at 60° cut to 40°"
    if led != len(found) or wanted > 1 or sum(p.kind == "amount" for p in phrases) < len(found) - wanted:
        return
    if wanted and min(p.value for p in found) < _LEAST_WANTED:
        return
    for p in found:
        p.kind, p.value = "percent", p.value / 100.0
