"""Whether a message is about a cut: a strength to come to, and what is brought to it."""

import re

from grammar.decide_wants import (
    added_to,
    all_measured,
    at_to,
    bottle_wanted,
    brought_down,
    strong_lot,
    wants_weaker,
)
from grammar.frames.cut_figures import SO_IT_IS, to_where
from grammar.ingredients_strong import SPIRITS
from grammar.request import Measure
from grammar.scan import Scan, bottled
from grammar.shares import shares_of_all
from grammar.water import watered_by

_LEAST_TARGET, _MOST_TARGET = 15.0, 95.0  # % of alcohol a spirit is cut to: common practice, no source
_WATERY = ("cue:water", "cue:dilution")


def is_cut(scan: Scan, percents: list[int], names: list[int]) -> bool:
    items = scan.items
    ethanol = {items[i].name for i in names if items[i].name != "water" and scan.kind_at(i - 1) != "cue:none"}
    if len(ethanol) > 1:
        ethanol.discard("spirit")  # "96% neutral spirit ... spirit? water?": said again
    if len([p for p in items if p.kind == "amount" and p.unit == "part"]) > 1 or shares_of_all(scan, percents, names):
        return False
    strengths = len(percents) + len(
        [i for i in scan.kinds("bare") if items[i].value <= 100 and scan.kind_at(i - 1) in ("cue:at", "cue:from")]
    )
    if len(ethanol) >= 2 and any(p.kind == "ratio" and p.name == "COLON" for p in items):
        return False
    if len(percents) >= 2 and all_measured(scan, percents) and not scan.has("to", "want", "cut", "raise", "final", "for", "rest"):
        return False  # "I have 1.2 L of 40% and 800 ml of 20%, what do I get"
    if added_to(scan):
        return False
    if any(scan.kind_at(i + 1) == "cue:percent_word" for i in scan.cues("to", "equals")):
        return False  # "1.5 L at 20 with 0.5 L at 40 -> %?"
    if to_bare(scan, names):
        return True
    if len(percents) == 2 and not ethanol and scan.has("water") and _so_it_is(scan, percents):
        return True
    if _down_to_bare(scan, names) or to_where(scan):
        return True
    if len(percents) == 2 and watered_by(scan, percents[1]) and scan.has("abv", "percent_word"):
        return False  # "700 ml at 38%, watered 15%, new abv"
    to_strength = _leads_strength(scan, "to") or _leads_strength(scan, "rest")
    cutting = scan.has("cut", "raise")
    if scan.has("technique_stir", "technique_shake") or (
        scan.has("water", "dilution") and len(percents) == 1 and scan.has("final", "undiluted") and not cutting
    ):
        return False
    if scan.has("abv", "proof_word") and not to_strength and not cutting and not scan.has("want", "water"):
        return False
    if (
        scan.kinds("count", "guests", "house", "times")
        or scan.has("freezer", "margin", "pour_cost", "point")
        or (scan.has("slush") and scan.kinds("negative", "temperature"))
        or (scan.kinds("ratio") and not _two_bare(scan))
    ):
        return False
    if len(ethanol) >= 2:
        return strengths >= 3 and (to_strength or scan.has("from", "want", "stock"))
    if scan.kinds("drink") and not cutting:
        return _drink_weakened(scan, percents)
    if (
        cutting
        and (strengths or to_strength or _two_bare(scan))
        and not (strengths == 1 and scan.has("dilution", "water") and not to_strength and not scan.kinds("amount", "vessel"))
    ):
        return (
            to_strength
            or strengths >= 2
            or _two_bare(scan)
            or scan.has("from")
            or _leads_strength(scan, "want")
            or not scan.has("water")
            or (_volumes(scan) == 2 and len(percents) == 1 and strong_lot(scan, percents[0]))  # "cut 1 L of 57% with 200 ml"
        )
    if to_strength and (strengths >= 2 or scan.kinds("amount", "vessel") or ethanol):
        return not scan.has("convert") and not (scan.has("proof_word") and not scan.kinds("amount", "vessel"))
    sized = scan.kinds("amount") or any(items[i].value >= 100 for i in scan.kinds("bare"))
    holds = sized or scan.kinds("vessel")
    if scan.has("at") and scan.has("to") and _two_bare(scan) and sized and (not ethanol or at_to(scan)):
        return True
    pour = bool(sized) and scan.has("to") and _two_bare(scan) and len(ethanol) <= 1 and not scan.kinds("ratio")
    if pour and scan.has("water", "how_much") and not scan.has("final", "undiluted", "dilution"):
        return True  # "2 L 55 down to 40, how much h2o"
    lowered = (sized and len(ethanol) == 1 and brought_down(scan)) or (holds and bottle_wanted(scan))
    if len(ethanol) <= 1 and not scan.kinds("ratio") and lowered:
        return True
    wanted = any(scan.kind_at(i - 1) == "cue:want" and items[i].value <= 100 for i in scan.kinds("bare"))
    if strengths == 1 and len(ethanol) == 1 and wants_weaker(scan):
        return True
    if strengths == 1 and wanted and not ethanol and sized and not scan.has("dilution"):
        return True  # "58.6% 200 ml, want 46"
    if strengths >= 2 and (
        scan.has("from", "want", "stock")
        or (scan.has("how_much") and scan.has("for") and bool(sized) and not scan.has("water", "dilution"))
        or (scan.has("blend") and scan.has("for") and len(percents) == 3 and len(scan.kinds("amount")) == 1)
        or (scan.has("how_much") and scan.has("water", "how_much") and len(scan.cues("how_much")) > 1)
    ):
        return True
    if scan.has("want", "final") and _two_bare(scan) and scan.has("water") and scan.kinds("amount") and not scan.has("dilution"):
        return True
    beside = any(scan.kind_at(i + d) == "cue:water" for i in percents for d in (-1, 1))
    adds_water = scan.has("water") and not beside and strengths == 1 and not ethanol and not scan.has("dilution")
    return adds_water and _volumes(scan) >= 2 and not scan.has("how_much", "how_many")


