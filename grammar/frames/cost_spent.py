"""What was spent on all of the drinks: the bottles that went, money on booze in general, a night's takings."""

import re

from grammar.frames.spec import numbers_read
from grammar.request import Cost, Money, Yield
from grammar.scan import MOST_BOTTLES, Scan

_BOOZE = frozenset(["booze", "liquor", "alcohol", "spirits", "hard liquor"])
_TAKINGS = re.compile(
    r"\b(?:revenue|takings|turnover|sales|took|taken|rang|rung up)(?: (?:of|was|were|is|are|in|at|for|up))?"
    r" ?(?:[$€£] ?)?(\d+(?:\.\d+)?)"
    r"|(\d+(?:\.\d+)?) (?:[$€£] )?(?:in |of )?(?:revenue|takings|turnover|sales)\b"
)
_FOR_MANY = 2.0  # prices: a sum beyond them is of more than one drink: common practice, no source
_USED = re.compile(r"\b(?:used|used up|went through|got through|gone through|took|spent|poured)\b")


def spent_generally(scan: Scan) -> None:
    """ "spent 364 on booze": no bottle's name."""
    if scan.kinds("amount", "same_amount", "vessel", "ratio", "house"):
        return
    for i in scan.kinds("name", "context"):
        if scan.items[i].text in _BOOZE:
            scan.items[i].kind = "filler"
            scan.use(i)


def serves_said(scan: Scan) -> Yield:
    """ "200 ppl 3 drinks ea": the drinks of all of them. Marks them."""
    found = scan.kinds("count", "times", "guests")
    if not found:
        return Yield()
    guests = [i for i in found if scan.items[i].kind == "guests"]
    each = [i for i in found if scan.items[i].kind == "count" and scan.kind_at(i + 1) == "cue:each"]
    if len(found) == 2 and len(guests) == len(each) == 1:
        scan.use(*found, each[0] + 1)
        return Yield(serves=scan.items[guests[0]].value * scan.items[each[0]].value)
    scan.use(found[0])
    return Yield(serves=scan.items[found[0]].value)


def used_bottles(scan: Scan) -> tuple[Money, Yield] | None:
    """ "60 martinis used 4 gin at 23 and 2 dry vermouth at 11": what one of them costs, and how many. Marks all of it."""
    counts = scan.kinds("count")
    if len(counts) != 1 or not _USED.search(scan.text) or scan.kinds("amount", "same_amount", "ratio", "house"):
        return None
    total, currency, taken = 0.0, "", [counts[0]]
    for i in scan.kinds("name", "context"):
        many = scan.at(i - 1)
        if many is not None and many.is_cue("of"):
            many = scan.at(i - 2)
        price = scan.at(i + 2)
        if many is None or price is None or scan.kind_at(i + 1) != "cue:at" or price.kind not in ("bare", "money"):
            return None
        bottles = many.amounts[0] if many.kind == "vessel" and many.amounts else many.value if many.kind == "bare" else 0.0
        if not 0 < bottles <= MOST_BOTTLES:
            return None
        total, currency = total + bottles * price.value, price.unit or currency
        taken += [k for k in range(scan.items.index(many), i + 3)]
    serves = scan.items[counts[0]].value
    if not total or not serves > 0:
        return None
    scan.use(*taken)
    return Money(total / serves, currency), Yield(serves=serves)


def takings(scan: Scan, makes: Yield) -> tuple[Money, Money] | None:
    """ "sold 220 drinks, revenue 2640, used 540 of stock": what one cost, and what it sold for. Marks both sums."""
    said = _TAKINGS.search(scan.text)
    sums = scan.kinds("bare", "money")
    if said is None or len(sums) != 2 or not (makes.serves or 1.0) > 0:
        return None
    at = said.start(said.lastindex or 1)
    taken = [i for i in sums if scan.items[i].start <= at < scan.items[i].end]
    if len(taken) != 1:
        return None
    price, cost = scan.items[taken[0]], scan.items[next(i for i in sums if i != taken[0])]
    scan.use(*sums)
    many = makes.serves or 1.0
    return Money(cost.value / many, cost.unit), Money(price.value / many, price.unit)


def sold_for(scan: Scan) -> Cost | None:
    """So many sold at a price and the one sum that all of them cost, where their share is asked. Marks them; None without."""
    asks = [name for name in ("pour_cost", "margin", "markup") if scan.has(name)]
    sums = scan.kinds("money", "bare")
    if not asks or len(sums) < 2 or scan.kinds("vessel", "ratio", "percent"):
        return None
    for i in scan.kinds("count", "bare", "amount"):
        counted = scan.items[i].kind == "count" or (i > 0 and scan.items[i - 1].text in ("sold", "sell", "selling"))
        sold = i + 1
        while scan.kind_at(sold) in ("name", "context", "drink", "unknown"):
            sold += 1  # "90 beers", "12 large reds"
        sold += 1
        others = [k for k in sums if k not in (i, sold)]
        if not counted or scan.kind_at(sold - 1) not in ("cue:at", "cue:for") or sold not in sums or len(others) != 1:
            continue
        spent = others[0]
        if scan.items[i].value <= 1 or any(k != i for k in scan.kinds("amount")):
            continue
        many, price, cost = scan.items[i].value, scan.items[sold], scan.items[spent]
        if not price.value * _FOR_MANY < cost.value < price.value * many or scan.kind_at(spent + 1) == "cue:each":
            continue  # "sold 20 drinks at 12, they cost 2.60": of one
        scan.use(i, *sums, *scan.kinds("name", "context", "unknown", "drink"))
        numbers_read(scan)
        return Cost(None, Yield(serves=many), Money(cost.value / many, cost.unit), Money(price.value, price.unit), ask=asks[0])
    return None
