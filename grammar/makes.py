"""Reading how much to make: serves, guests, vessels, volumes, serve sizes.

Two passes, because an amount may be a volume only if no ingredient claims it: `claim_yield` before the recipe takes
what can be nothing else, `claim_rest` after it takes the amounts left over.
"""

import re
from dataclasses import replace

from grammar.loads import seated_at_tables
from grammar.loose_counts import BY_COUNT, is_an_hour
from grammar.phrase import Phrase
from grammar.ranges import ask_ranges
from grammar.request import Measure, Yield
from grammar.scan import BOTTLE_SIZES_ML, LEAST_BOTTLE_ML, SERVE_LIMIT_ML, Scan, Unclear, rough_ml
from grammar.vessels import BIG_UNITS, join_vessels, read_folds, read_vessels
from grammar.volumes import SMALLEST_SERVE_ML, read_volumes

QUANTITY = re.compile(r"\b(?:qty|quantity|quantities)[ :=]*(\d+)(?! *(?:ml|cl|oz|l|%)\b)")
PARTY_OF = re.compile(
    r"\b(?:(?:table|party|group|crowd|wedding|room|team)\s+(?:of|for)\s+"
    r"|(?:we are|we're|we will be|we'll be|there will be|there'll be|expecting)\s+(?:about )?(?=\d+\s*(?:[,;:.!?](?!\d)|$))"
    r"|\brounds? for (?:a )?(?:table of )?(?=\d+\b(?! ?(?:ml|cl|oz|l)\b))|\b(?:for|a|the|my|our) (?=\d+[ -]top\b))(\d+)"
)
_FEW_SHOTS = 5.0  # so many may all go into one drink: common practice, no source
_MOST_EACH = 10.0  # drinks a guest: common practice, no source
_SIDE_WORDS = ("technique_stir", "technique_shake", "freezer", "scale", "final", "first", "bigger", "smaller")