def _so_it_is(scan: Scan, percents: list[int]) -> bool:
    """ "how much water in 1 L of 50% so its 40%": the second strength is what it is to be."""
    first, second = (scan.items[i] for i in percents)
    lower = first.value > second.value
    return lower and SO_IT_IS.search(scan.text, 0, second.start) is not None


_LEAST_STRONG = 35.0  # % below which two bare figures are no strengths: common practice, no source


def _down_to_bare(scan: Scan, names: list[int]) -> bool:
    """ "cask strength 58.4 down to 46, 700 ml bottle": two figures that can only be strengths, and one volume."""
    figures = [i for i in scan.kinds("bare") if scan.items[i].value <= 100]
    sized = [p for p in scan.items if p.kind == "amount" or (p.kind == "vessel" and p.size is not None)]
    others = scan.kinds("percent", "proof", "ratio", "count", "guests", "times", "fold", "drink", "money", "temperature")
    if len(figures) != 2 or len(sized) != 1 or others or len({scan.items[i].name for i in names}) > 1:
        return False
    first, second = figures
    to = scan.at(second - 1)
    down = to is not None and to.is_cue("to") and to.text in ("down to", "back to")
    return down and second - first == 2 and _LEAST_STRONG <= scan.items[first].value > scan.items[second].value >= _LEAST_TARGET


_CAME_OUT = re.compile(
    r"\b(?:came|come|comes|turned|turns|ended|worked|works) (?:out|up)\b"
    r"|\b(?:is|are|was|measures|reads|tests|tested|sits|sitting|it'?s)\b"
)
_LEAST_DRINK = 5.0  # % of alcohol: common practice, no source


