"""What a drink costs beside its measured ingredients, a unit that a cost is asked for, and which figure is a price."""

import re

from grammar.request import Measure, Money, Part, Yield
from grammar.scan import Scan, Unclear, bottled

_NAMED = ("name", "context", "garnish")
SAYS = frozenset(["says", "say", "reads", "shows", "lists", "stays", "sits", "point", "fixed"])  # "menu says 14.50"
_MOST_WHOLE_COST = 6.0  # a round sum above it, with no cents, is as likely a price: common practice, no source
_MOST_POUR_COST = 0.4  # beyond it a share beside a price may be the margin: common practice, no source
_EXTRAS = (*_NAMED, "cue:garnish", "cue:ice")
_CENTS = re.compile(r"\d*\.\d\d")
_MEASURED = ("amount", "bare", "same_amount")


def flat_costs(scan: Scan) -> list[Part]:
    """ "plus 15 cents of sugar and bitters", "lime juice 25 cents a drink": money a serve. Marks them."""
    out: list[Part] = []
    for i in scan.kinds("bare"):  # "tonic .80 a drink": money, by its cents
        owned = scan.kind_at(i - 1) in _EXTRAS and scan.kind_at(i + 1) == "cue:each"
        added = scan.kind_at(i - 1) == "cue:and" and _spoken(scan, i + 2 if scan.kind_at(i + 1) == "cue:of" else i + 1)
        if _CENTS.fullmatch(scan.items[i].text) and (owned or added):
            scan.items[i].kind = "money"
    out += _pieces(scan)
    for i in scan.kinds("money"):
        linked = scan.kind_at(i + 1) in ("cue:of", "cue:for")
        first = i + 2 if linked else i + 1
        added = scan.kind_at(i - 1) == "cue:and"
        a_drink = scan.kind_at(i + 1) == "cue:each" and scan.kind_at(i + 2) not in ("amount", "bare", "vessel", "unit")
        if scan.kind_at(i - 1) in _EXTRAS and a_drink and scan.kind_at(i - 2) not in _MEASURED:
            first = last = i - 1
            scan.use(i + 1)
        elif (added or scan.kind_at(i + 1) == "cue:of") and _spoken(scan, first):
            last = first
            while scan.kind_at(last + 1) == "cue:and" and _spoken(scan, last + 2):
                last += 2
        else:
            continue
        named = scan.text[scan.items[first].start : scan.items[last].end]
        scan.use(i, *range(i + 1, first), *range(first, last + 1))
        price = Money(scan.items[i].value, scan.items[i].unit)
        out.append(Part(f"{named} a drink", Measure(1.0, "count"), named, False, None, price))
    return out


def _pieces(scan: Scan) -> list[Part]:
    """ "2 olives at 0.15 each", "one cherry @ $0.20 ea": so many pieces at so much. Marks them."""
    out: list[Part] = []
    for i in scan.kinds("garnish"):
        many, price = scan.at(i - 1), scan.at(i + 2)
        if price is None or price.kind not in ("bare", "money") or scan.kind_at(i + 1) != "cue:at":
            continue
        one = many is None or many.kind in ("cue", "sep")  # "an olive at 0.20 each"
        counted = many is not None and many.kind == "bare" and many.value == int(many.value) and not scan.used[i - 1]
        if scan.kind_at(i + 3) != "cue:each" or not (one or counted):
            continue
        first = scan.items[i] if one or many is None else many
        named = scan.text[first.start : scan.items[i].end]
        pieces = 1.0 if one else first.value
        scan.use(i, i + 1, i + 2, i + 3, *([] if one else [i - 1]))
        out.append(Part(f"{named} a drink", Measure(1.0, "count"), named, False, None, Money(pieces * price.value, price.unit)))
    return out


_LEDS_BOTTLE = ("cue:cost", "cue:at", "cue:equals")