def claim_yield(scan: Scan) -> Yield:
    """Serves, guests, vessels and volumes that their own words give away. Marks them.

    Raises Unclear conflict_total for two different counts, unclear_number for a range, out_of_range for none or less.
    """
    makes = Yield()
    join_vessels(scan)
    ask_ranges(scan)
    counts: list[tuple[float, Phrase]] = []
    if scan.kind_at(0) == "unknown" and scan.kind_at(1) == "bare" and scan.kind_at(2) == "cue:for":
        scan.use(1)  # a title with a number: "Dock 9 for 12"
    by = None if is_an_hour(scan) else BY_COUNT.search(scan.text)
    labelled = QUANTITY.search(scan.text)
    for i in scan.kinds("bare"):
        if labelled and scan.items[i].start == labelled.start(1):  # "qty: 13"
            scan.use(i)
            counts.append((scan.items[i].value, scan.items[i]))
            continue
        if by and scan.items[i].start == by.start(1) and scan.kind_at(i - 1) != "cue:to":  # "... honey syrup by 40"
            scan.use(i)
            counts.append((scan.items[i].value, scan.items[i]))
        elif scan.items[i].value == 1 and scan.kind_at(i + 1) == "sep" and scan.items[i + 1].name == ":":
            if i == 0 or scan.items[i - 1].is_cue("for", "show", "recipe_word"):
                scan.use(i)  # "one: 30 ml gin ...", "recipe for 1: ..."
        elif (
            scan.items[i].value == 1
            and scan.kind_at(i - 1) not in ("name", "context")
            and scan.kind_at(i + 1) == "amount"
            and scan.kind_at(i + 2) not in ("name", "context")
        ):
            scan.use(i)  # "one 75 cl of ..."
    at_tables = seated_at_tables(scan)
    if at_tables is not None:
        makes = replace(makes, guests=at_tables)
    seated = PARTY_OF.search(scan.text)
    for i in scan.kinds("bare", "count") if seated else ():
        if seated and scan.items[i].start == seated.start(1):  # "a table of 9"
            scan.use(i, *[k for k in (i - 1, i - 2) if scan.kind_at(k) in ("unknown", "cue:of", "cue:for")])
            if scan.kind_at(i + 1) == "cue:top" and scan.text.startswith("top", scan.items[i].end + 1):
                scan.use(i + 1)  # "for a 4 top"
            makes = replace(makes, guests=scan.items[i].value)
    for i in scan.kinds("guests"):
        p = scan.items[i]
        scan.use(i)
        if makes.guests is not None and makes.guests != p.value:
            raise Unclear("conflict_total", [p], f"{makes.guests:g} or {p.value:g} guests")
        makes = replace(makes, guests=p.value)
    for i in scan.kinds("count"):
        p = scan.items[i]
        follows = scan.kind_at(i + 1)
        scan.use(i)
        if follows == "cue:each" and makes.guests is None:  # "1.5 drinks a head for 64"
            heads = [k for k in scan.kinds("bare") if scan.kind_at(k - 1) == "cue:for" and scan.items[k].value > p.value]
            if len(heads) == 1 and scan.kind_at(heads[0] + 1) in ("", "sep", "cue:of", "cue:final"):
                scan.use(heads[0])
                makes = replace(makes, guests=scan.items[heads[0]].value)
        led = "" if scan.kind_at(i - 2) in ("bare", "count") else scan.kind_at(i - 1)  # "20 guests 2 each so 30 drinks"
        few = makes.guests is not None and p.value < max(makes.guests / 3, min(4, makes.guests))
        if makes.guests is not None and (few or "cue:each" in (follows, led) or "round" in p.text):
            makes = replace(makes, each=p.value)
            if follows == "cue:each":
                scan.use(i + 1)
            continue
        counts.append((p.value, p))
    for i in scan.kinds("times"):
        p = scan.items[i]
        scan.use(i)
        behind = i > 0 and scan.items[i - 1].kind == "guests"  # "12 ppl x 2", "12 ppl x 2 drinks each"
        if makes.guests is not None and (behind or scan.kind_at(i + 1) in ("cue:serve_word", "cue:each")):
            makes = replace(makes, each=p.value)
            scan.use(i if behind else i + 1)
            continue
        counts.append((p.value, p))
    for i in scan.kinds("amount"):
        p = scan.items[i]
        of_amount = scan.kind_at(i + 1) == "cue:of" and scan.kind_at(i + 2) == "amount"
        sized = p.unit == "shot" and any(scan.kind_at(k + 1) == "cue:each" for k in scan.kinds("amount") if k > i + 1)
        of_amount = of_amount or sized  # "40 shots of 1:1 tequila lime at 40 ml each"
        poured = p.unit == "shot" or (p.unit == "part" and p.text.split()[-1].startswith("measure"))
        spec = scan.kind_at(i + 1) in ("cue:for", "unknown", "sep") and len(scan.kinds("name", "context")) > 1
        of_amount = of_amount or (p.unit == "shot" and p.value > _FEW_SHOTS and spec)  # "50 shots for a party, 25 ml ... each"
        if poured and (of_amount or scan.kind_at(i + 1) == "amount") and p.value == int(p.value):  # "six shots 30 ml each"
            scan.use(i)
            counts.append((p.value, p))
    for i in scan.kinds("bare"):
        if scan.used[i]:
            continue
        counted = _bare_count(scan, i, makes.guests)
        if counted == "count":
            scan.items[i].kind = "count"
            counts.append((scan.items[i].value, scan.items[i]))
        elif counted == "each":
            makes = replace(makes, each=scan.items[i].value)
        elif counted == "guests":
            makes = replace(makes, guests=scan.items[i].value)
    makes = read_folds(scan, makes, counts)
    makes = read_vessels(scan, makes)
    makes = read_volumes(scan, makes)
    if {value for value, _ in counts} - {1.0} and any(value == 1.0 for value, _ in counts):
        counts = [c for c in counts if c[0] != 1.0]  # "... is 1 martini. 45 martinis?"
    distinct = {value for value, _ in counts}
    if len(distinct) > 1:
        raise Unclear("conflict_total", [p for _, p in counts], " or ".join(f"{v:g}" for v, _ in counts) + " serves")
    if counts:
        makes = replace(makes, serves=counts[0][0])
    for value in (makes.serves, makes.guests, makes.each, makes.vessels):
        if value is not None and value <= 0:
            raise Unclear("out_of_range", [p for _, p in counts] or scan.items[:1], f"{value:g} serves")
    return makes


