"""What of a price is asked for and what is known of it: pour cost, margin, markup, the tax and whether it is inside."""

import re

from grammar.frames.cost_extras import no_price, share_said
from grammar.scan import Scan


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
    """The tax rate, and whether the price holds it. Marks both."""
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
    if rate is not None and inside is None:
        plus = any(
            scan.at(k) is not None and scan.items[k].is_cue("and") for i in scan.cues("tax") for k in (i - 1, i - 2) if k >= 0
        )
        inside = not plus if not plus else False
    return rate, inside


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
