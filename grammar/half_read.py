"""What no frame may pass over or take for an ingredient: words that multiply a figure, words that join sentences.

Each is asked about where it was not understood, so that half a message is never answered as if it were the whole.
"""

import re

from grammar.request import Recipe, Yield
from grammar.scan import SERVE_LIMIT_ML, Scan, Unclear, rough_ml

#: beside a figure it makes it another figure; none of them is a bar's
_MULTIPLIES = re.compile(r"(?:\w*illi?ons?|umpteen|scores?|lakhs?|crores?|googols?)$")
_COUNTED = ("drink", "house", "unit", "name")
_FIGURES = ("bare", "count", "amount", "guests")
#: words that join, time or deny; typed beside an amount they are half a sentence and nothing to pour
JOINS = frozenset(
    ["once", "after", "afterwards", "before", "while", "whilst", "during", "unless", "although", "though", "whether", "every",
     "never", "always", "cant", "can't", "cannot", "dont", "don't", "wont", "won't", "isnt", "isn't", "says", "said", "since",
     "because", "which", "than", "whatever", "whenever", "why", "inside", "outside", "between", "against", "within", "again",
     "later", "sometimes", "nearly", "almost", "under", "below", "above", "beyond", "exceed", "exceeds", "makes", "must", "might",
     "may", "shall", "having", "being", "were", "did", "done", "told", "poured", "however", "otherwise", "through"]
)  # fmt: skip

def beside_a_ratio(unit: str, ratio: bool) -> bool:
    """ "4:1 gin dry, each 90 ml zorp": an unknown word with a volume of its own, where a ratio says all the rest, is no part."""
    return ratio and unit not in ("", "part", "dash", "drop", "barspoon", "tsp", "count")


def heads_unread(typed: str, value: float, first: bool, others: int) -> bool:
    """ "20 zorbas, 60 bourbon 5 syrup": a whole number before an unknown plural that heads a spec may count drinks."""
    plural = typed.endswith("s") and not typed.endswith("ss")
    return first and plural and others >= 2 and value > 1 and value == int(value)


_OFF = 0.05  # of the volume: pours and volumes are said rounded; common practice, no source


def multiplied(scan: Scan) -> None:
    """ "40 trillion negronis": a word that multiplies the figure before it is never passed over. Raises Unclear too_large."""
    for i, p in enumerate(scan.items):
        if p.kind != "unknown" or not _MULTIPLIES.match(p.text):
            continue
        before, after = scan.at(i - 1), scan.at(i + 1)
        if before is not None and before.kind in _FIGURES:
            raise Unclear("too_large", [before, p], f"{before.text} {p.text}")
        counts = after is not None and (after.kind in _COUNTED or after.is_cue("of", "serve_word", "guest_word"))
        if counts:
            raise Unclear("too_large", [p], p.text)


def no_liquid(typed: str) -> bool:
    """Whether what was typed as an ingredient begins with a word that only joins: "once", "every"."""
    return typed.split(" ", 1)[0] in JOINS


_LEAST_ML = 3.0  # less is counted in dashes: common practice, no source
_FAR = 8.0  # times: one ingredient of a serve is not typed twice with amounts so far apart; common practice, no source


def one_name_twice(recipe: Recipe, makes: Yield) -> None:
    """ "1.75 L tequila, 200 people, 1.25 oz tequila each": a bottle is no part of a serve. Raises Unclear two_readings."""
    if makes.serves is None and makes.guests is None:
        return
    tiny = ("part", "dash", "drop", "barspoon", "count")
    seen: dict[str, float] = {}
    for p in recipe.parts:
        ml = rough_ml(p.measure.value, p.measure.unit) if p.measure is not None and p.measure.unit not in tiny else None
        if not ml:
            continue
        other = seen.setdefault(p.name, ml)
        small, large = sorted((ml, other))
        if large >= _FAR * small and large >= SERVE_LIMIT_ML:
            raise Unclear("two_readings", [], f"{large:.0f} ml {p.name} in all, or bottles of {large:.0f} ml")
        if large >= _FAR * small and small < _LEAST_ML:
            raise Unclear("unclear_number", [], f"{small:g} {p.typed}")  # "tequila comes in 1.75, 37 ml tequila each"


def serves_and_volume(recipe: Recipe, makes: Yield) -> None:
    """ "10 serves of 75 ml, 2 L in all": serves of a size that do not come to the volume. Raises Unclear conflict_total."""
    serves = makes.serves if makes.guests is None else makes.guests * (makes.each or 1.0)
    if serves is None or makes.serve is None or makes.volume is None:
        return
    water = recipe.water
    each, volume = rough_ml(makes.serve.value, makes.serve.unit), rough_ml(makes.volume.value, makes.volume.unit)
    if not each or not volume or water.how in ("rest", "to_strength", "amount", "part"):
        return
    poured = each * serves
    could = [poured]
    if water.how == "of_undiluted":
        could.append(poured * (1 + water.value))
    elif water.how == "of_finished":
        could.append(poured / (1 - water.value))
    if all(abs(total - volume) > _OFF * volume for total in could):
        found = f"{serves:g} x {each:.0f} ml is {poured:.0f} ml, not {volume:.0f} ml"
        raise Unclear("conflict_total", [], found)
