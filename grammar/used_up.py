"""A bottle of one ingredient that is to be used up, with a spec round it: "2 bottles gin (70 cl), use it all: 45 gin 20 lemon".

Changes phrases in place: the bottle becomes an amount before its name, which grammar.ratio and grammar.frames.limited
take as what fixes the size of the batch. Never here: how many serves that makes.
"""

import re

from grammar.phrase import Phrase
from grammar.scan import BOTTLE_SIZES_ML, LEAST_BOTTLE_ML, MOST_BOTTLES, SMALL_BARE, Scan, bottled, rough_ml

_NAMED = ("name", "context")
_CL_BOTTLES = frozenset([35.0, 70.0, 75.0])
ALL_OF_IT = re.compile(
    r"\bus(?:e|es|ing) (?:up\b|(?:it |them |that )?(?:all|both|up)\b|(?:the|a|one|my) (?:whole|full|entire)\b|the (?:lot|rest)\b)"
    r"|\b(?:build|make|work|scale|batch)(?:ing)? (?:the rest |it |everything |the others? )?(?:round|around|to)"
    r" (?:it|that|them|the bottles?)\b"
    r"|\b(?:all|the whole|the lot) (?:of )?(?:it|them|the bottles?)\b(?: in| up|\W*$)"
    r"|\bhow much (?:of )?(?:the )?(?:rest|others?|everything else)\b"
    r"|\b(?:batch|make|build|do|mix|for|with|from|of) (?:up )?(?:the|my|that|this) (?:whole|full|entire)"
    r" (?:bottle|handle|litre|liter|thing|lot|fifth|magnum)s?\b"
    r"|\bfinish(?:ing)? (?:it|them|that|the bottles?)(?: off| up)?\b"
)


def is_used_up(scan: Scan) -> bool:
    """Whether all of something is to go into a spec that names it again."""
    names = [scan.items[i].name for i in scan.kinds(*_NAMED)]
    laid = bool(scan.kinds("fold")) and (bool(scan.kinds("ratio")) or scan.has("equal"))
    spec = len(set(names)) > 1 and (len(names) > len(set(names)) or laid)
    return spec and not scan.has("bottles", "enough") and ALL_OF_IT.search(scan.text) is not None


def bottles_at_hand(scan: Scan) -> None:
    """ "2 bottles gin (700)", "1 bottle (750) tequila", "one 1 L of vodka": the amount of a name that the spec says again."""
    for i in scan.kinds("vessel", "bare", "fold"):
        p = scan.items[i]
        if p.kind == "bare":
            _one_of(scan, i, p)
        elif p.kind == "fold":
            _so_many(scan, i, p)
        elif p.size is not None:
            _size_again(scan, i, p)
        elif p.amounts and p.size is None and 1 <= p.amounts[0] <= MOST_BOTTLES and p.amounts[0] == int(p.amounts[0]):
            _sized_in_brackets(scan, i, p)
    if is_used_up(scan):
        _in_parts(scan)


def _in_parts(scan: Scan) -> None:
    """ "750 ml mezcal, use it all, 2 mezcal 1 lime": small bare numbers before the names are parts, as a ratio is."""
    bares = scan.kinds("bare")
    names = {scan.items[i + 1].name for i in bares if scan.kind_at(i + 1) in _NAMED}
    held = [i for i in scan.kinds("amount") if bottled(scan.items[i]) and scan.kind_at(i + 1) in (*_NAMED, "cue:of")]
    if len(held) != 1 or len(bares) < 2 or len(names) != len(bares) or any(scan.items[i].value > SMALL_BARE for i in bares):
        return
    named = held[0] + 2 if scan.kind_at(held[0] + 1) == "cue:of" else held[0] + 1
    if scan.at(named) is None or scan.items[named].name not in names or held[0] > bares[0]:
        return
    first = scan.items[bares[0]]
    first.kind, first.values, first.name = "ratio", tuple(scan.items[i].value for i in bares), "COLON"
    scan.use(*bares[1:])


def _sized_in_brackets(scan: Scan, i: int, p: Phrase) -> None:
    """The size in brackets behind the bottles or behind their name."""
    named = i + 2 if scan.kind_at(i + 1) == "cue:of" else i + 1
    opens = named + 1 if scan.kind_at(named) in _NAMED else i + 1
    size_ml = _bracketed_ml(scan, opens)
    if size_ml is None:
        return
    if opens == i + 1:
        named = opens + 4 if scan.kind_at(opens + 3) == "cue:of" else opens + 3
    if scan.kind_at(i - 1) in _NAMED and scan.kind_at(named) in ("", "sep", "cue:and") and _others_measured(scan, i):
        scan.use(opens, opens + 1, opens + 2)
        p.kind, p.name, p.value, p.unit = "amount", "whole", p.amounts[0] * size_ml, "ml"  # "white rum 1 bottle (700)"
        return
    if scan.kind_at(named) not in _NAMED or not _said_again(scan, named):
        return
    scan.use(opens, opens + 1, opens + 2)
    p.kind, p.name, p.value, p.unit = "amount", "whole", p.amounts[0] * size_ml, "ml"
    if opens == i + 1:  # before its name: "1 bottle (750) tequila"
        last = opens + 2
        scan.items[i], scan.items[last] = scan.items[last], p
        scan.used[i], scan.used[last] = True, False


