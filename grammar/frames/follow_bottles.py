"""Bottles in a follow-up: so many of the bottle that was filled before, and bottles of one ingredient.

Lives here: "5 of those bottles", "how many 70cls of rye is that", "ive got 3 700s of rye, how many can i make".
"""

import re
from dataclasses import replace

from grammar.bottles_of_one import bottles_of_one, split_at
from grammar.request import FollowUp, Measure, Part
from grammar.scan import BOTTLE_SIZES_ML, LEAST_BOTTLE_ML, Scan, Unclear, rough_ml

_TALK = ("make_it", "and", "but", "want", "for", "of", "same", "now", "bigger", "oops", "to", "scale")
_ASKED = re.compile(r"\?")
_BUYING = ("how_many", "enough", "bottles", "stock", "fit", "each")
_SUCH = frozenset(["such", "like", "identical", "those", "these"])


def take_split(scan: Scan, out: FollowUp) -> FollowUp:
    """ "split it between 3 bottles, what's in each": so many bottles, of whatever size holds it. Marks it."""
    i = split_at(scan)
    if i is None:
        return out
    scan.use(i, *[k for k in (i - 1, i - 2) if scan.kind_at(k) in ("unknown", "cue:to")])
    for cue in ("show", "each", "how_much", "what"):
        scan.use_cues(cue)
        scan.cue_names.discard(cue)
    return replace(out, split=scan.items[i].amounts[0])


def take_bottles(scan: Scan, out: FollowUp) -> FollowUp:
    """So many bottles of no size said, with nothing but talk around them. Marks them.

    Bottles to buy ("how many bottles", "buy 5 bottles") and bottles of an ingredient are not read here.
    """
    for i in scan.kinds("fold"):
        q = scan.at(i + 1)
        ml = (rough_ml(q.value, q.unit) or 0.0) if q is not None and q.kind in ("amount", "bare") else 0.0
        end = i + 3 if scan.kind_at(i + 2) in ("cue:with", "cue:of") else i + 2  # "fill 3 x 750 with that"
        closed = scan.kind_at(end) in ("", "sep", "cue:but")  # "2 x 750 instead"
        if q is not None and ml >= LEAST_BOTTLE_ML and closed and (q.unit or q.value in BOTTLE_SIZES_ML):
            scan.use(*range(i, end))  # "2 x 750"
            many = scan.items[i].value
            return replace(out, makes=replace(out.makes, vessels=many, vessel_ml=ml, volume=Measure(ml * many, "ml")))
        if q is not None and q.kind == "bare" and closed:
            raise Unclear("unclear_number", [scan.items[i], q], f"{scan.items[i].text} {q.text}")  # "8x60"
    for i in scan.kinds("vessel"):
        v = scan.items[i]
        if v.size is not None or scan.kinds("name", "context") or scan.has(*_BUYING):
            continue
        at = i
        while scan.at(at - 1) is not None and (scan.kind_at(at - 1) == "cue:of" or scan.items[at - 1].text in _SUCH):
            at -= 1
        many = v.amounts[0] if v.amounts else 0.0
        taken = [i]
        if not many and at > 0 and scan.kind_at(at - 1) in ("bare", "times", "fold") and not scan.used[at - 1]:
            many, taken = scan.items[at - 1].value, [*range(at - 1, i + 1)]
        others = [k for k, p in enumerate(scan.items) if k not in taken and not scan.used[k] and p.kind != "sep"]
        step = next((p.text for p in scan.items if p.text in ("more", "less", "fewer", "extra")), "")
        counted = many or next((p.value for p in scan.items if p.kind == "bare"), 0.0)
        if step and counted:
            raise Unclear("two_readings", [v], f"{counted:g} bottles in all or {counted:g} {step}")
        talk = all(scan.items[k].is_cue(*_TALK) or scan.items[k].text in _SUCH for k in others)
        if many >= 1 and many == int(many) and talk and (taken != [i] or others or not _ASKED.search(scan.text)):
            scan.use(*taken, *others)
            return replace(out, makes=replace(out.makes, vessels=many))
        if many >= 1 and many == int(many) and scan.has("water", "dilution", "none"):
            scan.use(*taken)  # "3 bottles and no water"
            return replace(out, makes=replace(out.makes, vessels=many))
    return out


def take_bottles_of_one(scan: Scan, out: FollowUp) -> FollowUp:
    """Bottles of one ingredient: those it comes in, of which so many are to be bought, or those at hand. Marks them."""
    found = bottles_of_one(scan)
    if found is None:
        return out
    name = scan.items[found.name]
    scan.use(found.name, *found.figures)
    if not found.ml:
        raise Unclear("no_volume", [scan.items[i] for i in found.figures], "the size of the bottle")
    if found.at_hand and scan.has("enough"):
        scan.use_cues("stock", "how_many", "how_much", "enough")
        held = Measure(found.ml, "ml")
        size = Measure(found.ml / found.many, "ml")
        return replace(out, parts=(Part(name.name, held, name.text, size=size),), ask="enough")
    if found.at_hand:
        scan.use_cues("stock", "how_many", "how_much", "from")
        return replace(out, parts=(Part(name.name, Measure(found.ml, "ml"), name.text),), ask="limit")
    return replace(out, parts=(Part(name.name, None, name.text),), makes=replace(out.makes, vessel_ml=found.ml), ask="bottles")
