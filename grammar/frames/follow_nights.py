"""The last batch again on so many nights: "if I run that fri sat n sun", "x3 nights"; "for the week" is asked about."""

import re
from dataclasses import replace

from grammar.request import FollowUp
from grammar.scan import Scan, Unclear

_DAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
_DAY = r"\b(mon|tue|wed|thu|fri|sat|sun)(?:day|s|sday|nesday|rs|rsday|urday|r)?s?\b"
_EACH_DAY = re.compile(_DAY)
_FROM_TO = re.compile(rf"{_DAY} ?(?:to|through|thru|till|until|-) ?{_DAY}")
_OPEN = re.compile(
    r"\b(?:(?:for|over|through|all|whole) (?:the )?(?:whole )?(?:week|month|season|festival|weekend)|every (?:night|day))\b"
)
_AGAIN = re.compile(r"\b(?:run|running|do|doing|make|making|serve|serving|same|pour|pouring|repeat)\b")
_NIGHTS = re.compile(r" ?(?:nights?|days?|shifts?|services?|evenings?|weekends?|weeks?)\b")


def take_nights(scan: Scan, out: FollowUp) -> FollowUp:
    """So many times the last batch, where what to buy for it is asked. Marks the figure. Raises Unclear unclear_number."""
    if not scan.has("how_many", "how_much", "bottles"):
        return out
    for i in scan.kinds("times"):  # "x3 nights"; "night" is talk elsewhere
        nights = _NIGHTS.match(scan.text, scan.items[i].end)
        if nights is not None:
            scan.use(i, *[k for k, p in enumerate(scan.items) if scan.items[i].end <= p.start < nights.end()])
            return replace(out, times=scan.items[i].value)
    if scan.kinds("count", "guests", "times", "bare") or not _AGAIN.search(scan.text):
        return out
    run = _FROM_TO.search(scan.text)
    many = len(set(_EACH_DAY.findall(scan.text)))
    if run is not None:
        many = (_DAYS.index(run[2]) - _DAYS.index(run[1])) % 7 + 1
    if many > 1:
        days = [i for i, p in enumerate(scan.items) if _EACH_DAY.fullmatch(p.text) or p.text == "run"]
        scan.use(*days)
        return replace(out, times=float(many))
    said = _OPEN.search(scan.text)
    if said is not None:
        raise Unclear("unclear_number", [p for p in scan.all if said.start() <= p.start < said.end()], said.group())
    return out
