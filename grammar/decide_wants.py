"""What a message wants done with a volume: bottles filled, a strength brought down. Tests for grammar.decide_kinds."""

import re
from itertools import pairwise

from grammar.phrase import Phrase
from grammar.scan import SERVE_LIMIT_ML, Scan, rough_ml, typed_ml

_ASKS = frozenset(["is", "are", "will", "would", "does", "should", "so"])
_DOES = frozenset(["do", "does", "will", "would"])
_ENOUGH = frozenset(["ok", "okay", "fine", "alright", "good", "plenty", "sufficient", "adequate", "right", "loads", "ample"])


_LEAST_SPIRIT, _MOST_SPIRIT = 20.0, 97.0  # % of volume a spirit is sold or cut at: common practice, no source
_LEAST_OVERPROOF, _LEAST_CUT = 35.0, 15.0  # % below which two bare figures are no strengths: common practice, no source
_LEAST_LEFT_ML = 200.0  # what is left in a bottle and worth cutting: common practice, no source
_LEAST_WANTED = 5.0  # % a spirit is cut to at the weakest: common practice, no source


def small_spec(scan: Scan) -> bool:
    """Whether the ingredients' amounts are one drink's, and there is a vessel to fill: "enough to fill two 700s: 40 rum ...?"."""
    typed = [p for p in scan.items if p.kind in ("amount", "same_amount", "bare")]
    sizes = [typed_ml(p) for p in typed]
    several = len(typed) > 1 or bool(scan.kinds("ratio"))
    return several and bool(scan.kinds("vessel")) and sum(s or 0.0 for s in sizes) < SERVE_LIMIT_ML


def batch_held(scan: Scan) -> bool:
    """ "1750 bourbon, 875 vermouth, 25% water. are 4 x 1 L enough?": a whole batch, and whether the bottles hold it is asked."""
    if not scan.has("enough") or scan.has("stock", "bottles", "left") or scan.kinds("count", "guests", "times", "ratio", "house"):
        return False
    named = [i for i in scan.kinds("amount", "bare", "vessel") if scan.kind_at(i + 1) in ("name", "context", "cue:of")]
    sizes = [rough_ml(*(p.size or (0.0, "ml"))) if p.kind == "vessel" else typed_ml(p) for p in (scan.items[i] for i in named)]
    several = len({p.name for p in scan.items if p.kind in ("name", "context")}) > 1
    last = max(scan.cues("enough"))
    asked = any(i < last for i in scan.kinds("vessel", "fold") if i not in named)
    return several and asked and len(named) > 1 and sum(s or 0.0 for s in sizes) > SERVE_LIMIT_ML


def to_fill(scan: Scan) -> bool:
    """Whether vessels of a size are to be filled: "1:1 fino dry vermouth, enough for six 70 cl bottles"."""
    sized = any(p.kind == "vessel" and p.size is not None for p in scan.items)
    counted = scan.kinds("count", "guests", "times")
    return sized and not counted and re.search(r"\benough (?:for|to fill)\b", scan.text) is not None


def wants_weaker(scan: Scan) -> bool:
    """ "400 ml left of 57% rum, need 43": a bottle of one strength, and a lower figure wanted; a serve of it is no bottle."""
    amounts, percents = scan.kinds("amount"), scan.kinds("percent")
    if len(amounts) != 1 or len(percents) != 1 or scan.has("dilution", "each", "scale"):
        return False
    p = scan.items[amounts[0]]
    strength = 100 * scan.items[percents[0]].value
    large = (rough_ml(p.value, p.unit) or 0.0) >= _LEAST_LEFT_ML
    led = [i for i in scan.kinds("bare") if scan.at(i - 1) is not None and _leads_weaker(scan.items[i - 1])]
    wanted = [i for i in led if _LEAST_WANTED <= scan.items[i].value < strength]
    return large and len(wanted) == 1 and scan.kind_at(wanted[0] + 1) in ("", "sep", "cue:abv", "cue:how_much", "cue:water")


_MADE_SO = frozenset(["make it", "make that", "set it to", "take it to", "change it to", "bump it", "do it", "go to"])


def _leads_weaker(p: Phrase) -> bool:
    """Whether a strength may be named after it: "need 43", "make it 45"; "make 45" counts serves."""
    return p.is_cue("want") or (p.is_cue("make_it") and p.text in _MADE_SO)


def asks_enough(phrases: list[Phrase]) -> None:
    """ "is 4 x 1 L ok for 75 mojitos?", "will 2 bottles be fine for 40": whether it is enough is asked."""
    if not phrases or phrases[0].text not in _ASKS | _DOES:
        return
    held = False
    for p in phrases:
        held |= p.kind in ("amount", "vessel")
        if held and phrases[0].text in _DOES and p.is_cue("make_it") and p.text in ("do", "make"):
            p.name = "enough"  # "do 4 litres of gin do 75 martinis at 60 ml"
            return
    for p, after in pairwise(phrases):
        if p.kind in ("filler", "unknown") and p.text in _ENOUGH and after.is_cue("for"):
            p.kind, p.name = "cue", "enough"
            return


