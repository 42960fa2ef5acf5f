"""Counts said behind the spec, where an ingredient's amount could stand too: "20 lime 75 of these", "rye 25 ml a dozen".

Lives here: what makes such a number a count of serves before names and amounts are paired. Changes phrases in place.
"""

import re

from grammar.base_serves import for_that_many
from grammar.loads import half_each, trays_of
from grammar.phrase import Phrase
from grammar.scan import LEAST_BOTTLE_ML, SERVE_LIMIT_ML, Scan, rough_ml, typed_ml

_OF_THEM = re.compile(r" ?of (?:them|these|those|em|'em|each of)\b")
_NOT_COUNTED = ("name", "context", "garnish", "cue:of", "cue:each", "bare", "unknown", "amount", "drink", "house")
_MULTIPLIED = frozenset(["multiply", "multiplied", "multiplying", "multiplies"])
_BEFORE_SERVES = ("amount", "name", "context", "drink", "house", "vessel")
_LOADS = frozenset(["lots", "units", "rounds", "sets", "goes", "times"])
BY_COUNT = re.compile(r"\bby (\d+)\s*(?:$|[,;:\n!?)]|\.(?!\d))")
_LABELLED = re.compile(r"\b(?:count|feeds?|serving|number of (?:drinks|serves|cocktails)|quantity)\b ?[:=,|]? ?$")
_RECKONED = re.compile(
    r"\bso (?:that's |thats |it's |its |make it |call it )?(\d+) ?(?:in all|in total|total|all told|altogether|overall)[\s.!?]*$"
)
_MOST_EACH = 7.0  # drinks a guest has at a party: common practice, no source
_MOST_BATCHES = 10.0  # of a whole batch typed out; more counts its serves: common practice, no source
_TITLES = ("unknown", "drink", "house")
_SO_MANY = ("in total", "in all", "altogether", "all told")
_IN_TOTAL = ("in total", "total", "altogether", "in all", "overall")


def loose_counts(scan: Scan) -> None:
    """Turn them into counts, in one pass over the phrases."""
    trays_of(scan)
    half_each(scan)
    _called_by_parts(scan)
    _times_behind(scan)
    reckoned(scan)
    _kind_of_drink(scan)
    _so_many_of_it(scan)
    ratio = bool(scan.kinds("ratio")) or scan.has("equal")
    laid = ratio and len(scan.kinds("bare")) == 1 and not scan.kinds("amount", "count", "guests", "times", "fold", "vessel")
    for i, p in enumerate(scan.items):
        if scan.used[i]:
            continue
        if p.kind == "count" and p.text.endswith((" serves", " makes")):
            _serves_said_after(scan, i, p)
        elif p.kind == "bare":
            serving = scan.kind_at(i - 1) == "cue:serve_word" and scan.items[i - 1].text in ("serves", "makes")
            closed = scan.kind_at(i + 1) in ("", "sep")
            if serving and closed and p.value > 1 and scan.kind_at(i - 2) in _BEFORE_SERVES:
                if not for_that_many(scan, p.value, p):
                    p.kind = "count"  # "rum 1 oz, lime .25 oz serves 30"
                    scan.use(i - 1)
            elif scan.kind_at(i + 1) == "cue:of" and p.value > 1 and _OF_THEM.match(scan.text, p.end):
                batch = sum(typed_ml(q) or 0.0 for q in scan.items[:i]) >= SERVE_LIMIT_ML and p.value < _MOST_BATCHES
                p.kind = "times" if batch else "count"  # "700 gin 350 fino, 2 of those", "... 20 lime, 75 of these"
                scan.use(i + 1)
            elif "doz" in p.text and scan.kind_at(i + 1) not in _NOT_COUNTED and scan.kind_at(i - 1) != "garnish":
                p.kind = "count"  # "rye 25 ml half a dozen"
            elif closed and p.value > 1 and _LABELLED.search(scan.text, max(0, p.start - 24), p.start):
                p.kind = "count"  # "count: 45", "feeds 12"
                if scan.kind_at(i - 1) in ("unknown", "sep") and i > 1 and scan.kind_at(i - 2) == "unknown":
                    scan.use(i - 2)
                scan.use(*[k for k in (i - 1,) if k >= 0 and scan.kind_at(k) in ("unknown", "sep")])
            elif laid and p.value > 1 and p.value == int(p.value) and _in_total(scan, i):
                p.kind = "count"  # "gin, fino, all equal, fifteen in total"
            elif _of_spec_before(scan, i, p):
                p.kind = "count"  # "60 gin 20 lime, 10 in all"
                scan.use(i + 1)
            elif p.value > 1 and (_bracketed(scan, i) or _heads(scan, i)):
                p.kind = "count"  # "Batch (20): 60 gin ..."
            elif scan.kind_at(i - 1) == "cue:for" and p.value > 1 and _names_first(scan, i):
                p.kind = "count"  # "americano for 10 bitter red aperitif 30 sweet vermouth 30 soda 60"
            elif scan.text.endswith("making ", 0, p.start) and scan.kind_at(i + 1) not in _NOT_COUNTED and p.value > 1:
                p.kind = "count"  # "... 20 lime making 16"
        elif p.kind == "unknown" and p.text in _LOADS and scan.kind_at(i - 1) == "bare" and _a_drink(scan, i + 1):
            scan.items[i - 1].kind = "count"  # "24 lots of tequila sunrise"
            scan.use(i, i + 1)
        elif p.kind == "unknown" and p.text in _MULTIPLIED and scan.kind_at(i + 1) == "bare":
            scan.items[i + 1].kind = "times"  # "multiply by 25"
            p.kind = "filler"
            scan.use(i)
        elif p.kind == "fold":
            _guests_times(scan, i, p)
            _amount_times(scan, i, p)


