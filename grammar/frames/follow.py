"""Frame for follow-ups: what to change in, or ask of, the last request. Every number and name must find a place."""

import re
from dataclasses import replace

from grammar.decide_follow import TASTE
from grammar.frames.as_it_was import take_as_it_was
from grammar.frames.bottle_prices import take_bottle_prices
from grammar.frames.follow_bottles import take_bottles
from grammar.frames.follow_deltas import take_deltas, take_multiples
from grammar.frames.follow_moves import take_moves
from grammar.frames.follow_names import take_names, take_swap
from grammar.frames.freezer import take_temperature
from grammar.request import FollowUp, Measure, Money, Water, Yield
from grammar.scan import LEAST_BOTTLE_ML, SERVE_LIMIT_ML, Scan, Unclear, measure, rough_ml
from grammar.to_strength import water_or_strength
from grammar.vessels import join_vessels
from grammar.water import read_water

_SOME = re.compile(r"\b(?:half|some|most|a few) of (?:them|those|these|em)\b")
_BOTTLE_IT = re.compile(
    r"\W*(?:and |now |ok |please |pls )*bottle (?:it|them|this|that|these|the lot)(?: up)?(?: now| please| pls)?\W*"
)
_MEANT = re.compile(r"\b(?:meant|mean|should|supposed|typo|mistake|wrong)\b")


_MOST_EACH = 6.0  # drinks a guest: common practice, no source
_MORE = frozenset(["more", "extra", "spare", "spares", "additional"])


def read_follow(scan: Scan) -> FollowUp:
    """A change to the last request. Raises Unclear unclear_number for a number without a place, unread."""
    out = FollowUp()
    join_vessels(scan)
    if _SOME.search(scan.text) and (scan.has("none", "swap", "water") or scan.kinds("name", "context", "percent")):
        raise Unclear("two_readings", [], "all of them or only some")
    for i in scan.kinds("bare", "percent"):  # "gin is 47% not 40": what it was before
        if scan.kind_at(i - 1) == "cue:none" and i >= 2:
            scan.use(i - 1, i)
    take_as_it_was(scan)
    water_or_strength(scan)
    tasted = TASTE.search(scan.text) if not scan.kinds("percent", "amount", "bare") else None
    if tasted is not None and tasted[1]:
        raise Unclear("unclear_number", [], tasted.group(), "20% water")
    if tasted is not None:
        raise Unclear("two_readings", [], "a change to the water or to an ingredient", "20% water")
    if _BOTTLE_IT.fullmatch(scan.text):
        scan.use(*range(len(scan)))
        return replace(out, ask="fit")
    out = take_bottles(scan, out)
    if out.makes.vessels is not None and not any(scan.left("cue", "percent", "ratio", "temperature")):
        numbers_left(scan)
        return out
    out = take_moves(scan, take_deltas(scan, out))
    out = take_multiples(scan, out)
    out = take_bottle_prices(scan, out)
    out = _start(scan, out)
    out = _units(scan, out)
    if scan.has("freezer", "slush", "point") or scan.kinds("temperature"):
        asks_water = scan.has("water") and (scan.has("how_much", "most"))
        out = replace(out, ask="most_water" if asks_water else "freezer", at_c=take_temperature(scan))
        if asks_water:
            scan.use_cues("water")
    elif scan.kinds("negative"):
        out = replace(out, at_c=take_temperature(scan), ask="freezer")
    water = read_water(scan)
    out = replace(out, water=_water(scan, water))
    out = take_swap(scan, out)
    out = take_names(scan, out)
    out = _ratio(scan, out)
    out = _yield(scan, out)
    out = _asks(scan, out)
    out = _money_and_percents(scan, out)
    out = _bare(scan, out)
    if scan.has("final") and len(out.percents) == 1 and out.water.how == "unsaid" and not out.parts:
        out = replace(out, water=Water("of_finished", out.percents[0]), percents=(), ask="" if out.ask == "show" else out.ask)
    numbers_left(scan)
    return out


def numbers_left(scan: Scan) -> None:
    """Raises Unclear unclear_number for a figure, or a count of bottles, without a place."""
    left = scan.leftover_numbers()
    if left:
        raise Unclear("unclear_number", left[:1], left[0].text)


def _start(scan: Scan, out: FollowUp) -> FollowUp:
    """ "start at 55% instead": of a cut, the strength it begins with."""
    for i in scan.cues("from"):
        p = scan.at(i + 1)
        if p is not None and p.kind in ("percent", "proof") and not scan.used[i + 1]:
            scan.use(i, i + 1)
            return replace(out, from_abv=p.value)
    return out


def _units(scan: Scan, out: FollowUp) -> FollowUp:
    units = scan.kinds("unit")
    if not units:
        return out
    scan.use(*units)
    unit = scan.items[units[0]].unit
    shown = scan.has("same") or (units[0] > 0 and scan.items[units[0] - 1].is_cue("in"))  # "sorry, same thing in ml"
    if scan.has("oops") and (not shown or _MEANT.search(scan.text)):
        return replace(out, meant_unit=unit)
    if scan.has("cost", "shelf"):
        return out
    return replace(out, unit=unit)


