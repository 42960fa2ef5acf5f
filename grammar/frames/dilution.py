"""Frame for dilution alone: water for an amount, the share an amount is, what stirring or shaking adds."""

import re

from grammar.frames.dilution_claimed import claimed, is_claimed, is_mixed_in
from grammar.frames.dilution_figures import before_and_after, bottled_drink, first_amount, serves_of, volumes_of, water_of
from grammar.frames.dilution_made import still_dry
from grammar.frames.dilution_more import is_more, read_more
from grammar.frames.dilution_told import (
    as_filled,
    brimmed,
    in_so_far,
    is_told,
    of_one,
    read_told,
    total_water,
    water_alone,
)
from grammar.frames.spec import numbers_read, read_spec
from grammar.request import Batch, Convert, Dilution, Measure
from grammar.scan import Scan, Unclear, measure, rough_ml
from grammar.vessels import join_vessels
from grammar.water import OF_VOLUME, OF_WHOLE, starts_volume
from grammar.words_measures import FRACTION_WORDS

_AFTER = re.compile(r"\b(?:after dilution|after diluting|once diluted|when diluted)\s+(?:i|we)\s+(?:want|need|have|get)\b")
_MIX_ASKED = re.compile(
    r"\bhow much (?:of )?(?:the |my |our )?(?:undiluted |neat |raw |dry )?(?:liquor |spirit |booze |cocktail |drinks? )?"
    r"(?:mix|premix|base|batch|booze|liquor|spirits?|undiluted)\b"
)
_IN_OUT = re.compile(
    r"(?<![\d.,/])(\d+(?:\.\d+)?)\s*(?:ml)?\s+(?:in\W+(?=\d[\d.]*\s*(?:ml)?\s+out\b)"
    r"|(?:went|goes|gone|grew|grows|came|comes|turned|ended|got) (?:up |out )?(?:to|at|in|into) (?:be )?)"
    r"(\d+(?:\.\d+)?)\s*(?:ml)?\b(?! ?(?:oz|cl|l)\b)"
)
_CAME_OUT = re.compile(r"\b(?:came|comes|come|ended|ends|pours|poured) (?:out|up)\b")
_IS_WATER = re.compile(r"\d ?(?:ml|cl|l|oz)? (?:of (?:it|that|which|this) )?(?:is|was|being) (?:just )?water\b")
_INSIDE = re.compile(
    r"\balready in\b|\b(?:incl|inc|including|includes|counting) (?:the |its )?\d+(?:\.\d+)? ?(?:%|pct|percent) "
    r"|\bhow much of (?:it|that|this|which) (?:is|was|will be) (?:just )?(?:the )?water\b"
    r"|\b(?:water|dilution) already\b|\balready (?:has |got |contains |with )?\d+(?:\.\d+)? ?% ?(?:water|dilution)"
)
_STIRRED_OUT = re.compile(r"\d(?: ?(?:ml|cl|oz))? (?:after|once|when|out)\b")
_OF_THAT = re.compile(
    r"(?<!how much )\bof (?:that|it|which|this)"
    r" (?:(?:is|has to be|must be|should be|to be|being|will be|needs to be) )?(?:just )?water\b"
)
_OF_IT = re.compile(r"(?:%|percent|pct|half|third|quarter|fifth|sixth|eighth|tenth) of (?:that|it|this|which|the lot)\b")

_STRENGTH = re.compile(r"\s*%?\s*(?:abv|alc|alcohol|vol|proof|strength)\b")
_MOST_WATER = 0.35  # above this a percent is the strength of what is stirred: common practice, no source
_WATERY = ("water", "dilution")
_WATER_ONLY = re.compile(r"\b(?:water|dilution) only\b|\b(?:only|just) (?:the |its |their )?(?:water|dilution)\b")


