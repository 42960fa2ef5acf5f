"""What of a price is asked for and what is known of it: pour cost, margin, markup, the tax and whether it is inside."""

import re

from grammar.frames.cost_extras import no_price, share_said
from grammar.scan import Scan, Unclear


def asks_of(scan: Scan) -> list[str]:
    """What may be wanted, from the cues without a number, likeliest first."""
    asks: list[str] = []
    for name in ("pour_cost", "margin", "price", "cost", "markup"):
        for i in scan.cues(name):
            if scan.kind_at(i + 1) not in ("money", "bare", "percent") and scan.kind_at(i - 1) != "percent":
                asks.append(name)
                break
    return asks


def tax_of(scan: Scan) -> tuple[float | None, bool | None]:
    """The tax rate, and whether the price holds it. Marks both. Raises Unclear no_price for "inc vat" without a rate."""
    included = re.search(r"\b(?:inc|incl|including|inclusive|included)\b", scan.text) is not None and scan.has("tax", "tax_in")
    inside: bool | None = True if included or scan.has("tax_in") else False if scan.has("tax_out") else None
    rate: float | None = None
    for i in scan.cues("tax", "tax_in", "tax_out"):
        scan.use(i)
        for j in (i - 1, i + 1, i - 2, i + 2):
            p = scan.at(j)
            if rate is None and p is not None and p.kind == "percent" and not scan.used[j]:
                other = [scan.kind_at(k) for k in (j - 1, j + 1)]
                if any(o in ("cue:margin", "cue:pour_cost") for o in other) and scan.kind_at(j + 1) not in (
                    "cue:tax",
                    "cue:tax_in",
                    "cue:tax_out",
                ):
                    continue
                scan.use(j)
                rate = p.value
    if rate is None:
        rate = _bare_rate(scan)
    if rate is None and inside and _TAX.search(scan.text) and scan.kinds("bare", "money"):
        raise Unclear("no_price", [scan.items[i] for i in scan.cues("tax", "tax_in")], "tax")
    if rate is not None and inside is None:
        plus = any(
            scan.at(k) is not None and scan.items[k].is_cue("and") for i in scan.cues("tax") for k in (i - 1, i - 2) if k >= 0
        )
        inside = not plus if not plus else False
    return rate, inside


_TAX = re.compile(r"\b(?:tax|taxes|vat|gst|iva|mwst|hst|moms)\b")
_CLOSES = ("", "sep", "cue:and", "cue:with", "cue:tax", "cue:tax_in", "cue:tax_out", "cue:price")
_MOST_TAX = 30.0  # percent, above it no country's (27 % is the most in Europe): common practice, no source


def _bare_rate(scan: Scan) -> float | None:
    """ "vat 20", "20 vat": a whole figure that is no sum of money, where others are. Marks it."""
    for i in scan.cues("tax", "tax_in", "tax_out"):
        for j in (i + 1, i - 1):
            p = scan.at(j)
            if p is None or scan.used[j] or p.kind != "bare" or scan.kind_at(j + 1) not in _CLOSES:
                continue
            if not p.text.isdigit() or not 2 <= p.value <= _MOST_TAX:
                continue
            led = scan.kind_at(j - 1) in ("cue:price", "cue:cost", "cue:at") or scan.kind_at(i + 1) in ("cue:price", "cue:cost")
            sums = len(scan.kinds("bare", "money")) - 1
            needed = 1 if scan.kinds("percent") else 2  # "price inc vat 12, cost 3": both are sums
            if sums >= needed and not (j == i - 1 and led):
                scan.use(j)
                return p.value / 100.0
    return None


def discount(scan: Scan) -> float:
    """ "25% off a 12 drink": the share that is taken off the price. Marks it."""
    for i in scan.kinds("percent"):
        after = scan.text[scan.items[i].end :].lstrip()
        if not after.startswith(("off", "discount")) or not scan.items[i].value < 1:
            continue
        k = i + 2 if scan.kind_at(i + 1) in ("cue:of", "unknown", "cue:for") else i + 1
        p = scan.at(k)
        if p is not None and p.kind == "count":
            p.kind = "bare"  # "off a 12 drink": no twelve drinks
        scan.use(i, *[k for k in (i + 1,) if scan.kind_at(k) == "unknown" and scan.items[k].text == "discount"])
        return scan.items[i].value
    return 0.0


def cost_on_price(scan: Scan) -> None:
    """ "3.10/14 pour cost": what it costs over what it sells for, where nothing else is said. Puts them apart."""
    ratios = scan.kinds("ratio")
    if len(ratios) != 1 or not scan.has("pour_cost", "margin", "markup"):
        return
    i = ratios[0]
    p = scan.items[i]
    alone = not scan.kinds("name", "context", "house", "amount", "same_amount", "bare", "money", "vessel", "percent")
    if p.name != "SLASH" or len(p.values) != 2 or p.unit or not alone or not p.values[0] < p.values[1]:
        return
    price = p.copy()
    p.kind, p.value, price.kind, price.value = "bare", p.values[0], "bare", p.values[1]
    scan.items.insert(i + 1, price)
    scan.used.insert(i + 1, False)


def share_beside(scan: Scan, cue: str) -> float | None:
    """The percent beside a cue. Marks it."""
    for i in scan.cues(cue):
        for j in (i - 1, i + 1, i + 2, i - 2, i + 3):
            p = scan.at(j)
            if p is None or scan.used[j] or p.kind not in ("percent", "bare"):
                continue
            between = scan.items[min(i, j) + 1 : max(i, j)]
            if any(
                not (
                    q.is_cue("of", "at", "to", "cost", "final", "want", "for", "equals", "percent_word")
                    or (q.kind == "sep" and q.name in ":(")
                )
                for q in between
            ):
                continue
            if p.kind == "bare" and ((j == i - 1 and share_said(scan, j)) or no_price(scan, i, j)):
                scan.use(j)
                return p.value / 100
            if p.kind == "bare":
                figures = len(scan.kinds("bare", "money"))
                if any(q.is_cue("at") for q in between) or (figures == 2 and not scan.has("price")):
                    continue
                follows = scan.kind_at(j + 1)
                if j < i or p.value < 5 or p.value >= 100 or follows in ("cue:cost", "cue:price") or scan.kinds("percent"):
                    continue
                if scan.kind_at(j - 1) in ("cue:cost", "cue:price"):
                    continue
                scan.use(j)
                return p.value / 100
            scan.use(j)
            return p.value
    return None


def markup_of(scan: Scan) -> float | None:
    for i in scan.cues("markup"):
        scan.use(i)
        for j in (i - 1, i + 1, i - 2):
            p = scan.at(j)
            if p is not None and p.kind in ("fold", "bare", "times", "percent") and not scan.used[j]:
                scan.use(j)
                return p.value if p.kind != "percent" else 1 + p.value
    return None


_ROUNDED = re.compile(
    r"\bround(?:ed|ing)?(?: it)?(?: up| down| off)?(?: to)?(?: the)?(?: nearest| next| closest)? ?[$€£]?(\.?\d+(?:\.\d+)?)"
)


def rounded(scan: Scan) -> None:
    """ "round up to the nearest .50": no sum of money, and nothing rounds so here. Raises Unclear unclear_number."""
    said = _ROUNDED.search(scan.text)
    if said is not None:
        steps = [p for p in scan.items if p.kind in ("bare", "money") and p.start <= said.start(1) < p.end]
        raise Unclear("unclear_number", steps, said[0])