def _water(scan: Scan, water: Water) -> Water:
    if water.how != "unsaid":
        return water
    for w in scan.cues("water", "dilution"):
        for j in (w + 1, w - 1, w + 2):
            p = scan.at(j)
            if p is None or scan.used[j] or (j == w + 2 and scan.kind_at(w + 1) not in ("cue:to", "cue:rest")):
                continue
            if p.kind == "amount":
                scan.use(w, j)
                each = scan.kind_at(j + 1) == "cue:each" or (rough_ml(p.value, p.unit) or 0) < 100
                if scan.kind_at(j + 1) == "cue:each":
                    scan.use(j + 1)
                return Water("amount", p.value, p.unit, not each)
            if p.kind == "bare" and p.value < 200:
                scan.use(w, j)
                return Water("of_undiluted", p.value / 100)
    return water


def _ratio(scan: Scan, out: FollowUp) -> FollowUp:
    for i in scan.kinds("ratio"):
        scan.use(i)
        if min(scan.items[i].values) <= 0:
            raise Unclear("out_of_range", [scan.items[i]], scan.items[i].text)
        return replace(out, ratio=scan.items[i].values)
    if scan.has("equal"):
        scan.use_cues("equal")
        return replace(out, ratio=(1.0, 1.0))
    return out


def _yield(scan: Scan, out: FollowUp) -> FollowUp:
    makes = out.makes
    for i in scan.kinds("guests"):
        scan.use(i)
        makes = replace(makes, guests=scan.items[i].value)
    for i in scan.kinds("count", "times", "fold"):
        scan.use(i)
        if scan.items[i].kind == "count":
            out = replace(out, counted=scan.items[i].name or "serves")
        if makes.guests is not None and (scan.kind_at(i + 1) == "cue:each" or scan.items[i].value < makes.guests):
            makes = replace(makes, each=scan.items[i].value)
        else:
            makes = replace(makes, serves=scan.items[i].value)
    if makes.guests is not None:
        for i in scan.kinds("bare"):
            if scan.kind_at(i + 1) == "cue:each" or scan.kind_at(i - 1) == "cue:each":
                scan.use(i)
                makes = replace(makes, each=scan.items[i].value)
    talk = ("sep", "cue:but", "cue:make_it", "cue:want", "")
    fresh = [k for k in range(len(scan)) if scan.kind_at(k) not in talk]
    each = scan.items[fresh[0]] if len(fresh) == 2 and scan.kind_at(fresh[1]) == "cue:each" else None
    if makes == Yield() and each is not None and each.kind == "bare" and each.value <= _MOST_EACH:
        scan.use(*fresh)
        scan.cue_names.discard("each")
        return replace(out, makes=replace(makes, each=each.value))  # "actually 2 each"
    for i in scan.kinds("vessel"):
        p = scan.items[i]
        if p.size is None:
            continue
        scan.use(i)
        many = p.amounts[0] if p.amounts else 1.0
        led = scan.kind_at(i - 1) in ("cue:in", "cue:to") or ("?" in scan.text and not scan.kinds("bare", "count", "cue", "name"))
        if not p.amounts and p.name == "bottles" and led and not out.parts:
            out = replace(out, ask="fit")  # "put it in 500s": how many of them
        makes = replace(makes, vessels=many, vessel_ml=rough_ml(*p.size), volume=Measure(p.size[0] * many, p.size[1]))
    amounts: list[Measure] = []
    sizeless = any(p.kind == "vessel" and p.size is None for p in scan.items) and bool(out.parts)
    for i in scan.kinds("amount", "same_amount"):
        p = scan.items[i]
        ml = rough_ml(p.value, p.unit)
        scan.use(i)
        if sizeless and ml is not None and ml >= LEAST_BOTTLE_ML:  # "bottles of gin? 700 ml"
            makes = replace(makes, vessel_ml=ml)
            out = replace(out, ask="bottles")
            continue
        if ml is None:
            amounts.append(measure(p))
        elif scan.kind_at(i + 1) in ("cue:each", "cue:serve_word") or scan.kind_at(i - 1) in (
            "cue:serve_word",
            "cue:each",
        ) or (scan.kind_at(i - 1) == "cue:at" and scan.has("serve_word", "how_many") and ml < SERVE_LIMIT_ML):
            makes = replace(makes, serve=measure(p), serve_is="finished" if scan.has("final") else "unsaid")
            if scan.has("how_many") and scan.kind_at(i - 1) == "cue:at":
                out = replace(out, ask="count")
            for j in (i + 1, i - 1):
                if scan.kind_at(j) in ("cue:each", "cue:serve_word"):
                    scan.use(j)
        elif 40 <= ml < 250 and any(q.text in ("smaller", "bigger", "larger") for q in scan.items) and not out.parts:
            makes = replace(makes, serve=measure(p))  # "smaller ones, 70 ml"
        elif ml >= 250 and makes.volume is None:
            makes = replace(makes, volume=measure(p))
            amounts.append(measure(p))
        else:
            amounts.append(measure(p))
    return replace(out, makes=makes, amounts=tuple(amounts))


