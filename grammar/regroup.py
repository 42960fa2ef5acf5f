"""Figures that stand beside a word which changes what they count: before the frames take amounts and counts.

Lives here: "4 doubles (50 ml)", "35 bobby burns at ...". Each changes phrases in place and marks what it explained;
nothing here makes a Request.
"""

import re

from grammar.ingredients_strong import LIQUEURS
from grammar.loads import bottles_of, per_bottle
from grammar.loose_counts import loose_counts
from grammar.phrase import Phrase
from grammar.poured_bottles import bottles_named, bottles_poured
from grammar.pours import counted_pours, poured_in, water_is_in
from grammar.scan import SERVE_LIMIT_ML, Scan, Unclear, rough_ml
from grammar.sized import sized
from grammar.titled import a_drink, counted_title, volume_of_title
from grammar.used_up import bottles_at_hand
from grammar.words_slang import LATER

_LARGEST_SHOT_ML = 75.0  # common practice, no source
#: below this each, a size in brackets is one measure's, not all of them together: common practice, no source
_LEAST_SHOT_ML, _LEAST_DOUBLE_ML = 20.0, 35.0
_ROOM = re.compile(  # "leave 500 ml for ice"
    r"\bleav(?:e|ing) (?:about |around )?(\d+(?:\.\d+)?) ?(?:ml|cl|l|oz|%|percent)"
    r" (?:for (?:the )?ice|free|empty|clear|of room|room|space|spare)\b"
)
_LEFT = re.compile(r"\b(?:leav(?:e|ing)|minus|less|allow(?:ing)?)\b")
_NAMED = ("name", "context")
_FIGURES = ("amount", "bare", "same_amount")


def regroup(scan: Scan) -> None:
    """All of them, in one pass over the phrases."""
    loose_counts(scan)
    bottles_at_hand(scan)
    bottles_named(scan)
    bottles_of(scan)
    per_bottle(scan)
    sized(scan)
    _ratio_again(scan)
    for i, p in enumerate(scan.items):
        if scan.used[i]:
            continue
        if p.kind == "bare":
            bottles_poured(scan, i, p)
            counted_title(scan, i, p)
            counted_pours(scan, i, p)
        elif p.kind == "unknown" and p.text in ("once", "after"):
            water_is_in(scan, i)
        elif p.kind == "unknown" and p.text in _SHARES:
            _shares(scan, i, p, i + 1)
        elif p.kind == "same_amount":
            _measures(p)
        elif p.kind == "percent" and scan.kind_at(i + 1) in ("cue:smaller", "cue:bigger") and scan.kind_at(i + 2) in _NAMED:
            raise Unclear("unclear_number", [p, scan.items[i + 2]], f"{p.text} {scan.items[i + 1].text} {scan.items[i + 2].text}")
        elif p.kind == "amount":
            _glassware(scan, i)
            volume_of_title(scan, i, p)
            _dashes_of(scan, i, p)
        elif p.is_cue("water"):
            _of_which(scan, i)
        elif p.kind == "name" and p.name == "half and half":
            _shares(scan, i, p, i + 1)
        elif p.kind in _NAMED:
            _flavoured(scan, i, p)
            _topped_with_so_much(scan, i)
        elif p.kind == "drink":
            a_drink(scan, i, p)
        elif p.kind == "cue" and p.text == "double":
            _a_double(scan, i)
        elif p.kind == "cue" and p.text in _SO_MUCH:
            _half_of_that(scan, i, p)


def _ratio_again(scan: Scan) -> None:
    """ "2:1 manhattan, 60 rye 30 sweet", "50/50s: 45 gin 45 fino": the amounts say in full what the ratio says."""
    ratios = scan.kinds("ratio")
    laid = [(i, scan.items[i].value) for i in scan.kinds("amount", "bare") if scan.kind_at(i + 1) in _NAMED]
    values = scan.items[ratios[0]].values if len(ratios) == 1 else ()
    if len(values) < 2 or len(laid) < len(values) or scan.items[ratios[0]].unit or 0.0 in values:
        return
    scaled = [value / part for (_, value), part in zip(laid, values, strict=False)]
    alike = max(scaled) - min(scaled) <= 0.01 * max(scaled)
    units = {scan.items[i].unit for i, _ in laid[: len(values)]}
    if alike and len(units) == 1 and scan.kind_at(ratios[0] + 1) not in _NAMED:
        scan.items[ratios[0]].kind = "filler"
        scan.use(ratios[0])


def _topped_with_so_much(scan: Scan, i: int) -> None:
    """ "soda to top 1 oz", "tonic on top 60 ml": with an amount it is one more ingredient."""
    top, size = scan.at(i + 1), scan.at(i + 2)
    if top is None or size is None or scan.used[i + 1] or scan.used[i + 2] or top.text not in LATER:
        return
    small = size.kind == "amount" and 0.0 < (rough_ml(size.value, size.unit) or 0.0) < SERVE_LIMIT_ML
    if small and scan.kind_at(i + 3) in ("", "sep") and scan.kind_at(i - 1) not in _FIGURES:
        scan.items[i + 1], scan.items[i + 2] = size, top
        scan.use(i + 2)


