"""Frame for cutting: bring volumes to a strength, find the strength after water, blend two strengths to a third.

The message falls into groups of a volume, a strength and a name, each led by a word ("to", "from", "want", "have").
What leads a group says whether it is the target, the wanted volume or a lot at hand.
"""

import re
from dataclasses import dataclass
from itertools import pairwise

from grammar.frames.cut_figures import SO_IT_IS, held_in, in_proof, kept_volume, second_look, to_where
from grammar.frames.cut_with import take_cut_with
from grammar.frames.refilled import is_refilled, read_refilled
from grammar.frames.spec import numbers_read
from grammar.phrase import Phrase
from grammar.request import Cut, Lot, Measure
from grammar.scan import MOST_BOTTLES, Scan, Unclear, rough_ml
from grammar.vessels import join_vessels

_LEADS = {
    "to": "to", "from": "from", "with": "", "want": "want", "make_it": "want", "scale": "want", "final": "want", "stock": "have",
    "cut": "cut", "raise": "cut", "for": "for", "how_much": "", "and": "", "fit": "want", "rest": "to", "set_to": "want",
    "serves_base": "want",
}  # fmt: skip
_FILLED = ("filled", "full")


@dataclass(slots=True)
class Group:
    """A volume, a strength and a name that stand together, and the word that leads them."""

    lead: str = ""
    measure: Measure | None = None
    strength: float | None = None
    name: str = ""


_IS_THEN = re.compile(r"\bso\b.*\b(?:is|becomes|turns into|comes to) $")


def read_cut(scan: Scan) -> Cut:
    """A cut. Raises Unclear no_strength (a strength is missing), out_of_range, unclear_number."""
    for p in scan.left("negative"):
        raise Unclear("out_of_range", [p], p.text)
    if to_where(scan):
        raise Unclear("no_strength", [scan.items[i] for i in scan.kinds("percent", "proof")], "the strength you want")
    if is_refilled(scan):
        return read_refilled(scan)
    other = take_cut_with(scan)
    if other is not None:
        return other
    join_vessels(scan)
    held = held_in(scan)
    second_look(scan)
    by_weight = scan.has("by_weight") or any(p.kind == "unit" and p.unit in ("g", "kg") for p in scan.items)
    scan.use(*scan.kinds("unit"))
    scan.use(*scan.kinds("drink"))
    water = _water_amount(scan)
    groups = _groups(scan)
    target, finished, lots = _roles(groups, water)
    target = in_proof(scan, target, lots)
    kept_volume(scan, lots, target, finished)
    strong = next((q for p, q in pairwise(scan.items) if p.is_cue("how_much") and q.kind in ("percent", "proof")), None)
    if strong is not None and strong.value == target and len(lots) == 1 and 0 < (lots[0].abv or 0) < target:
        finished, target, lots = lots[0].measure, lots[0].abv, [Lot(target)]  # "how much 40% do I cut to have 750 at 20%"
    percents = [p for p in scan.items if p.kind in ("percent", "proof", "bare")]
    start = lots[0].measure if lots and target is None and water is None and scan.has("water", "cut") else None
    if start is not None and finished is not None:
        water, finished = _topped_up(start, finished), None
    unsaid = [lot for lot in lots if lot.abv is None and lot.measure is None]
    unsaid = unsaid if len(lots) == 1 and not scan.kinds("percent", "proof", fresh=False) else []
    if not lots or unsaid or any(lot.abv is None and not lot.name for lot in lots):  # "cut my overproof down to 40"
        raise Unclear("no_strength", [p for p in scan.items if p.kind in ("amount", "vessel")], "the strength it has now")
    if target is None and water is None:
        raise Unclear("no_strength", percents, "the strength you want")
    for value in [lot.abv for lot in lots] + [target]:
        if value is not None and not 0 <= value <= 1:
            raise Unclear("out_of_range", percents, f"{value * 100:g} %")
    for measure in [lot.measure for lot in lots] + [finished, water]:
        if measure is not None and measure.value <= 0:
            raise Unclear("out_of_range", [], f"{measure.value:g} {measure.unit}")
    scan.use(*scan.kinds("unknown", "drink", "context"))
    numbers_read(scan)
    if target is not None and water is not None and re.search(r"\balready\b|\bmore\b", scan.text):
        lots, water = [*lots, Lot(0.0, water)], None  # some water is in: how much more
    blend = target is not None and _is_blend(lots, target)
    return Cut(tuple(lots), target, finished, water, by_weight, blend, held)


