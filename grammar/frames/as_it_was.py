"""What a follow-up says of the request before it: the figure that was, beside the one that is wanted."""

from grammar.request import Measure
from grammar.scan import Scan

_IN_PLACE = frozenset(["instead of", "rather than", "in place of"])
_MOVED = ("", "sep", "cue:from", "cue:replace", "cue:make_it", "cue:set_to")
_NAMED = ("name", "context", "cue:water", "cue:dilution")


def take_as_it_was(scan: Scan) -> Measure | None:
    """ "25% water instead of 15", "22 instead of 12", "47 not 40": the figure that was before, marked with its words."""
    was: Measure | None = None
    for i in scan.kinds("bare", "percent"):
        if scan.kind_at(i - 1) == "cue:none" and (i >= 2 or len(scan.kinds("bare", "percent")) == 2):
            scan.use(i - 1, i)
            was = _figure(scan, i)
    for i in scan.kinds("bare", "percent"):
        slip = scan.at(i + 1)
        said = slip is not None and slip.is_cue("oops") and slip.text.endswith(("typo", "mistake", "wrong"))
        if said and len(scan.kinds("bare", "percent")) == 2:
            scan.use(i, i + 1)
            was = _figure(scan, i)  # "22 was a typo, i meant 12"
    for i in scan.cues("swap"):
        p = scan.at(i + 1)
        figure = scan.kind_at(i + 1) in ("bare", "percent", "amount", "count")
        named = scan.kind_at(i + 2) in ("name", "context", "cue:of")
        if p is not None and scan.items[i].text in _IN_PLACE and figure and not named:
            scan.use(i, i + 1)
            was = _figure(scan, i + 1)
            if len(scan.cues("swap")) == 1:
                scan.cue_names.discard("swap")
    for i in scan.cues("to"):  # "from 12 to 20", "change the 12 to 20"
        same = scan.kind_at(i - 1) == scan.kind_at(i + 1) and scan.kind_at(i + 1) in ("bare", "percent")
        if same and scan.kind_at(i - 2) in _MOVED and scan.kind_at(i - 3) not in _NAMED:
            was = _figure(scan, i - 1)
            scan.use(i - 1, i, *[k for k in (i - 2,) if scan.kind_at(k) in ("cue:from", "cue:replace")])
    return was


def _figure(scan: Scan, i: int) -> Measure | None:
    """The bare figure or percent at i; None for one that says its unit, which the new figure's own unit pairs with."""
    p = scan.items[i]
    if p.kind == "percent":
        return Measure(p.value * 100.0, "%")
    return Measure(p.value) if p.kind == "bare" else None