def read_dilution(scan: Scan) -> Dilution | Batch | Convert:
    """A dilution question; with a whole spec in it, a batch whose water is asked for.

    Raises Unclear no_volume (a share of nothing), no_amounts, out_of_range.
    """
    for i in scan.kinds("bare") if not is_told(scan) else ():
        if 0.0 < scan.items[i].value < 1.0 and scan.kind_at(i + 1) in ("cue:of", "cue:water", "cue:dilution"):
            scan.items[i].kind = "percent"  # "a quarter of the 4 L is water", "1/3 water on 2 L"
    for p in scan.left("negative"):
        raise Unclear("out_of_range", [p], p.text)
    if is_claimed(scan):
        return claimed(scan)
    if is_more(scan):
        return read_more(scan)
    in_out = _IN_OUT.search(scan.text)
    if in_out and float(in_out[2]) > float(in_out[1]) > 0:  # "90 in, 118 out": the water is what was gained
        before, after = float(in_out[1]), float(in_out[2])
        return Dilution(Measure(before, "ml"), water=Measure(after - before, "ml"))
    join_vessels(scan)
    both = before_and_after(scan) or read_told(scan)
    if both is not None:
        return both
    technique = ""
    for i in scan.cues("technique_stir", "technique_shake"):
        technique = "stirred" if scan.items[i].name == "technique_stir" else "shaken"
        if not scan.kinds("name"):
            scan.use(i)
    mix_asked = _MIX_ASKED.search(scan.text) is not None and len(scan.kinds("percent")) == 1
    if mix_asked:  # "how much liquor mix": no ingredient
        scan.use(*[i for i in scan.kinds("name") if scan.items[i].name == "spirit" and scan.kind_at(i - 1) == "cue:how_much"])
    parted = [i for i in scan.kinds("amount") if scan.items[i].unit == "part"]
    if len(parted) == 2 and len({scan.items[i].name for i in scan.kinds("name")}) <= 1:
        scan.use(*scan.kinds("name"))  # "one part water to five parts booze"
    if {scan.items[i].name for i in scan.kinds("name", "context")} == {"spirit"} and not scan.kinds("ratio", "house"):
        scan.use(*scan.kinds("name", "context"))  # "how much liquor mix and how much water"
    if is_mixed_in(scan):
        scan.use(*scan.kinds("name", "context"))
        return claimed(scan)
    if scan.kinds("name", "ratio", "house"):
        recipe, makes = read_spec(scan)
        if makes.serves or makes.guests or makes.volume:
            return Batch(recipe, makes, "water")
        return Dilution(recipe=recipe, makes=makes, technique=technique or recipe.technique)
    strong = _strength_at(scan) if technique else None
    if strong is not None:
        scan.use(strong)
        abv = scan.items[strong].value if scan.items[strong].kind != "bare" else scan.items[strong].value / 100
        serves = serves_of(scan)
        return Dilution(technique=technique, abv=abv, volume=first_amount(scan), serves=serves)
    parts = [i for i in scan.kinds("amount") if scan.items[i].unit == "part"]
    if len(parts) == 2:  # "1 part water to 4 parts batch"
        wet = next((i for i in parts if scan.kind_at(i + 1) == "cue:water"), parts[0])
        dry = next(i for i in parts if i != wet)
        scan.use(*parts)
        volume, finished = as_filled(scan, *volumes_of(scan))
        return Dilution(volume, scan.items[wet].value / scan.items[dry].value, False, None, serves_of(scan), finished, technique)
    grown = [i for i in scan.kinds("amount") if scan.items[i].unit != "part"]
    grows = bool(technique) or _CAME_OUT.search(scan.text) is not None
    bare = scan.kinds("bare")
    if grows and len(grown) == 1 and len(bare) == 1 and _STIRRED_OUT.search(scan.text) is not None:
        scan.items[bare[0]].unit = scan.items[grown[0]].unit  # "90 ml going in, 118 after the stir"
        grown = sorted([*grown, *bare])
    if grows and len(grown) == 2 and not scan.kinds("percent") and scan.has("what", "dilution", "percent_word"):
        before, after = sorted(grown, key=lambda i: rough_ml(scan.items[i].value, scan.items[i].unit) or 0.0)
        gained = (rough_ml(scan.items[after].value, scan.items[after].unit) or 0.0) - (
            rough_ml(scan.items[before].value, scan.items[before].unit) or 0.0
        )
        if gained > 0:  # "90 ml built, 115 ml after stirring, what dilution"
            scan.use(before, after)
            return Dilution(measure(scan.items[before]), water=Measure(gained, "ml"))
    added = _added(scan)
    if added is not None:
        return added
    scan.use(*scan.kinds("unit"))
    share, of_finished = _share(scan)
    water = in_so_far(scan)
    serves = serves_of(scan)
    water = water or water_of(scan, share is not None)
    volume, finished = volumes_of(scan)
    volume, finished = of_one(scan, volume, serves), of_one(scan, finished, serves)
    as_told = volume, finished
    if share is None and water is None and finished is None and serves and water_alone(scan, volume):
        water, volume = volume, None
    if share is None:
        water = total_water(water, volume or finished, serves)
    if share is None and water is None and volume is not None and finished is not None:
        numbers_read(scan)
        return Dilution(volume, None, of_finished, None, serves, finished, technique)
    of_that = _OF_THAT.search(scan.text)
    of_finished = of_finished or of_that is not None or OF_VOLUME.search(scan.text) is not None
    inside = of_that or OF_VOLUME.search(scan.text) or _INSIDE.search(scan.text)
    if share is not None and inside and finished is None and water is None:
        volume, finished = None, volume  # "2.4 L with 20% water already in"
    inside = OF_WHOLE.search(scan.text) or _IS_WATER.search(scan.text)
    if share is None and water is not None and finished is None and inside and (serves or 1.0) == 1.0:
        volume, finished = None, volume  # "3 L batch, 500 ml of it water"
    if finished is None and volume is not None and water is None and (mix_asked or _AFTER.search(scan.text)):
        volume, finished = None, volume  # "after dilution I want 2 L at 25 % water"
    if share is not None and water is None:
        volume, finished = brimmed(scan, share, volume, finished)
    if bottled_drink(scan) and finished is None and volume is not None and share is not None and water is None:
        volume, finished = None, volume  # "24 x 100 ml bottles negroni, 22% dilution": full, the water inside
    if of_finished and finished is None and volume is not None and scan.kinds("vessel", fresh=False):
        volume, finished = None, volume  # "5 L keg, water to be 18 % of the finished keg"
    if finished is not None and volume is None and _OF_IT.search(scan.text):
        of_finished = True  # "water is 22% of that, final is 3 L": what was said is the finished volume
    if still_dry(scan):
        volume, finished = as_told
    if share is not None and not 0 <= share <= (0.999 if of_finished else 5):
        raise Unclear("out_of_range", [p for p in scan.items if p.kind == "percent"], f"{share * 100:g} % water")
    if share is None and water is None and not technique:
        raise Unclear("no_amounts", [p for p in scan.items if p.is_cue(*_WATERY)], "water")
    if share is not None and volume is None and finished is None:
        raise Unclear("no_volume", [p for p in scan.items if p.kind == "percent"], f"{share * 100:g} %")
    if share is None and water is not None and volume is None and finished is None and serves and scan.has("each"):
        numbers_read(scan)  # "¾ oz water per drink x 64 drinks, total water?"
        return Convert((Measure(water.value * serves, water.unit),), "ml" if water.unit not in ("ml", "cl", "l") else "oz")
    if share is None and water is not None and volume is None and finished is None:
        raise Unclear("no_volume", [p for p in scan.items if p.kind == "amount"], "what the water goes into")
    numbers_read(scan)
    if share is not None:
        technique = ""  # "stirred, 30% dilution on 2.4 L": the share is said, ice need not be reckoned
    return Dilution(volume, share, of_finished, water, serves, finished, technique)


