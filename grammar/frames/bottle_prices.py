"""Bottle prices: a price, the size of the bottle it buys, and the name they belong to, wherever they stand."""

import re
from dataclasses import replace

from grammar.phrase import Phrase
from grammar.request import FollowUp, Measure, Money, Part
from grammar.scan import Scan, bottled

_IS = re.compile(r"\s*(?:is|are|runs|runs us|sets us back)\s+")  # "a handle is 32"
_BUYS = re.compile(r"\s*(?:the|a|an|per|each|for the|for a|for one)\s+")


#: what may stand between a bottle's size, or that of a batch, and its price: "10 L sangria cost me 38"
_TO_PRICE = frozenset(
    ["cue:at", "cue:for", "cue:cost", "sep", "cue:of", "cue:price", "cue:equals", "cue:and", "cue:scale", "name", "drink"]
)


def bottle_prices(scan: Scan) -> list[Part]:
    """ "gin 28 for 700 ml", "gin $28/700ml", "28 a bottle (700)": names with a bottle's price and size. Marks price and size."""
    out: list[Part] = []
    used_names: set[int] = set()
    for i, p in enumerate(scan.items):
        price, size, span = _price_and_size(scan, i, p)
        if price is None:
            price, span = _a_bottle(scan, i, p)
        if price is None:
            continue
        name_at = _nearest_name(scan, span, used_names)
        name = (scan.items[name_at].name or scan.items[name_at].text) if name_at is not None else "spirit"
        typed = scan.items[name_at].text if name_at is not None else ""
        if name_at is not None:
            used_names.add(name_at)
            kinds = ("name", "context", "unknown")
            if any(q.kind in kinds and (q.name or q.text) == name and k != name_at for k, q in enumerate(scan.items)):
                scan.use(name_at)  # "60 gin 30 vermouth, gin is 28 for 700": named once more for its price
        size, span = _all_of_them(scan, size, span)
        scan.use(*span)
        out.append(Part(name, None, typed, True, None, price, size))
    return [_in_full(scan, b, {b.name for b in out}) for b in out] or _of_one_size(scan)


def _in_full(scan: Scan, bottle: Part, priced: set[str]) -> Part:
    """ "verm 9 for 750" where the spec says "sweet verm": the one unpriced ingredient it is a word of. Marks the short name."""
    named = [i for i in scan.kinds("name", "context", fresh=False) if scan.items[i].name == bottle.name]
    longer = {p.name for p in scan.items if p.kind in ("name", "context") and bottle.name in p.name.split()} - priced
    if len(named) != 1 or len(longer) != 1:
        return bottle
    scan.use(named[0])
    return replace(bottle, name=longer.pop())


_ALL_OF_A_SIZE = re.compile(r"\b(?:all|both|each|everything)(?: of them)?(?: is| are)?(?: in| from| per)?(?: an?)?\s*$")


def _of_one_size(scan: Scan) -> list[Part]:
    """ "gin 19, red bitter 17, sweet vermouth 11, all 700s": a price behind each name, for bottles of the one size said."""
    sized = [i for i in scan.kinds("vessel", "amount") if (s := _size(scan.items[i])) is not None and bottled(s)]
    sized = [i for i in sized if _ALL_OF_A_SIZE.search(scan.text[: scan.items[i].start].rstrip()) or _bottles(scan, i)]
    priced: list[int] = []
    for i in scan.kinds("name", "context"):
        closed = scan.kind_at(i + 2) in ("", "sep", "cue:and") or i + 2 in sized
        if scan.kind_at(i + 1) in ("bare", "money") and closed:
            priced.append(i)
    others = [i for i in scan.kinds("bare", "money") if i - 1 not in priced]
    if len(sized) != 1 or len(priced) < 2 or any(scan.kind_at(i + 1) not in ("name", "context") for i in others):
        return []
    size = _size(scan.items[sized[0]])
    named = [scan.items[i].name for i in scan.kinds("name", "context")]
    again = [i for i in priced if named.count(scan.items[i].name) > 1]
    scan.use(*sized, *[i + 1 for i in priced], *again)
    found = [(scan.items[i], scan.items[i + 1]) for i in priced]
    return [Part(p.name, None, p.text, True, None, Money(q.value, q.unit), size) for p, q in found]


