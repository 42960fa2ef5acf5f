"""Figures of a cut that want a second look: bottles without a size, proof said without the word."""

import re

from grammar.request import Lot
from grammar.scan import Scan, Unclear, bottled


def bottles_sized_behind(scan: Scan) -> None:
    """ "2 btls 700 ml 57% down to 43": so many bottles of the size behind the word. Marks the size."""
    for i in scan.kinds("vessel"):
        v = scan.items[i]
        j = i + 2 if scan.kind_at(i + 1) == "cue:of" else i + 1
        size = scan.at(j)
        if v.size is None and v.amounts and size is not None and scan.kind_at(j) in ("amount", "bare") and bottled(size):
            v.size = (size.value, size.unit or "ml")
            scan.use(j)


_PART_OF_IT = re.compile(r"\b(?:half|part|some|a third|a quarter|most) of (?:it|that|this)\b")


def part_of_it(scan: Scan) -> None:
    """ "made 1.2 L of 48% gin, only half of it (600 ml) cut to 40%": the second volume is what is cut. Marks the first."""
    volumes = scan.kinds("amount")
    said = _PART_OF_IT.search(scan.text)
    if said is not None and len(volumes) == 2 and scan.items[volumes[0]].end <= said.start() < scan.items[volumes[1]].start:
        first, second = (scan.items[i] for i in volumes)
        first.value, first.unit = second.value, second.unit
        scan.use(volumes[1])


def bottles_need_a_size(scan: Scan) -> None:
    """Several bottles at hand need a size. Raises Unclear no_volume."""
    for p in scan.items:
        several = p.kind == "vessel" and p.size is None and bool(p.amounts) and p.amounts[0] > 1
        if several and not scan.kinds("amount") and not any(q.kind == "bare" and q.value >= 100 for q in scan.items):
            sized = f"{scan.text[: p.start]}{p.amounts[0]:g} x 700 ml{scan.text[p.end :]}"
            raise Unclear("no_volume", [p], "the size of the bottle", sized)


_PROOFS = (80.0, 192.0)  # a bottle's figure in proof: from the usual 40% up to neutral spirit; common practice, no source


def bare_proof(scan: Scan) -> None:
    """ "a fifth of 101 bourbon down to 80 proof": beside a volume and another proof, such a figure is proof too."""
    sized = scan.kinds("amount") or [i for i in scan.kinds("vessel") if scan.items[i].size is not None]
    if not sized or not scan.kinds("proof"):
        return
    for i in scan.kinds("bare"):
        p = scan.items[i]
        if _PROOFS[0] < p.value <= _PROOFS[1]:
            p.kind, p.value = "proof", p.value / 200.0


def in_proof(scan: Scan, target: float | None, lots: list[Lot]) -> float | None:
    """ "100 proof to 86": a bare target is proof too, where as a percentage it could only be a raise."""
    said = {p.kind for p in scan.items if p.kind in ("percent", "proof")}
    strengths = [lot.abv for lot in lots if lot.abv is not None]
    bare = target is not None and any(p.kind == "bare" and p.value == round(target * 100, 9) for p in scan.items)
    if target is None or not bare or said != {"proof"} or not strengths or target <= max(strengths):
        return target
    return target / 2