def _strength_at(scan: Scan) -> int | None:
    """Where the strength of what is stirred stands; None when the only percent is a share of water.

    Raises Unclear two_readings for a percent that nothing calls one or the other.
    """
    for i in scan.kinds("percent", "proof"):
        p = scan.items[i]
        if _beside_water(scan, i):
            continue
        after_dry = any(scan.kind_at(k) == "cue:undiluted" for k in (i - 1, i - 2))
        owned = scan.kind_at(i + 1) in ("cue:recipe_word", "cue:serve_word", "drink", "unknown", "house", "cue:scale")
        said = owned or p.kind == "proof" or scan.has("abv") or _STRENGTH.match(scan.text, p.end) is not None
        if not said and _WATER_ONLY.search(scan.text) and p.value <= _MOST_WATER and scan.kinds("amount"):
            return None  # "20 stirred at 20%, 70 ml each, water only"
        if not said and scan.kind_at(i - 1) not in ("cue:at", "cue:of", "cue:from") and scan.has("water", "dilution"):
            counted = scan.kinds("count", "guests", fresh=False)
            iced = bool(counted) and i > 0 and scan.items[i - 1].is_cue("technique_stir", "technique_shake")
            if after_dry or (iced and p.value <= _MOST_WATER):
                return None  # "75 ml each before water, 24%", "just the water, 45 serves of 75 ml stirred 24%"
            if p.value <= _MOST_WATER and scan.kinds("amount"):
                raise Unclear("two_readings", [p], f"{p.value * 100:g}% water or {p.value * 100:g}% ABV")
        iced = bool(scan.kinds("count", "guests", "drink", fresh=False)) and scan.has("technique_stir", "technique_shake")
        if not said and iced and scan.kind_at(i - 1) == "cue:at" and p.value <= _MOST_WATER and scan.kinds("amount"):
            raise Unclear("two_readings", [p], f"{p.value * 100:g}% water or {p.value * 100:g}% ABV")
        return i
    counting = ("serve_word", "each", "technique_stir", "technique_shake")
    bares = [
        i
        for i in scan.kinds("bare")
        if 0 < scan.items[i].value <= 96 and not (i + 1 < len(scan) and scan.items[i + 1].is_cue(*counting))
    ]
    return bares[0] if bares and scan.has("abv") and not scan.kinds("percent") else None


