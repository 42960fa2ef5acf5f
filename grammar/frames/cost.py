"""Frame for money: cost of a batch or a serve, pour cost, margin, price for a target, tax in or out."""

import re
from dataclasses import replace

from grammar.frames.bottle_prices import bottle_prices, sized_elsewhere
from grammar.frames.cost_coins import one_currency, small_change, small_coins
from grammar.frames.cost_extras import (
    SAYS,
    asked_unit_as_pour,
    cost_of_all,
    drink_cost_of,
    flat_costs,
    glasses_of_bottle,
    loose_share,
    measure_asked,
    of_all,
    priced,
    spent_on,
    wanted_share,
)
from grammar.frames.cost_moves import grown, overpoured, price_moved
from grammar.frames.cost_poured import cost_of_one, poured_in_order, sold_at
from grammar.frames.cost_shares import asks_of, cost_on_price, discount, markup_of, rounded, share_beside, tax_of
from grammar.frames.cost_spent import serves_said, sold_for, spent_generally, takings, used_bottles
from grammar.frames.cost_sums import added_up, shared_bottle, waste_of
from grammar.frames.spec import numbers_read, read_spec
from grammar.request import Cost, Measure, Money, Part, Recipe, Yield
from grammar.scan import Scan, Unclear
from grammar.vessels import join_vessels