def glasses_of_bottle(scan: Scan, makes: Yield) -> Money | None:
    """ "btl 12.60, 6 glasses, sells 7", "6 glasses, 15 for the bottle": a glass's share of a bottle's price. Marks the price."""
    for i in scan.kinds("bare", "money"):
        led = i - 2 if scan.kind_at(i - 1) in _LEDS_BOTTLE else i - 1
        if not (_is_a_bottle(scan, led) or (scan.kind_at(i + 1) == "cue:for" and _is_a_bottle(scan, i + 2))):
            continue
        p = scan.items[i]
        if makes.serves is not None and makes.serves > 1:
            scan.use(i)
            return Money(p.value / makes.serves, p.unit)
    return None


def _is_a_bottle(scan: Scan, i: int) -> bool:
    v = scan.at(i)
    return v is not None and v.kind == "vessel" and v.size is None and not v.amounts and v.name.startswith(("bottle", "btl"))


def of_all(scan: Scan, cost: Money | None, price: Money | None, makes: Yield) -> Money | None:
    """ "20 drinks cost 63, sells 9": a sum of twice the price of one and more is what all of them cost.

    Raises Unclear no_serves where a bottle costs more than what is sold of it, and nothing says how much that is.
    """
    many = makes.serves or 1.0
    bought = [p for p in scan.items if p.kind == "vessel" and p.name.startswith(("bottle", "btl"))]
    if cost is not None and price is not None and cost.value > price.value and many <= 1 and bought:
        raise Unclear("no_serves", bought, "how many drinks a bottle pours")  # "bottle 30, drink sells 12, pour cost?"
    if cost is None or price is None or many <= 1 or not cost.value / 2.0 > price.value >= cost.value / many:
        return cost
    return Money(cost.value / many, cost.currency)


def _spoken(scan: Scan, i: int) -> bool:
    """Whether the thing at i is named and has no amount of its own."""
    return scan.kind_at(i) in _EXTRAS and scan.kind_at(i + 1) not in _MEASURED


def asked_unit_as_pour(scan: Scan) -> None:
    """ "cost per ounce": one of that unit is the pour."""
    if any(not bottled(scan.items[i]) for i in scan.kinds("amount")):
        return
    for i in scan.kinds("unit"):
        if scan.kind_at(i - 1) == "cue:each" and scan.kind_at(i - 2) not in ("money", "bare") and scan.items[i].unit in _POURED:
            scan.items[i].kind, scan.items[i].value = "amount", 1.0
            scan.use(i - 1)


_POURED = frozenset(["oz", "us_fl_oz", "imp_fl_oz", "shot", "jigger", "cl"])
_ASKS_ONE = ("cue:cost", "cue:what", "cue:how_much", "cue:each", "cue:to")  # "comes out to an ounce"
_GLASSES = frozenset(["pint", "imp_pint", "oz", "us_fl_oz", "imp_fl_oz", "shot", "jigger", "cup"])


def measure_asked(scan: Scan) -> Measure | None:
    """ "30 L keg 145 quid, what's a pint cost": one of that unit is costed; a pint paid in pounds is British. Marks it."""
    for i in scan.kinds("amount", "unit"):
        p = scan.items[i]
        opens = scan.kind_at(i - 1) in ("sep", "cue:each") or i == 0  # "keg is 165 for 50 L, pint cost?"
        one = p.name == "a" if p.kind == "amount" else opens and p.unit not in _POURED
        paid = scan.kind_at(i - 2 if p.kind == "unit" else i - 1) in ("money", "bare", "count")
        led = i - 2 if scan.kind_at(i - 1) in ("cue:of", "cue:for") else i - 1
        asked = scan.kind_at(i + 1) == "cue:cost" or scan.kind_at(led) in _ASKS_ONE
        if one and asked and not paid and p.unit in _GLASSES:
            pounds = any(q.kind == "money" and q.unit == "£" for q in scan.items)
            scan.use(i)
            return Measure(1.0, "imp_pint" if pounds and p.unit == "pint" else p.unit)
    return None