def _others_measured(scan: Scan, i: int) -> bool:
    """Whether every other name has an amount or a bottle behind it too, so that the bottle at i is one of a list."""
    named = [k for k in scan.kinds(*_NAMED) if k != i - 1 and scan.kind_at(k + 1) != "drink"]
    return bool(named) and all(scan.kind_at(k + 1) in ("amount", "vessel") for k in named)


def _so_many(scan: Scan, i: int, p: Phrase) -> None:
    """ "3 x 700 gin, use all of it: 60 gin 12 dry vermouth": the amount of a name that the spec, or its ratio, is about."""
    size = scan.at(i + 1)
    named = i + 3 if scan.kind_at(i + 2) == "cue:of" else i + 2
    bottle = size is not None and size.kind in ("amount", "bare") and (rough_ml(size.value, size.unit) or 0.0) in BOTTLE_SIZES_ML
    if size is None or not bottle or scan.kind_at(named) not in _NAMED or not 1 < p.value <= MOST_BOTTLES:
        return
    if ALL_OF_IT.search(scan.text) is None or not (_said_again(scan, named) or _opens_ratio(scan, named)):
        return
    size.kind, size.name, size.value, size.unit = "amount", "whole", p.value * size.value, size.unit or "ml"
    scan.use(i)


def _opens_ratio(scan: Scan, named: int) -> bool:
    """ "2 x 70 cl gin to use up, 5:1 with dry vermouth": the ratio's first part is the gin's. Puts its name there."""
    ratios = scan.kinds("ratio") or scan.cues("equal")
    if len(ratios) != 1 or ratios[0] < named:
        return False
    equal = scan.items[ratios[0]].kind == "cue"
    end = next((k for k in range(ratios[0], len(scan)) if scan.kind_at(k) == "sep"), len(scan))
    after = [k for k in range(ratios[0], end) if scan.kind_at(k) in _NAMED]
    if not after or (not equal and len(scan.items[ratios[0]].values) != len(after) + 1):
        return False
    scan.items.insert(ratios[0] + 1, scan.items[named].copy())
    scan.used.insert(ratios[0] + 1, False)
    return True


def _size_again(scan: Scan, i: int, p: Phrase) -> None:
    """ "a handle of vodka (1.75)": the size in brackets behind the name says nothing new. What is used up is an amount."""
    named = i + 2 if scan.kind_at(i + 1) == "cue:of" else i + 1
    opens = named + 1
    if p.size is None or scan.kind_at(named) not in _NAMED:
        return
    if scan.kind_at(opens) == "sep" and _bracketed_ml(scan, opens) == rough_ml(*p.size):
        scan.use(opens, opens + 1, opens + 2)
        return
    if _said_again(scan, named) and is_used_up(scan):  # "use up a handle of bourbon: 2 oz bourbon ..."
        many = p.amounts[0] if p.amounts else 1.0
        p.kind, p.name, p.value, p.unit = "amount", "whole", many * p.size[0], p.size[1]
        said = ALL_OF_IT.search(scan.text)
        again = [k for k in scan.kinds("vessel") if said and said.start() <= scan.items[k].start < said.end()]
        scan.use(*again)  # "..., batch the whole handle"


def _bracketed_ml(scan: Scan, opens: int) -> float | None:
    """mL of a bottle's size that stands in brackets at `opens`; None where there is none."""
    first, size, last = scan.at(opens), scan.at(opens + 1), scan.at(opens + 2)
    if first is None or size is None or last is None or (first.name, last.name) != ("(", ")"):
        return None
    if size.kind not in ("amount", "bare"):
        return None
    ml = rough_ml(size.value * 10.0 if size.kind == "bare" and size.value in _CL_BOTTLES else size.value, size.unit)
    return ml if ml in BOTTLE_SIZES_ML and ml >= LEAST_BOTTLE_ML else None


def _one_of(scan: Scan, i: int, p: Phrase) -> None:
    """ "one 1 L of vodka": the number counts one bottle, whose size says how much."""
    size = scan.at(i + 1)
    own = i + 2 if scan.kind_at(i + 1) == "cue:of" else i + 1
    if p.value in BOTTLE_SIZES_ML and p.value >= LEAST_BOTTLE_ML:
        if scan.kind_at(own) in _NAMED and _said_again(scan, own) and is_used_up(scan):
            p.kind, p.name, p.unit = "amount", "whole", "ml"  # "750 mezcal, 2 mezcal 1 lime, use it all"
        return
    sized = size is not None and size.kind in ("amount", "bare") and (rough_ml(size.value, size.unit) or 0.0) in BOTTLE_SIZES_ML
    if p.value != 1 or size is None or not sized:
        return
    named = i + 3 if scan.kind_at(i + 2) == "cue:of" else i + 2
    if scan.kind_at(named) in _NAMED and _said_again(scan, named):
        scan.use(i)
        if size.kind == "bare" and size.value >= LEAST_BOTTLE_ML:  # "one 750 of mezcal"
            size.kind, size.name, size.unit = "amount", "whole", "ml"


def _said_again(scan: Scan, named: int) -> bool:
    """Whether the name stands in the message once more."""
    name = scan.items[named].name
    return any(k != named and scan.items[k].name == name for k in scan.kinds(*_NAMED))
