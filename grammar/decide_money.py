"""Whether a message is about money: a sign, a price for a size, a share of the price, or a cue for cost beside a figure."""

import re

from grammar.scan import Scan

_AT_A_PRICE = re.compile(
    r"(?:\bat|@) ?\d+(?:\.\d+)? (?:per|a|for|/) ?(?:500|700|750|1000|litre|liter|bottle|btl)\b"
    r"|\d\.\d\d (?:per|a|/) ?1? ?(?:l|litre|liter)\b"
)

#: "10 ml over on a 32/700 ml tequila, loss per week?", "from 20 to 24 a bottle": a bottle's price, and what is lost by it
_LOSES_MONEY = re.compile(
    r"\d ?/ ?(?:500|700|750|1000|70|75)(?: ?(?:ml|cl)| |s)\b.*\b(?:loss|losing|lose|lost|wast\w+)\b"
    r"|\b(?:loss|losing|lose|lost|wast\w+)\b.*\d ?/ ?(?:500|700|750|1000|70|75)(?: ?(?:ml|cl)| |s)\b"
    r"|\bfrom \d+(?:\.\d+)? to \d+(?:\.\d+)? (?:a|per|for a|the) (?:bottle|btl|litre|liter|700|750|1 ?l|70 ?cl)\b"
    r"|\bover[ -]?pour\w*\b.*\d (?:for|per|a|the) (?:an? )?(?:700|750|1000|70 ?cl|litre|liter|bottle|btl)\b"
)


def is_cost(scan: Scan, names: list[int], amounts: list[int]) -> bool:
    """Whether money is asked about; "what does it cost" alone is a follow-up."""
    said = (
        re.search(r"\d ?/ ?(?:l|litre|liter|kg)\b", scan.text)
        or scan.has("pour_cost", "margin", "markup")
        or scan.kinds("money")
        or _AT_A_PRICE.search(scan.text) is not None
        or _LOSES_MONEY.search(scan.text) is not None
        or (_money_cue(scan) and (amounts or names or scan.kinds("ratio") or scan.has("what", "how_much")))
    )
    alone = scan.has("cost") and not scan.kinds("money") and not amounts and not names
    return bool(said) and not alone


def _money_cue(scan: Scan) -> bool:
    """Whether cost or price is meant: "menu" is one only beside a figure."""
    for i in scan.cues("cost", "price"):
        beside = scan.kind_at(i - 1) in ("bare", "money") or scan.kind_at(i + 1) in ("bare", "money")
        if scan.items[i].text != "menu" or beside:
            return True
    return False
