"""Guests of whom only some drink it: "80 guests, 60% drink gin", "150 ppl, half drink wine"."""

import re

from grammar.scan import Scan
from grammar.words_measures import FRACTION_WORDS

_DRINK_IT = re.compile(
    r"\s*(?:of (?:them|guests|people|the guests|the room) )?(?:will |who |might )?(?:drink|drinking|have|having|want|go for|on)\b"
)


def some_guests(scan: Scan) -> None:
    """Counts only those who drink it. Marks the share."""
    guests = scan.kinds("guests")
    if len(guests) != 1:
        return
    for i in scan.kinds("percent", "unknown"):
        p = scan.items[i]
        share = p.value if p.kind == "percent" else FRACTION_WORDS.get(p.text, 0.0)
        if i > guests[0] and 0 < share < 1 and _DRINK_IT.match(scan.text, p.end):
            scan.items[guests[0]].value *= share
            p.kind = "filler"  # no strength of what stands behind it
            scan.use(i)
            return