def _bottles(scan: Scan, i: int) -> bool:
    """ "700 ml bottles": of no number."""
    p = scan.items[i]
    return p.kind == "vessel" and not p.amounts and p.text.endswith(("bottles", "btls"))


def _price_and_size(scan: Scan, i: int, p: Phrase) -> tuple[Money | None, Measure | None, list[int]]:
    """A price and a bottle size that belong together, starting at phrase i."""
    if scan.used[i]:
        return None, None, []
    if p.kind == "ratio" and p.unit and len(p.values) == 2 and p.name == "SLASH":  # "28/700ml"
        return Money(p.values[0]), Measure(p.values[1], p.unit), [i]
    if p.kind == "ratio" and not p.unit and len(p.values) == 2 and p.name == "SLASH" and p.values[1] in (500, 700, 750, 1000):
        return Money(p.values[0]), Measure(p.values[1], "ml"), [i]
    if p.kind in ("money", "bare"):
        beside = scan.at(i + 1)
        by_unit = beside is not None and beside.kind == "unit" and beside.unit in ("l", "kg", "gallon")
        between = scan.text[p.end : beside.start] if beside is not None else ""
        buys = _BUYS.fullmatch(between) is not None or (p.kind == "money" and not between.strip())  # "a 34 dollar litre"
        if beside is not None and by_unit and not scan.used[i + 1] and buys:
            return Money(p.value, p.unit), Measure(1.0, beside.unit), [i, i + 1]  # "19.90 the litre"
        bought = _size(beside) if beside is not None and not scan.used[i + 1] else None
        if beside is not None and bought is not None and p.value != beside.value:
            a_litre = beside.kind == "amount" and beside.name == "a"
            if a_litre or _BUYS.fullmatch(scan.text[p.end : beside.start]):
                return Money(p.value, p.unit), bought, [i, i + 1]  # "28 a litre", "22.50 the 750"
        if (
            scan.kind_at(i + 1) in ("sep", "cue:each")
            and scan.kind_at(i + 2) == "unit"
            and scan.items[i + 1].name in ("/", "each")
        ):  # "40/L"
            return Money(p.value, p.unit), Measure(1.0, scan.items[i + 2].unit), [i, i + 1, i + 2]
        j = i + 1
        if scan.kind_at(j) == "vessel" and scan.items[j].size is None:
            j += 1
        while scan.kind_at(j) in ("cue:for", "cue:each", "cue:at", "sep", "cue:of", "cue:in", "cue:bottles") or _passed(scan, j):
            listed = scan.kind_at(i + 1) == "vessel" and scan.items[j].name == ","  # "21.50 a bottle, 70 cl"
            if scan.kind_at(j) == "sep" and scan.items[j].name not in "/(" and not listed:
                break
            j += 1
        q = scan.at(j)
        if q is not None and not scan.used[j]:
            sized = _size(q)
            a_size = q.kind == "amount" and scan.text[p.end : q.start + 2].split()[:1] in (["a"], ["per"])  # "5 a litre"
            linked = j > i + 1 or p.kind == "money" or q.kind == "vessel" or a_size
            behind = scan.kind_at(i + 1) in ("cue:for", "cue:each", "sep", "vessel") or _case(scan, i + 1)
            if sized is not None and linked and (p.kind == "money" or a_size or behind):
                many = scan.items[j - 1]
                if j - 1 > i and many.kind in ("bare", "fold") and not scan.used[j - 1]:  # "84 for a case of six 70 cl"
                    sized = Measure(sized.value * many.value, sized.unit)
                return Money(p.value, p.unit), sized, list(range(i, j + 1))
    sized = _size(p)
    if sized is not None and bottled(sized):
        j = i + 1
        while j < len(scan) and scan.used[j] and p.kind == "vessel":
            j += 1  # "bottle's 700 ml at 21": its size is in the vessel
        last = j + 3
        while scan.kind_at(j) in _TO_PRICE and j < last:
            if scan.kind_at(j) == "cue:price" and not scan.items[j].text.startswith("price"):
                break
            if scan.kind_at(j) == "sep" and scan.items[j].name not in ":(,":
                break
            j += 1
        q = scan.at(j)
        if (
            q is not None
            and not scan.used[j]
            and (
                q.kind == "money"
                or (
                    q.kind == "bare"
                    and (
                        scan.kind_at(j - 1) in ("cue:at", "cue:for", "cue:cost", "cue:price")
                        or _IS.fullmatch(scan.text[scan.items[j - 1].end : q.start])
                        or (j == i + 1 and p.kind == "vessel" and len(scan.kinds("bare", "money")) == 1)  # "50 L keg 150, ..."
                        or (re.fullmatch(r"\d+\.\d\d", q.text) and _stands_last(scan, j))  # "1.75 L vodka 31.50"
                        or (p.kind == "amount" and scan.kinds("bare", "money") == [j] and scan.kind_at(j + 1) in ("", "sep"))
                    )
                    and scan.kind_at(j + 1) not in ("name", "unit")
                )
            )
            and not _has_its_size(scan, j)  # "2.5 L gin @22 a litre"
        ):
            span = [k for k in range(i + 1, j + 1) if scan.items[k].kind not in ("name", "drink")]
            return Money(q.value, q.unit), sized, [i, *span]
    return None, None, []


