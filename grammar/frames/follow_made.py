"""How much a follow-up wants made: guests, serves, bottles, a volume, the size of a serve; and a number that stands alone."""

import re
from dataclasses import replace

from grammar.loads import seated_at_tables
from grammar.phrase import Phrase
from grammar.request import FollowUp, Measure, Yield
from grammar.scan import BOTTLE_SIZES_ML, LEAST_BOTTLE_ML, SERVE_LIMIT_ML, Scan, Unclear, measure, rough_ml

_MOST_NIGHTS = 14.0  # that one drink is made for ahead: common practice, no source
_MOST_EACH = 6.0  # drinks a guest: common practice, no source
_MORE = frozenset(["more", "extra", "spare", "spares", "additional"])


def take_made(scan: Scan, out: FollowUp) -> FollowUp:
    """Guests, serves, bottles and volumes to make, and the size of a serve. Marks them."""
    makes = out.makes
    for i in scan.kinds("bare"):
        if scan.kind_at(i - 1) == "cue:how_many" and _PLURAL.match(scan.text, scan.items[i].end):
            scan.use(*range(i, i + 1 + (scan.kind_at(i + 1) == "unknown")))
            makes = replace(makes, serve=Measure(scan.items[i].value))  # "how many 70s is that"
            out = replace(out, ask="count")
    at_tables = seated_at_tables(scan)
    if at_tables is not None:
        makes = replace(makes, guests=at_tables)  # "it's 12 tables of 8 not 60"
    for i in scan.kinds("guests"):
        scan.use(i)
        makes = replace(makes, guests=scan.items[i].value)
    for i in scan.kinds("count", "times", "fold"):
        scan.use(i)
        if _POUR.search(scan.text[: scan.items[i].end]) is not None and scan.items[i].kind == "count":
            makes = replace(makes, serve=Measure(scan.items[i].value))  # "and a 60 pour"
            continue
        lone = makes.guests is None and scan.items[i].kind == "count" and not scan.items[i].name
        lone = lone and scan.items[i].value <= _MOST_EACH and not scan.has("enough", "water", "how_many")
        if lone and (scan.kind_at(i + 1) == "cue:each" or "round" in scan.items[i].text):
            scan.use(*[i + 1] * (scan.kind_at(i + 1) == "cue:each"))
            scan.cue_names.discard("each")
            makes = replace(makes, each=scan.items[i].value)  # "2 drinks each", "3 rounds", for the guests said before
            continue
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
        ) or (scan.kind_at(i - 1) == "cue:at" and _counted(scan, makes) and ml < SERVE_LIMIT_ML) or (
            scan.kind_at(i + 1) == "cue:final" and (scan.has("each") or scan.kind_at(i + 2) == "cue:serve_word")
            and ml < SERVE_LIMIT_ML
        ):
            makes = replace(makes, serve=measure(p), serve_is="finished" if scan.has("final") else "unsaid")
            if scan.has("how_many") and scan.kind_at(i - 1) in ("cue:at", "cue:how_many"):  # "how many 70 ml pours is that"
                out = replace(out, ask="count")
            for j in (i + 1, i - 1, i + 2):
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


_POUR = re.compile(r"\b(?:an?|the|per|each|with) \d+(?:\.\d+)?[ -]?(?:pour|serve|serving|measure|portion)$")
_PLURAL = re.compile(r"'?s (?:is|does|do|would|will|can|in) (?:that|it|this|i|we|they|those)\b")
_ONE = re.compile(r"(?:^|\b)(?:and|about|with|if it's|if its) (?:an?|the) $")  # "and a 100": one of so much
_FILLED = re.compile(r"(?:^|\b)(?:an?|one|the|fill|filling|fills|filled|bottling|bottle of)$")


def _counted(scan: Scan, makes: Yield) -> bool:
    """Whether serves are counted or asked for, so that "at 90 ml" is the size of one: "make it 20 at 90 ml"."""
    return scan.has("serve_word", "how_many") or makes.serves is not None or bool(scan.kinds("bare"))


def _lasting(scan: Scan, p: Phrase) -> bool:
    """Whether the figure counts nights or shifts that the batch is for."""
    word = re.match(r"[ ]+(?:more |full |whole )?([a-z]+)", scan.text[p.end :])
    return word is not None and word[1] in _LASTS


_LASTS = frozenset(["nights", "days", "shifts", "services", "sittings", "weekends", "weeks", "parties", "events", "evenings"])


def _is_bottle(scan: Scan, i: int) -> bool:
    """Whether the bare number at i is a bottle's size: "im only filling a 750", "just a 700", "in a 500"."""
    p = scan.items[i]
    said = p.value >= LEAST_BOTTLE_ML and p.value in BOTTLE_SIZES_ML
    return said and (_FILLED.search(scan.text[: p.start].strip()) is not None or scan.kind_at(i - 1) == "cue:in")


def take_bare(scan: Scan, out: FollowUp) -> FollowUp:
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
        if _lasting(scan, p) and out.times is None and out.makes.serves is None and p.value <= _MOST_NIGHTS:
            scan.use(i)
            out = replace(out, times=p.value)  # "enough for 2 nights"
            continue
        led, after = scan.kind_at(i - 1), scan.at(i + 1)
        if (scan.kind_at(i + 1) == "cue:of" and scan.kind_at(i + 2) == "cue:each") or scan.text[p.end :].startswith(" of each"):
            raise Unclear("two_readings", [p], f"{p.value:g} serves or {p.value:g} of each ingredient")
        if after is not None and after.is_cue("each") and p.value > _MOST_EACH and out.makes.guests is None:
            raise Unclear("two_readings", [p], f"{p.value:g} serves or {p.value:g} in each")  # "90 each"
        if led == "cue:and" and scan.text.replace(" ", "") == f"+{p.text}":
            out = replace(out, ask="more", amounts=(Measure(p.value, "count"),))  # "+6"
            scan.use(i)
            continue
        counts = after is not None and after.kind in ("bare", "amount", "vessel")  # "got one 700 of gin"
        if (led == "cue:stock" and not counts) or (led == "cue:bigger" and len(scan.kinds("bare")) == 1 and not more):
            raise Unclear("unclear_number", [p], f"{scan.items[i - 1].text} {p.text}")  # "i have 2 already", "add 5"
        out = replace(out, at=out.at or scan.kind_at(i - 1) == "cue:at" or _ONE.search(scan.text[: p.start]) is not None)
        scan.use(i)
        if (out.ask in ("fit", "bottles") and p.value >= 100) or _is_bottle(scan, i):
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
