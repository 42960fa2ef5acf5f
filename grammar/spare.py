"""What is made on top of what is asked for: "plus 10% for spillage", "add 4 spare", "10% more" of a batch.

Shared by the specs, where the serves are said in the same message, and by follow-ups.
"""

import re

from grammar.scan import Scan

SPARE = frozenset(
    ["spare", "extra", "buffer", "wastage", "waste", "spillage", "spill", "overage", "contingency", "leeway", "spares", "loss",
     "losses", "breakage", "breakages", "slack", "safety", "spillages", "mishaps", "accidents", "insurance"]
)  # fmt: skip
_IN_CASE = re.compile(r"\s*(?:extra |more |spare |over |on top )?(?:just in case|to be safe|to be on the safe side|for luck)\b")
_MOST = 0.5  # of the batch: nobody makes more spare than that; common practice, no source
_SCALED = re.compile(
    r"(?:scale|bump|up|increase|raise|push) (?:it|that|this|them|everything|all of it|the (?:batch|lot))(?: all)?(?: up)?$"
)
_OWNED = ("name", "context", "cue:water", "cue:dilution", "unknown", "house", "cue:of")


def spare_share(scan: Scan) -> float:
    """ "add 10% spare": a share to make on top. Marks it; 0 when none is said."""
    for i in scan.kinds("percent"):
        share = scan.items[i]
        if share.value > _MOST:
            continue
        for j in (i + 1, i + 2):
            p = scan.at(j)
            if p is not None and p.text in SPARE and not scan.used[j]:
                scan.use(i, j)
                return share.value
        said = _IN_CASE.match(scan.text, share.end)
        if said is not None:
            scan.use(i, *[k for k, p in enumerate(scan.items) if share.end <= p.start < said.end()])
            return share.value
    return 0.0


def spare_serves(scan: Scan) -> float:
    """ "plus 4 spare": so many serves on top. Marks them."""
    for i in scan.kinds("bare", "count"):
        p = scan.at(i + 1)
        more = scan.kind_at(i - 1) in ("cue:and", "cue:bigger", "cue:with")
        if more and p is not None and p.text in SPARE and not scan.used[i + 1]:
            scan.use(i, i + 1)
            return scan.items[i].value
    return 0.0


def share_more(scan: Scan) -> float:
    """ "10% more", "15% less", "scale it up by 10%": how much more, or less, of all of it. Marks it; 0 when none is said."""
    for i in scan.kinds("percent"):
        p, way = scan.items[i], scan.at(i + 1)
        if way is not None and way.is_cue("bigger", "smaller") and scan.kind_at(i + 2) not in _OWNED:
            scan.use(i, i + 1)
            return p.value if way.name == "bigger" else -p.value
        before = re.sub(r" by$", "", scan.text[: p.start].strip())
        if scan.kind_at(i + 1) not in _OWNED and scan.kind_at(i - 1) not in _OWNED and _SCALED.search(before) is not None:
            scan.use(i, *[k for k in (i - 1,) if k >= 0])
            return p.value
    return 0.0