def _water_amount(scan: Scan) -> Measure | None:
    """ "add 200 ml water": water of a known amount. Marks it."""
    for w in scan.cues("water"):
        for i in (w - 1, w - 2, w + 1):
            p = scan.at(i)
            if p is None or scan.used[i] or p.kind not in ("amount", "bare"):
                continue
            if i == w - 2 and not scan.items[w - 1].is_cue("of", "bigger", "with"):
                continue
            if i < w and scan.kind_at(i - 1) == "cue:rest":
                continue  # "topped up to 1 L with water": what it comes to
            if p.kind == "bare" and (i != w - 1 or p.value < 20 or scan.kind_at(i - 1) in ("cue:to", "cue:at")):
                continue
            if i == w + 1 and (
                scan.kind_at(w - 1) in ("cue:how_much", "cue:bigger")
                or scan.kind_at(i + 1) in ("name", "percent", "proof", "cue:of", "cue:at", "cue:from")
            ):
                continue
            scan.use(i, w)
            return Measure(p.value, p.unit or "ml")
    return None


def _is_strength(scan: Scan, i: int, lead: str) -> float | None:
    """The strength at i: a percent, a proof, or a bare number where only a strength can stand."""
    p = scan.items[i]
    if p.kind in ("percent", "proof"):
        return p.value
    if p.kind == "bare" and 0 < p.value <= 100:
        before = scan.at(i - 1)
        linked = before is not None and before.is_cue("at", "to", "from", "cut", "want", "final", "stock", "make_it")
        of_amount = scan.kind_at(i - 1) == "cue:of" or (before is not None and before.is_cue("of"))
        held = scan.at(i - 2) if of_amount else None
        linked = linked or (held is not None and (held.kind in ("amount", "vessel") or held.value >= 100))
        arrow = scan.kind_at(i + 1) in ("cue:to", "cue:make_it")
        aside = before is not None and before.is_cue("to") and scan.kind_at(i + 2) in ("", "sep", "cue:final")
        if aside and scan.kind_at(i + 1) == "amount":
            return p.value / 100  # "96 to 40 1 L final"
        if (linked or arrow or lead in ("to", "from")) and scan.kind_at(i + 1) not in ("vessel", "amount", "bare"):
            return p.value / 100
    return None


def _groups(scan: Scan) -> list[Group]:
    """The groups of a message, in order, their phrases marked."""
    groups: list[Group] = []
    group = Group()
    many = 1.0

    def close(lead: str) -> None:
        nonlocal group, many
        if group.measure is not None or group.strength is not None or group.name:
            groups.append(group)
        many = 1.0
        group = Group(lead)

    for i, p in enumerate(scan.items):
        if scan.used[i]:
            continue
        if p.kind == "ratio" and len(p.values) == 2 and min(p.values) > 5 and max(p.values) <= 100:  # "60-46"
            if group.strength is not None:
                close("")
            group.strength = p.values[0] / 100
            close("to")
            group.strength = p.values[1] / 100
            scan.use(i)
            continue
        if p.kind in ("bare", "percent", "proof") and p.value <= 100 and SO_IT_IS.search(scan.text, 0, p.start):
            close("to")  # "add water to my 60% rum so its 40"
        elif p.kind in ("percent", "proof") and group.strength is not None and _IS_THEN.search(scan.text, 0, p.start):
            close("to")  # "water needed so 2 L of 38% is 30%"
        strength = _is_strength(scan, i, group.lead)
        if strength is not None:
            if group.strength is not None:
                close(group.lead if group.lead == "from" else "")
            group.strength = strength
            scan.use(i)
        elif p.kind in ("amount", "vessel") or (p.kind == "bare" and p.value >= 100):
            size = _size(p)
            if size is None:
                continue
            if group.measure is not None:
                close("")
            group.measure = Measure(size.value * many, size.unit)
            many = 1.0
            scan.use(i)
        elif p.kind in ("bare", "fold", "times", "count") and p.value <= MOST_BOTTLES and _sized_after(scan, i):
            many = p.value
            scan.use(i)
        elif p.kind in ("name", "context") and p.name != "water":
            if group.name and (group.measure is not None or group.strength is not None):
                close(group.lead if group.lead == "from" else "")
            group.name = p.name
            scan.use(i)
        elif p.kind == "sep" and p.name in ",;:\n.-":
            close("")
        elif p.kind == "cue" and p.name in _LEADS:
            lead = _LEADS[p.name]
            if p.name == "with" and group.strength is None and group.measure is not None:
                continue  # "fill a 5 L with 37.5 %"
            if p.name in ("with", "want") and group.strength is None and group.measure is None and not group.name and group.lead:
                continue  # "to end up with"
            filled = p.name == "scale" and (p.text in _FILLED or scan.kind_at(i + 1) == "cue:at")
            filled = filled and scan.kind_at(i + 1) not in ("cue:of", "cue:with")
            if (p.name == "final" or filled) and group.measure is not None and group.strength is None:
                group.lead = "want"  # "1 L finished at 45 %", "a 700 filled at 43", "makes a 2 L batch at 38%"
                continue
            if (
                p.name in ("cut", "scale", "make_it")
                and group.lead in ("to", "want")
                and group.strength is None
                and group.measure is None
            ):
                group.lead = "cut" if p.name == "cut" else "want"
                continue
            into = p.text == "to" and scan.at(i - 1) is not None and scan.items[i - 1].is_cue("water", "bigger")
            into = into or (p.text == "into" and group.strength is not None)  # "how much 40% into 1 L of 55%"
            named = scan.kind_at(i + 1) in ("percent", "proof") and scan.kind_at(i + 2) in ("name", "context")
            if into and (named or scan.kind_at(i + 1) in ("amount", "vessel")):
                lead = ""  # "add water to 500 ml of 50%": what is at hand
            close(("from" if group.lead == "from" else "") if p.name == "and" else lead)
        elif p.kind == "cue" and p.name == "water" and group.lead == "to":
            continue
    close("")
    return groups