def _stands_last(scan: Scan, j: int) -> bool:
    """Whether the figure at j is the only one, or the last of its stretch."""
    return scan.kinds("bare", "money") == [j] or scan.kind_at(j + 1) in ("", "sep")


def _has_its_size(scan: Scan, i: int) -> bool:
    """Whether the price at i says itself what it buys: "22 a litre", "$18/L", "30 per 700 ml"."""
    return _price_and_size(scan, i, scan.items[i])[1] is not None


def _all_of_them(scan: Scan, size: Measure | None, span: list[int]) -> tuple[Measure | None, list[int]]:
    """ "6 x 700 ml gin for 150", "a case of 12 750s, $180": a price after a count of bottles is for all, unless it says each."""
    first = min(span)
    before = scan.at(first - 1)
    cased = before is not None and before.kind == "bare" and scan.kind_at(first - 2) == "cue:of" and _case(scan, first - 3)
    many = before is not None and (before.kind == "fold" or cased) and not scan.used[first - 1]
    if size is not None and before is not None and many and scan.kind_at(max(span) + 1) != "cue:each":
        size, span = Measure(size.value * before.value, size.unit), [first - 1, *span]
        first -= 1
    while first > 0 and scan.used[first - 1] and scan.items[first - 1].kind in ("bare", "fold"):
        first -= 1
    if scan.kind_at(first - 1) == "cue:of" and _case(scan, first - 2):
        span = [first - 2, first - 1, *span]
    return size, span


def _passed(scan: Scan, i: int) -> bool:
    """What may stand between a price and its bottles: a case, and the count that the bottles have taken."""
    p = scan.at(i)
    cased = (scan.kind_at(i - 1) == "cue:of" and _case(scan, i - 2)) or (scan.kind_at(i - 1) == "sep" and _case(scan, i - 2))
    many = cased and scan.kind_at(i + 1) in ("amount", "vessel", "bare")
    return _case(scan, i) or (p is not None and p.kind in ("bare", "fold") and (scan.used[i] or many))


def _case(scan: Scan, i: int) -> bool:
    """ "a case of six 1 L bottles", "buys a crate of"."""
    p = scan.at(i)
    return p is not None and p.kind == "unknown" and p.text in ("buys", "case", "crate", "cases", "crates")


def _a_bottle(scan: Scan, i: int, p: Phrase) -> tuple[Money | None, list[int]]:
    """ "28 a bottle", "$28/bottle": a price without the bottle's size, starting at phrase i; "6 bottles" is none."""
    j = i + 1
    while scan.kind_at(j) == "cue:each" or (scan.kind_at(j) == "sep" and scan.items[j].name == "/"):
        j += 1
    v = scan.at(j)
    bottle = v is not None and v.kind == "vessel" and v.size is None and v.name.startswith(("bottle", "btl"))
    if scan.used[i] or p.kind not in ("money", "bare") or v is None or not bottle:
        return None, []
    counted = p.kind == "bare" and j == i + 1 and not v.text.startswith(("a ", "the "))
    return (None, []) if counted else (Money(p.value, p.unit), list(range(i, j + 1)))


