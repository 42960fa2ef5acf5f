"""A dilution told in other figures: mix to water as a ratio, the room left in a bottle, what is in so far, water a drink.

Each reads the words around its figures, for a figure alone says nothing here. Marks what it takes.
"""

import re

from grammar.frames.dilution_figures import grown, serves_of, volumes_of
from grammar.frames.spec import numbers_read
from grammar.request import Convert, Dilution, Measure
from grammar.scan import SERVE_LIMIT_ML, Scan, Unclear, rough_ml

_N = r"(\d+(?:[.,]\d+)?)"
_MIX = r"(?:the |my |our )?(?:mix|premix|pre-?batch|batch|booze|cocktail|spec|spirits?|liquor|base|undiluted)"
_TO = r" ?(?:to|:|/|and|&|-|,) ?"
_DRY_FIRST = (
    re.compile(rf"\b{_N} ?(?::|/|-|to) ?{_N} (?:of )?{_MIX}{_TO}water\b"),  # "3:1 mix to water"
    re.compile(rf"\b{_MIX}{_TO}water(?: ratio)?(?: is| of| at|:|,)* {_N} ?(?::|/|-|to) ?{_N}(?![\d%]|[.,]\d)"),
    re.compile(rf"\b{_N} {_MIX}{_TO}{_N} water\b"),  # "4 mix to 1 water"
)
_WATER_FIRST = (
    re.compile(rf"\b{_N} ?(?::|/|-|to) ?{_N} (?:of )?water{_TO}{_MIX}\b"),
    re.compile(rf"\bwater{_TO}{_MIX}(?: ratio)?(?: is| of| at|:|,)* {_N} ?(?::|/|-|to) ?{_N}(?![\d%]|[.,]\d)"),
    re.compile(rf"\b{_N} water (?:to|per|for every|for each|for) (?:every )?{_N} {_MIX}\b"),  # "0.25 water to 1 mix"
)
_MOST_PARTS = 20.0  # larger figures beside mix and water are amounts: common practice, no source
_FILLED = re.compile(
    r"\b(?:fill|fills|filling|filled|full)\b"
    r"|\bin(?:to)? (?:a|an|the|one|my|our) [^.?]*(?:bottle|btl|keg|jug|jar|flask|can|container)"
    r"|\b(?:total|in all|altogether|finished|to make|makes)\b"
)
_OF_MIX = re.compile(rf"\b(?:of|on|to|into) {_MIX}\b|\d ?(?:ml|cl|l|oz) {_MIX}\b|{_MIX} (?:is|of|at) \d|\b(?:have|got)\b")
_ROOM = re.compile(rf"\b(?:room|space|gap) (?:left )?(?:for|of) (?:another |a further |about |just )?{_N} ?(ml|cl|l|oz)?\b")
_SO_FAR = re.compile(
    rf"\b(?:put|added|poured|got|have|used|chucked)(?: in)?(?: only| just| about)? {_N} ?(ml|cl|l|oz)?"
    r"(?: of (?:it|the water|water)| water| of that)? (?:in )?(?:so far|already|in already|yet)\b"
    rf"|\b{_N} ?(ml|cl|l|oz)(?: of)? (?:water|h2o)(?: is| was| went)? (?:in )?(?:so far|already|in already|there already)\b"
    rf"|\balready (?:has |have |got |put |put in |added |in it )?{_N} ?(ml|cl|l|oz)(?: of)? (?:water|h2o)\b"
)
_MELT = re.compile(
    rf"\b{_N} ?(ml|cl|oz|g)(?: each)?(?: of)? (?:the )?(?:melt|melt ?water|ice ?melt|melted ice)\b"
    rf"|\b(?:gains|picks up|picked up|takes on|soaks up)(?: abt| about| around)? {_N} ?(ml|cl|oz|g)(?! of (?!melt|water))\b"
    rf"|\b(?:melt|melt ?water|water gained|water picked up)(?: is|:| =| of| was| comes to)* {_N} ?(ml|cl|oz|g)"
    r" (?:per|a|each) ?(?:drink|serve|one|glass|cocktail)?"
)
_MAKING = re.compile(r"\b(?:doing|making|for|batch of|do|make|times|x) ?(\d+)\b(?! ?(?:ml|cl|l|oz|%))")
_LEAST_SERVE_ML = 40.0  # an undiluted drink is no smaller; less is parts: common practice, no source
_LEAST_SHARE, _MOST_EACH_ML = 0.05, 45.0  # least water worth batching; most of one drink's: common practice, no source


