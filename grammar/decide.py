"""Which kind of request a message is, from its cues and the kinds of phrase in it. Word order hardly matters.

Each test names what must be there; the first that holds decides. Where two kinds would give the same numbers the
fuller one is taken (a batch shows its strength and freezer verdict too); where they would not, the frame asks.
"""

import re

from grammar.decide_commands import command
from grammar.decide_convert import is_convert, strengths_listed
from grammar.decide_cut import is_cut
from grammar.decide_dilution import OF_EACH, dilution_due, no_water
from grammar.decide_follow import changes, follows, only_follow_words
from grammar.decide_kinds import is_bottles, is_syrup
from grammar.decide_money import is_cost
from grammar.decide_of_last import points_back
from grammar.decide_wants import all_measured, strong_lot
from grammar.frames.batch import strength_claimed
from grammar.frames.convert_pours import counts_pours
from grammar.frames.cut_with import cut_with
from grammar.frames.dilution_claimed import is_claimed, is_mixed_in
from grammar.frames.dilution_more import is_more
from grammar.frames.dilution_told import is_told
from grammar.frames.freezer import asked_below, water_that_pours
from grammar.frames.label import PURE_ALCOHOL
from grammar.frames.limited import limit
from grammar.frames.nameless import in_ratio, watered
from grammar.frames.refilled import is_refilled
from grammar.frames.syrup import SYRUPS
from grammar.ratio import equal_drink
from grammar.regroup import left_free
from grammar.scan import Scan
from grammar.to_strength import target
from grammar.undone import undone
from grammar.used_up import is_used_up

_HEALTH_WORDS = (
    r"drive|driving|drove|breathaly[sz]er|drink[\s-]?driv\w*|(?:over|under) the limit|legal limit|hung ?over|hangovers?|drunk"
    r"|tipsy|wasted|sober(?:ed)?|pregnan\w*|breast ?feed\w*|medication|meds|ibuprofen|paracetamol|aspirin|antibiotics?"
    r"|antidepressants?|pills?|diabet\w*|overdose|poison\w*|blood alcohol|bac|liver|alcoholic person|blackout|black out"
    r"|hammered|medicine|(?:safe|too much|ok|okay|how much|how many)(?: is it)?(?: for me)? to drink"
)
HEALTH = re.compile(rf"\b(?:{_HEALTH_WORDS})\b")


def decide(scan: Scan, last: str) -> str:
    """The kind of frame to read the message with: a request's kind, "follow", or "chatter"."""
    items = scan.items
    text = scan.text
    if HEALTH.search(text):
        return "health"
    first = next((p for p in items if p.kind != "sep"), None)
    if first is None:
        return "empty"
    if undone(scan):
        return "follow"
    told = command(scan, last)
    if told:
        return told
    spec = _spec_like(scan)
    if last and (points_back(scan, last) or follows(scan, spec)):
        return "follow"
    kind = _kind(scan, spec)
    if kind == "chatter" and last and changes(scan):
        return "follow"
    figured = kind in ("cost", "label") and bool(scan.kinds("amount", "bare", "money", "percent", "vessel", "drink"))
    figured = figured or is_told(scan) or bool(equal_drink(scan))
    if kind in ("batch", "chatter", "dilution", "cost", "label") and not spec and not figured and only_follow_words(scan):
        return "follow"
    return kind


def _spec_like(scan: Scan) -> bool:
    """Whether the message carries a recipe of its own: names with amounts, or a ratio of names."""
    names = len(scan.kinds("name", "context", "house"))
    unknown = len(scan.kinds("unknown"))
    amounts = len(scan.kinds("amount", "bare", "same_amount"))
    ratio = len(scan.kinds("ratio")) + len(scan.cues("equal"))
    return (
        (names >= 1 and amounts >= 1)
        or (ratio >= 1 and (names >= 1 or scan.kinds("drink", "count") != []))
        or bool(scan.kinds("house"))
        or (unknown >= 1 and amounts >= 2)
    )


_WATERY = ("cue:water", "cue:dilution")
_IN_DEGREES = re.compile(r"\b(?:in|to|into|as) (?:deg(?:ree)?s? )?(?:c|f|celsius|fahrenheit|centigrade)\b")


def _mixed_units(scan: Scan, batch: bool) -> None:
    """ "the units are a mess: gin 1.5 oz, lemon 20 ml, 40 drinks": of measures, where nothing is asked of them."""
    said = [scan.items[i] for i in scan.cues("standard_drinks")]
    asked = scan.has("how_many", "how_much", "what", "each", "label", "country", "abv") or "?" in scan.text
    if batch and not asked and said and all(p.text in ("unit", "units") for p in said):
        for p in said:
            p.kind = "filler"
        scan.cue_names.discard("standard_drinks")