def _dashes_of(scan: Scan, i: int, p: Phrase) -> None:
    """ "2 oz rye, 1 oz sweet, 2 dashes": dashes of nothing, where every name has its amount before it.

    Raises Unclear unread.
    """
    after = i + 2 if scan.kind_at(i + 1) == "cue:each" else i + 1
    if p.unit != "dash" or scan.kind_at(after) not in ("", "sep"):
        return
    name = i - 1 if scan.kind_at(i - 1) in ("name", "context") else i - 2
    named = scan.kinds("name", "context")
    leads = bool(named) and scan.kind_at(named[0] - 1) in ("amount", "bare")  # else the amounts follow their names
    if name in named and leads and scan.kind_at(name - 1) in ("amount", "bare") and not scan.items[name].name.endswith("bitters"):
        raise Unclear("unread", [p], p.text)


_SHARES = {"halves": 2, "thirds": 3, "quarters": 4, "fourths": 4, "fifths": 5}


def _shares(scan: Scan, i: int, p: Phrase, j: int) -> None:
    """ "thirds: mezcal, sweet, red bitter", "half and half sherry and scotch": equal parts of just as many names."""
    while scan.kind_at(j) in ("sep", "cue:of", "cue:and", "cue:with", "name", "context"):
        j += 1
    named = [k for k in range(i + 1, j) if scan.kind_at(k) in _NAMED]
    opens = scan.kind_at(i - 1) in ("", "sep", "cue:scale") and scan.kind_at(j) not in ("amount", "bare")
    if opens and len(named) == _SHARES.get(p.text, 2) and not scan.kinds("ratio"):
        p.kind, p.name = "cue", "equal"
        scan.cue_names.add("equal")


_SO_MUCH = {"half that": 0.5, "half as much": 0.5, "twice that": 2.0, "twice as much": 2.0, "double that": 2.0}


def _half_of_that(scan: Scan, i: int, p: Phrase) -> None:
    """ "750 ml of rye, half that of sweet vermouth": an amount told by the one before it."""
    j = i + 2 if scan.kind_at(i + 1) == "cue:of" else i + 1
    if scan.kind_at(j) not in ("name", "context") or scan.kind_at(j + 1) in ("cue:in", "amount", "bare", "ratio"):
        return
    before = [k for k in range(i) if scan.items[k].kind in ("amount", "bare", "vessel") and not scan.used[k]]
    if not before or scan.kind_at(i - 1) not in ("sep", "cue:and", "cue:with", "name", "context"):
        return
    said = scan.items[before[-1]]
    p.value, p.unit = (said.value, said.unit) if said.kind != "vessel" or said.size is None else said.size
    p.kind, p.value = "amount" if p.unit else "bare", p.value * _SO_MUCH[p.text]
    scan.cue_names = {q.name for q in scan.items if q.kind == "cue"}


def _measures(p: Phrase) -> None:
    """ "4 doubles (50 ml)", "4 shots (25 ml)": so many of that size, when the size is too small to be all of them."""
    doubles = p.text.split()[1].startswith("double") if len(p.text.split()) > 1 else False
    least = _LEAST_DOUBLE_ML if doubles else _LEAST_SHOT_ML
    if len(p.amounts) != 2 or not (doubles or p.units[0] == "shot") or p.amounts[0] != int(p.amounts[0]):
        return
    size = rough_ml(p.amounts[1], p.units[1])
    if size is None or p.amounts[0] < 1:
        return
    each = size / p.amounts[0] < least
    p.kind, p.unit = "amount", p.units[1]
    p.value = p.amounts[1] * (p.amounts[0] if each else 1.0)


def _glassware(scan: Scan, i: int) -> None:
    """ "a 1 oz shot of 40% whiskey": the word for the glass repeats the amount; "12 shots of 1.5 oz vodka": so many of that."""
    p, nxt = scan.items[i], scan.at(i + 1)
    if nxt is None or scan.used[i + 1]:
        return
    if nxt.kind == "unit" and nxt.unit in ("shot", "part", "jigger") and scan.kind_at(i + 2) == "cue:of":
        many = scan.at(i - 1)
        if many is not None and scan.kind_at(i - 1) == "bare" and many.value > 1 and scan.has("rest", "top", "final"):
            poured_in(scan, i - 1, i + 1)
            return
        scan.use(i + 1)
        scan.items[i + 1].kind = "filler"
        return
    size = scan.at(i + 2)
    if p.unit == "shot" and p.value == int(p.value) and nxt.is_cue("of") and size is not None and size.kind == "amount":
        named = scan.kind_at(i + 3) in ("percent", "proof", *_NAMED)
        if named and scan.has("final", "rest", "top") and (rough_ml(size.value, size.unit) or 0.0) <= _LARGEST_SHOT_ML:
            size.value *= p.value
            size.name = "whole"
            scan.use(i, i + 1)


