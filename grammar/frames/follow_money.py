"""Money in a follow-up: what is charged, and the pour cost, margin or markup that is wanted."""

import re
from dataclasses import replace

from grammar.frames.cost_shares import tax_of
from grammar.request import FollowUp, Measure, Money, Part
from grammar.scan import Scan, Unclear, bottled

_OF_COST = re.compile(
    r"\bcosts?(?: price)?(?: me| us)? (?:is|are|was|goes|went|now|of|at|up to|drops to|drops|comes to|rises to|\d)"
)
_MOST_TIMES = 20.0  # nobody sells at more times the cost: common practice, no source


def take_markup(scan: Scan, out: FollowUp) -> FollowUp:
    """ "x4 markup", "3.5 times cost": so many times the cost is the price, not the batch. Marks it."""
    for c in scan.cues("markup"):
        for i in (c - 1, c + 1, c - 2, c + 2):
            p = scan.at(i)
            if p is not None and not scan.used[i] and p.kind in ("times", "fold", "bare") and 1.0 < p.value <= _MOST_TIMES:
                scan.use(i, c)
                return replace(out, markup=p.value, ask="cost")
    return out


def _sizes(scan: Scan) -> dict[int, Measure]:
    """The bottle sizes said, where no other amount is."""
    found: dict[int, Measure] = {}
    for i in scan.kinds("vessel", "amount"):
        p = scan.items[i]
        if p.kind == "amount" or p.size is not None:
            found[i] = Measure(*p.size) if p.size is not None else Measure(p.value, p.unit)
    return found


_NOT_PRICES = (
    "count", "guests", "times", "fold", "ratio", "percent", "drink", "house", "garnish", "same_amount", "unit",
)  # fmt: skip


def prices_alone(scan: Scan) -> bool:
    """ "gin is 20 a bottle, verm 12, both 700 ml. cost per serve?": what bottles cost, and not how much of them is poured."""
    named = scan.kinds("name", "context")
    priced = [i for i in named if scan.kind_at(i + 1) in ("bare", "money")]
    sizes = _sizes(scan)
    held = len(sizes) <= 1 and all(bottled(size) for size in sizes.values())
    others = scan.kinds(*_NOT_PRICES)
    figures = len(scan.kinds("bare", "money"))
    return scan.has("cost") and len(priced) > 1 and priced == named and figures == len(priced) and held and not others


def take_prices_alone(scan: Scan, out: FollowUp) -> FollowUp:
    """A price behind each name, for bottles of the one size said, or of none. Marks them.

    Raises Unclear two_readings for "gin 20 verm 12, cost": nothing says that the figures are money.
    """
    if not prices_alone(scan):
        return out
    sizes = _sizes(scan)
    size = next(iter(sizes.values()), None)
    if not scan.kinds("vessel", "money") and not sizes:
        named = [scan.items[i] for i in scan.kinds("name", "context", "bare")]
        raise Unclear("two_readings", named, "prices of bottles or amounts poured")
    parts: list[Part] = []
    for i in scan.kinds("name", "context"):
        p, price = scan.items[i], scan.items[i + 1]
        parts.append(Part(p.name, None, p.text, True, None, Money(price.value, price.unit), size))
        scan.use(i, i + 1)
    scan.use(*sizes, *scan.kinds("vessel"))
    scan.use_cues("each", "cost", "price", "serve_word", "in", "and")
    return replace(out, parts=tuple(parts), ask="cost")


def take_money(scan: Scan, out: FollowUp) -> FollowUp:
    """Prices, and shares: of the price, of the water, a strength. Marks them."""
    if scan.has("tax", "tax_in", "tax_out"):
        tax, tax_in = tax_of(scan)
        out = replace(out, tax=tax, tax_in=tax_in, ask=out.ask or "cost")
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
    margin = None if len(percents) != 1 or not scan.has("margin", "pour_cost") else not scan.has("pour_cost")
    out = replace(out, of_cost=bool(money) and _OF_COST.search(scan.text) is not None)
    return replace(out, margin=margin, money=tuple(money), percents=tuple(percents))