def _kind(scan: Scan, spec: bool) -> str:
    items = scan.items
    names = scan.kinds("name", "context", "house")
    real_names = [i for i in names if items[i].name not in SYRUPS]
    amounts = scan.kinds("amount", "bare", "same_amount")
    percents = scan.kinds("percent", "proof")
    counted = scan.kinds("count", "guests", "times", "fold")
    units = scan.kinds("unit")
    if is_cost(scan, names, amounts):
        return "cost"
    if strengths_listed(scan) or (
        scan.has("proof_word") and percents and not amounts and not names and not scan.kinds("vessel")
    ):
        return "convert"
    _mixed_units(scan, bool(counted) and spec)
    if scan.has("allergens", "standard_drinks", "label") and not (
        scan.has("label") and counted and spec and not scan.has("allergens", "standard_drinks")
    ):
        return "label"
    if PURE_ALCOHOL.search(scan.text) and (percents or scan.kinds("bare")):
        return "label"
    if is_syrup(scan, names, real_names, amounts):
        return "syrup"
    alone = not names and not percents and not amounts and not counted
    if alone and scan.kinds("temperature") and _IN_DEGREES.search(scan.text):
        return "convert"  # "what's 0 F in celsius for the freezer"
    if (
        scan.has("freezer", "point")
        and scan.kinds("temperature", "negative")
        and (len(names) <= 1 or (len(percents) == 1 and not amounts and not scan.kinds("ratio")))
        and not counted
        and not scan.has("bottles")
    ):
        return "freezer"
    if cut_with(scan) is not None:
        return "cut"
    if spec and target(scan) is not None and not is_cut(scan, percents, names) and not scan.has("cost", "price", "bottles"):
        return "batch"
    if is_refilled(scan):
        return "cut"
    if in_ratio(scan) or watered(scan) is not None:
        return "strength"
    volumes = [i for i in amounts if items[i].kind == "amount" and items[i].unit != "part"]
    share_asked = scan.has("percent_word") and scan.has("dilution") and scan.has("what")
    if share_asked and len(volumes) == 2 and not names and not percents:
        return "dilution"  # "2.4 L, topped with water to 3 L for the bottles, what percent dilution"
    if is_claimed(scan) or is_mixed_in(scan) or is_told(scan) or is_more(scan):
        return "dilution"
    if (spec or len(percents) > 1) and strength_claimed(scan):
        return "strength"
    if limit(scan) is not None or equal_drink(scan) or is_used_up(scan):
        return "batch"
    if counts_pours(scan):
        return "convert"
    strength_asked = bool(scan.has("abv") and percents and not scan.has("how_many", "bottles", "stock", "enough"))
    to_cut = len(percents) > 1 and scan.has("fit") and is_cut(scan, percents, names)  # "48% to 40%, does it fit my 1 L jar"
    if not strength_asked and not to_cut and is_bottles(scan, spec, amounts, counted):
        return "bottles"
    if water_that_pours(scan) and scan.kinds("negative", "temperature") and percents and not counted:
        return "freezer"
    if is_cut(scan, percents, names):
        return "cut"
    if percents and scan.kinds("temperature", "negative") and len(names) <= 1 and not amounts and not counted:
        return "freezer"
    cold = bool(scan.kinds("temperature")) or any(
        scan.kind_at(i - 1) in ("cue:at", "cue:freezer") or scan.has("least") for i in scan.kinds("negative")
    )
    cold = cold or asked_below(scan)
    if cold and (scan.has("abv", "least", "slush") or spec) and not counted and not (spec and scan.kinds("vessel")):
        return "freezer"
    cold_drink = [i for i in scan.cues("freezer") if items[i].text == "frozen" and scan.kind_at(i + 1) in ("drink", "count")]
    in_freezer = len(scan.cues("freezer")) > len(cold_drink)  # "frozen margarita": the drink's name
    frozen = in_freezer or scan.has("point", "headspace", "ice_share") or (
        scan.has("slush")
        and (
            scan.kinds("temperature", "negative")
            or any(p.text in ("slush", "slushy", "liquid", "stay liquid", "solid", "burst", "crack", "pourable") for p in items)
        )
    )
    if frozen:
        vessels = [i for i in scan.kinds("vessel") if items[i].size is not None or items[i].amounts]
        batch = (
            counted or (spec and (vessels or scan.kinds("fold"))) or (spec and len(real_names) > 1 and scan.has("scale", "final"))
        )
        room_asked = scan.has("headspace") and left_free(scan) is None
        if room_asked or not (spec and batch and not scan.has("most", "point", "least") and not water_that_pours(scan)):
            return "freezer"
    if not (strength_asked and amounts) and is_convert(scan, spec, names, amounts, percents, units, counted):
        return "convert"
    if scan.has("percent_word") and len(volumes) > 1 and len(percents) == 1 and not names and strong_lot(scan, percents[0]):
        return "strength"  # "2 L 45% add 500 ml water = ?%"
    if scan.has("cut", "to") and len(volumes) == 2 and scan.has("water") and not percents and not real_names and not units:
        return "dilution"  # "h2o to stretch 2.4 L to 3 L"
    figured = len(scan.kinds("bare"))
    if scan.has("percent_word", "and", "with", "blend"):
        figured = len(scan.kinds("bare", "amount", "percent"))
    linked = max(len(scan.cues("at")), len(scan.cues("of")) if scan.has("blend", "abv") else 0)
    if linked >= 2 and figured >= 4 and not real_names and not scan.kinds("ratio", "count"):
        return "strength"  # "700@43 + 350@16 + 250 water"
    parted = [i for i in amounts if items[i].unit == "part"]
    if len(parted) == 2 and scan.has("water") and len({items[i].name for i in names}) <= 1 and len(amounts) >= 3:
        return "dilution"
    if (
        scan.has("water", "dilution", "technique_stir", "technique_shake")
        and (
            not names
            or (scan.has("how_much", "what") and scan.has("technique_stir", "technique_shake", "dilution", "water") and spec)
            or (spec and dilution_due(scan))
        )
        and (names or percents or amounts or scan.has("how_much", "what"))
    ):
        if (
            spec
            and names
            and not scan.has("abv")
            and not no_water(scan)
            and not OF_EACH.search(scan.text)
            and (scan.has("how_much") or dilution_due(scan) or (scan.has("technique_stir", "technique_shake") and not counted))
        ):
            return "dilution"
        if not names and scan.has("equal") and (scan.kinds("drink") or any(items[i].name for i in counted)):
            return "batch"  # "16 x 90 ml negroni, equal, plus 20% water"
        if not names and not scan.has("abv"):
            return "dilution"
        lots = len(percents) > 2 and all_measured(scan, [i for i in percents if scan.kind_at(i + 1) not in _WATERY])
        if not names and scan.has("technique_stir", "technique_shake") and not lots:
            return "dilution"
    if scan.has("percent_word") and spec and percents and (scan.has("by_volume", "what") or "?" in scan.text):
        return "strength"
    if scan.has("abv", "proof_word") and (spec or len(amounts) >= 1 or len(percents) >= 1 or scan.kinds("ratio", "house")):
        return "strength"
    blended = scan.has("blend") and len(percents) >= 2
    if blended and (not real_names or (len(names) < len(percents) and all_measured(scan, percents))):
        return "strength"
    prose = len(scan.kinds("unknown"))
    if prose >= 2 and not names and not scan.kinds("drink", "house") and not any(items[i].name for i in counted):
        return "chatter"
    if prose >= 1 and not names and scan.kinds("ratio") and not counted and not scan.kinds("drink", "amount", "vessel"):
        return "chatter"
    if spec or (names and (amounts or counted or scan.kinds("ratio", "vessel"))) or scan.kinds("ratio") or scan.has("equal"):
        return "batch"
    if len(percents) >= 2 and amounts and not names:
        return "strength"
    if counted and (scan.kinds("drink") or any(items[i].name for i in counted)):
        return "batch"
    if scan.kinds("drink", "count", "guests") and (amounts or counted or scan.kinds("vessel")):
        return "batch"
    if len(names) >= 2:
        return "batch"
    if scan.has("abv", "proof_word") and scan.kinds("drink"):
        return "batch"
    if scan.has("abv", "proof_word") and (scan.has("what", "how_much") or len(items) <= 3):
        return "follow"
    if amounts and scan.has("scale", "final", "want") and not scan.kinds("unknown"):
        return "batch"
    if (
        amounts
        and all(p.kind in ("amount", "same_amount", "sep", "cue", "bare") for p in items)
        and scan.kinds("amount", "same_amount")
    ):
        return "convert"
    if scan.kinds("negative", "unsure"):
        return "batch"
    return "chatter"
