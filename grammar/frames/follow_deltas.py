"""How much more or less a follow-up wants, of an ingredient or of all: by an amount, a share, or so many times it."""

from dataclasses import replace

from grammar.decide_follow import halved
from grammar.request import FollowUp, Measure, Part
from grammar.scan import Scan, Unclear
from grammar.words_measures import FRACTION_WORDS

_TIMES = {"double": 2.0, "triple": 3.0, "half": 0.5}
_FIGURES = ("amount", "bare", "percent", "count", "ratio")


def _times(scan: Scan, i: int) -> float | None:
    """So many times what the name at i has: "double the syrup", "half of the lime", "20% less gin". Marks the words."""
    at = i - 2 if scan.kind_at(i - 1) == "cue:of" else i - 1
    p, q = scan.at(at), scan.at(i - 2)
    if p is None or scan.used[at]:
        return None
    if p.is_cue("bigger", "smaller") and q is not None and q.kind == "percent" and not scan.used[i - 2]:
        scan.use(i - 2, i - 1)
        return 1.0 + q.value if p.name == "bigger" else 1.0 - q.value
    said = _TIMES.get(p.name) if p.kind == "cue" else FRACTION_WORDS.get(p.text) if p.kind in ("unknown", "bare") else None
    if said is None:
        return None
    scan.use(*range(at, i))
    if p.kind == "cue" and len(scan.cues(p.name)) == 1:
        scan.cue_names.discard(p.name)
    return said


def _swap_some(scan: Scan, out: FollowUp) -> FollowUp:
    """ "swap half the rye for cognac", "replace a third of the gin with fino": that share of it becomes the other. Marks it."""
    names = scan.kinds("name", "context")
    both = halved(scan)
    if both is not None:
        scan.use(*range(names[0] - 1, names[-1] + 1))
        return replace(out, swap=(scan.items[both[0]].name, scan.items[both[1]].name), swap_share=0.5)
    if len(names) != 2 or not scan.has("swap", "replace", "set_to"):
        return out
    a, b = names
    for old, new in ((a, b), (b, a)):
        q = scan.at(old - 2 if scan.kind_at(old - 1) == "cue:of" else old - 1)
        if q is None or q.kind not in ("unknown", "bare", "cue", "percent"):
            continue
        share = 0.5 if q.is_cue("half") else q.value if q.kind == "percent" else FRACTION_WORDS.get(q.text, 0.0)
        lead = scan.at(old - 3 if scan.kind_at(old - 1) == "cue:of" else old - 2)
        first = old == a and scan.kind_at(b - 1) in ("cue:for", "cue:with", "cue:to")
        instead = old == b and lead is not None and lead.is_cue("swap", "for")  # "cognac instead of half the rye"
        if 0.0 < share < 1.0 and (first or instead):
            if q.is_cue("half") and len(scan.cues("half")) == 1:
                scan.cue_names.discard("half")
            scan.use(*range(scan.items.index(q), old + 1), new)
            return replace(out, swap=(scan.items[old].name, scan.items[new].name), swap_share=share)
    return out


def take_deltas(scan: Scan, out: FollowUp) -> FollowUp:
    """ "5 less lime in each", "20% more gin", "half the syrup": how an ingredient's amount changes. Marks it.

    Raises Unclear no_amounts for "less syrup", which does not say how much.
    """
    deltas: list[Part] = []
    out = _swap_some(scan, out)
    for w in scan.cues("water", "dilution"):
        times = _times(scan, w)
        if times is not None:  # how much water that is, the last answer knows
            if scan.items[w - 1].is_cue("bigger", "smaller"):  # "5% less water": of the water, or of all
                raise Unclear("unclear_number", scan.items[w - 1 : w + 1], f"{scan.items[w - 1].text} {scan.items[w].text}")
            scan.use(w)
            scan.cue_names -= {"water", "dilution"}
            out = replace(out, water_times=times)
    for i in scan.kinds("name", "context"):
        if scan.used[i]:
            continue
        sign = scan.at(i - 1)
        q = scan.at(i - 2)
        times = _times(scan, i)
        if times is not None:
            deltas.append(Part(scan.items[i].name, Measure(times, "times"), scan.items[i].text))
            scan.use(i)
            continue
        if (
            sign is None
            or q is None
            or not sign.is_cue("bigger", "smaller")
            or q.kind not in ("amount", "bare")
            or scan.used[i - 2]
        ):
            bare = scan.at(i + 2) if scan.kind_at(i + 1) == "sep" else None
            alone = bare is not None and bare.kind in ("amount", "bare") and scan.kind_at(i + 3) in ("", "sep", "cue:each")
            if sign is not None and sign.is_cue("smaller", "bigger") and alone and bare is not None:
                raise Unclear("two_readings", [bare], f"{bare.text} {scan.items[i].text} or {bare.text} {sign.text}")
            told = scan.kinds(*_FIGURES) or scan.has("how_much", "what")
            if sign is not None and sign.is_cue("smaller", "bigger") and not told:
                raise Unclear("no_amounts", [scan.items[i]], scan.items[i].text, names=scan.items[i].text)
            continue
        value = q.value if sign.name == "bigger" else -q.value
        deltas.append(Part(scan.items[i].name, Measure(value, q.unit), scan.items[i].text))
        scan.use(i - 2, i - 1, i, *scan.cues("each"))
    return replace(out, deltas=tuple(deltas))


def take_multiples(scan: Scan, out: FollowUp) -> FollowUp:
    """ "double it", "x3": all of it so many times. Marks the words."""
    for cue, times in (("double", 2.0), ("triple", 3.0), ("half", 0.5)):
        if scan.has(cue):
            scan.use_cues(cue)
            return replace(out, times=times)
    for i in scan.kinds("times", "fold"):
        if scan.items[i].value <= 10 and (len(scan.items) <= 2 or any(p.text in ("that", "it") for p in scan.all)):
            scan.use(i)
            return replace(out, times=scan.items[i].value)
    for i in scan.kinds("bare"):
        if scan.items[i].value == 0.5 and scan.items[i].text.startswith("half"):
            scan.use(i)
            return replace(out, times=0.5)
    return out
