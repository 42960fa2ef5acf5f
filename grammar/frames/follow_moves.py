"""An ingredient's amount moved up or down in a follow-up: "bump the rye by 10 ml", "knock 5 off the vermouth", "rye +10".

Lives here: which way, and whether the figure is surely the difference. What the ingredient has, only the answer knows.
"""

from dataclasses import replace

from grammar.phrase import Phrase
from grammar.request import FollowUp, Measure, Move
from grammar.scan import Scan

_UP = frozenset(["bump", "up", "bump up"])
_FIGURES = ("amount", "bare")


def take_moves(scan: Scan, out: FollowUp) -> FollowUp:
    """Every such move, its phrases marked; "to 60" sets an amount and is left for the names."""
    moves: list[Move] = []
    for i in scan.kinds("name", "context"):
        if scan.used[i]:
            continue
        found = _behind(scan, i) or _before(scan, i)
        if found is None:
            continue
        q, first, last, sign, surely = found
        moves.append(Move(scan.items[i].name, scan.items[i].text, Measure(sign * abs(q.value), q.unit), surely))
        scan.use(*range(first, last + 1))
        if scan.kind_at(last + 1) == "cue:each":
            scan.use(last + 1)
    return replace(out, moves=tuple(moves))


def _way(p: Phrase | None) -> int:
    """1 for a verb that raises, -1 for one that lowers, 0 for any other word."""
    if p is None:
        return 0
    if p.is_cue("raise") or (p.is_cue("make_it") and p.text in _UP):
        return 1
    return -1 if p.is_cue("cut") else 0


def _behind(scan: Scan, i: int) -> tuple[Phrase, int, int, int, bool] | None:
    """ "bump rye by 10 ml", "drop the vermouth 5", "rye +10", "rye -5": the figure stands behind the name."""
    q, verb = scan.at(i + 1), scan.at(i - 1)
    if q is None:
        return None
    ends = scan.kind_at(i + 2) in ("", "sep", "cue:each", "cue:and", "cue:but")
    if q.kind == "negative" and q.end > scan.items[i].end and ends and scan.text[scan.items[i].end : q.start] == " ":
        return q, i, i + 1, -1, True
    plus = scan.at(i + 2)
    alone = scan.kind_at(i - 1) in ("", "sep") and scan.kind_at(i + 3) in ("", "sep")
    if q.is_cue("and") and q.text == "+" and plus is not None and plus.kind in _FIGURES and alone:
        return plus, i, i + 2, 1, True
    turned = 1 if q.text == "up" else -1 if q.text == "down" else 0
    if turned and plus is not None and plus.kind in _FIGURES and scan.kind_at(i + 3) in ("", "sep", "cue:each", "cue:and"):
        return plus, i, i + 2, turned, " by " in scan.text[q.end : plus.start + 1]  # "rye up 10, vermouth down 5"
    way = -1 if scan.text.endswith("cut the ", 0, scan.items[i].start) else _way(verb)
    if not way or q.kind not in _FIGURES or not ends or scan.used[i + 1]:
        return None
    return q, i - 1 if _way(verb) else i, i + 1, way, " by " in scan.text[scan.items[i].end : q.start + 1]


def _before(scan: Scan, i: int) -> tuple[Phrase, int, int, int, bool] | None:
    """ "knock 5 off the vermouth", "add 5 ml rye": the figure stands before the name."""
    at = i - 2 if scan.kind_at(i - 1) == "cue:of" else i - 1
    q, verb = scan.at(at), scan.at(at - 1)
    if q is None or q.kind not in _FIGURES or scan.used[at] or scan.kind_at(i + 1) in _FIGURES:
        return None
    off = " off " in scan.text[q.end : scan.items[i].start]
    if off:
        return q, at - 1 if _way(verb) else at, i, -1, True
    adds = verb is not None and verb.is_cue("bigger") and verb.text in ("add", "adding", "put in") and q.kind == "amount"
    return (q, at - 1, i, 1, True) if adds and q.unit != "part" else None
