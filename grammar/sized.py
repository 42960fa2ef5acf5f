"""Bottles and fillings told by their size: "3 bottles x 70 cl", "70 cl bottle x3", "three 70s", "water to make 2 L".

Each changes phrases in place before the frames take amounts and counts, and marks what it explained.
"""

import re

from grammar.phrase import Phrase
from grammar.scan import BOTTLE_SIZES_ML, LEAST_BOTTLE_ML, MOST_BOTTLES, Scan, rough_ml

_LEAST_ML, _LARGEST_ML = 100.0, 60000.0  # what a vessel counted by its size holds, flask to keg: common practice, no source
_LEAST_FILL_ML = 250.0  # a smaller amount of water is one of the ingredients: common practice, no source
#: bottle sizes said in cL, "four 70s" (of the sizes in Directive 2007/45/EC and 27 CFR 5.203)
_CL_PLURALS = frozenset([35.0, 50.0, 70.0, 75.0])
_ONE_OF = frozenset([500.0, 700.0, 750.0, 1000.0])
_OWN = ("amount", "bare", "percent", "cue:how_much", "cue:what", "cue:dilution")
_LINKS = ("to", "make_it", "rest", "for", "scale")


def sized(scan: Scan) -> None:
    """All of them, in one pass over the phrases."""
    for i, p in enumerate(scan.items):
        if scan.used[i]:
            continue
        if p.kind in ("bare", "count"):
            _counted(scan, i, p)
        elif p.kind == "vessel" and p.size is None and p.amounts and p.amounts[0] > 1:
            _size_said_later(scan, i, p)
        elif p.kind == "amount":
            _into_a_bottle(scan, i, p)
        elif p.kind == "fold":
            _so_much_each(scan, i, p)
        elif p.kind == "times":
            _times_so_much(scan, i, p)
            _times_a_bottle(scan, i, p)
        elif p.kind == "unknown" and p.text == "s":
            _plural(scan, i)
        elif p.is_cue("water") or (p.kind == "name" and _tops(scan, i)):
            _filled_to(scan, i)


def _so_much_each(scan: Scan, i: int, p: Phrase) -> None:
    """ "3 x 30 ml gin, sweet vermouth, red bitter": as many names as times, and no other amount: it is each one's."""
    named = scan.kinds("name", "context")
    laid = [k for k in scan.kinds("bare") if {scan.kind_at(k - 1), scan.kind_at(k + 1)} & {"name", "context"}]
    others = laid or scan.kinds("ratio", "same_amount") or len(scan.kinds("amount")) != 1
    if p.value != len(named) or p.value < 3 or others or scan.kind_at(i + 1) != "amount" or named[0] < i:
        return
    if _ml(scan.items[i + 1]) >= LEAST_BOTTLE_ML:
        return
    amount = scan.items[i + 1]
    each = Phrase("cue", "each", amount.end, amount.end, name="each")
    scan.use(i)
    scan.items.insert(i + 2, each)
    scan.used.insert(i + 2, False)
    scan.cue_names.add("each")


_INTO_A = re.compile(r"\b(?:in|into|to fill|filling)\s+(?:an?|one|the|my)\s*$")


def _into_a_bottle(scan: Scan, i: int, p: Phrase) -> None:
    """ "15% water into a 70 cl": a bottle told by its size, and no amount of what stands before it."""
    sized = (rough_ml(p.value, p.unit) or 0.0) in BOTTLE_SIZES_ML and _ml(p) >= LEAST_BOTTLE_ML
    if sized and scan.kind_at(i + 1) in ("", "sep") and _INTO_A.search(scan.text[: p.start]):
        p.kind, p.name, p.size, p.amounts, p.value = "vessel", "bottle", (p.value, p.unit), (1.0,), 1.0


def _size_said_later(scan: Scan, i: int, p: Phrase) -> None:
    """ "3 bottles of martinez, 70 cl each", "48 little bottles, 100 ml finished each": each bottle's size, further on."""
    j = i + 1
    while j <= i + 4 and scan.kind_at(j) in ("cue:of", "drink", "house", "sep", "unknown"):
        j += 1
    each = j + 2 if scan.kind_at(j + 1) == "cue:final" else j + 1
    size = scan.at(j)
    if size is None or scan.kind_at(j) != "amount" or scan.kind_at(each) != "cue:each" or j == i + 1:
        return
    if _LEAST_ML <= _ml(size) <= _LARGEST_ML and scan.kind_at(each + 1) in ("", "sep", "ratio", "cue:of", "cue:with"):
        p.size = (size.value, size.unit)
        scan.use(*range(j, each + 1))


def _ml(p: Phrase | None) -> float:
    """What an amount, or a bottle of a size, holds; 0 for anything else."""
    if p is None:
        return 0.0
    if p.kind == "vessel":
        return (rough_ml(*p.size) or 0.0) if p.size is not None else 0.0
    return (rough_ml(p.value, p.unit) or 0.0) if p.kind == "amount" else 0.0


