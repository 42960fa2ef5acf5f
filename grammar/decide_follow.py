"""Whether a message changes, or asks of, the request before it."""

import re

from grammar.decide_wants import at_to
from grammar.frames.dilution_told import stands_alone
from grammar.phrase import Phrase
from grammar.scan import Scan, rough_ml

_ASKING = (
    "same", "double", "triple", "half", "oops", "swap", "each", "serve_word", "freezer", "abv", "proof_word", "cost", "price",
    "label", "standard_drinks", "allergens", "bottles", "fit", "water", "dilution", "make_it", "but", "none", "margin",
    "pour_cost", "headspace", "slush", "how_many", "bigger", "smaller", "forget", "imperial_out", "final",
)  # fmt: skip


#: how it should taste, without a figure: nobody but the bar can say how much that is
TASTE = re.compile(
    r"\b(?:less|more|fewer|too much) (water|dilution)\b|\b(?:stronger|weaker|lighter|boozier|sweeter|drier|sourer)\b"
    r"|\b(?:less|more|too) (?:strong|weak|sweet|sour|dry|boozy|bitter)\b"
)
_TASTES = re.compile(r"\b(?:too|so|very|really|bit|not|less|more) $")


def without_tastes(phrases: list[Phrase], text: str) -> None:
    """ "guest says too dry, go 3 to 1": how it tastes, not the dry of the two vermouths. Makes it a filler."""
    for p in phrases if any(c.isdigit() for c in text) else ():
        if p.kind == "context" and p.text == "dry" and _TASTES.search(text[: p.start]) is not None:
            p.kind, p.name = "filler", ""


_IN_PLACE = re.compile(r"\binstead\b|\brather than\b|\bin place of\b|\bnot \d")
_OF_THEM = re.compile(r"\bof (?:them|those|these|em)\b")
_CHANGE = ("same", "make_it", "double", "triple", "half", "oops", "swap", "replace")
_PRICED = re.compile(r"\d\s*(?:per|/|for|a)\s*(?:bottle|btl|\d{3}|litre|liter|l\b)")


_PRICES = re.compile(
    r"\d\s*(?:(?!of\b)\w{1,7}\s+)?(?:/|per|for|an?|the)\s*(?:(?:an?|the)\s+)?"
    r"(?:\d{3} ?(?:ml)?|bottle|btl|litre|liter|l|kg|handle|magnum)\b"
)


def _only_prices(scan: Scan) -> bool:
    """Whether every figure is a bottle's price: "gin 30 a litre, vermouth $12/L, what does one cost"."""
    figures = [i for i in scan.kinds("amount", "bare", "percent", "proof", "same_amount", "money") if scan.items[i].name != "a"]
    sizes = [i for i in figures if scan.items[i].value in (500, 700, 750, 1000)]
    found = len(_PRICES.findall(scan.text))
    named = scan.kinds("name", "context")
    ratios = [scan.items[i] for i in scan.kinds("ratio") if scan.items[i].name != "SLASH" or scan.items[i].values[-1] < 500]
    alike = all(scan.items[i].kind in ("bare", "money") for i in figures) and len(figures) == len(named) > 1
    if ratios:
        return False
    if found > 0 and alike and not scan.kinds("count", "guests"):
        return True  # "rye 34 a bottle, vermouth 14"
    return found > 0 and found >= len(figures) - min(len(sizes), found) and not scan.kinds("count", "guests")


def only_one_kept(scan: Scan) -> bool:
    """Whether all ingredients but one are refused: "no syrup, lime 30 each, 18 of them" is no drink of its own."""
    named = scan.kinds("name", "context")
    refused = {scan.items[i].name for i in named if scan.kind_at(i - 1) == "cue:none"}
    return bool(refused) and len({scan.items[i].name for i in named} - refused) <= 1


def halved(scan: Scan) -> tuple[int, int] | None:
    """Where the ingredient named twice and the new one stand in "use half vodka half gin for the gin"; None for anything else."""
    names = scan.kinds("name", "context")
    halves = [i for i in names if scan.kind_at(i - 1) == "bare" and scan.items[i - 1].value == 0.5]
    last = names[-1] if names else -1
    if len(names) != 3 or len(halves) != 2 or halves != names[:2] or scan.kind_at(last - 1) not in ("cue:for", "cue:swap"):
        return None
    old = next((i for i in halves if scan.items[i].name == scan.items[last].name), None)
    return None if old is None else (old, next(i for i in halves if i != old))


