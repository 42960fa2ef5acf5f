"""Bottles counted in a follow-up: "5 of those bottles", "make 3 bottles": so many of the bottle that was filled before."""

import re
from dataclasses import replace

from grammar.request import FollowUp
from grammar.scan import Scan

_TALK = ("make_it", "and", "but", "want", "for", "of", "same", "now", "bigger", "oops", "to", "scale")
_ASKED = re.compile(r"\?")
_SUCH = frozenset(["such", "like", "identical", "those", "these"])


def take_bottles(scan: Scan, out: FollowUp) -> FollowUp:
    """So many bottles of no size said, with nothing but talk around them. Marks them.

    Bottles to buy ("how many bottles", "buy 5 bottles") and bottles of an ingredient are not read here.
    """
    for i in scan.kinds("vessel"):
        v = scan.items[i]
        if v.size is not None:
            continue
        at = i
        while scan.at(at - 1) is not None and (scan.kind_at(at - 1) == "cue:of" or scan.items[at - 1].text in _SUCH):
            at -= 1
        many = v.amounts[0] if v.amounts else 0.0
        taken = [i]
        if not many and at > 0 and scan.kind_at(at - 1) in ("bare", "times", "fold") and not scan.used[at - 1]:
            many, taken = scan.items[at - 1].value, [*range(at - 1, i + 1)]
        others = [k for k, p in enumerate(scan.items) if k not in taken and not scan.used[k] and p.kind != "sep"]
        talk = all(scan.items[k].is_cue(*_TALK) or scan.items[k].text in _SUCH for k in others)
        if many >= 1 and many == int(many) and talk and (taken != [i] or others or not _ASKED.search(scan.text)):
            scan.use(*taken, *others)
            return replace(out, makes=replace(out.makes, vessels=many))
    return out
