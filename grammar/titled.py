"""Drinks we have no name for, told by what stands before them: "35 bobby burns at ...", "half a gallon of daisy, ...".

Also what a drink's name says of the figure before it: "90 ml a spritz". Changes phrases in place and marks what it
explained, as grammar.regroup does, which calls them.
"""

from grammar.phrase import Phrase
from grammar.scan import SERVE_LIMIT_ML, Scan, rough_ml

_NAMED = ("name", "context")


def a_drink(scan: Scan, i: int, p: Phrase) -> None:
    """ "90 ml a spritz", "50 ml in a mojito": the drink's name says that the amount is of each."""
    q = scan.at(i - 2 if scan.kind_at(i - 1) == "cue:in" else i - 1)
    one = scan.text[: p.start].rstrip().rsplit(" ", 1)[-1] in ("a", "an", "every", "each")
    if one and q is not None and q.kind == "amount" and 0.0 < (rough_ml(q.value, q.unit) or 0.0) < SERVE_LIMIT_ML:
        p.kind, p.name = "cue", "each"
        scan.cue_names.add("each")


def counted_title(scan: Scan, i: int, p: Phrase) -> None:
    """ "want 35 bobby burns at 100 ml: 2 scotch ...": so many of a drink we have no name for."""
    if not 1 < p.value <= 1e6 or p.value != int(p.value) or p.kind != "bare":
        return
    start = i + 2 if scan.kind_at(i + 1) == "cue:scale" else i + 1  # "20 batched zorbas"
    if scan.kind_at(start) != "unknown":
        return
    end = start
    while scan.kind_at(end + 1) == "unknown":
        end += 1
    last, closed = scan.items[end], scan.at(end + 1)
    if not last.text.endswith("s") or last.text.endswith("ss") or closed is None or end - start > 2:
        return
    wanted = scan.kind_at(i - 1) in ("cue:want", "cue:make_it", "cue:scale", "cue:bigger", "cue:for", "cue:in")
    sized = closed.is_cue("at") and scan.kind_at(end + 2) == "amount" and scan.kind_at(i - 1) in ("", "sep")
    listed = closed.kind == "sep" or closed.is_cue("at", "with", "each")
    heads = i == 0 and closed.kind in ("sep", "ratio") and not scan.kinds("count", "times", "fold", "guests", "vessel")
    if _spec_behind(scan, end + 1) and ((wanted and listed) or sized or heads):
        first = scan.items[start]
        p.kind, p.name = "count", scan.text[first.start : last.end]
        scan.use(*range(i + 1, end + 1))


def volume_of_title(scan: Scan, i: int, p: Phrase) -> None:
    """ "half a gallon of daisy, 2 parts tequila ...": a volume of a drink we have no name for."""
    if scan.kind_at(i + 1) != "cue:of" or scan.kind_at(i + 2) != "unknown":
        return
    end = i + 2
    while scan.kind_at(end + 1) == "unknown":
        end += 1
    closed = scan.at(end + 1)
    large = (rough_ml(p.value, p.unit) or 0.0) >= SERVE_LIMIT_ML
    if large and end - i <= 4 and closed is not None and closed.kind in ("sep", "ratio") and _spec_behind(scan, end + 1):
        first = scan.items[i + 2]
        first.kind, first.name = "drink", scan.text[first.start : scan.items[end].end]
        scan.use(*range(i + 3, end + 1))


def _spec_behind(scan: Scan, start: int) -> bool:
    rest = scan.items[start:]
    return sum(q.kind in _NAMED for q in rest) >= 2 and any(q.kind in ("amount", "bare", "ratio") for q in rest)
