"""A mix that is made and has no water in it yet, however the volume is put: "forgot the water", "no water in it yet"."""

import re

from grammar.scan import Scan

_NOT_IN = re.compile(
    r"\b(?:forgot|forgotten|missed|skipped|left out|havent added|haven't added|not added|still needs|still need|yet to add)"
    r" (?:to add |to put in |adding |all )?(?:the |any |its |my )?(?:water|dilution|h2o)\b"
    r"|\b(?:no|without|without any|zero) (?:water|dilution|h2o)(?: added| in| inside)?(?: it| there| that)?"
    r" ?(?:yet|so far|as yet|[,.;:!]|$)"
    r"|\b(?:water|dilution|h2o) (?:isn't|isnt|is not|hasn't been|hasnt been|not) (?:in|added|there)\b"
    r"|\b(?:undiluted|un-diluted|not diluted|isn't diluted|isnt diluted) "
)
_MADE = re.compile(
    r"\b(?:mix|premix|pre-?batch|batch|negroni|martini|manhattan|booze|spirits?)\b[^.?;]{0,24}\balready"
    r" (?:made|mixed|batched|built|in (?:the|a|my|our)) ?"
)


def still_dry(scan: Scan) -> bool:
    """Whether the volume said is that of a mix without its water; the water it is to get may be a share of the finished."""
    if re.search(r"\b(?:water|dilution)(?: is)? already in\b", scan.text):
        return False
    made = _MADE.search(scan.text) is not None and scan.has("want", "how_much", "bigger")
    return scan.has("water", "dilution", "final") and (made or _NOT_IN.search(scan.text) is not None)