#: "3 L of that but gin is 47%": the drink before, in another volume
_VOLUME_OF_IT = re.compile(
    r"\b\d+(?:\.\d+)? ?(?:l|ml|cl|litres?|liters?|gal(?:lons?)?|quarts?) of (?:that|it|this|the same)\b"
    r"(?= *$|[,.;!?]| (?:but|with|and|at|please|pls|now|then|though)\b)"
)


_WHAT_IF = re.compile(r"\W*(?:and |so |but )?(?:what )?if (?:i|we|you) \w+ ")
_OWNERS = ("amount", "bare", "percent", "proof", "cue:of", "cue:for", "count", "times", "fold")


def one_amount_changed(scan: Scan) -> bool:
    """ "vermouth 25, water 20%, 36 serves": a name before its one figure, beside water and a count, is no drink of its own."""
    names = scan.kinds("name", "context")
    if len(names) != 1 or not scan.has("water", "dilution") or scan.kinds("ratio", "house", "drink"):
        return False
    i = names[0]
    linked = scan.kind_at(i + 1) in ("cue:to", "cue:rest", "cue:at", "cue:set_to", "cue:make_it")
    figure = i + 2 if linked else i + 1
    told = scan.kind_at(figure) in ("amount", "bare") and scan.kind_at(figure + 1) in ("", "sep", "cue:and", "cue:with")
    return told and scan.kind_at(i - 1) not in _OWNERS


def may_stand_alone(scan: Scan) -> bool:
    """Whether a message after another may be a request of its own: "1 L of 2:1 syrup", not "make it 12" or "45 gin".

    Such a message is read by itself first; only what does not read by itself is taken for a change.
    """
    lead = scan.items[0] if scan.items else None
    if at_to(scan) and scan.kinds("amount", "vessel") and scan.kinds("name"):
        return True  # "vodka 1 L at 50 to 40"
    if stands_alone(scan):
        return True  # "1500 undiluted, should be 20% water, only put 100 in so far"
    if _VOLUME_OF_IT.search(scan.text) or one_amount_changed(scan):
        return False
    if _OF_THEM.search(scan.text):
        return False
    if lead is None or halved(scan) or (
        lead.is_cue("forget") and (scan.has("water", "dilution") or scan.kinds("name", "context"))
    ):
        return False
    if scan.has(*_CHANGE) or lead.is_cue("and", "with", "but", "none", "or") or _IN_PLACE.search(scan.text):
        return False
    names = {scan.items[i].name for i in scan.kinds("name", "context")}
    if lead.is_cue("bigger", "smaller") and len(names) <= 1 and not scan.kinds("count", "guests", "drink", "house"):
        return False  # "add 20% water and 10 ml falernum each"
    if scan.has("but") and not names and not scan.kinds("amount", "drink", "house"):
        return False  # "20 but 25% of the final is water"
    figures = scan.kinds("amount", "bare", "percent", "proof", "same_amount", "money")
    counted = scan.kinds("count", "guests", "times", "fold")
    sizeless = any(p.kind == "vessel" and p.size is None for p in scan.items)
    if _only_prices(scan) or only_one_kept(scan):
        return False  # of what was asked before
    if names:
        own = scan.has("how_many", "stock", "label") or bool(scan.kinds("ratio"))
        one_change = len(names) == 1 and len(figures) == 1 and not counted and not own
        moved = scan.has("to", "bigger", "smaller") and not scan.kinds("percent", "proof", "ratio")
        priced = len(names) == 1 and len(figures) <= 2 and not counted and _PRICED.search(scan.text) is not None
        return not (one_change or moved or priced or (sizeless and len(names) == 1 and not counted))
    if scan.kinds("unknown") and not scan.kinds("ratio", "house", "drink") and not counted:
        return False
    if scan.kinds("temperature", "negative") and not figures and not scan.has("least", "abv"):
        return False
    if scan.has("fit") or (sizeless and not counted):
        return False
    return not (len(scan.items) <= 2 and len(figures) == 1 and bool(scan.kinds("amount", "bare")))


