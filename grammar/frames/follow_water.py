"""What a follow-up says of the water: a share, an amount, less or more of it, a glassful that is tipped in."""

import re
from dataclasses import replace

from grammar.request import FollowUp, Water
from grammar.scan import Scan, rough_ml
from grammar.water import read_water

_MOST_SHARE = 50.0  # a larger bare figure is no share but an amount: common practice, no source
_TIPPED_IN = re.compile(
    r"\b(?:add|chuck|throw|tip|pour|put|stick|dump|bung|slosh|splash|stir|mix|drop|lob)(?:ing|s|ped|red)?(?: in| on| to it)?"
    r"(?: another| an extra| like| about)? $"
)
_OF_FINISHED = re.compile(r"^\W*(?:\w+ ){0,4}of (?:the )?(?:final|finished|total|whole)\b")
_PASSED = ("sep", "unknown", "cue:to", "cue:at", "cue:make_it", "cue:but")
_WAY = {"bigger": 1, "smaller": -1}


def take_water(scan: Scan, out: FollowUp) -> FollowUp:
    """The water wanted. Marks it. An amount of unit "" is that of the spec; whole is False when it is said of each."""
    way = _less_or_more(scan)
    if way is not None:
        share, out = way[0], replace(out, water_way=way[1])
        return replace(out, water=Water("of_undiluted", share))
    if not scan.kinds("percent", "amount", "bare") and _OF_FINISHED.search(scan.text) is not None:
        scan.use_cues("final", "of", "water", "dilution")
        scan.cue_names -= {"final", "water", "dilution"}
        return replace(out, of_finished=True)  # "of the final instead"
    water = read_water(scan)
    return replace(out, water=water if water.how != "unsaid" else _figure(scan))


def share_of_final(scan: Scan) -> None:
    """ "sorry, meant 20 of the final": a share of what is poured in the end, not so many serves. Makes it a percent."""
    for i in scan.kinds("bare"):
        p = scan.items[i]
        closed = scan.kind_at(i + 3) in ("", "sep", "cue:water", "cue:but")
        if scan.kind_at(i + 1) == "cue:of" and scan.kind_at(i + 2) == "cue:final" and closed and 0 < p.value <= _MOST_SHARE:
            p.kind, p.value = "percent", p.value / 100.0


def _less_or_more(scan: Scan) -> tuple[float, int] | None:
    """ "less water, say 15", "a bit more water, 30%": the share wanted, and which way that must be."""
    for w in scan.cues("water", "dilution"):
        before, led = scan.at(w - 1), scan.kind_at(w - 2)
        if before is None or before.kind != "cue" or before.name not in _WAY or led in ("amount", "bare", "percent"):
            continue
        j = w + 1
        while scan.kind_at(j) in _PASSED and j < w + 5:
            j += 1
        p = scan.at(j)
        closed = scan.kind_at(j + 1) in ("", "sep", "cue:but", "cue:and", "unknown")
        if p is None or not closed or scan.kind_at(j) not in ("bare", "percent") or (j == w + 1 and p.kind == "bare"):
            continue
        share = p.value if p.kind == "percent" else p.value / 100.0
        if 0.0 < share <= 1.0:
            scan.use(w - 1, w, j)
            scan.cue_names -= {before.name}
            return share, _WAY[before.name]
    return None


def _figure(scan: Scan) -> Water:
    """A figure beside the water: "water 20" is a share, "20 ml water" and "chuck in 100 water" are amounts."""
    for w in scan.cues("water", "dilution"):
        for j in (w + 1, w - 1, w + 2, w - 2):
            p = scan.at(j)
            if p is None or scan.used[j] or (j == w + 2 and scan.kind_at(w + 1) not in ("cue:to", "cue:rest")):
                continue
            if j == w - 2 and scan.kind_at(w - 1) != "cue:of":
                continue
            if p.kind == "amount":
                scan.use(w, j)
                each = scan.kind_at(j + 1) == "cue:each" or (rough_ml(p.value, p.unit) or 0) < 100
                if scan.kind_at(j + 1) == "cue:each":
                    scan.use(j + 1)
                return Water("amount", p.value, p.unit, not each)
            if p.kind != "bare":
                continue
            scan.use(*range(min(w, j), max(w, j) + 1))
            last = max(w, j) + 1
            if scan.kind_at(last) == "cue:each":
                scan.use(last)
                scan.cue_names -= {"each"}
                return Water("amount", p.value, "", False)
            tipped = j < w and _TIPPED_IN.search(scan.text[: p.start]) is not None
            if tipped or p.value > _MOST_SHARE:
                return Water("amount", p.value, "", True)
            return Water("of_undiluted", p.value / 100)
    return Water()
