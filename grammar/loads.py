"""Two figures with a word of loads between them, of which only the product counts: "2 trays of 24", "3 cases of 12 x 750 ml",
"8 tables of 10".

Changes phrases in place, before counts and bottles are read.
"""

import re
from itertools import pairwise

from grammar.phrase import Phrase
from grammar.request import Measure
from grammar.scan import BOTTLE_SIZES_ML, LEAST_BOTTLE_ML, Scan, bottled, rough_ml

_NAMED = ("name", "context")
_NOT_AMOUNT = r"\b(?! ?(?:ml|cl|l|oz)\b)"
_TRAYS = "trays?|batch(?:es)?|rounds?|flights?|lots|boards?|runs"
_TRAYS_OF = re.compile(rf"\b(\w+)(?: x)?(?: full| big)? (?:{_TRAYS}) of (\w+){_NOT_AMOUNT}")
_CASES_OF = re.compile(rf"\b(\w+)(?: full)? (?:cases?|crates?|boxes) of (\w+){_NOT_AMOUNT}")
_TABLES_OF = re.compile(r"\b[a-z\d]+ (?:tables?|parties|groups) of [a-z\d]+\b|\b[a-z\d]+ [a-z\d]+[ -]?tops\b")


def seated_at_tables(scan: Scan) -> float | None:
    """ "8 tables of 10", "6 four tops": how many guests that is; None without tables. Marks it."""
    tables = _TABLES_OF.search(scan.text) if " of " in scan.text or "tops" in scan.text else None
    if tables is None:
        return None
    held = [i for i, p in enumerate(scan.items) if tables.start() <= p.start < tables.end()]
    numbers = [scan.items[i].value for i in held if scan.items[i].kind == "bare"]
    if len(numbers) != 2 or any(scan.used[i] for i in held):
        return None
    scan.use(*held)
    return numbers[0] * numbers[1]


def both_bottles(phrases: list[Phrase]) -> None:
    """ "both 70 cl bottles", "both bottles of rum": two of them."""
    for before, p in pairwise(phrases):
        if before.text == "both" and p.kind == "vessel" and not p.amounts:
            p.value, p.amounts, p.start = 2.0, (2.0,), before.start


def one_bottle(phrases: list[Phrase]) -> None:
    """ "one 750 rye, 375 sweet vermouth": one opens a list of amounts, and counts nothing."""
    if len(phrases) < 5 or phrases[0].text != "one" or phrases[0].kind != "bare":
        return
    one, size, name = phrases[:3]
    if size.kind == "bare" and (_bottle_ml(size) or 0.0) >= LEAST_BOTTLE_ML and name.kind in ("name", "context"):
        one.kind = "filler"


def bottles_added_up(phrases: list[Phrase]) -> None:
    """ "1 x 1 L and 2 x 700 vodka, how many pours": bottles of two sizes, whose pours are counted, are one amount."""
    if not any(p.is_cue("how_many") for p in phrases):
        return
    for i in range(len(phrases) - 4):
        many, size, joint, more, other = phrases[i : i + 5]
        if (many.kind, more.kind) != ("fold", "fold") or not joint.is_cue("and") or not (_bottle_ml(size) and _bottle_ml(other)):
            continue
        all_ml = many.value * (_bottle_ml(size) or 0.0) + more.value * (_bottle_ml(other) or 0.0)
        size.kind, size.value, size.unit = "amount", all_ml, "ml"
        size.start, size.end = many.start, other.end
        phrases[i : i + 5] = [size]
        return


def _bottle_ml(p: Phrase) -> float | None:
    """mL of a bottle told by its size alone."""
    if p.kind not in ("amount", "bare"):
        return None
    ml = p.value if p.kind == "bare" else rough_ml(p.value, p.unit)
    return ml if ml in BOTTLE_SIZES_ML else None


def headed_by_size(phrases: list[Phrase]) -> None:
    """ "750: 600 gin, 150 dry vermouth": a bottle's size at the head of a list is what is filled."""
    if len(phrases) > 3 and phrases[0].kind == "bare" and phrases[0].value in BOTTLE_SIZES_ML and phrases[1].name == ":":
        p = phrases[0]
        p.kind, p.size, p.value = "vessel", (p.value, "ml"), 1.0


_HANDLES = ("1.75 handle", "1.75 l handle")  # a handle holds that, it is not so many of them


