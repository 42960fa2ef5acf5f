"""Money in a follow-up: what is charged, and the pour cost, margin or markup that is wanted."""

import re
from dataclasses import replace

from grammar.frames.cost_shares import tax_of
from grammar.request import FollowUp, Money
from grammar.scan import Scan

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