def read_cost(scan: Scan) -> Cost:
    """A money question. Raises Unclear no_price (nothing to reckon with), out_of_range, unclear_number, two_readings."""
    counted = sold_for(scan)
    if counted is not None:
        return counted
    small_coins(scan)
    one_currency(scan)
    cost_on_price(scan)
    rounded(scan)
    for i in scan.kinds("count"):
        if "." in scan.items[i].text or "," in scan.items[i].text:  # "a 2.60 drink", "a 9.00 cocktail"
            scan.items[i].kind = "bare"
    asked = [i for i in scan.kinds("percent") if scan.items[i].text.endswith(" %") and scan.kind_at(i + 1) in ("", "sep")]
    if len(asked) == 1 and re.search(r"\d %\s*\?*$", scan.text) and scan.has("cost") and scan.has("price"):
        scan.items[asked[0]].kind = "bare"  # "menu 13.5 cost 2.97 %?": the percent is asked for
        scan.items[asked[0]].value *= 100
    join_vessels(scan)
    asks = asks_of(scan)
    moved, (over, too_much) = price_moved(scan), overpoured(scan)
    waste = waste_of(scan)
    tax, tax_in = tax_of(scan)
    pour_cost = share_beside(scan, "pour_cost")
    margin = share_beside(scan, "margin")
    markup = markup_of(scan)
    off = discount(scan)
    if pour_cost is None and margin is None:
        pour_cost = wanted_share(scan)
    if pour_cost is None and margin is None:
        pour_cost, margin = loose_share(scan)
    summed = added_up(scan)
    known = {"pour_cost": pour_cost, "margin": margin}
    ask = next((name for name in asks if known.get(name) is None), asks[0] if asks else "")
    for value, what in ((pour_cost, "pour cost"), (margin, "margin")):
        if value is not None and not 0 < value < 1:
            raise Unclear("out_of_range", [p for p in scan.items if p.kind == "percent"], f"{value * 100:g} % {what}")
    scan.use(*[i for i in scan.kinds("bare") if scan.items[i].text == "one" and scan.kind_at(i + 1) == "cue:cost"])
    asked_unit_as_pour(scan)
    asked_pour = measure_asked(scan) or too_much
    used = used_bottles(scan)
    if used is not None and pour_cost is None and margin is None and markup is None:
        price = _labelled(scan, "price")
        numbers_read(scan)
        return Cost(None, used[1], used[0], price, tax=tax, tax_in=tax_in, ask=ask)
    spent_generally(scan)
    dearer = grown(scan)
    flat = flat_costs(scan)
    summed = summed or shared_bottle(scan)
    bottles = sized_elsewhere(scan, bottle_prices(scan))
    if bottles:
        flat += small_change(scan)
        bottles = poured_in_order(scan, bottles)
    names = scan.kinds("name", "context", "house", "ratio")
    if names or bottles:
        price = _labelled(scan, "price") or (sold_at(scan) if bottles else None)
        cost = _labelled(scan, "cost") if not bottles else None
        recipe, makes = _spec(scan, bottles, asked_pour)
        notes = (*recipe.notes, f"read_as:{over}:only what is too much") if over else recipe.notes
        recipe = replace(recipe, parts=(*recipe.parts, *flat), notes=notes)
        numbers_read(scan)
        return Cost(recipe, makes, cost, price, pour_cost, margin, markup, tax, tax_in, None, ask, waste, moved)
    scan.use(*[i for i in scan.kinds("amount") if scan.items[i].name == "a"])  # "45 kr a shot"
    makes = Yield()
    drink_cost = drink_cost_of(scan, any(v is not None for v in (pour_cost, margin, markup)))
    for i in scan.kinds("bare"):  # "batch of 30 costs 63"
        if scan.kind_at(i - 1) == "cue:scale" or (scan.kind_at(i - 1) == "cue:of" and scan.kind_at(i - 2) == "cue:scale"):
            scan.use(i)
            makes = Yield(serves=scan.items[i].value)
            break
    makes = serves_said(scan) if scan.kinds("count", "times", "guests") else makes
    shared = glasses_of_bottle(scan, makes)
    sold = takings(scan, makes) if pour_cost is None and margin is None and markup is None else None
    if sold is not None:
        numbers_read(scan)
        return Cost(None, makes, *sold, tax=tax, tax_in=tax_in, ask=ask)
    cost = summed or drink_cost or shared or _labelled(scan, "cost")
    price = _labelled(scan, "price")
    left = scan.kinds("money", "bare")
    if ask == "cost" and cost is None and price is None and len(left) == 1 and (pour_cost is not None or margin is not None):
        scan.use(left[0])  # "$16 cocktail at 22%, what is my budget"
        price = Money(scan.items[left[0]].value, scan.items[left[0]].unit)
    if cost is None and price is None and len(left) == 1 and {"cost", "price"} <= set(asks) and priced(scan, left[0]):
        scan.use(left[0])  # "price on the board 16, ingredient budget at 21%"
        price = Money(scan.items[left[0]].value, scan.items[left[0]].unit)
    cost, price = _unlabelled(scan, cost, price, pour_cost, margin, markup)
    if cost is not None:
        cost = Money(cost.value + dearer, cost.currency)
    if price is not None:
        price = Money(price.value * (1.0 - off), price.currency)
    elif off:
        raise Unclear("no_price", [p for p in scan.items if p.kind == "percent"], "price")
    many = makes.serves or 1.0
    of_one = cost_of_one(scan)
    if cost is not None and shared is None and (scan.has("final") or cost_of_all(scan)) and many > 1 and not of_one:
        cost = Money(cost.value / many, cost.currency)  # "30 drinks cost 63 total"
    cost = of_all(scan, cost, price, makes)
    if cost is None and price is None:
        raise Unclear("no_price", [p for p in scan.items if p.kind == "cue"], ask)
    shares = pour_cost is not None or margin is not None or markup is not None
    if not shares and cost is not None and price is None and (spent_on(scan, makes) or (of_one and many > 1)):
        numbers_read(scan)
        each = cost if of_one else Money(cost.value / many, cost.currency)
        return Cost(None, makes, each, ask="cost")
    if not shares and (cost is None or price is None) and not (cost is not None and (summed or waste or moved)):
        raise Unclear("no_price", [p for p in scan.items if p.kind in ("money", "bare")], "price" if price is None else "cost")
    numbers_read(scan)
    return Cost(None, makes, cost, price, pour_cost, margin, markup, tax, tax_in, None, ask, waste, moved)


def _labelled(scan: Scan, cue: str) -> Money | None:
    """The figure beside "cost" or "price". Marks it."""
    order = (1, 2, -1) if cue == "price" or scan.has("price") else (1, -1, 2)
    last = max((i for i in scan.cues("cost", "price")), default=-1)
    if (
        scan.kind_at(last - 1) in ("bare", "money")
        and scan.kind_at(last + 1) in ("", "sep")
        and scan.has("cost")
        and scan.has("price")
    ):
        order = (-1, 1, 2)  # "on 11 sell 2.2 cost": the words stand after the figures
    for i in scan.cues(cue):
        for step in order:
            j = i + step
            p = scan.at(j)
            if p is None or scan.used[j] or p.kind not in ("money", "bare"):
                continue
            between = scan.items[min(i, j) + 1 : max(i, j)]
            if any(
                not (
                    q.is_cue("of", "at", "to", "for", "equals", "in", "each", "scale")
                    or (q.kind == "sep" and q.name in ":(")
                    or q.text in SAYS
                )
                for q in between
            ):
                continue
            if p.kind == "bare" and scan.kind_at(j + 1) in ("name", "unit", "drink"):
                continue
            if step == -1 and scan.kind_at(j - 1) in (f"cue:{'price' if cue == 'cost' else 'cost'}",):
                continue
            scan.use(j)
            if scan.kind_at(j + 1) == "cue:each":
                scan.use(j + 1)
            return Money(p.value, p.unit)
    return None