def _size(p: Phrase) -> Measure | None:
    if p.kind == "amount" and bottled(p):
        return Measure(p.value, p.unit)
    if p.kind == "vessel" and p.size is not None:
        return Measure(p.size[0] * (p.amounts[0] if p.amounts else 1.0), p.size[1])  # "180 for 12 x 750 ml": all of them
    if p.kind == "vessel" and p.name.startswith(("bottle", "btl")):
        return None
    if p.kind == "bare" and p.value in (500, 700, 750, 1000, 1750):
        return Measure(p.value, "ml")
    return None


def _nearest_name(scan: Scan, span: list[int], used: set[int]) -> int | None:
    """The name a price belongs to: the nearest before it in its stretch, else the nearest after."""
    first, last = min(span), max(span)
    near: list[int] = [*range(first - 1, max(-1, first - 6), -1), *range(first, min(len(scan), last + 4))]
    for i in near:
        if scan.items[i].kind in ("name", "context", "unknown") and i not in used and not _case(scan, i):
            return i
    return None


def sized_elsewhere(scan: Scan, bottles: list[Part]) -> list[Part]:
    """ "32 a bottle, 1.5 oz, cost? 750s": the size of the one bottle, said apart from its price. Marks it."""
    sizes = [i for i in scan.kinds("vessel") if scan.items[i].size is not None and not scan.items[i].amounts]
    if len(bottles) != 1 or bottles[0].size is not None or len(sizes) != 1 or not scan.items[sizes[0]].text.endswith("s"):
        return bottles
    scan.use(sizes[0])
    return [replace(bottles[0], size=_size(scan.items[sizes[0]]))]


_A_BOTTLE = re.compile(
    r"\d (?:a|per) (?:bottle|btl)\b|\d ?/ ?(?:500|700|750|1000)\b"
    r"|(?:\b(?:at|for|is|was|are|costs?|runs)|@) ?\d+(?:\.\d+)? (?:for|per) (?:an? |the )?(?:\d{3}|bottle|btl|litre|liter)"
)


def take_bottle_prices(scan: Scan, out: FollowUp) -> FollowUp:
    """ "rum is 21 per 700": a price for an ingredient's bottle; then the cost is what is asked."""
    a_litre = any(p.kind == "amount" and p.name == "a" for p in scan.items)
    a_litre = a_litre or _A_BOTTLE.search(scan.text) is not None
    if not (scan.has("each", "for", "cost", "price") or scan.kinds("money") or a_litre) or not scan.kinds("name", "context"):
        return out
    bottles = bottle_prices(scan) if scan.kinds("money") or scan.has("each", "cost", "price") or a_litre else []
    if not bottles:
        return out
    bottles += _priced_alike(scan) if any(b.size is None for b in bottles) else []
    bottles = [replace(b, measure=_poured(scan, b.name)) for b in bottles]
    scan.use(*[i for i in scan.kinds("name", "context") if scan.items[i].name in {b.name for b in bottles}])
    scan.use_cues("each", "cost", "price", "serve_word")
    return replace(out, parts=tuple(bottles), ask="cost")


def _priced_alike(scan: Scan) -> list[Part]:
    """ "rye is 34 a bottle and vermouth 15": names with a bare figure after a price a bottle. Marks the figures."""
    found: list[Part] = []
    for i in scan.kinds("name", "context"):
        p = scan.at(i + 1)
        if p is not None and p.kind in ("bare", "money") and not scan.used[i + 1]:
            scan.use(i + 1)
            found.append(Part(scan.items[i].name, None, scan.items[i].text, True, None, Money(p.value, p.unit), None))
    return found


def _poured(scan: Scan, name: str) -> Measure | None:
    """ "plus 25 ml of vermouth at 12 for a 750": what a serve has of the ingredient with the price. Marks it."""
    for i in scan.kinds("name", "context"):
        for j in (i - 1, i - 2):
            p = scan.at(j)
            if scan.items[i].name != name or p is None or scan.used[j] or (j == i - 2 and scan.kind_at(i - 1) != "cue:of"):
                continue
            if p.kind == "amount" and not bottled(p):
                scan.use(j)
                return Measure(p.value, p.unit)
    return None
