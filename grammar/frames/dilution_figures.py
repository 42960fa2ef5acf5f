"""The figures of a question about dilution: how many serves, which amount is water, the undiluted and the finished volume."""

import re

from grammar.frames.spec import numbers_read
from grammar.request import Dilution, Measure
from grammar.scan import Scan, measure

_LEAST_ML = 15.0  # a smaller figure without a unit is no volume: common practice, no source


def serves_of(scan: Scan) -> float | None:
    """How many serves, or guests times their drinks. Marks them."""
    counts = scan.kinds("count", "times", "fold", "guests")
    scan.use(*counts)
    guests = [scan.items[i].value for i in counts if scan.items[i].kind == "guests"]
    others = [scan.items[i].value for i in counts if scan.items[i].kind != "guests"]
    if guests and others:
        return guests[0] * others[0]  # "12 ppl x 2 drinks each"
    if counts:
        return (guests or others)[0]
    for i in scan.kinds("vessel"):
        p = scan.items[i]
        if p.amounts and p.size is None and p.text.endswith("bottled") and scan.kind_at(i + 1) == "drink":
            scan.use(i)
            return p.amounts[0]  # "90 bottled manhattans"
    for i in scan.kinds("bare"):
        of_them = scan.kind_at(i + 1) == "cue:of" and scan.kind_at(i + 2) in ("", "sep")
        after = scan.at(i + 1)
        stirred = after is not None and after.is_cue("technique_stir", "technique_shake", "serve_word")
        drunk = stirred and (i == 0 or scan.kind_at(i - 1) in ("cue:for", "sep"))  # "50 stirred drinks"
        wanted = drunk or scan.kind_at(i - 1) in ("cue:for", "cue:make_it", "cue:want")
        before = scan.at(i - 1)
        if before is not None and before.text in ("batch of", "serves"):
            scan.items[i].kind, wanted = "count", True  # "a batch of 20, 3 oz each", "4 L, serves 40"
        if of_them or wanted or (scan.kind_at(i + 1) == "amount" and scan.items[i].value < 200):
            scan.use(i)
            return scan.items[i].value
    return None


_BEFORE_AFTER = re.compile(
    r"(\d+(?:\.\d+)?) ?(ml|cl|l|oz)?(?: each)?"
    r" (?:(?:going |goes |went )?in(?:to)?(?: (?:the |on )?(?:ice|tin|shaker|mixing glass|glass))?"
    r"|before(?: (?:water|ice|dilution|diluting|stirring|shaking))?|dry|neat|undiluted)\b"
    r"\W{0,3}(?:(?:and|then|to|,) ){0,2}(\d+(?:\.\d+)?) ?(ml|cl|l|oz)?(?: each)?"
    r" (?:(?:coming |comes |came )?out|after|wet|diluted|finished)\b"
)


#: the same told of the ice: "i stir 85 to 110", "shaken from 90 ml to 125 ml"
_GROWS = re.compile(
    r"\b(?:stir|stirs|stirred|stirring|shake|shakes|shaken|shaking)(?: it| them)?(?: from)? (\d+(?:\.\d+)?) ?(ml|cl|oz)?"
    r" (?:up )?(?:to|into) (?:about )?(\d+(?:\.\d+)?) ?(ml|cl|oz)?\b"
)

#: and with the figure behind the word: "goes in at 95 ml and comes out 120", "in at 90, out at 118"
_IN_AT = re.compile(
    r"\b(?:(?:goes|went|go|going) )?(?:in|into the (?:tin|shaker|glass|mixing glass))(?: at| with| is)?"
    r" (\d+(?:\.\d+)?) ?(ml|cl|l|oz)?"
    r"\W{0,3}(?:(?:and|then|but|,) ?){0,2}(?:(?:comes|came|coming|come) )?(?:back )?out(?: at| is| as| to)?"
    r" (\d+(?:\.\d+)?) ?(ml|cl|l|oz)?\b"
)