def _unlabelled(
    scan: Scan,
    cost: Money | None,
    price: Money | None,
    pour_cost: float | None,
    margin: float | None,
    markup: float | None,
) -> tuple[Money | None, Money | None]:
    """Figures left: the one that is missing, told by what else is known; "at 12 a drink" is a price."""
    left = scan.kinds("money", "bare")
    for i in left:
        p = scan.items[i]
        if p.kind == "bare" and scan.kind_at(i + 1) in ("count", "drink"):
            continue
        costed = scan.has("cost") and not scan.has("price", "pour_cost", "margin", "markup") and len(left) == 1
        sold = scan.kind_at(i - 1) == "cue:at" or (
            scan.kind_at(i + 1) == "cue:each"
            and scan.has("cost", "pour_cost", "margin")
            and not scan.has("price")
            and scan.kind_at(i + 2) != "cue:cost"  # "1.95 each liquid cost"
        )
        sold = sold and not (costed and cost_of_one(scan))  # "100 drinks at 2.15 each, total cost"
        asks_price = scan.has("price") and (pour_cost is not None or margin is not None or markup is not None)
        if cost is None and (asks_price or (price is not None)) and not (sold and scan.has("cost") and not scan.has("price")):
            cost = Money(p.value, p.unit)
        elif price is None and (sold or cost is not None):
            price = Money(p.value, p.unit)
        elif cost is None:
            cost = Money(p.value, p.unit)
        else:
            continue
        scan.use(i)
        if scan.kind_at(i + 1) == "cue:each":
            scan.use(i + 1)
    if cost is not None and price is not None and len(left) == 2 and cost.value > price.value and not scan.has("price", "cost"):
        cost, price = price, cost
    return cost, price


def _spec(scan: Scan, bottles: list[Part], asked: Measure | None) -> tuple[Recipe, Yield]:
    """The spec that is costed, its parts carrying the bottle prices. A lone pour ("50 ml pour") is a spec of one."""
    recipe, makes = read_spec(scan, need=False)
    priced = {b.name: b for b in bottles}
    parts: list[Part] = [b for b in bottles if b.measure is not None]
    for part in recipe.parts:
        b = priced.get(part.name)
        again = any(o.name == part.name and o.measure is not None for o in (*recipe.parts, *bottles))
        if part.measure is None and b is not None and again:
            continue
        parts.append(replace(part, price=b.price, size=b.size) if b is not None else part)
    if len(parts) == len(recipe.parts) and not any(p.price for p in parts) and len(bottles) == 1 and len(parts) == 1:
        parts[0] = replace(parts[0], price=bottles[0].price, size=bottles[0].size)
    if all(p.measure is None for p in parts):
        pour = asked or makes.serve
        if pour is not None and bottles:
            parts = [replace(b, measure=pour) for b in (bottles if scan.has("each", "equal") else bottles[:1])]
            makes = replace(makes, serve=None, serves=makes.serves or (1.0 if asked else None))
        elif bottles and not parts:
            parts = list(bottles)
    if len(parts) == 1 and parts[0].measure is None and parts[0].size is not None and makes.serves is not None:
        shared = Measure(parts[0].size.value / makes.serves, parts[0].size.unit)  # "26 a bottle, 14 serves out of it"
        parts = [replace(parts[0], measure=shared)]
    parts = [p for p in parts if p.measure is not None or p.price is not None]
    poured = [b for b in bottles if b.typed and b.name not in {p.name for p in parts}]
    if 0 < len(parts) < len(bottles) and poured:  # "gin 24/L 50 ml, vermouth 12 a bottle": how much of it is not said
        raise Unclear("no_amounts", [], poured[0].typed, names=poured[0].typed)
    return replace(recipe, parts=tuple(parts)), makes