def bottles_of_strength(phrases: list[Phrase]) -> None:
    """ "2 handles 40% rum", "1 bottle (750) of 13% wine": bottles and their size are the amount of what is named behind."""
    for i in range(len(phrases) - 1, -1, -1):
        p = phrases[i]
        if p.kind == "vessel" and p.text in _HANDLES:
            p.amounts, p.size = (1.0,), (1.75, "l")
        if p.kind != "vessel" or not p.amounts:
            continue
        shut = phrases[i + 1 : i + 4]
        bracketed = [q.text for q in shut[::2]] == ["(", ")"] and shut[1].kind in ("amount", "bare")
        sized = len(shut) > 0 and shut[0].kind == "bare" and shut[0].value in BOTTLE_SIZES_ML and p.size is None
        j = i + 4 if bracketed else i + 2 if sized else i + 1
        j += j < len(phrases) and phrases[j].is_cue("of")
        strong, named = (phrases[k] if k < len(phrases) else p for k in (j, j + 1))
        if strong.kind not in ("percent", "proof") or named.kind not in ("name", "context"):
            continue
        inside = Measure(shut[1].value, shut[1].unit or "ml") if bracketed else None
        same = p.size is None or (inside is not None and rough_ml(*p.size) == rough_ml(inside.value, inside.unit))
        if inside is not None and same and bottled(inside):
            p.size, p.end = (shut[1].value, shut[1].unit or "ml"), shut[2].end
            del phrases[i + 1 : i + 4]
        if sized:  # "2 bottles 750 17% vermouth"
            p.size, p.end = (shut[0].value, "ml"), shut[0].end
            del phrases[i + 1]
        if p.size is not None and not phrases[i + 1].is_cue("of"):
            phrases.insert(i + 1, Phrase("cue", "of", p.end, p.end, name="of"))


def pounds_and_ounces(phrases: list[Phrase]) -> None:
    """ "2 lb 4 oz sugar": one weight."""
    for i in range(len(phrases) - 2, -1, -1):
        p, q = phrases[i], phrases[i + 1]
        if p.kind == "amount" and p.unit == "lb" and q.kind == "amount" and q.unit in ("oz", "ozw") and 0.0 < q.value < 16.0:
            p.value, p.end, p.text = p.value + q.value / 16.0, q.end, f"{p.text} {q.text}"
            del phrases[i + 1]


def trays_of(scan: Scan) -> None:
    """ "2 trays of 24", "3 rounds of 6 daiquiris": so many times that many serves."""
    for many, each, between in _pairs(scan, _TRAYS_OF):
        last = between[-1] + 1
        poured = each.kind == "bare" and scan.kind_at(last + 1) in ("name", "context") and scan.kind_at(last + 2) != "drink"
        if each.kind in ("bare", "count") and not poured:  # "2 rounds of 60 gin, 30 dry": its amount
            each.kind = "count"
            each.value *= many.value
            scan.use(*between)


def cases_of(scan: Scan) -> None:
    """ "3 cases of 12 x 750 ml", "two crates of six 70 cl": so many times that many bottles of a size."""
    for many, each, between in _pairs(scan, _CASES_OF):
        sized = scan.at(between[-1] + 2)
        fits = sized is not None and (sized.kind == "vessel" or (sized.kind in ("amount", "bare") and bottled(sized)))
        if each.kind in ("bare", "fold") and fits:
            each.kind = "fold"
            each.value *= many.value
            scan.use(*between)


def _pairs(scan: Scan, words: re.Pattern[str]) -> list[tuple[Phrase, Phrase, range]]:
    """The two figures of each match, and the places from the first to before the second."""
    found: list[tuple[Phrase, Phrase, range]] = []
    for said in words.finditer(scan.text) if " of " in scan.text else ():
        first = next((i for i, p in enumerate(scan.items) if p.start == said.start(1)), None)
        last = next((i for i, p in enumerate(scan.items) if p.start == said.start(2)), None)
        if first is None or last is None or scan.used[first] or scan.used[last]:
            continue
        many, each = scan.items[first], scan.items[last]
        if many.kind in ("bare", "count", "fold", "times") and each.value > 1:
            found.append((many, each, range(first, last)))
    return found