def priced(scan: Scan, i: int) -> bool:
    """Whether only the word for a price, no other cue and no mark, leads to the figure at i."""
    for k in range(i - 1, -1, -1):
        p = scan.items[k]
        if p.kind == "sep" or p.is_cue("cost"):
            return False
        if p.is_cue("price"):
            return True
    return False


_COST_OF_ALL = re.compile(
    r"\b\d+ (?:\w+ )?(?:cost|costs|came to|come to|comes to|ran|set) (?:(?:me|us|back|about) ){0,2}\W?\d++(?:\.\d+)?+"
    r"(?! ?(?:\w+ )?(?:each|per|apiece|a pop|an?)\b| ?%)"
)


def cost_of_all(scan: Scan) -> bool:
    """ "48 drinks cost me 110": what so many drinks cost is for all of them, unless it says each."""
    return _COST_OF_ALL.search(scan.text) is not None


def spent_on(scan: Scan, makes: Yield) -> bool:
    """ "spent 212 for 80 serves, per drink?": the money is for all of them."""
    many = makes.serves is not None and makes.serves > 1
    return many and any(scan.kind_at(i - 1) not in ("money", "bare") for i in scan.cues("each"))


def wanted_share(scan: Scan) -> float | None:
    """ "want 20 percent, price it", "sell price at 20%": the share of the price that is wanted as the cost. Marks it."""
    wanted = [i for i in scan.kinds("percent") if scan.kind_at(i - 1) == "cue:want" or _priced_at(scan, i)]
    if len(wanted) != 1 or not scan.has("price"):
        return None
    scan.use(wanted[0])
    return scan.items[wanted[0]].value


def _priced_at(scan: Scan, i: int) -> bool:
    """ "sell price at 20%", "what to charge for 20%": the share of the price that the drink may cost."""
    led = scan.kind_at(i - 1) in ("cue:at", "cue:for") and i > 1 and scan.items[i - 2].is_cue("price")
    return led and scan.items[i].value <= _MOST_POUR_COST


#: percent of a price that is the drink's cost, or what is left of it: common practice, no source
_SHARES = {"pour_cost": (10.0, 45.0), "margin": (50.0, 90.0)}


def share_said(scan: Scan, i: int) -> bool:
    """Whether the figure before "pc" or "gp" is the share itself: "costs 3.50 at 20 pc", not "3.50 on 20, pc?"."""
    p = scan.items[i]
    least, most = _SHARES.get(scan.items[i + 1].name, (1.0, 0.0))
    sold = i > 1 and scan.items[i - 2].text.startswith(("sell", "sold", "charg", "menu"))
    led = scan.kind_at(i - 1) in ("cue:at", "cue:want", "cue:for", "cue:to") and not sold
    led = led or (scan.kind_at(i - 1) == "sep" and scan.has("price"))
    asked = scan.text[scan.items[i + 1].end :].lstrip().startswith("?")
    others = [k for k in scan.kinds("bare", "money") if k != i]
    return led and not asked and bool(others) and p.value % 1 == 0 and least <= p.value <= most


_LEAST_OF_PRICE = 0.1  # of a price from 50 up: no drink costs so little of it: common practice, no source


def no_price(scan: Scan, cue: int, i: int) -> bool:
    """ "gp 70 on 2.85": a figure beside "gp" that the other one cannot be the cost of is the share itself."""
    p = scan.items[i]
    least, most = _SHARES["margin"]
    others = [scan.items[k].value for k in scan.kinds("bare", "money") if k != i]
    if not scan.items[cue].is_cue("margin") or len(others) != 1 or p.value % 1 or not least <= p.value <= most:
        return False
    sold = {scan.kind_at(k) for k in (i - 1, i + 1)} & {"cue:price", "cue:cost"}
    return not sold and not _LEAST_OF_PRICE * p.value <= others[0] <= p.value


