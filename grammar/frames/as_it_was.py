"""What a follow-up says of the request before it: the figure that was, beside the one that is wanted."""

from grammar.scan import Scan

_IN_PLACE = frozenset(["instead of", "rather than", "in place of"])
_MOVED = ("", "sep", "cue:from", "cue:replace", "cue:make_it", "cue:set_to")
_NAMED = ("name", "context", "cue:water", "cue:dilution")


def take_as_it_was(scan: Scan) -> None:
    """ "25% water instead of 15", "22 instead of 12": the figure after the words is what it was before. Marks both."""
    for i in scan.cues("swap"):
        p = scan.at(i + 1)
        figure = scan.kind_at(i + 1) in ("bare", "percent", "amount", "count")
        named = scan.kind_at(i + 2) in ("name", "context", "cue:of")
        if p is not None and scan.items[i].text in _IN_PLACE and figure and not named:
            scan.use(i, i + 1)
            if len(scan.cues("swap")) == 1:
                scan.cue_names.discard("swap")
    for i in scan.cues("to"):  # "from 12 to 20", "change the 12 to 20"
        same = scan.kind_at(i - 1) == scan.kind_at(i + 1) and scan.kind_at(i + 1) in ("bare", "percent")
        if same and scan.kind_at(i - 2) in _MOVED and scan.kind_at(i - 3) not in _NAMED:
            scan.use(i - 1, i, *[k for k in (i - 2,) if scan.kind_at(k) in ("cue:from", "cue:replace")])