def reckoned(scan: Scan) -> None:
    """ "we are 9 and i'll have two, so 10 in all": the sum is the count, and the figures of its clause are explained."""
    said = _RECKONED.search(scan.text)
    if said is None:
        return
    at = next((i for i, p in enumerate(scan.items) if p.start == said.start(1)), None)
    if at is None or scan.items[at].kind not in ("bare", "count") or scan.used[at] or scan.items[at].value <= 1:
        return
    first = max((i for i, p in enumerate(scan.items[:at]) if p.kind == "sep" and p.name in ".;\n!?"), default=-1) + 1
    named = max((i for i in range(first, at) if scan.kind_at(i) in ("name", "context", "drink", "house")), default=-1)
    if named >= 0 and scan.kind_at(named + 1) in ("bare", "amount") and named + 1 < at:
        return  # "gin 60 lime 20 so 9 in all": the last name's own amount is no guest
    clause = range(max(first, named + 1), at)
    if any(scan.kind_at(i) in ("amount", "percent", "ratio") for i in clause):
        return
    scan.items[at].kind = "count"
    scan.use(*[i for i in clause if scan.kind_at(i) in ("bare", "count", "guests", "cue:stock", "cue:each", "unknown")])
    if scan.kind_at(at + 1) == "cue:final":
        scan.use(at + 1)


def _times_behind(scan: Scan) -> None:
    """ "gin 45 lemon 20 syrup 15 x 60": the last figure is the syrup's, as the others stand, and it is made 60 times."""
    for i in scan.kinds("fold"):
        named = ("name", "context")
        after = [k for k in range(i) if scan.kind_at(k) in named and scan.kind_at(k + 1) == "bare" and k + 1 != i]
        count = scan.at(i + 1)
        if scan.kind_at(0) not in named or scan.kind_at(i - 1) not in named or not after or count is None or count.kind != "bare":
            continue
        if scan.kind_at(i + 2) in named or count.value <= 1 or count.value != int(count.value):
            continue
        scan.items[i].kind, count.kind = "bare", "count"
        return


def _called_by_parts(scan: Scan) -> None:
    """ "60 cran vodkas 45 vodka 120 cranberry", "30 rum cokes: 50 rum 150 coke": a count and a drink called by what is in it."""
    for i in scan.kinds("bare"):
        p = scan.items[i]
        last = i + 3 if scan.kind_at(i + 2) == "cue:and" else i + 2
        run = [k for k in (i + 1, last) if scan.kind_at(k) in ("name", "context")]
        if len(run) != 2 or p.value <= 1 or p.value != int(p.value):
            continue
        if last == i + 2 and not scan.items[last].text.endswith("s"):
            continue
        laid = {scan.items[k].name for k in range(last + 1, len(scan)) if scan.kind_at(k - 1) in ("amount", "bare")}
        if all(scan.items[k].name in laid for k in run):
            p.kind = "count"
            scan.use(*run)
            return