def follows(scan: Scan, spec: bool) -> bool:
    """Whether, with a last request at hand, the message changes or asks of it."""
    if halved(scan):
        return True
    items = scan.items
    counted = scan.kinds("count", "guests", "times", "fold")
    names = len({items[i].name for i in scan.kinds("name", "context")})
    if _only_prices(scan) and names:
        return True
    if spec and names == 1 and _PRICED.search(scan.text) and not counted:
        return True  # "rum is 21 per 700, what does that come to per drink"
    if scan.kinds("house", "drink") and not scan.has("same", "make_it", "but"):
        return False
    cue = scan.has("to", "same", "but", "make_it", "double", "triple", "half", "oops", "swap", "bigger", "smaller", "replace")
    if scan.has("cut") and scan.kinds("percent", "proof") and scan.kinds("amount"):
        return False
    if spec and names == 1 and _OF_THEM.search(scan.text) and len(scan.kinds("bare", "count")) > 1:
        return True  # "gin 40, water 20%, 25 of them"
    if _VOLUME_OF_IT.search(scan.text) or one_amount_changed(scan):
        return True
    if spec:
        amounts = len(scan.kinds("amount", "bare"))
        change = cue or scan.has("cut", "raise", "none") or (amounts == 1 and names == 1)
        if names >= 2 and amounts >= 2 and counted and not scan.has("make_it", "cut", "raise", "same", "bigger"):
            return False
        if scan.has("convert") or (
            names >= 2 and amounts >= 2 and not cue and not scan.has("cut", "raise") and not only_one_kept(scan)
        ):
            return False
        if (
            scan.has("abv", "cost", "freezer", "how_many", "bottles", "how_much", "what")
            and not cue
            and names >= 1
            and amounts >= 1
            and not _WHAT_IF.match(scan.text)
        ):
            return scan.has("bottles") or (
                scan.has("how_many")
                and amounts == 1
                and (rough_ml(items[scan.kinds("amount", "bare")[0]].value, items[scan.kinds("amount", "bare")[0]].unit) or 0)
                >= 200
            )
        return change and not (names == 1 and amounts == 1 and counted and not cue)
    return changes(scan)


def changes(scan: Scan) -> bool:
    """Whether a message without a recipe can be a change to a recipe, or a question about it."""
    if TASTE.search(scan.text):
        return True
    if scan.has("convert") and scan.kinds("amount"):
        return False
    if scan.kinds("amount") and scan.kinds("unit") and not scan.has("oops", "same", "make_it"):
        return False
    known = scan.kinds(
        "bare",
        "count",
        "guests",
        "times",
        "fold",
        "percent",
        "ratio",
        "temperature",
        "negative",
        "unit",
        "vessel",
        "amount",
        "money",
        "name",
        "context",
    )
    asks = scan.has(*_ASKING)
    unknown = len(scan.kinds("unknown"))
    if unknown > 2 and not scan.kinds("ratio"):
        return False
    whole_question = (
        scan.has("freezer", "cut", "syrup_word", "sweeten")
        and scan.kinds("percent")
        and not scan.has("water", "dilution", "same")
    )
    if whole_question:
        return False
    if scan.has("standard_drinks", "label") and scan.kinds("percent") and scan.kinds("amount", "vessel"):
        return False
    if scan.kinds("percent", "proof") and scan.kinds("amount") and not scan.has("make_it", "same", "but"):
        return False
    two = len(scan.kinds("percent", "proof")) >= 2 and not _IN_PLACE.search(scan.text)
    if two or (scan.kinds("proof") and scan.has("abv")):
        return False
    if scan.has("pour_cost", "margin", "cost", "price") and len(scan.kinds("money", "bare")) >= 2:
        return False
    return bool(known) or asks


def only_follow_words(scan: Scan) -> bool:
    """A change or a question of something, but of what was not said."""
    if len(scan.kinds("unknown")) > 0:
        return False
    figures = scan.kinds(
        "amount",
        "bare",
        "percent",
        "ratio",
        "money",
        "count",
        "name",
        "context",
        "drink",
        "vessel",
        "temperature",
        "negative",
    )
    if (
        not figures
        and len(scan.items) <= 3
        and scan.has("cost", "label", "abv", "freezer", "standard_drinks", "allergens", "price")
    ):
        return True
    lead = scan.items[0]
    if (
        lead.is_cue("and", "with", "but", "now")
        and scan.has("water", "dilution", "freezer")
        and not scan.kinds("amount", "name", "count")
    ):
        return True
    if scan.kinds("count", "vessel") and not scan.has("make_it", "same"):
        return False
    if scan.kinds("amount", "percent") and not scan.has("make_it", "same", "oops"):
        return False
    if scan.kinds("amount") and scan.kinds("percent") and all(scan.items[i].text == "should be" for i in scan.cues("oops")):
        return False  # "the mix is 1600 ml, water should be 20% of the finished volume"
    return (
        scan.has("same", "double", "triple", "half", "oops", "swap", "make_it", "each")
        or (scan.has("none", "but") and (scan.has("water", "dilution") or bool(scan.kinds("bare", "count", "name"))))
        or bool(scan.kinds("unit") and not scan.kinds("amount", "bare") and len(scan.items) <= 3)
    )