def _a_double(scan: Scan, i: int) -> None:
    """ "7.50 for a double 50 ml", "a double (50 ml)": the word names the pour and doubles nothing."""
    named = i + 1 if scan.kind_at(i + 1) in _NAMED else i  # "double vodka (50 ml, 40%)"
    j = named + 2 if scan.kind_at(named + 1) == "sep" and scan.items[named + 1].name == "(" else named + 1
    q = scan.at(j)
    ml = (rough_ml(q.value, q.unit) or 0.0) if q is not None and q.kind == "amount" else 0.0
    ends = named > i or scan.kind_at(j + 1) in ("", "sep", "cue:margin", "cue:pour_cost", "cue:cost", "cue:price")
    if ends and _LEAST_DOUBLE_ML <= ml <= 2 * _LARGEST_SHOT_ML:
        scan.use(i)
        scan.items[i].kind = "filler"
        scan.cue_names.discard("double")


def _of_which(scan: Scan, i: int) -> None:
    """ "25 ml of which is water": the amount is the water's."""
    linked = scan.kind_at(i - 1) == "cue:what" and scan.kind_at(i - 2) == "cue:of"
    if linked and scan.kind_at(i - 3) in ("amount", "bare"):
        for k in (i - 1, i - 2):
            scan.items[k].kind = "filler"
            scan.use(k)


def _flavoured(scan: Scan, i: int, p: Phrase) -> None:
    """ "grapefruit aperitif": the fruit says what the aperitif tastes of, and is no juice beside it; "cassis liqueur" is one."""
    q = scan.at(i + 1)
    if p.name.endswith(" juice") and "juice" not in p.text and q is not None and q.name in ("aperitif", "liqueur"):
        q.text = f"{p.text} {q.text}"
        p.kind = "filler"
        scan.use(i)
    elif p.name in LIQUEURS and q is not None and q.name == "liqueur" and scan.text[p.end : q.start] == " ":
        q.kind = "filler"  # "1 oz cassis liqueur": what it is, said again
        scan.use(i + 1)


def left_free(scan: Scan) -> int | None:
    """ "a 1 L bottle, leave 50 ml headspace": where the room to leave stands, an amount or a share; None without."""
    room = _ROOM.search(scan.text)
    if room is not None:
        return next((i for i in scan.kinds("amount", "percent") if scan.items[i].start == room.start(1)), None)
    for c in scan.cues("headspace") if _LEFT.search(scan.text) else ():
        for i in (c - 1, c + 1, c - 2, c + 2):
            if scan.kind_at(i) in ("amount", "percent") and (abs(i - c) == 1 or scan.kind_at((i + c) // 2) == "cue:of"):
                return i
    return None


def listed_amounts(scan: Scan) -> None:
    """ "30 30 30 gin sweet bitter", "60 30 15 - vodka, lime, syrup": a run of bare numbers before as many names lists amounts."""
    for i in scan.kinds("bare"):
        figures = _run(scan, i, ("bare",))
        after = figures[-1] + 1
        parted = scan.kind_at(after) == "sep"
        names = _run(scan, after + parted, ("name", "context"))
        plain = not parted and figures[-1] - i == len(figures) - 1 and names and names[-1] - names[0] == len(names) - 1
        many = len(figures)
        same = len(names) == many if not plain else len(names) >= many
        if (many >= (2 if plain else 3) and same and scan.kind_at(i - 1) not in ("bare", "name")) or _behind(scan, figures):
            first = scan.items[i]
            first.kind, first.values, first.name = "ratio", tuple(scan.items[k].value for k in figures), "SLASH"
            scan.use(*range(i + 1, figures[-1] + 1))
            return


def _behind(scan: Scan, figures: list[int]) -> bool:
    """ "vodka cranberry lime 60 60 30": whether the figures stand behind as many names, and no other amount is said."""
    named = scan.kinds(*_NAMED)
    many = len(figures)
    if not named and many > 2 and figures[-1] - figures[0] == many - 1:  # "negroni 30 30 30"
        return scan.kind_at(figures[0] - 1) == "drink" and not scan.kinds("amount", "ratio")
    if many < 2 or len(named) != many or named[-1] > figures[0] or _run(scan, named[0], _NAMED) != named:
        return False
    return not scan.kinds("amount", "ratio", "same_amount") and not [i for i in scan.kinds("bare") if named[0] < i < figures[0]]


def _run(scan: Scan, i: int, kinds: tuple[str, ...]) -> list[int]:
    """Indices of the phrases of these kinds from i on, with at most a comma or "and" between two."""
    found: list[int] = []
    while scan.kind_at(i) in kinds:
        found.append(i)
        i += 1
        if scan.kind_at(i) in ("sep", "cue:and") and scan.kind_at(i + 1) in kinds and scan.items[i].name in (",", "and"):
            i += 1
    return found
