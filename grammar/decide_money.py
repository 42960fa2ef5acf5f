"""Whether a message is about money: a sign, a price for a size, a share of the price, or a cue for cost beside a figure."""

import re

from grammar.phrase import Phrase
from grammar.request import Measure
from grammar.scan import Scan, bottled

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

#: "a 1.75 of vodka at 31.50, what's that an ounce", "18.50 for 70 cl, what does a double work out to"
_PER_POUR = re.compile(
    r"(?:\b(?:per|an?)|/) ?(?:\d+(?:\.\d+)? ?(?:ml|cl|oz|ounces?)|oz|ounce|shot|measure|double|single|pour|nip|dram)\b"
)
_PRICED = re.compile(
    r"(?:\b(?:at|is|for|costs?)|@) ?\d+(?:\.\d\d?)?(?![.\d]| ?(?:ml|cl|oz|l|x|proof|abv|deg)\b| ?%)|\b\d+\.\d\d\b"
    r"|\b\d+(?:\.\d\d?)? (?:an?|per) (?:bottle|btl)\b"
)
_PRICED_SIZE = re.compile(r"\b\d+(?:\.\d\d)? for (?:an? |the )?(?:70 ?cl|75 ?cl|700|750|1000|1 ?l|litre|liter|bottle)\b")
_COMES_TO = re.compile(r"\b(?:comes?|works?|worked|coming) (?:out|to|in at)\b")
_NO_MONEY = ("abv", "how_many", "standard_drinks", "dilution", "water", "cut", "proof_word", "freezer", "convert", "label")


def _priced_by_the_pour(scan: Scan) -> bool:
    """Whether a bottle with a figure that can only be its price is asked for by the ounce or the measure."""
    sized = any(p.kind in ("amount", "bare", "vessel") and _holds(p) for p in scan.items)
    figures = [p for p in scan.items if p.kind == "bare" and not _holds(p)]
    if not sized or len(figures) != 1 or scan.has(*_NO_MONEY) or scan.kinds("percent", "proof", "count", "guests"):
        return False
    asked = scan.has("what", "how_much") or _COMES_TO.search(scan.text)
    by_pour = asked and _PER_POUR.search(scan.text) and _PRICED.search(scan.text)
    return bool(by_pour or (_COMES_TO.search(scan.text) and _PRICED_SIZE.search(scan.text)))


def _holds(p: Phrase) -> bool:
    return bottled(Measure(*p.size)) if p.size is not None else p.kind != "vessel" and bottled(p)


def is_cost(scan: Scan, names: list[int], amounts: list[int]) -> bool:
    """Whether money is asked about; "what does it cost" alone is a follow-up."""
    said = (
        re.search(r"\d ?/ ?(?:l|litre|liter|kg)\b", scan.text)
        or scan.has("pour_cost", "margin", "markup")
        or scan.kinds("money")
        or _AT_A_PRICE.search(scan.text) is not None
        or _LOSES_MONEY.search(scan.text) is not None
        or _priced_by_the_pour(scan)
        or (_money_cue(scan) and (amounts or names or scan.kinds("ratio") or scan.has("what", "how_much")))
    )
    alone = scan.has("cost") and not scan.kinds("money") and not amounts and not names
    return bool(said) and not alone


_SOLD = re.compile(r"\bhow many (?:\w+ ){0,5}(?:sell|sold)\b")


def _money_cue(scan: Scan) -> bool:
    """Whether cost or price is meant: "menu" is one only beside a figure, and "how many can i sell" asks for pours."""
    for i in scan.cues("cost", "price"):
        beside = scan.kind_at(i - 1) in ("bare", "money") or scan.kind_at(i + 1) in ("bare", "money")
        counted = scan.items[i].text in ("sell", "sold") and not beside and _SOLD.search(scan.text) is not None
        if (scan.items[i].text != "menu" or beside) and not counted:
            return True
    return False