def _number(typed: str) -> float:
    return float(typed.replace(",", "."))


def _mix_ratio(scan: Scan) -> tuple[float, tuple[int, int]] | None:
    """Water as a share of the undiluted volume, and where in the text it is said."""
    if not scan.has("water") or scan.kinds("percent", "proof", "house"):
        return None
    for dry_first, patterns in ((True, _DRY_FIRST), (False, _WATER_FIRST)):
        for pattern in patterns:
            said = pattern.search(scan.text)
            if said is None:
                continue
            first, second = _number(said[1]), _number(said[2])
            dry, wet = (first, second) if dry_first else (second, first)
            if 0.0 < wet <= _MOST_PARTS and 0.0 < dry <= _MOST_PARTS:
                return wet / dry, said.span()
    return None


def is_told(scan: Scan) -> bool:
    """Whether mix and water stand in a ratio, or the room left is to be filled with water."""
    spirits = {scan.items[i].name for i in scan.kinds("name", "context")} - {"spirit"}
    if spirits or not scan.has("water"):
        return False
    if _MELT.search(scan.text) is not None and not scan.kinds("percent"):
        return _MAKING.search(scan.text) is not None or bool(scan.kinds("count", "times", fresh=False))
    if _SO_FAR.search(scan.text) is not None and len(scan.kinds("percent")) == 1 and len(scan.kinds("amount")) == 2:
        return True  # "3 L mix, 300 ml water in so far, want 20%"
    return _mix_ratio(scan) is not None or (_ROOM.search(scan.text) is not None and scan.has("dilution", "percent_word"))


def stands_alone(scan: Scan) -> bool:
    """Whether it brings every figure it needs, so that it asks nothing of the message before."""
    return is_told(scan) or _SO_FAR.search(scan.text) is not None or grown(scan) is not None


def read_told(scan: Scan) -> Dilution | Convert | None:
    """ "3:1 mix to water, filling a 750", "560 of mix in, room for 140, what % if filled with water"; else None."""
    if not is_told(scan):
        return None
    melt = _MELT.search(scan.text)
    if melt is not None:
        return _melted(scan, melt)
    ratio = _mix_ratio(scan)
    if ratio is not None:
        share, (start, end) = ratio
        scan.use(*[i for i, p in enumerate(scan.items) if start <= p.start < end])
        serves = serves_of(scan)
        volume, finished = as_filled(scan, *volumes_of(scan))
        if volume is None and finished is None:
            raise Unclear("no_volume", [], "the mix")
        if finished is None and volume is not None and _OF_MIX.search(scan.text) is None:
            said = f"{volume.value:g} {volume.unit}"
            raise Unclear("two_readings", [], f"{said} of mix or {said} with the water in")  # "3:1 mix to water, 2 L"
        numbers_read(scan)
        return Dilution(volume, share, False, None, serves, finished)
    room = _ROOM.search(scan.text)
    figures = scan.kinds("amount", "bare", "vessel")
    held = [i for i in figures if room is not None and scan.items[i].start != room.start(1) and scan.items[i].kind != "vessel"]
    if room is None or len(held) != 1 or scan.kinds("percent"):
        return None
    p = scan.items[held[0]]
    scan.use(*figures)
    numbers_read(scan)
    return Dilution(Measure(p.value, p.unit or "ml"), water=Measure(_number(room[1]), room[2] or p.unit or "ml"))


def _melted(scan: Scan, melt: re.Match[str]) -> Dilution | Convert:
    """ "60/30 picks up 25 ml of melt, doing 30": the melt of one drink, that many times; a gram of water is 1 mL.

    Raises Unclear no_spec when nobody said how many.
    """
    at = next(n for n in (1, 3, 5) if melt[n])
    unit = "ml" if melt[at + 1] == "g" else melt[at + 1]
    scan.use(*[i for i, p in enumerate(scan.items) if melt.start() <= p.start < melt.end()])
    making = _MAKING.search(scan.text)
    counted = [i for i in scan.kinds("bare", "count") if making is not None and scan.items[i].start == making.start(1)]
    serves = scan.items[counted[0]].value if counted else serves_of(scan)
    scan.use(*counted)
    if not serves:
        raise Unclear("no_spec", [], "how many")
    spec = [i for i in scan.kinds("ratio") if scan.items[i].name == "SLASH" and sum(scan.items[i].values) >= _LEAST_SERVE_ML]
    scan.use(*spec, *scan.kinds("drink"))
    one = Measure(sum(scan.items[spec[0]].values), scan.items[spec[0]].unit or "ml") if spec else volumes_of(scan)[0]
    numbers_read(scan)
    water = Measure(_number(melt[at]) * serves, unit)
    if one is None:
        return Convert((water,), "oz" if unit in ("ml", "cl") else "ml")
    return Dilution(of_one(scan, one, serves), water=water, serves=serves)