def _drink_weakened(scan: Scan, percents: list[int]) -> bool:
    """ "3 L of negroni came out at 24%, client wants 18, how much water": a drink of one strength brought to a lower one."""
    items = scan.items
    sized = [i for i in scan.kinds("amount", "vessel") if items[i].kind == "amount" or items[i].size is not None]
    if len(sized) != 1 or not percents or not scan.has("water", "dilution", "how_much") or scan.kinds("ratio", "name"):
        return False
    if any(scan.kind_at(i + d) in _WATERY for i in percents for d in (-1, 1)):
        return False
    if len(percents) == 2:
        return items[percents[1]].value < items[percents[0]].value and scan.has("to", "want", "cut")
    led = [i for i in scan.kinds("bare") if any(items[k].is_cue("want", "to") for k in (i - 1, i - 2) if k > 0)]
    led = [i for i in led if i > percents[0] and _LEAST_DRINK <= items[i].value < 100.0 * items[percents[0]].value]
    told = scan.kind_at(percents[0] - 1) == "cue:at" or _CAME_OUT.search(scan.text, 0, items[percents[0]].start) is not None
    return len(percents) == len(led) == 1 and told and len(scan.kinds("bare")) == 1


def _volumes(scan: Scan) -> int:
    return len([p for p in scan.items if p.kind in ("amount", "vessel") or (p.kind == "bare" and p.value >= 100)])


def _leads_strength(scan: Scan, cue: str) -> bool:
    """Whether a strength follows this cue within a few phrases."""
    for i in scan.cues(cue):
        if cue == "to" and scan.kind_at(i + 1) == "cue:dilution":
            continue  # "need to dilute 2 L by 25%": what "to" leads is the verb
        for j in range(i + 1, min(len(scan.items), i + 5)):
            p = scan.items[j]
            after, before = scan.kind_at(j + 1), scan.kind_at(j - 1)
            asked = after == "cue:water" and scan.kind_at(j + 2) in ("", "sep")  # "to 40% water?"
            if p.kind == "percent" and (after in _WATERY or before in _WATERY) and not asked:
                continue
            if p.kind in ("percent", "proof") or (
                p.kind == "bare"
                and j == i + 1
                and 0 < p.value <= 100
                and scan.kinds("percent", "proof")
                and scan.kind_at(j + 1) in ("", "sep", "cue:abv", "cue:how_much", "cue:cut", "cue:and", "cue:with")
            ):
                return True
    return False


def _two_bare(scan: Scan) -> bool:
    return len([i for i in scan.kinds("bare", "percent") if scan.items[i].value <= 100]) >= 2 or any(
        p.kind == "ratio" and p.name in ("DASH", "SLASH") and min(p.values) > 5 for p in scan.items
    )


def to_bare(scan: Scan, names: list[int]) -> bool:
    """ "cut my overproof down to 40": one name and a figure without a unit, which can only be the strength to come to."""
    figures = scan.kinds("bare")
    sizes = scan.kinds("amount", "vessel")
    if len(sizes) == 1 and len(figures) == 1 and len(names) == 1 and scan.kind_at(figures[0] - 1) == "cue:to":
        size = scan.items[sizes[0]]
        down = scan.items[figures[0] - 1].text == "down to" and bottled(size if size.size is None else Measure(*size.size))
        sizes = [] if down and figures[0] == len(scan) - 1 else sizes  # "700 ml navy gin down to 45"
    others = sizes + scan.kinds("percent", "proof", "ratio", "count", "guests", "fold", "times", "drink", "unknown")
    if len(figures) != 1 or len(names) != 1 or others or scan.has("each", "freezer"):
        return False
    if scan.items[names[0]].name not in SPIRITS:
        return False
    opened = scan.items[0].is_cue("cut") or bool(scan.kinds("amount", "vessel"))
    if not opened or scan.has("water", "dilution"):
        return False
    i = figures[0]
    led = scan.kind_at(i - 1) == "cue:to" and names[0] < i
    return led and _LEAST_TARGET <= scan.items[i].value <= _MOST_TARGET and scan.kind_at(i + 1) in ("", "sep")