def at_to(scan: Scan) -> bool:
    """ "vodka 1 L at 50 to 40", "gin at 43 down to 37.5": two strengths without a percent, the second the lower."""
    for i in scan.cues("at"):
        p, q = scan.at(i + 1), scan.at(i + 3)
        if p is None or q is None or p.kind not in ("bare", "percent") or q.kind not in ("bare", "percent"):
            continue
        if scan.kind_at(i + 2) == "cue:to" and scan.kind_at(i + 4) in ("", "sep", "cue:water", "cue:how_much"):
            return _falls(p, q)
    return False


_WANTED_AT = ("cue:at", "cue:to", "cue:want", "cue:final", "cue:make_it")


def _falls(p: Phrase, q: Phrase) -> bool:
    """Whether both are strengths of a spirit, the second the weaker."""
    first, second = (100.0 * x.value if x.kind == "percent" else x.value for x in (p, q))
    return _LEAST_SPIRIT <= second < first <= _MOST_SPIRIT


def all_measured(scan: Scan, percents: list[int]) -> bool:
    """Whether an amount stands before every strength: "1.2 L of 40% and 800 ml of 20%"."""
    before = [i - 2 if scan.kind_at(i - 1) in ("cue:of", "cue:at") else i - 1 for i in percents]
    return all(scan.kind_at(i) in ("amount", "vessel") for i in before)


def added_to(scan: Scan) -> bool:
    """ "abv if i add 50 ml of 96% to 1 L of 20%": two lots that are mixed, and no strength to come to."""
    for t in scan.cues("to", "in"):
        before = t - 1 if scan.kind_at(t - 1) in ("percent", "proof") else t - 2 if scan.kind_at(t - 1) == "name" else -1
        lot = t + 3 if scan.kind_at(t + 2) in ("cue:of", "cue:at") else t + 2
        strong = scan.kind_at(before) in ("percent", "proof") and scan.kind_at(lot) in ("percent", "proof")
        strong = strong and "amount" in (scan.kind_at(before - 1), scan.kind_at(before - 2))
        if strong and scan.kind_at(t + 1) in ("amount", "vessel") and scan.has("bigger", "blend", "abv", "percent_word"):
            return not scan.has("water", "how_much", "dilution")
    return False


def brought_down(scan: Scan) -> bool:
    """ "750 overproof rum 63 -> 45": two strengths with "to" or "make it" between them, beside one spirit and its volume."""
    for c in scan.cues("to", "make_it"):
        if scan.items[c].name == "make_it" and scan.items[c].text not in _MADE_SO:
            continue
        first, last = scan.at(c - 1), scan.at(c + 1)
        if first is None or last is None or first.kind != "bare" or last.kind != "bare":
            continue
        spirit = _LEAST_OVERPROOF < first.value <= _MOST_SPIRIT and _LEAST_CUT <= last.value < first.value
        if spirit and scan.kind_at(c + 2) in ("", "sep", "cue:abv"):
            return True
    return False


def bottle_wanted(scan: Scan) -> bool:
    """ "2 bottles of the 57 gin, want the lot at 41", "500 of 63.5, want 50": a strength held, and a weaker one wanted behind."""
    for i in scan.kinds("bare"):
        held = scan.kind_at(i - 2) in ("vessel", "amount") or (scan.kind_at(i - 2) == "bare" and scan.items[i - 2].value >= 100)
        led = scan.kind_at(i - 1) == "cue:of" and held
        if not led or scan.kind_at(i + 1) not in ("name", "context", "cue:and", "cue:want", "sep"):
            continue
        later = [k for k in scan.kinds("bare", "percent") if k > i and scan.kind_at(k - 1) in _WANTED_AT]
        led = bool(later) and (scan.has("want", "cut", "final") or scan.kind_at(later[0] - 1) == "cue:to")
        if len(later) == 1 and led and _falls(scan.items[i], scan.items[later[0]]):
            return scan.kind_at(later[0] + 1) in ("", "sep", "unit", "cue:abv", "cue:water", "cue:how_much")
    return False


def strong_lot(scan: Scan, i: int) -> bool:
    """Whether the percent at i is a volume's strength and no share of water: "2 L 45%", "1 L at 60%"."""
    watery = {scan.kind_at(i - 1), scan.kind_at(i + 1)} & {"cue:water", "cue:dilution", "cue:undiluted", "cue:final"}
    led = i - 2 if scan.kind_at(i - 1) in ("cue:at", "cue:of") else i - 1
    return not watery and scan.kind_at(led) == "amount"