_TO_CHARGE = re.compile(
    r"\b(?:what|how much)(?:'s)? (?:to|(?:do|should|can|would|must) (?:i|we|you)) (?:charge|ask|sell|price)\b"
)


def _cost_to_price(scan: Scan) -> Money | None:
    """ "what to charge on 2.85 at 20%": the price is asked for, so that the only sum is the cost. Marks it."""
    sums = scan.kinds("money", "bare")
    if len(sums) != 1 or scan.has("cost") or not _TO_CHARGE.search(scan.text):
        return None
    scan.use(sums[0])
    return Money(scan.items[sums[0]].value, scan.items[sums[0]].unit)


#: "what do I charge for a 2.50 drink": the figure of the drink whose price is asked for is what it costs
_PRICE_ASKED = re.compile(
    r"\b(?:what|how much|whats|what's)\b.*\b(?:charge|price|sell|selling|ask|menu)\b"
    r"|\b(?:selling|menu|sell|sale) price (?:of|for|on)\b"
)
_FIGURED_DRINK = re.compile(
    r"\b(?:an?|this|that|my|our|the) (?:[$€£] ?)?(\d+(?:[.,]\d+)?) ?(?:[€$£]|dollars?|euros?|eur|bucks?|quid|kr)?"
    r"[ -](?:drink|cocktail|serve|pour|glass|spritz|sour|martini|negroni|margarita|highball)\b(?! cost)"
    r"|\bfor (?:[$€£] ?)?(\d+(?:[.,]\d+)?) ?(?:[€$£]|dollars?|euros?)?"
    r" ?(?:worth )?(?:of|in) (?:booze|liquor|ingredients|product|stock|cost|liquid)\b"
)


#: "stands me 3.15 price before gst?", "2.10 price at 20% pour cost?": the price is asked for behind what the drink costs
_PRICE_BEHIND = re.compile(
    r"(\d+(?:\.\d+)?) ?[€$£]? (?:menu |sell |selling |sale )?price"
    r"(?:(?: (?:before|after|ex|exc|excl|inc|incl|with|without|plus) (?:tax|vat|gst))? ?\?| (?:at|for|to hit|to make) \d)"
)


def _cost_before_price(scan: Scan) -> Money | None:
    """The one figure, before the price that is asked for. Marks it. Raises Unclear two_readings where it may be a price."""
    said = _PRICE_BEHIND.search(scan.text)
    sums = scan.kinds("money", "bare")
    if said is None or len(sums) != 1 or scan.has("cost"):
        return None
    p = scan.items[sums[0]]
    if not p.start <= said.start(1) < p.end:
        return None
    if p.value == int(p.value) and p.value > _MOST_WHOLE_COST:
        raise Unclear("two_readings", [p], f"{p.value:g} as the price, or as what the drink costs")
    scan.use(sums[0])
    return Money(p.value, p.unit)


def drink_cost_of(scan: Scan, shared: bool) -> Money | None:
    """What a drink costs, where its price is asked for and a share of it is known. Marks it."""
    lone = (_cost_to_price(scan) or _cost_before_price(scan)) if shared else None
    if lone is not None:
        return lone
    figured = _FIGURED_DRINK.search(scan.text) if shared and not scan.has("cost") else None
    if figured is None or not _PRICE_ASKED.search(scan.text):
        return None
    for i in scan.kinds("bare", "money", "count"):
        p = scan.items[i]
        if p.start <= figured.start(figured.lastindex or 1) < p.end:
            scan.use(i)
            return Money(p.value, p.unit)
    return None


def loose_share(scan: Scan) -> tuple[float | None, float | None]:
    """A percent with "cost" or "margin" somewhere: "price for 20%, cost 2.40" is a pour cost."""
    left = scan.kinds("percent")
    if len(left) == 1 and not scan.kinds("name"):
        scan.use(left[0])
        value = scan.items[left[0]].value
        return (None, value) if scan.has("margin") else (value, None)
    return None, None
