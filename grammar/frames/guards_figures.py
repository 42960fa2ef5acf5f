"""Figures of one message that cannot all hold, or that could each mean two things: asked about, never added up.

Lives here: shares beyond a whole, a bottle to fill that the serves do not fill, water that outweighs the drink, cups to
drink from. Never here: reading anything.
"""

import re

from grammar.request import Recipe, Yield
from grammar.scan import SERVE_LIMIT_ML, Scan, Unclear, rough_ml

_HOWEVER_MANY = re.compile(
    r"\b(?:for )?(?:how ?ever many|as many as (?:turn|show|come)|(?:not sure|don'?t know|no idea|unsure) how many)\b"
)
_OF_ALL = 1.02  # shares are said rounded: common practice, no source
_UNFILLED = 0.6  # of what the bottles hold: less is no filling of them; common practice, no source
_MOST_WATER = 1.5  # times the drink itself, a serve: common practice, no source
_WATERED_ML = 100.0  # water of a serve, from which it may be all of the batch's: common practice, no source
_MANY_CUPS = 8.0  # no batch is measured out in so many cups: common practice, no source


def figures_agree(scan: Scan, recipe: Recipe, makes: Yield) -> None:
    """All of them. Raises Unclear conflict_total, two_readings, no_serves."""
    measured = [p.measure for p in recipe.parts if p.measure is not None]
    _nights(scan, makes)
    shares = [m.value for m in measured if m.unit == "part"]
    if len(shares) > 1 and max(shares) < 1 and sum(shares) > _OF_ALL and len(shares) == len(measured):
        raise Unclear("conflict_total", [], f"the shares come to {100.0 * sum(shares):.0f}%")  # "two thirds gin, two thirds rum"
    counted = makes.serves is not None or makes.guests is not None
    sized = counted or makes.volume is not None or makes.serve is not None
    if len(shares) == len(measured) == 1 and not sized and not recipe.drink and recipe.water.how == "unsaid":
        raise Unclear("no_serves", [])  # "6 gin": so much of what?
    if not counted and makes.volume is None:
        said = _HOWEVER_MANY.search(scan.text)
        if said is not None and recipe.base_serves is None:
            raise Unclear("no_serves", [p for p in scan.items if said.start() <= p.start < said.end()])
    serve_ml = sum(rough_ml(m.value, m.unit) or 0.0 for m in measured if m.unit != "part")
    if shares or not 0.0 < serve_ml < SERVE_LIMIT_ML:
        return
    _cups(scan, makes)
    _two_kinds(scan, makes)
    _not_filled(scan, makes, serve_ml)
    water = recipe.water
    water_ml = (rough_ml(water.value, water.unit) or 0.0) if water.how == "amount" and not water.whole else 0.0
    each = scan.has("each") or recipe.base_serves is not None
    if (makes.serves or 0.0) > 1 and not each and water_ml >= _WATERED_ML and water_ml > _MOST_WATER * serve_ml:
        raise Unclear("two_readings", [], f"{water_ml:.0f} ml water in each, or in all of it")


_A_NIGHT = re.compile(r"\b(?:a|per|each|every) (?:night|day|shift|service)\b")
_DAY = r"(?:mon|tue|wed|thu|fri|sat|sun)[a-z]*"
_A_WEEK = re.compile(
    r"\b(?:a|the|per|whole|next|this|all) (?:week|weekend|month)\b|\b\d+ (?:nights|days|shifts)\b"
    rf"|\b{_DAY}\W+(?:(?:to|through|thru|till|until|and|n|plus) )?{_DAY}\b"  # "fri to sun", "fri sat and sun"
)


def _nights(scan: Scan, makes: Yield) -> None:
    """ "12 a night, batch me a week": how many nights that is was not said."""
    if makes.serves is not None and _A_NIGHT.search(scan.text) and _A_WEEK.search(scan.text):
        raise Unclear("two_readings", [], f"{makes.serves:g} serves, or that many a night for more nights")


def _two_kinds(scan: Scan, makes: Yield) -> None:
    """ "30 manhattans, 20 with rye 10 with bourbon: ...": two batches, whose counts are no amounts."""
    kinds = [
        p for i, p in enumerate(scan.items[:-2])
        if p.kind in ("bare", "count") and scan.items[i + 1].is_cue("with") and scan.items[i + 2].kind in ("name", "context")
    ]  # fmt: skip
    if len(kinds) > 1 and makes.serves is not None and sum(p.value for p in kinds) == makes.serves:
        said = " and ".join(f"{p.value:g}" for p in kinds)
        raise Unclear("two_readings", kinds, f"{makes.serves:g} of one kind, or batches of {said}")


def _cups(scan: Scan, makes: Yield) -> None:
    """ "40 gin 20 lime, 60 cups": to drink from, or a volume."""
    volume = makes.volume
    if volume is None or volume.unit != "cup" or volume.value < _MANY_CUPS or makes.serves is not None:
        return
    said = [p for p in scan.items if p.kind == "amount" and p.unit == "cup" and p.value == volume.value]
    if said and not scan.has("scale", "final", "fit"):
        raise Unclear("two_readings", said, f"{volume.value:g} serves or {volume.value:g} cups by volume")


def _not_filled(scan: Scan, makes: Yield, serve_ml: float) -> None:
    """ "20 serves of 80 ml, fill ten 700s": so many bottles are not filled by so few serves."""
    many = makes.vessels or 1.0
    if makes.serves is None or makes.vessel_ml is None or many < 2 or not scan.has("scale"):
        return
    poured, held = serve_ml * makes.serves, makes.vessel_ml * many
    filled = any(p.is_cue("scale") and p.text.startswith("fill") for p in scan.items)
    if filled and poured < _UNFILLED * held:
        raise Unclear("conflict_total", [], f"{makes.serves:g} x {serve_ml:.0f} ml is {poured:.0f} ml, not {held:.0f} ml")