def _kind_of_drink(scan: Scan) -> None:
    """ "half a dozen rye cocktails: 60 rye ...", "80 vodka lime premix. 35 vodka ...": the names say what is counted."""
    for i in scan.kinds("bare"):
        end = i + 1
        while scan.kind_at(end) in ("name", "context"):
            end += 1
        closed, later = scan.at(end), {q.name for q in scan.items[end + 1 :] if q.kind in ("name", "context")}
        if closed is None or end == i + 1 or scan.items[i].value <= 1 or scan.kind_at(i - 1) in ("bare", "amount"):
            continue
        drinks = closed.is_cue("serve_word") and closed.text.endswith("s")
        mixes = closed.is_cue("scale") and "mix" in closed.text
        if (drinks or mixes) and all(scan.items[k].name in later for k in range(i + 1, end)):
            scan.items[i].kind = "count"
            scan.use(*range(i + 1, end + 1))


def _so_many_of_it(scan: Scan) -> None:
    """ "a pitcher is 750 ml red wine 150 brandy. need 7 pitchers": what one vessel holds, and how many of them."""
    held = [i for i in scan.kinds("vessel") if scan.items[i].size is None]
    if len(held) != 2:
        return
    one, many = (scan.items[i] for i in held)
    alike = many.name.removesuffix("s") == one.name.removesuffix("s")
    between = any(scan.kind_at(k) in ("name", "context") for k in range(held[0] + 1, held[1]))
    if alike and between and many.amounts and many.amounts[0] > 1 and (not one.amounts or one.amounts[0] == 1):
        many.kind, many.value = "times", many.amounts[0]
        scan.use(held[0], *[k for k in (held[0] + 1,) if scan.kind_at(k) in ("cue:equals", "cue:for")])


def _bracketed(scan: Scan, i: int) -> bool:
    """Whether the figure at i stands in brackets behind what is made."""
    before, after = scan.at(i - 1), scan.at(i + 1)
    held = before is not None and after is not None and before.name == "(" and after.name == ")"
    return held and scan.kind_at(i - 2) in ("cue:scale", "cue:recipe_word", "drink", "house")


def _heads(scan: Scan, i: int) -> bool:
    """Whether the figure at i stands between a title and a colon at the start: "carajillo 12: 45 coffee liqueur ..."."""
    colon = scan.at(i + 1)
    last = i - 1 if scan.kind_at(i - 1) == "sep" and scan.items[i - 1].name == "," else i  # "jungle bird, 16: ..."
    head = [scan.kind_at(k) for k in range(last)]
    titled = 0 < last <= 4 and all(kind in (*_TITLES, "cue:scale") for kind in head) and any(kind in _TITLES for kind in head)
    listed = scan.kind_at(i + 2) in ("bare", "amount") and scan.kind_at(i + 3) in ("name", "context", "cue:of", "unknown")
    return titled and listed and colon is not None and colon.kind == "sep" and colon.name == ":"


def _names_first(scan: Scan, i: int) -> bool:
    """Whether after the figure at i names and their amounts take turns, names first, to the end."""
    kinds = [p.kind for p in scan.items[i + 1 :] if p.kind not in ("sep", "percent")]
    turns = all(kind in (("bare", "amount") if n % 2 else ("name", "context")) for n, kind in enumerate(kinds))
    return len(kinds) >= 4 and len(kinds) % 2 == 0 and turns and not scan.has("each")


def _a_drink(scan: Scan, i: int) -> bool:
    """Whether "of" and a drink's name stand at i: "of tequila sunrise", "of our house sour"."""
    named = i + 2 if scan.kind_at(i + 1) in ("name", "context") else i + 1
    return scan.kind_at(i) == "cue:of" and scan.kind_at(named) in ("drink", "house")


