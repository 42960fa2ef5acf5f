"""Counts that are no number: "10-12 guests", "8 or 9 serves", "a few drinks". They are asked about."""

from grammar.scan import Scan, Unclear

VAGUE = frozenset(["few", "several", "bunch", "handful", "loads", "lots", "many", "couple"])


def ask_ranges(scan: Scan) -> None:
    """ "10-12 guests" and "8 or 9 serves" are asked about. Raises Unclear unclear_number."""
    for i, p in enumerate(scan.items):
        if p.kind == "ratio" and p.name == "DASH" and p.unit:
            raise Unclear("unclear_number", [p], p.text)
        vague = p.kind == "unknown" and (p.text in VAGUE or p.text in ("nan", "inf", "infinity", "null", "none"))
        if (
            vague
            and i + 1 < len(scan)
            and (scan.items[i + 1].kind == "drink" or scan.items[i + 1].is_cue("serve_word", "guest_word"))
        ):
            raise Unclear("unclear_number", [p], f"{p.text} {scan.items[i + 1].text}")
    for i, p in enumerate(scan.items[:-1]):
        nxt = scan.items[i + 1]
        if (
            p.kind == "ratio"
            and p.name == "DASH"
            and p.values[0] < p.values[-1]
            and sum(p.values) != 100
            and (nxt.kind == "drink" or nxt.is_cue("serve_word", "guest_word"))
        ):
            raise Unclear("unclear_number", [p, nxt], f"{p.text} {nxt.text}")
        if (
            p.kind == "bare"
            and not scan.used[i]
            and nxt.is_cue("or", "to")
            and i + 2 < len(scan.items)
            and scan.items[i + 2].kind in ("count", "guests")
        ):
            raise Unclear("unclear_number", [p, scan.items[i + 2]], f"{p.text} {nxt.text} {scan.items[i + 2].text}")