def grown(scan: Scan) -> re.Match[str] | None:
    """Where two figures of a drink are told, before and after the ice."""
    if not scan.kinds("amount", "bare"):
        return None
    return _BEFORE_AFTER.search(scan.text) or _GROWS.search(scan.text) or _IN_AT.search(scan.text)


def before_and_after(scan: Scan) -> Dilution | None:
    """ "90 in, 118 out", "20 serves 90 ml before water, 110 after": the water is what was gained. Marks the figures."""
    said = grown(scan)
    if said is None or scan.kinds("name", "ratio", "house", "percent", "proof"):
        return None
    unit = said[2] or said[4] or "ml"
    before, after = float(said[1]), float(said[3])
    if unit != (said[4] or unit) or not after > before > 0.0:
        return None
    scan.use(*[i for i, p in enumerate(scan.items) if p.start in (said.start(1), said.start(3))])
    serves = serves_of(scan) or 1.0
    numbers_read(scan)
    return Dilution(Measure(before * serves, unit), water=Measure((after - before) * serves, unit))


def water_of(scan: Scan, shared: bool) -> Measure | None:
    """An amount that is water. Marks it. With a share said, an amount after the word is what it is a share of."""
    for w in scan.cues("water", "dilution"):
        for i in (w - 1, w - 2) if shared else (w - 1, w + 1, w - 2):
            p = scan.at(i)
            if p is not None and p.kind in ("amount", "bare") and not scan.used[i]:
                if i == w + 1 and scan.items[w].name == "dilution":
                    continue
                if i == w - 2 and scan.kind_at(w - 1) not in ("cue:of", "cue:bigger"):
                    continue
                if i == w + 1 and p.kind == "bare":
                    continue
                if i == w + 1 and scan.kind_at(w - 1) in ("amount",):
                    continue
                scan.use(i)
                return Measure(p.value, p.unit or "ml")
    return None


def first_amount(scan: Scan) -> Measure | None:
    """The first amount not used yet. Marks it."""
    for i in scan.kinds("amount"):
        scan.use(i)
        return measure(scan.items[i])
    return None


def volumes_of(scan: Scan) -> tuple[Measure | None, Measure | None]:
    """The undiluted and the finished volume, as far as said."""
    volume: Measure | None = None
    finished: Measure | None = None
    for i in scan.kinds("amount", "bare", "vessel"):
        p = scan.items[i]
        if (p.kind == "vessel" and p.size is None) or (p.kind == "bare" and p.value < _LEAST_ML):
            continue
        j = i + 1
        while j < len(scan) and scan.used[j] and scan.items[j].kind in ("bare", "amount"):
            j += 1
        before, before2, after = scan.kind_at(i - 1), scan.kind_at(i - 2), scan.kind_at(j)
        got = (
            Measure(p.value, p.unit or "ml")
            if p.kind != "vessel"
            else Measure((p.size or (0, ""))[0] * (p.amounts[0] if p.amounts else 1.0), (p.size or (0, "ml"))[1])
        )
        is_final = (
            before == "cue:final"
            or after == "cue:final"
            or (before in ("cue:at", "cue:to", "cue:of", "sep") and before2 == "cue:final")
            or before in ("cue:rest",)
            or (before == "cue:serve_word" and before2 == "cue:final")  # "finished pour 110 ml"
        )
        dry = "cue:undiluted" in (after, before, scan.kind_at(j + 1))
        if is_final and not dry and finished is None:
            finished = got
            scan.use(i)
        elif volume is None:
            volume = got
            scan.use(i)
        elif finished is None and (scan.has("final") or before == "cue:to"):
            finished = got
            scan.use(i)
    return volume, finished


def bottled_drink(scan: Scan) -> bool:
    """Whether the one volume said is that of a drink's bottles."""
    vessels = [p for p in scan.items if p.kind == "vessel" and p.size is not None]
    loose = [p for p in scan.items if p.kind == "amount" and not any(v.start <= p.start < v.end for v in vessels)]
    return bool(vessels) and not loose and bool(scan.kinds("drink", fresh=False)) and not scan.has("to", "in", "bigger")
