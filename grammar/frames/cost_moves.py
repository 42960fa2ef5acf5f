"""What a change costs: a bottle's price that went up, a pour that is larger than it should be."""

import re

from grammar.request import Measure, Money
from grammar.scan import Scan, rough_ml

_MOVES = re.compile(
    r"\b(?:went|gone|goes|going|rose|risen|rising|jumped|up|increased?|climbed|crept|dropped|down|fell|moved|changed?|hiked?)\b"
)
_THEN_NOW = re.compile(
    r"\b(?:was|used to be|were) (?:[$€£] ?)?(\d+(?:\.\d+)?)\b.*?\b(?:now|it's now|its now|is now) (?:[$€£] ?)?(\d+(?:\.\d+)?)\b"
)
_TALK = frozenset(
    ["before", "after", "went", "gone", "rose", "risen", "jumped", "increased", "increase", "climbed", "crept", "dropped", "fell",
     "moved", "hike", "hiked", "then", "difference", "changed"]
)  # fmt: skip


def price_moved(scan: Scan) -> tuple[Money, Money] | None:
    """ "rum went from 22 to 26 a bottle", "was 22 now 26": the old price, marked, and the new one, left to be read."""
    found = _from_to(scan) if _MOVES.search(scan.text) else None
    said = None if found is not None else _THEN_NOW.search(scan.text)
    if said is not None:
        at = [next((i for i in scan.kinds("bare", "money") if _holds(scan, i, said.start(n))), None) for n in (1, 2)]
        if at[0] is not None and at[1] is not None:
            found = at[0], at[1]
    if found is None:
        return None
    old, new = scan.items[found[0]], scan.items[found[1]]
    talk = [i for i, p in enumerate(scan.items) if p.text in _TALK]
    scan.use(found[0], *talk)
    for i in talk:
        scan.items[i].kind = "filler"  # no bottle's name
    currency = new.unit or old.unit
    return Money(old.value, currency), Money(new.value, currency)


def _holds(scan: Scan, i: int, at: int) -> bool:
    return scan.items[i].start <= at < scan.items[i].end


def _from_to(scan: Scan) -> tuple[int, int] | None:
    for c in scan.cues("from"):
        old, new = scan.at(c + 1), scan.at(c + 3)
        if old is None or new is None or old.kind not in ("bare", "money") or new.kind not in ("bare", "money"):
            continue
        if scan.kind_at(c + 2) == "cue:to":
            scan.use(c, c + 2)
            return c + 1, c + 3
    return None


_LARGEST_POUR_ML = 60.0  # poured over a measure by mistake: common practice, no source
_POURING = re.compile(r"\b(?:over[ -]?pour\w*|pour|pours|pouring|poured|free ?pour\w*|measuring)\b")
_OF_LOSS = frozenset(
    ["loss", "losing", "lose", "lost", "waste", "wasted", "wasting", "wk", "week", "weeks", "month", "weekly", "year", "day"]
)
_OVERPOUR_BY = re.compile(r"\bover[ -]?pour(?:s|ed|ing)?(?: by| of| is)? (?:about )?$")
_TOO_MUCH = re.compile(r" ?(?:ml|cl|oz)? (?:over(?:poured?|pouring)?|too much|too many|heavy|extra)\b(?! (?:ice|the))")


def overpoured(scan: Scan) -> tuple[str, Measure | None]:
    """ "pouring 55 not 50", "each 10 ml over": how it was said, and what is poured too much, which is all that is costed.

    The amount becomes the difference, marked where no name can take it; the amount it should have been is marked.
    """
    for i in scan.kinds("amount", "bare"):
        p, should = scan.items[i], scan.at(i + 2)
        ml = rough_ml(p.value, p.unit)
        denied = scan.kind_at(i + 1) == "cue:none" and scan.items[i + 1].text == "not"
        instead = scan.kind_at(i + 1) in ("cue:swap", "cue:but") and scan.items[i + 1].text.startswith("instead")
        if (denied or instead) and instead and should is not None and should.is_cue("of"):
            should = scan.at(i + 3)
        if should is not None and (denied or instead) and should.kind in ("amount", "bare") and _POURING.search(scan.text):
            unit = p.unit or should.unit or "ml"
            if p.value > should.value > 0 and (p.unit or unit) == (should.unit or unit):
                typed = scan.text[p.start : should.end]
                scan.use(*range(i + 1, scan.items.index(should) + 1))
                p.kind, p.unit, p.value = "amount", unit, p.value - should.value
                return typed, _taken(scan, i)
        told = _TOO_MUCH.match(scan.text, p.end) or _OVERPOUR_BY.search(scan.text, 0, p.start)
        if ml is not None and p.kind == "amount" and 0 < ml <= _LARGEST_POUR_ML and told:
            return scan.text[p.start : p.end], _taken(scan, i)
    return "", None


def _taken(scan: Scan, i: int) -> Measure:
    """The amount at i. Marks it where no name is there to take it, and the talk around it: "free pouring", "loss per week"."""
    if not scan.kinds("name", "context"):
        scan.use(i)
    said = [i for i in scan.kinds("unknown") if _POURING.fullmatch(scan.items[i].text) or scan.items[i].text in _OF_LOSS]
    said += [k for k in scan.kinds("unknown") if scan.items[k].text in ("free", "over") and k not in said]
    scan.use(*said, *[k for k in scan.cues("each") if k + 1 in said])
    for k in said:
        scan.items[k].kind = "filler"  # no bottle's name
    return Measure(scan.items[i].value, scan.items[i].unit)


def grown(scan: Scan) -> float:
    """ "gin went up so it's now 20p more per drink": what a drink costs more than it did. Marks it, and the talk around it."""
    if scan.kinds("amount", "same_amount", "vessel", "ratio", "house"):
        return 0.0
    for i in scan.kinds("bare", "money"):
        more = scan.at(i + 1)
        if more is None or more.text not in ("more", "less", "extra", "dearer", "cheaper") or scan.kind_at(i + 2) != "cue:each":
            continue
        talk = [k for k, p in enumerate(scan.items) if p.text in _TALK or p.kind in ("name", "context")]
        scan.use(i, i + 1, i + 2, *talk)
        for k in talk:
            scan.items[k].kind = "filler"  # no bottle's name
        return -scan.items[i].value if more.text in ("less", "cheaper") else scan.items[i].value
    return 0.0
