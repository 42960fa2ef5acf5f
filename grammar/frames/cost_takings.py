"""A night's takings against what was spent: "sold 140 cocktails at 13, spent 364 on booze, pour cost?"."""

from grammar.frames.spec import numbers_read
from grammar.request import Cost, Money, Yield
from grammar.scan import Scan


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
        if not price.value * 2.0 < cost.value < price.value * many or scan.kind_at(spent + 1) == "cue:each":
            continue  # "sold 20 drinks at 12, they cost 2.60": of one
        scan.use(i, *sums, *scan.kinds("name", "context", "unknown", "drink"))
        numbers_read(scan)
        return Cost(None, Yield(serves=many), Money(cost.value / many, cost.unit), Money(price.value, price.unit), ask=asks[0])
    return None