def _counted(scan: Scan, i: int, p: Phrase) -> None:
    """ "pax 220.", "two and a half dozen sazeracs", "one 750 of vodka": the words and figures that are one count, or no count."""
    before, after = scan.at(i - 1), scan.at(i + 1)
    fresh = before is not None and not scan.used[i - 1]
    if p.kind == "count":
        dozens = p.text.startswith(("dozen", "doz ")) and before is not None and fresh and before.kind == "bare"
        if dozens and before is not None and before.value > 1 and (before.value * p.value) % 1 == 0:
            p.value *= before.value
            scan.use(i - 1)
        return
    word = i - 2 if before is not None and before.kind == "sep" and before.name == ":" else i - 1
    alone = scan.kind_at(word - 1) in ("", "sep") and scan.kind_at(i + 1) in ("", "sep")
    if alone and scan.kind_at(word) == "cue:guest_word" and p.value > 1 and p.value % 1 == 0:
        p.kind = "guests"
        scan.use(word)
    bottle = after is not None and after.kind == "bare" and after.value in _ONE_OF and scan.kind_at(i + 2) == "cue:of"
    if p.value == 1 and bottle:
        scan.use(i)


def _times_a_bottle(scan: Scan, i: int, p: Phrase) -> None:
    """The figure beside the sign is what each bottle holds when a unit follows it, and else how many bottles there are."""
    before, after = scan.at(i - 1), scan.at(i + 1)
    if before is None or scan.used[i - 1]:
        return
    bottle = before.kind == "vessel"
    if bottle and before.size is None and after is not None and after.kind == "unit":
        if _LEAST_ML <= (rough_ml(p.value, after.unit) or 0.0) <= _LARGEST_ML:  # "3 bottles x 70 cl"
            before.size = (p.value, after.unit)
            scan.use(i, i + 1)
        return
    if not 1 < p.value <= MOST_BOTTLES or p.value != int(p.value):
        return
    if bottle and before.size is None and not before.amounts:  # "bottles x 3, 700 ml each"
        j = i + 2 if scan.kind_at(i + 1) == "sep" else i + 1
        size = scan.at(j)
        if size is None or _ml(size) < _LEAST_ML or scan.kind_at(j + 1) != "cue:each":
            return
        before.size = (size.value, size.unit)
        scan.use(j, j + 1)
    if bottle and not before.amounts:  # "70 cl bottle x3"
        before.amounts, before.value = (p.value,), p.value
        scan.use(i)
    elif after is None or after.kind != "vessel" or after.size is not None or after.amounts:
        return
    elif _ml(before) >= LEAST_BOTTLE_ML:
        after.size, after.amounts, after.value = (before.value, before.unit), (p.value,), p.value  # "70 cl x 3 bottles"
        scan.use(i - 1, i)


def _times_so_much(scan: Scan, i: int, p: Phrase) -> None:
    """ "25 guests x 3 drinks x 45 ml tequila": the last is an amount."""
    unit = scan.at(i + 1)
    if unit is None or unit.kind != "unit" or scan.used[i + 1] or unit.unit not in ("ml", "cl", "oz"):
        return
    j = i + 3 if scan.kind_at(i + 2) == "cue:of" else i + 2
    if scan.kind_at(j) in ("name", "context") and scan.kind_at(i - 1) in ("cue:serve_word", "count", "drink", "times", "guests"):
        p.kind, p.unit = "amount", unit.unit
        scan.use(i + 1)


def _plural(scan: Scan, i: int) -> None:
    """ "three 70s": bottles of 70 cl."""
    q = scan.at(i - 1)
    touching = q is not None and q.end == scan.items[i].start
    if q is not None and q.kind == "bare" and q.value in _CL_PLURALS and touching and not scan.used[i - 1]:
        q.kind, q.name, q.size = "vessel", "bottles", (q.value, "cl")
        scan.use(i)


def _filled_to(scan: Scan, i: int) -> None:
    """ "water to make 2 L", "top with soda to 2 L": what the volume leaves is that, and the amount is not its own."""
    j = i + 1
    while (q := scan.at(j)) is not None and q.is_cue(*_LINKS) and not scan.used[j]:
        j += 1
    links = scan.items[i + 1 : j]
    if _ml(scan.at(j)) < _LEAST_FILL_ML or not any(q.is_cue("to", "make_it", "rest") for q in links):
        return
    if scan.kind_at(i - 1) in _OWN or scan.kind_at(i - 2) in ("cue:how_much", "percent"):
        return  # "200 ml water to 1 L", "how much water to 1 L"
    for q in links:
        q.name = "to"
    links[-1].name = "rest"
    scan.cue_names = {q.name for q in scan.items if q.kind == "cue"}


def _tops(scan: Scan, i: int) -> bool:
    """Whether the name at i is what tops up: "topped w/ soda"."""
    k = i - 1
    while scan.kind_at(k) in ("cue:with", "cue:of"):
        k -= 1
    return scan.kind_at(k) in ("cue:top", "cue:rest")


OWNS_AMOUNT = ("name", "context", "unknown", "percent")  # what an amount before it may belong to


def bottles_counted(scan: Scan, v: Phrase) -> bool:
    """ "3 bottles 1 L vodka how many 45 ml": the amount behind the bottles is what each of them holds."""
    return bool(v.amounts) and v.amounts[0] > 1 and scan.has("how_many") and len(scan.kinds("name", "context")) == 1