def _asks(scan: Scan, out: FollowUp) -> FollowUp:
    if out.ask:
        return out
    table = (
        ("fit", ("fit",)), ("cost", ("cost", "price", "pour_cost", "margin", "markup")), ("allergens", ("allergens",)),
        ("drinks", ("standard_drinks",)), ("label", ("label",)), ("bottles", ("bottles",)), ("abv", ("abv", "proof_word")),
        ("headspace", ("headspace",)), ("freezer", ("freezer", "slush", "point")), ("show", ("same", "show", "final")),
    )  # fmt: skip
    if (
        re.search(r"\b(?:needs?|has|have|must|make it|want it) to fit\b|\bmake it fit\b", scan.text)
        and out.makes.volume is not None
    ):
        scan.use_cues("fit")
        return out  # it must fit: the batch changes
    filled = scan.has("how_many") and out.makes.vessel_ml is not None and not out.parts
    if filled and re.search(r"\bbottles?|\bbtls?", scan.text):
        return replace(out, ask="fit")
    for ask, cues in table:
        if scan.has(*cues):
            scan.use_cues(*cues)
            if ask == "show" and (out.makes != Yield() or out.parts or out.ratio or out.water.how != "unsaid" or out.times):
                break
            if ask == "abv" and out.parts:
                break
            return replace(out, ask=ask)
    bottles_only = [p for p in scan.items if p.kind != "sep" and not p.is_cue("and", "want", "what", "how_many", "enough")]
    if len(bottles_only) == 1 and bottles_only[0].kind == "vessel" and bottles_only[0].size is None:
        return replace(out, ask="bottles")  # "bottles?"
    if (scan.kinds("vessel", fresh=False) and scan.has("how_many")) or (scan.kinds("vessel") and out.parts):
        return replace(out, ask="bottles")
    unmade = out.makes.serves is None and out.makes.guests is None and out.makes.serve is None
    if scan.has("each", "serve_word") and unmade and not (out.parts or out.amounts or out.moves):
        scan.use_cues("each", "serve_word")
        return replace(out, ask="serve")
    if scan.has("water", "dilution") and out.water.how == "unsaid":
        scan.use_cues("water", "dilution")
        return replace(out, ask="water")
    return out


def _money_and_percents(scan: Scan, out: FollowUp) -> FollowUp:
    money: list[Money] = []
    for i in scan.kinds("money"):
        scan.use(i)
        money.append(Money(scan.items[i].value, scan.items[i].unit))
    if out.ask == "cost":
        for i in scan.kinds("bare"):
            scan.use(i)
            if scan.items[i].text != "one":  # "... and for one?"
                money.append(Money(scan.items[i].value))
    percents: list[float] = []
    for i in scan.kinds("percent", "proof"):
        scan.use(i)
        percents.append(scan.items[i].value)
    return replace(out, money=tuple(money), percents=tuple(percents))


def _bare(scan: Scan, out: FollowUp) -> FollowUp:
    """A bare number left: "make it 12", "12 instead", "4 more serves" are serves; beside "fit" or a bottle it is a size."""
    more = any(p.text in _MORE for p in scan.items)
    fewer = any(p.text in ("less", "fewer") for p in scan.items)
    if (more or fewer) and out.makes.serves is not None:
        return replace(
            out,
            makes=replace(out.makes, serves=None),
            times=None,
            ask="more",
            amounts=(Measure(out.makes.serves * (1 if more else -1), "count"),),
        )
    for i in scan.kinds("bare"):
        p = scan.items[i]
        scan.use(i)
        if out.ask in ("fit", "bottles") and p.value >= 100:
            out = replace(out, makes=replace(out.makes, vessels=1.0, vessel_ml=p.value, volume=Measure(p.value, "ml")))
        elif more or fewer:
            out = replace(out, ask="more", amounts=(Measure(p.value * (1 if more else -1), "count"),))
        elif out.makes.serves is None and p.value == int(p.value):
            out = replace(out, makes=replace(out.makes, serves=p.value))
        elif not out.amounts:
            out = replace(out, amounts=(Measure(p.value, ""),))  # "and 1.75?" after a conversion
        else:
            raise Unclear("unclear_number", [p], p.text)
        if p.value <= 0:
            raise Unclear("out_of_range", [p], p.text)
    if out.makes.serves is not None and out.makes.serves <= 0:
        raise Unclear("out_of_range", scan.items, f"{out.makes.serves:g} serves")
    return out