def _lists_two(scan: Scan, start: int) -> bool:
    """Whether a colon stands at `start` and two names with amounts before them follow it."""
    laid = [k for k in range(start + 1, len(scan) - 1) if scan.kind_at(k) in ("bare", "amount")]
    return scan.items[start].name == ":" and sum(scan.kind_at(k + 1) in ("name", "context") for k in laid) > 1


def _bare_count(scan: Scan, i: int, guests: float | None) -> str:
    """Whether a bare number counts serves ("for 20", "12 stirred martinis", "two each for guests"); marks it if so."""
    p = scan.items[i]
    half = guests is not None and scan.kind_at(i + 1) == "cue:each" and p.value < _MOST_EACH and 2 * p.value == int(2 * p.value)
    if p.value > 1e12 or (p.value != int(p.value) and not half):
        return ""
    follows, before = scan.kind_at(i + 1), scan.kind_at(i - 1)
    if "doz" in p.text and follows in ("", "sep") and before in ("", "sep", "drink"):
        scan.use(i)  # "bamboos, 4 dozen."
        return "count"
    heading = scan.at(i - 1)
    if before == "cue:serve_word" and heading is not None and heading.text in ("serves", "makes") and i <= 1:
        scan.use(i - 1, i)
        return "count"
    if follows == "cue:of" and scan.kind_at(i + 2) in ("", "sep") and guests is not None and p.value < 20:
        scan.use(i)  # "each gets 2 of: ..."
        return "each"
    each_at = i + 2 if follows == "sep" else i + 1
    each_said = scan.kind_at(each_at) == "bare" and scan.kind_at(each_at + 1) == "cue:each"
    if before == "cue:for" and each_said and scan.items[each_at].value < p.value and scan.kind_at(each_at + 2) in ("", "sep"):
        scan.use(i)
        return "guests"  # "for 25, one each."
    marked = heading is not None and (heading.is_cue("equals") or (heading.kind == "sep" and heading.name in ":-("))
    labelled = marked and not scan.used[i - 1] and scan.kind_at(i - 2) == "cue:serve_word"
    if labelled and follows in ("", "sep") and p.value > 1:  # "Glasses: 17."
        scan.use(i - 2, i)
        return "count"
    named = i + 1
    while scan.kind_at(named) == "unknown":
        named += 1
    closed = scan.at(named)
    opens = i == 0 or before in ("", "sep")
    listed = (
        closed is not None
        and closed.kind == "sep"
        and closed.name in ":\n."
        and (any(q.kind == "amount" for q in scan.items[named:]) or _lists_two(scan, named))
    )
    if opens and listed and named > i + 1 and p.value > 1 and before != "cue:each":  # "8 flips: 50 ml brandy ..."
        for k in range(i + 1, named):
            scan.items[k].kind, scan.items[k].name = "drink", scan.items[k].text
        scan.use(i)
        return "count"
    sized = p.value in BOTTLE_SIZES_ML and p.value >= LEAST_BOTTLE_ML
    if i == 0 and follows == "ratio" and p.value > 1 and not sized and not scan.kinds("count", "times", "guests"):
        scan.use(i)
        return "count"  # "eight 1:1 gin fino"
    if follows == "cue:of" and scan.kind_at(i + 2) in ("drink", "house") and p.value > 1 and not sized:  # "20 of our martini"
        scan.use(i)
        return "count"
    if (
        follows == "cue:of" and scan.kind_at(i + 2) in ("", "sep") and p.value > 1 and before in ("", "sep", "cue:and", "cue:in")
    ):  # "12 of them"
        scan.use(i)
        return "count"
    poured = p.value > _MOST_EACH and scan.kind_at(i + 2) in ("name", "context")  # "18 people, 30 each gin, vermouth, ..."
    if follows == "cue:each" and guests is not None and not poured:
        scan.use(i, i + 1)
        return "each"
    if before == "cue:each" and guests is not None and p.value < 20 and follows not in ("name", "context"):
        scan.use(i - 1, i)
        return "each"
    j = i + 1
    hints = 0
    while (
        (q := scan.at(j)) is not None
        and hints < 3
        and (
            q.is_cue(*_SIDE_WORDS)
            or q.kind in ("context", "unknown", "percent", "ratio")
            or (q.kind == "name" and scan.kind_at(j + 1) in ("drink",))
        )
    ):
        hints += 1
        j += 1
    q = scan.at(j)
    if q is not None and (q.kind == "drink" or q.is_cue("serve_word", "guest_word")) and not scan.used[j]:
        if hints and any(scan.items[k].kind in ("percent", "ratio") for k in range(i + 1, j)) and before != "cue:for" and i != 0:
            return ""
        scan.use(i)
        if q.kind != "drink" and not (hints and scan.kind_at(j + 1) == ""):
            scan.use(j)
        return "count"
    if follows == "house" and p.value == int(p.value):
        scan.use(i)
        return "count"
    if before in ("cue:scale", "cue:want") and p.value in BOTTLE_SIZES_ML and p.value >= 300:
        return ""
    if before in ("cue:for", "cue:make_it", "cue:want", "cue:same", "cue:double") or (
        before in ("cue:scale", "cue:to") and not scan.has("cut", "convert")
    ):
        if follows in ("name", "context", "unknown", "cue:water", "garnish") or (follows == "percent"):
            return ""
        if before == "cue:to" and scan.kind_at(i - 2) not in ("cue:make_it", "cue:scale", "cue:recipe_word", "drink", "house"):
            return ""
        scan.use(i)
        if follows in ("cue:serve_word", "cue:guest_word"):
            scan.use(i + 1)
        return "count"
    first_drink = before in ("drink", "house") and follows in ("", "sep", "cue:for", "cue:with")
    if first_drink and scan.kinds("amount", "ratio", "house"):
        scan.use(i)
        return "count"
    q = scan.at(i + 1)
    plural = q is not None and q.kind == "name" and q.text.endswith("s") and not q.text.endswith(("ss", "bitters", "whites"))
    if i == 0 and plural and p.value >= 2 and scan.kind_at(i + 2) in ("amount", "percent", "ratio", "sep"):
        scan.use(i)
        return "count"
    return ""


