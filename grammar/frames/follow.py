"""Frame for follow-ups: what to change in, or ask of, the last request. Every number and name must find a place."""

import re
from dataclasses import replace

from grammar.decide_follow import TASTE
from grammar.decide_of_last import asks_again
from grammar.frames.as_it_was import take_as_it_was
from grammar.frames.bottle_prices import take_bottle_prices
from grammar.frames.follow_bottles import take_bottles, take_bottles_of_one, take_split
from grammar.frames.follow_deltas import take_deltas, take_multiples
from grammar.frames.follow_made import take_bare, take_made
from grammar.frames.follow_money import take_markup, take_money, take_prices_alone
from grammar.frames.follow_moves import take_moves
from grammar.frames.follow_names import take_names, take_swap
from grammar.frames.follow_nights import take_nights
from grammar.frames.follow_water import share_of_final, take_water
from grammar.frames.freezer import take_temperature
from grammar.frames.label import country
from grammar.request import FollowUp, Water, Yield
from grammar.scan import Scan, Unclear
from grammar.spare import share_more, spare_share
from grammar.to_strength import water_or_strength
from grammar.undone import undone
from grammar.vessels import join_vessels

_SOME = re.compile(r"\b(?:half|some|most|a few) of (?:them|those|these|em)\b")
_BOTTLE_IT = re.compile(
    r"\W*(?:and |now |ok |please |pls )*bottle (?:it|them|this|that|these|the lot)(?: up)?(?: now| please| pls)?\W*"
)
_MEANT = re.compile(r"\b(?:meant|mean|should|supposed|typo|mistake|wrong)\b")
_LITRE_BOTTLES = re.compile(
    r"\b(?:they|these|those|the bottles|bottles|it|its|theyre|they're)(?: ?'?re| ?'s| are| is| were| was| all| only| come as)* "
    r"(?:litres?|liters?|ltrs?)\b"
)
_MILD = 10.0  # no freezer is so warm, in °C below 0: common practice, no source
_FEWER = re.compile(r"\W*(?:and |ok |so |make it )?(?:minus |-)\d+\W*$")
_WANTED = re.compile(r"\b(?:i|we) (?:need|want)\b|\bat the end\b|\bend(?:ing)? up with\b|\b(?:finished|final|in total|all in)\b")
_ASKED_OF = (
    "water", "dilution", "abv", "proof_word", "cost", "price", "bottles", "each", "serve_word", "freezer", "label", "fit",
    "standard_drinks", "allergens",
)  # fmt: skip


def read_follow(scan: Scan) -> FollowUp:
    """A change to the last request. Raises Unclear unclear_number for a number without a place, unread."""
    back = undone(scan)
    if back:
        return FollowUp(back=back)
    out = FollowUp()
    for i in scan.kinds("house"):
        scan.use(i)
        out = replace(out, house=scan.items[i].name)
    out = replace(out, country=country(scan), wanted=_WANTED.search(scan.text) is not None)
    out = take_bottles_of_one(scan, take_nights(scan, out))
    join_vessels(scan)
    if _SOME.search(scan.text) and (scan.has("none", "swap", "water") or scan.kinds("name", "context", "percent")):
        raise Unclear("two_readings", [], "all of them or only some")
    out = replace(out, was=take_as_it_was(scan))
    share_of_final(scan)
    water_or_strength(scan)
    tasted = TASTE.search(scan.text) if not scan.kinds("percent", "amount", "bare", "ratio") else None
    if tasted is not None and tasted[1]:
        raise Unclear("unclear_number", [], tasted.group(), "20% water")
    if tasted is not None:
        raise Unclear("two_readings", [], "a change to the water or to an ingredient", "20% water")
    if asks_again(scan):
        scan.use(*[i for i, p in enumerate(scan.items) if p.kind == "cue" and p.name in ("same", "make_it", "stock", "at")])
        scan.cue_names -= {"same", "make_it", "stock", "at"}
        if not scan.kinds("name", "context", "unit") and not scan.has(*_ASKED_OF):
            return replace(out, ask="show")
    if _BOTTLE_IT.fullmatch(scan.text):
        scan.use(*range(len(scan)))
        return replace(out, ask="fit")
    out = replace(out, spare=spare_share(scan))
    out = take_split(scan, out)
    take_gone(scan)
    out = take_bottles(scan, out)
    if out.makes.vessels is not None and not any(scan.left("cue", "percent", "ratio", "temperature")):
        numbers_left(scan)
        return out
    out = take_markup(scan, take_bottle_prices(scan, take_prices_alone(scan, out)))
    out = take_moves(scan, take_deltas(scan, out))
    out = take_multiples(scan, out)
    more = share_more(scan)
    if more:
        out = replace(out, times=1.0 + more)
    out = _start(scan, out)
    out = _units(scan, out)
    if scan.has("freezer", "slush", "point") or scan.kinds("temperature"):
        asks_water = scan.has("water") and (scan.has("how_much", "most"))
        out = replace(out, ask="most_water" if asks_water else "freezer", at_c=take_temperature(scan))
        if asks_water:
            scan.use_cues("water")
    elif scan.kinds("negative"):
        colder = scan.items[scan.kinds("negative")[0]]
        mild = -_MILD < colder.value < 0 and _FEWER.match(scan.text) is not None
        out = replace(out, at_c=take_temperature(scan), ask="freezer", mild=mild)
    out = take_water(scan, out)
    out = take_swap(scan, out)
    out = take_names(scan, out)
    out = _ratio(scan, out)
    out = take_made(scan, out)
    out = _asks(scan, out)
    out = take_money(scan, out)
    out = take_bare(scan, out)
    if scan.has("final") and len(out.percents) == 1 and out.water.how == "unsaid" and not out.parts:
        out = replace(out, water=Water("of_finished", out.percents[0]), percents=(), ask="" if out.ask == "show" else out.ask)
    numbers_left(scan)
    return out


_GONE = re.compile(
    r"\b(?:\d+|one|two|three|four) (?:of the )?(?:tables?|guests?|people|ppl|pax|covers?|heads?)?"
    r" ?(?:have |has |just )*(?:cancell?ed|dropped out|pulled out|bailed|not coming)\b"
)


def take_gone(scan: Scan) -> None:
    """ "2 tables cancelled so it's 84 not 100": who is not coming, where the new count is said too. Marks it."""
    gone = _GONE.search(scan.text)
    figures = scan.kinds("bare", "count", "guests")
    if gone is not None and any(scan.items[i].start >= gone.end() for i in figures):
        scan.use(*[i for i, p in enumerate(scan.items) if gone.start() <= p.start < gone.end()])


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
    if unit == "l" and _LITRE_BOTTLES.search(scan.text):
        return replace(out, makes=replace(out.makes, vessel_ml=1000.0))  # "what if theyre litres": the bottles
    shown = scan.has("same") or (units[0] > 0 and scan.items[units[0] - 1].is_cue("in"))  # "sorry, same thing in ml"
    if scan.has("oops") and (not shown or _MEANT.search(scan.text)):
        return replace(out, meant_unit=unit)
    if scan.has("cost", "shelf"):
        return out
    return replace(out, unit=unit)


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
            if ask == "allergens" and out.drop and not (
                "?" in scan.text or scan.text.startswith("allergens") or scan.has("what", "show", "list", "how_many")
            ):
                continue  # "nut allergy, leave out the orgeat": why, not what is asked
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
