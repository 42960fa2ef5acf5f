"""What a drink costs in all where it is said in pieces: figures added up, waste on top, a glass's share of a bottle."""

import re

from grammar.request import Money
from grammar.scan import Scan, Unclear

_LABELS = ("name", "context", "garnish", "unknown", "cue:garnish", "cue:ice", "cue:rest", "cue:slush")
_BETWEEN = (*_LABELS, "cue:and", "cue:each", "cue:cost", "cue:of", "cue:for", "cue:with", "sep")
_SAID_PLUS = frozenset(["+", "plus"])
_WASTE = frozenset(["wastage", "waste", "spillage", "spill", "loss", "shrinkage", "breakage", "overpour"])
_LOSE = frozenset(["lose", "losing", "lost", "allow", "allowing"])


def waste_of(scan: Scan) -> float:
    """ "2.20 cost plus 5% wastage": the share that is poured away on top. Marks it."""
    for i in scan.kinds("percent"):
        for j in (i + 1, i + 2, i - 1):
            p = scan.at(j)
            linked = j != i + 2 or scan.kind_at(i + 1) in ("cue:for", "cue:of", "cue:to", "cue:in")
            if p is not None and p.text in _WASTE and linked and scan.items[i].value <= 0.5:
                scan.use(i, j, *[k for k in (i - 1,) if k >= 0 and scan.items[k].text in _LOSE])
                return scan.items[i].value
    return 0.0


def added_up(scan: Scan) -> Money | None:
    """ "liquid 3.10 + garnish .25 + straw .05": what goes into one drink, each with its cost, added up. Marks them."""
    if scan.kinds("amount", "same_amount", "vessel", "ratio", "house"):
        return None
    run: list[int] = []
    for i in scan.kinds("bare", "money"):
        if not _is_cost(scan, i):
            continue
        if run and not _joined(scan, run[-1], i):
            if len(run) > 1:
                break
            run = []
        run.append(i)
    if len(run) < 2:
        return None
    first, last = run[0] - _labels_before(scan, run[0]), run[-1] + _labels_after(scan, run[-1])
    pieces = {i: _pieces(scan, i) for i in run}
    scan.use(*range(first, last + 1))
    currency = next((scan.items[i].unit for i in run if scan.items[i].unit), "")
    return Money(sum(scan.items[i].value * many for i, many in pieces.items()), currency)


def _pieces(scan: Scan, i: int) -> float:
    """ "2 olives .10 each": how many of it there are. Marks the count. Raises Unclear unclear_number where each is not said."""
    k = i - _labels_before(scan, i) - 1
    many = scan.at(k)
    if many is None or k == i - 1 or scan.used[k] or many.kind != "bare" or many.value != int(many.value):
        return 1.0
    if scan.kind_at(i + 1) != "cue:each":
        raise Unclear("unclear_number", [many], many.text)
    scan.use(k, i + 1)
    return many.value


def _is_cost(scan: Scan, i: int) -> bool:
    """Whether the figure at i is money for a piece: with cents or a sign, and no price of the drink."""
    p = scan.items[i]
    sold = "cue:price" in (scan.kind_at(i - 1), scan.kind_at(i + 1))
    return not sold and (p.kind == "money" or re.fullmatch(r"\d*[.,]\d\d?", p.text) is not None)


def _joined(scan: Scan, i: int, j: int) -> bool:
    """Whether the figures at i and j are two pieces of one cost: "3.10 + garnish .25", "3.10 liquid and .25 garnish"."""
    between = range(i + 1, j)
    plus = [k for k in between if scan.items[k].is_cue("and")]
    if any(scan.kind_at(k) not in _BETWEEN for k in between):
        return False
    if not plus:  # "liquid 2.10, garnish .30"; "gin 26.50, vermouth 12.50" are bottles
        labels = [scan.kind_at(k) for k in between if scan.kind_at(k) in _LABELS]
        return bool(labels) and not {"name", "context", "unknown"}.intersection(labels)
    if any(scan.items[k].text in _SAID_PLUS for k in plus):
        return True
    return any(scan.kind_at(k) in _LABELS for k in between)


def _labels_before(scan: Scan, i: int) -> int:
    k = 1
    while scan.kind_at(i - k) in _LABELS:
        k += 1
    return k - 1


def _labels_after(scan: Scan, i: int) -> int:
    k = 1
    while scan.kind_at(i + k) in _LABELS:
        k += 1
    return k - 1


_SHARED = re.compile(
    r"\b(\d+) (?:glasses|serves|servings|pours|drinks|shots|measures)(?: come)?(?: of it)?"
    r" (?:to|from|per|in|out of|off|a|each|/)(?: (?:a|the|each|one|every))? ?(?:bottle|btl)\b"
    r"|\b(?:bottle|btl) (?:does|pours|gives|makes|is|=|gets(?: us| me)?) (\d+) (?:glasses|serves|servings|pours|drinks|shots)\b"
)

#: "8.50 a bottle, 6 glasses, sells at 5": with the price of one bottle and no amount, the glasses are those of it
_GLASSES = re.compile(r"\b(\d+) (?:glasses|pours)\b")


def shared_bottle(scan: Scan) -> Money | None:
    """ "8.50 a bottle, 6 glasses to a bottle": a glass's share of the one price of a bottle. Marks both."""
    said = _SHARED.search(scan.text) or _GLASSES.search(scan.text)
    priced = [i for i in scan.kinds("bare", "money") if _a_bottle(scan, i)]
    if said is None or len(priced) != 1 or scan.kinds("amount", "same_amount", "ratio"):
        return None
    if said.re is _GLASSES and any(scan.items[i].size is not None for i in scan.kinds("vessel")):
        return None
    many = float(said[1] or said[said.re.groups])
    if not many > 0:
        return None
    p = scan.items[priced[0]]
    scan.use(priced[0], *[i for i, q in enumerate(scan.items) if said.start() <= q.start < said.end()])
    scan.use(*scan.kinds("vessel", "name", "context", "drink"))
    return Money(p.value / many, p.unit)


def _a_bottle(scan: Scan, i: int) -> bool:
    """Whether the figure at i is the price of a bottle: "8.50 a bottle", "a bottle is 8.50"."""
    after, before = scan.at(i + 1), scan.at(i - 1)
    if after is not None and after.is_cue("each"):
        after = scan.at(i + 2)
    behind = after is not None and after.kind == "vessel" and not after.amounts[1:] and after.text.split()[0] not in ("6", "12")
    linked = before is not None and before.is_cue("at", "cost", "equals") and scan.kind_at(i - 2) == "vessel"
    led = linked or (before is not None and before.kind == "vessel")
    named = scan.kind_at(i - 1) == "name" and scan.kind_at(i - 2) == "cue:of" and scan.kind_at(i - 3) == "vessel"
    return behind or led or named  # "bottle of fizz 9"