def claim_rest(scan: Scan, makes: Yield) -> Yield:
    """Amounts no ingredient claimed: big ones are the volume, small ones the size of a serve. Marks them.

    Raises Unclear unclear_number when a number is left that nothing explains.
    """
    for i in scan.kinds("amount", "bare"):
        p = scan.items[i]
        unit = p.unit or "ml"
        ml = rough_ml(p.value, unit)
        if ml is None:
            continue
        each = scan.kind_at(i + 1) == "cue:each" or scan.kind_at(i - 1) == "cue:each"
        if makes.serve is not None and p.value == makes.serve.value and (p.kind == "bare" or p.unit == makes.serve.unit):
            scan.use(i)  # "75 ml each with the water inside those 75"
            continue
        if p.kind == "bare" and not each:
            if p.value in BOTTLE_SIZES_ML and p.value >= 300 and makes.volume is None:
                scan.use(i)
                makes = replace(makes, volume=Measure(p.value, "ml"))
            elif (
                makes.serves is None
                and makes.guests is None
                and p.value == int(p.value)
                and 1 < p.value <= 300
                and makes.volume is None
                and i in (0, len(scan) - 1)
                and scan.kind_at(i - 1) != "cue:to"  # "1 L navy rum, get it to 45"
            ):
                scan.use(i)
                makes = replace(makes, serves=p.value)
            continue
        shared = (makes.serves or makes.guests or 0.0) * SMALLEST_SERVE_ML > ml  # "15 glasses 200 ml": too little for all
        small = each or ml < LEAST_BOTTLE_ML or (shared and ml < SERVE_LIMIT_ML)
        if small and makes.serve is None and unit not in BIG_UNITS and ml > 15:
            scan.use(i)
            makes = replace(makes, serve=Measure(p.value, unit))
        elif makes.volume is None and ml >= LEAST_BOTTLE_ML:
            scan.use(i)
            makes = replace(makes, volume=Measure(p.value, unit))
        elif makes.volume is not None and ml == rough_ml(makes.volume.value, makes.volume.unit):
            scan.use(i)
    return makes