def _size(p: Phrase) -> Measure | None:
    if p.kind == "vessel":
        if p.size is None:
            return None
        return Measure(p.size[0] * (p.amounts[0] if p.amounts else 1.0), p.size[1])
    return Measure(p.value, p.unit or "ml")


def _sized_after(scan: Scan, i: int) -> bool:
    """Whether a bottle's size follows a count: "three 700s", "3 x 70 cl"."""
    p = scan.at(i + 1)
    if p is None:
        return False
    return (p.kind == "vessel" and p.size is not None) or p.kind == "amount" or (p.kind == "bare" and p.value >= 100)


def _roles(groups: list[Group], water: Measure | None) -> tuple[float | None, Measure | None, list[Lot]]:
    """Target strength, wanted volume, lots at hand."""
    target: float | None = None
    finished: Measure | None = None
    rest = list(groups)
    strong = [g for g in rest if g.strength is not None]
    led = [g for g in rest if g.lead == "to" and g.strength is not None]
    if water is not None and len(strong) == 1 and strong[0].measure is not None:
        led = []  # "250 ml water into a 750 of 50 %"
    wanted = [g for g in rest if g.lead in ("want", "for") and g.strength is not None]
    chosen: Group | None = None
    if led:
        chosen = led[-1]
    elif wanted and len(strong) > 1:
        chosen = wanted[-1]
    elif len(strong) > 1 and any(g.lead in ("from", "have") for g in strong):
        chosen = next((g for g in strong if g.lead not in ("from", "have")), None)
    elif len(strong) > 1 and water is None and strong[-1].measure is None and not strong[-1].name:
        chosen = strong[-1]
    if chosen is not None:
        target, finished = chosen.strength, chosen.measure
        rest.remove(chosen)
    lots: list[Lot] = []
    volumes: list[Measure] = []
    for g in rest:
        if g.strength is None and g.measure is None:
            continue
        if g.strength is None and not (g.name and g.measure is not None and not strong):
            if g.measure is not None:
                if finished is None and g.lead in ("want", "to", "for") and (target is None or g.lead != "for"):
                    finished = g.measure
                else:
                    volumes.append(g.measure)
            continue
        lots.append(Lot(g.strength, g.measure, g.name))
    for volume in volumes:
        empty = next((k for k, lot in enumerate(lots) if lot.measure is None), None)
        if empty is not None:
            lots[empty] = Lot(lots[empty].abv, volume, lots[empty].name)
        elif not lots:
            lots.append(Lot(None, volume, next((g.name for g in groups if g.name), "")))
        elif finished is None:
            finished = volume
    if lots and len(lots) == 1 and lots[0].measure is None and not lots[0].name:
        name = next((g.name for g in groups if g.name), "")
        lots[0] = Lot(lots[0].abv, lots[0].measure, name)
    if not lots and target is not None:
        named = next((g for g in groups if g.name), None)
        if named is not None:
            lots.append(Lot(None, named.measure if named.measure is not finished else None, named.name))
    return target, finished, lots


def _topped_up(start: Measure, finished: Measure) -> Measure | None:
    """Water that brings one volume to another."""
    before, after = rough_ml(start.value, start.unit), rough_ml(finished.value, finished.unit)
    if before is None or after is None or after <= before:
        return None
    return Measure(after - before, "ml")


def _is_blend(lots: list[Lot], target: float) -> bool:
    """Two strengths on either side of the target, not both measured, are blended; others are mixed and cut."""
    strengths = [lot.abv for lot in lots if lot.abv is not None]
    if len(strengths) < 2 or all(lot.measure is not None for lot in lots):
        return False
    return min(strengths) <= target <= max(strengths)