def _in_total(scan: Scan, i: int) -> bool:
    """Whether the number at i closes the message or a part of it, "in total" or not."""
    final = scan.kind_at(i + 1) == "cue:final" and scan.items[i + 1].text in _IN_TOTAL
    behind = scan.kind_at(i - 1) in ("name", "context", "cue:equal", "ratio", "sep", "cue:serve_word")
    ends = scan.kind_at(i + 2 if final else i + 1) in ("", "sep")
    if behind and ends and final:
        scan.use(i + 1)
    return behind and ends and (final or scan.kind_at(i - 1) != "sep")


def _of_spec_before(scan: Scan, i: int, p: Phrase) -> bool:
    """Whether the figure at i, "in total" behind it, counts what amounts before their names make; not if it is their sum."""
    ends = scan.kind_at(i + 1) == "cue:final" and scan.items[i + 1].text in _SO_MANY and scan.kind_at(i + 2) in ("", "sep")
    if not ends or p.value <= 1 or p.value != int(p.value) or scan.kinds("count", "guests", "times", "fold"):
        return False
    named = scan.kinds("name", "context")
    spec = [k for k, q in enumerate(scan.items[:i]) if q.kind == "bare"]
    if len(spec) < 2 or not all(k + 1 in named for k in spec) or p.value >= LEAST_BOTTLE_ML:
        return False
    if abs(sum(scan.items[k].value for k in spec) - p.value) < 0.5:
        scan.use(i, i + 1)  # "60 gin 20 lime, 80 in total"
        return False
    return True


def _serves_said_after(scan: Scan, i: int, p: Phrase) -> None:
    """ "rye - 30 / amaro - 10 serves 36": the last name's amount, and the count behind the word."""
    q = scan.at(i + 1)
    if q is None or q.kind != "bare" or scan.kind_at(i + 2) not in ("", "sep") or for_that_many(scan, q.value, q):
        return
    before = scan.at(i - 1)
    k = i - 2 if before is not None and before.kind == "sep" and before.name in ":-=" else i - 1
    if scan.kind_at(k) in ("name", "context"):
        p.kind, q.kind = "bare", "count"


def _guests_times(scan: Scan, i: int, p: Phrase) -> None:
    """ "spritz for 50 x 2: 3:2:1 ...": so many guests, and so many drinks each."""
    each = scan.at(i + 1)
    few = each is not None and each.kind == "bare" and each.value < _MOST_EACH and scan.kind_at(i + 2) in ("", "sep")
    if each is not None and few and scan.kind_at(i - 1) == "cue:for" and p.value > each.value:
        p.kind, each.kind = "guests", "times"


def _amount_times(scan: Scan, i: int, p: Phrase) -> None:
    """ "gin: 40, lime: 20, vodka: 10 x 16": the last name's amount, and so many serves."""
    times = scan.at(i + 1)
    if times is None or times.kind != "bare" or scan.kind_at(i + 2) not in ("", "sep") or times.value >= LEAST_BOTTLE_ML:
        return
    before = scan.at(i - 1)
    k = i - 2 if before is not None and before.kind == "sep" and before.name in ":-=" else i - 1
    if scan.kind_at(k) in ("name", "context") and scan.kind_at(k - 1) in ("", "sep", "cue:and", "bare", "amount"):
        if scan.kind_at(k - 1) in ("bare", "amount") and scan.kind_at(k - 2) not in ("name", "context"):
            return  # "60 gin 2 x 30 lime"
        p.kind, times.kind = "bare", "times"


def is_an_hour(scan: Scan) -> bool:
    """Whether "by 7" says when, because something else says how much: "for 20 guests by 7". Marks the hour."""
    by = BY_COUNT.search(scan.text)
    if by is None or int(by[1]) > 12:
        return False
    at = next((i for i, p in enumerate(scan.items) if p.start == by.start(1)), None)
    if at is None or scan.items[at].kind != "bare" or scan.used[at]:
        return False
    made = any(scan.items[i].kind in ("count", "times", "fold", "guests", "vessel") for i in range(len(scan.items)) if i != at)
    large = any((rough_ml(p.value, p.unit) or 0.0) >= SERVE_LIMIT_ML for p in scan.items if p.kind == "amount")
    wanted = any(
        p.kind == "bare" and (scan.kind_at(i - 1) in ("cue:for", "cue:want", "cue:scale", "cue:make_it") or "doz" in p.text)
        for i, p in enumerate(scan.items)
        if i != at
    )
    if made or large or wanted:
        scan.use(at)
        return True
    return False