def as_filled(scan: Scan, volume: Measure | None, finished: Measure | None) -> tuple[Measure | None, Measure | None]:
    """ "3 parts mix 1 part water in a 1 L bottle": the one volume said is what is filled, the water in it."""
    if finished is None and volume is not None and _FILLED.search(scan.text):
        return None, volume
    return volume, finished


_BRIMMED = re.compile(
    r"\b(?:fill|fills|filling)\b|\bfull\b(?! of)|\bfilled\b(?! with| of)"
    r"|\b(?:water|dilution) (?:is |already )?(?:inside|included|incl|in it)\b"
)


def brimmed(
    scan: Scan, share: float, volume: Measure | None, finished: Measure | None
) -> tuple[Measure | None, Measure | None]:
    """ "fill a 750 with 20% water", "1 L bottle full, 20% dilution inside": the volume has the water in it.

    Raises Unclear two_readings where the share may be a strength.
    """
    _too_strong(scan, share)
    if finished is None and volume is not None and _BRIMMED.search(scan.text) and not _OF_MIX.search(scan.text):
        return None, volume
    return volume, finished


_MOST_UNSAID = 0.5  # a larger percent that nothing calls water is a strength: common practice, no source


def _too_strong(scan: Scan, share: float) -> None:
    """ "water to get 700 ml 63% to 46": such a percent with no word beside it is a strength. Raises Unclear two_readings."""
    for i in scan.kinds("percent", fresh=False):
        p = scan.items[i]
        beside = {scan.kind_at(i + d) for d in (-2, -1, 1, 2)} & {"cue:water", "cue:dilution"}
        if p.value == share > _MOST_UNSAID and not beside:
            raise Unclear("two_readings", [p], f"{share * 100:g}% water or {share * 100:g}% ABV")


def in_so_far(scan: Scan) -> Measure | None:
    """ "should be 25% water, only put 200 in so far": water that is in already. Marks it."""
    said = _SO_FAR.search(scan.text) if scan.has("water", "dilution") else None
    for i in scan.kinds("amount", "bare") if said is not None else ():
        if said is not None and scan.items[i].start == next(said.start(k) for k in (1, 3, 5) if said[k]):
            scan.use(i)
            return Measure(scan.items[i].value, scan.items[i].unit or "ml")
    return None


def water_alone(scan: Scan, volume: Measure | None) -> bool:
    """ "water for 40 serves at 20 ml each": with no share said, so little a drink can only be its water."""
    asked = scan.items[0].is_cue("water", "how_much") and scan.has("each")
    return asked and volume is not None and 0.0 < (rough_ml(volume.value, volume.unit) or 0.0) <= _MOST_EACH_ML


def of_one(scan: Scan, volume: Measure | None, serves: float | None) -> Measure | None:
    """ "12 serves, 1.2 L undiluted": the volume of them all, as one serve's."""
    counted = scan.kinds("count", "guests", fresh=False)
    held = None if volume is None else rough_ml(volume.value, volume.unit)
    if volume is None or held is None or held <= SERVE_LIMIT_ML or not serves or not counted or scan.has("each"):
        return volume
    return Measure(volume.value / serves, volume.unit)


def total_water(water: Measure | None, one: Measure | None, serves: float | None) -> Measure | None:
    """ "14 serves, 90 ml undiluted, 30 ml water each": the water of them all. One drink's is what would be too little for all."""
    wet = None if water is None else rough_ml(water.value, water.unit)
    held = None if one is None else rough_ml(one.value, one.unit)
    if water is None or wet is None or held is None or not serves or not 0.0 < held < SERVE_LIMIT_ML:
        return water
    each = _LEAST_SHARE <= wet / held <= 1.0 and wet / (held * serves) < _LEAST_SHARE
    return Measure(water.value * serves, water.unit) if each else water
