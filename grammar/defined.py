"""A measure whose size the message says: "shots are 25 ml: 2 shots vodka ...", "(jigger = 1.5 oz, pony = 1 oz)".

Works on the phrases before anything is read of them: every such measure becomes the amount it stands for. Only measures
that differ from bar to bar, and only where one of them is poured elsewhere in the message.
"""

import re

from grammar.phrase import Phrase

_LOCAL = frozenset(["shot", "jigger", "pony", "part", "dash", "barspoon"])
_IS = re.compile(r"\s*(?:(?:is|are|means?|being|here|our|my|a|=|:|(?:is|are) (?:always|only|just)) *)+\s*")
_NAMED = ("name", "context")


def defined(phrases: list[Phrase], text: str) -> None:
    """Carry out every definition, in place."""
    seen = [p for p in phrases if p.kind != "filler"]
    for i, p in enumerate(seen):
        size = _size(seen, i, text) if p.unit in _LOCAL and p.kind in ("unit", "amount") else None
        if size is None:
            continue
        others = [
            q for k, q in enumerate(seen) if q.unit == p.unit and q is not p and (q.kind == "amount" or _poured(seen, q, k + 1))
        ]
        if not others:
            continue
        for q in others:
            q.value = size.value * (q.value if q.kind == "amount" else 1.0)
            q.kind, q.unit = "amount", size.unit
        for q in _around(seen, i, next(k for k, q in enumerate(seen) if q is size)):
            q.kind, q.name = "filler", ""


def _size(seen: list[Phrase], i: int, text: str) -> Phrase | None:
    """The amount that the measure at i is said to be."""
    p = seen[i]
    if p.kind == "amount" and p.value != 1:
        return None
    for k in (i + 1, i + 2):
        if k >= len(seen):
            return None
        q = seen[k]
        if q.kind == "amount" and q.unit in ("ml", "cl", "oz"):
            follows = seen[k + 1].kind if k + 1 < len(seen) else ""
            return q if follows not in _NAMED and _IS.fullmatch(text[p.end : q.start]) else None
        if not (q.is_cue("equals") or (q.kind == "sep" and q.name == ":")):
            return None
    return None


def _poured(seen: list[Phrase], q: Phrase, k: int) -> bool:
    """Whether a measure without a number is poured, by what stands at k behind it: "jigger of rye"."""
    k += k < len(seen) and seen[k].is_cue("of")
    return q.kind == "unit" and k < len(seen) and seen[k].kind in _NAMED


def _around(seen: list[Phrase], first: int, last: int) -> list[Phrase]:
    """The definition with the mark that closes it, and its brackets once they are empty."""
    if last + 1 < len(seen) and seen[last + 1].kind == "sep" and seen[last + 1].name in ":,;":
        last += 1
    opened = first > 0 and seen[first - 1].kind == "sep" and seen[first - 1].name == "("
    if opened and last + 1 < len(seen) and seen[last + 1].kind == "sep" and seen[last + 1].name == ")":
        first, last = first - 1, last + 1
    return seen[first : last + 1]