def bottles_of(scan: Scan) -> None:
    """ "3 bottles of 750 wine", "2 bottles rum 70 cl": bottles of one ingredient, in a spec, are so much of it."""
    for i in scan.kinds("vessel"):
        v = scan.items[i]
        if v.size is not None or not v.amounts or v.amounts[0] < 1:
            continue
        j = i + 2 if scan.kind_at(i + 1) == "cue:of" else i + 1
        named = scan.kind_at(j) in _NAMED
        opened = named and scan.kind_at(j + 1) == "sep" and scan.items[j + 1].name == "("  # "one bottle of rye (700)"
        at = j + 1 + opened if named else j
        size = scan.at(at)
        fits = size is not None and not scan.used[at] and size.kind in ("amount", "bare") and bottled(size)
        if size is None or not fits or (size.kind == "bare" and size.value not in BOTTLE_SIZES_ML):
            continue
        k = at + 2 if scan.kind_at(at + 1) == "cue:of" else at + 1
        owned = scan.kind_at(k) in _NAMED
        others = scan.kind_at(k + 1) in ("bare", "amount")
        if (named and owned) or (not named and (not owned or others)):
            continue  # "2 bottles of wine, 750 gin", "3 bottles 750 ml: gin 500, fino 250"
        size.kind, size.value, size.unit = "amount", size.value * v.amounts[0], size.unit or "ml"
        size.name = "whole" if named else size.name
        scan.use(*[n for n in range(i, at) if not (named and n == j)])


_EACH_GETS = re.compile(
    r"\b(?:each|every|per)(?: \d+(?: ?(?:ml|cl|l))?)? (?:bottle|btl|jug|jar|flask|batch)\b"
    r"(?: (?:gets|takes|has|holds|is|needs))?"
)


def per_bottle(scan: Scan) -> None:
    """ "each 750 bottle gets 400 gin 200 bianco vermouth, need 6 bottles": the amounts are a bottle's, and so many times that."""
    said = _EACH_GETS.search(scan.text)
    many = [i for i in scan.kinds("vessel") if scan.items[i].size is None and scan.items[i].amounts[:1] > (1.0,)]
    if said is None or len(many) != 1 or scan.kinds("count", "guests", "times", "fold", "ratio"):
        return
    p = scan.items[many[0]]
    p.kind, p.value, p.name = "times", p.amounts[0], ""
    scan.use(*[i for i, q in enumerate(scan.items) if said.start() <= q.start < said.end()])


_DOUBLES = 4  # measures of one ingredient in one drink; more is a count of drinks: common practice, no source


def measured_twice(scan: Scan) -> None:
    """ "vodka 2 x 25 ml in 200 ml lemonade", "vodka (2x25ml 37.5%)": a double of that one, where others have an amount."""
    for i in scan.kinds("fold"):
        p, each = scan.items[i], scan.at(i + 1)
        bracket = scan.kind_at(i - 1) == "sep" and scan.items[i - 1].name == "("
        owner = scan.kind_at(i - 2 if bracket else i - 1) in _NAMED
        if not owner or each is None or each.kind != "amount" or bottled(each) or not 1 < p.value <= _DOUBLES:
            continue
        k = i + 3 if scan.kind_at(i + 2) in ("percent", "proof") else i + 2
        closed = scan.kind_at(k) in ("", "sep", "cue:in", "cue:and", "cue:with")
        others = [n for n in scan.kinds("amount", "bare") if n != i + 1 and scan.kind_at(n + 1) in (*_NAMED, "cue:of")]
        if closed and others:
            each.value *= p.value
            each.text = f"{p.text} {each.text}"
            scan.use(i)


_HALF_EACH = re.compile(r"\bhalf (?:an? )?(?:drink|cocktail|serve|glass|one|pour)?s? ?(?:each|per|ea|a head|apiece|a person)\b")


def half_each(scan: Scan) -> None:
    """ "250 people, half a drink each": half a drink for every guest."""
    said = _HALF_EACH.search(scan.text) if scan.kinds("guests") else None
    if said is None:
        return
    inside = [i for i, p in enumerate(scan.items) if said.start() <= p.start and p.end <= said.end()]
    half = next((i for i in inside if scan.items[i].text == "half"), None)
    if half is not None and not any(scan.used[i] for i in inside):
        p = scan.items[half]
        p.kind, p.value = "count", 0.5
        scan.use(*[i for i in inside[:-1] if i != half])