def _beside_water(scan: Scan, i: int) -> bool:
    return "cue:water" in (scan.kind_at(i - 1), scan.kind_at(i + 1)) or "cue:dilution" in (
        scan.kind_at(i - 1),
        scan.kind_at(i + 1),
    )


def _added(scan: Scan) -> Dilution | None:
    """ "what % is water if I add 200 ml to 800 ml": the first amount is the water."""
    amounts = scan.kinds("amount")
    if len(amounts) != 2 or scan.kinds("percent") or not scan.has("percent_word", "dilution", "what"):
        return None
    first, second = amounts
    if scan.kind_at(first + 1) != "cue:to" or scan.kind_at(first - 1) not in ("cue:bigger", "cue:water", "sep"):
        return None
    scan.use(first, second)
    return Dilution(measure(scan.items[second]), None, scan.has("final"), measure(scan.items[first]))


def _share(scan: Scan) -> tuple[float | None, bool]:
    for i in scan.kinds("percent"):
        p = scan.items[i]
        scan.use(i)
        j = i + 1
        finished = OF_WHOLE.search(scan.text) is not None
        while scan.kind_at(j) in (
            "cue:of",
            "cue:in",
            "cue:water",
            "cue:dilution",
            "cue:final",
            "cue:undiluted",
            "cue:at",
            "cue:scale",
        ):
            if scan.kind_at(j) == "cue:final" and starts_volume(scan, j):
                break
            finished |= scan.kind_at(j) == "cue:final"
            j += 1
        return p.value, finished
    for w in scan.cues("dilution", "water"):
        nxt = scan.at(w + 1)
        if nxt is not None and nxt.kind == "bare" and 0 < nxt.value < 1:  # "dilution 0.25"
            scan.use(w + 1)
            return nxt.value, False
    for i in scan.kinds("unknown"):  # "dilute by a quarter"
        if scan.items[i].text in FRACTION_WORDS:
            scan.use(i)
            return FRACTION_WORDS[scan.items[i].text], OF_WHOLE.search(scan.text) is not None
    return None, False
