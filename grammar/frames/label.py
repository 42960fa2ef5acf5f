"""Frame for labels: the strength as printed, standard drinks, allergens."""

import re

from grammar.frames.spec import numbers_read, read_spec
from grammar.request import Label, LabelAsk, Measure, Unit, Yield
from grammar.scan import Scan, Unclear, rough_ml

COUNTRIES: dict[str, str] = {
    "us": "us", "usa": "us", "american": "us", "america": "us", "uk": "uk", "british": "uk", "england": "uk", "au": "au",
    "aus": "au", "australia": "au", "australian": "au", "aussie": "au", "eu": "eu", "european": "eu", "europe": "eu",
    "who": "who", "nz": "au",
}  # fmt: skip

#: the alcohol itself is asked for, in grams or mL
PURE_ALCOHOL = re.compile(
    r"\b(?:grams?|g|ml|mils?) of (?:pure )?(?:alcohol|ethanol)\b"
    r"|\bmuch (?:pure |actual )?(?:alcohol|ethanol) (?:is |are )?(?:there )?in\b"
    r"|\b(?:alcohol|ethanol) in\b[^?]*\bgrams?\b|\bgrams? (?:pure )?(?:alcohol|ethanol)\b|\b(?:alcohol|ethanol) grams?\b"
)


def country(scan: Scan) -> str:
    """The country named, as us, uk, au, eu or who; "" when none. Marks it."""
    lands = {COUNTRIES.get(scan.items[i].text, "") for i in scan.cues("country")}
    lands |= {"uk" for i in scan.cues("standard_drinks") if scan.items[i].text.startswith(("uk", "unit"))}
    if len(lands) > 1:  # "UK units and US standard drinks": all of them
        scan.use(*scan.cues("country"))
        return ""
    for i in scan.cues("country"):
        scan.use(i)
        return COUNTRIES.get(scan.items[i].text, "")
    for i in scan.cues("standard_drinks"):
        if scan.items[i].text.startswith("uk") or scan.items[i].text in (
            "unit",
            "units",
            "alcohol units",
            "alcohol unit",
            "units of alcohol",
            "units in",
        ):
            return "uk"
    return ""


def read_label(scan: Scan) -> Label:
    """A label question. Raises Unclear no_strength, no_volume."""
    land = country(scan)
    ask: LabelAsk = "allergens" if scan.has("allergens") else "drinks" if scan.has("standard_drinks") else "label"
    if ask == "label" and PURE_ALCOHOL.search(scan.text):
        ask = "drinks"
    scan.use_cues("label", "standard_drinks", "allergens")
    names = scan.kinds("name", "context", "house", "ratio")
    strengths = scan.kinds("percent", "proof")
    single = len(names) <= 1 and len(strengths) == 1 and not scan.kinds("ratio", "house") and not scan.has("water", "dilution")
    if names and not single:
        recipe, makes = read_spec(scan, need=ask != "allergens")
        return Label(None, 1.0, None, recipe, makes, land, ask)
    if names and not strengths:
        recipe, makes = read_spec(scan, need=ask != "allergens")
        return Label(None, 1.0, None, recipe, makes, land, ask)
    if not strengths:
        sized = scan.kinds("amount", "vessel") or [i for i in scan.kinds("bare") if scan.items[i].value > 100]
        led = ("cue:at", "cue:of") if sized else ("cue:at",)  # "units in 50 ml of 40", "units in a 750 of 13.5"
        bare = [i for i in scan.kinds("bare") if scan.kind_at(i - 1) in led and scan.items[i].value <= 100]
        if bare:
            abv = scan.items[bare[0]].value / 100
            scan.use(bare[0])
        else:
            raise Unclear("no_strength", [p for p in scan.items if p.kind == "cue"], "the strength")
    else:
        abv = scan.items[strengths[0]].value
        scan.use(strengths[0])
    if not 0 <= abv <= 1:
        raise Unclear("out_of_range", [p for p in scan.items if p.kind == "percent"], f"{abv * 100:g} %")
    scan.use(*names)
    _shots_counted(scan)
    pour = _pour(scan)
    split = _split(scan)
    volume, count = _volume(scan)
    if split is not None and volume is not None:
        volume = Measure(volume.value / split, volume.unit)
    for i in scan.kinds("guests"):
        if volume is not None and scan.items[i].value > 0:  # "700 ml of 28% split between 5 of us"
            scan.use(i)
            volume = Measure(volume.value / scan.items[i].value, volume.unit)
    if volume is None and ask == "drinks":
        raise Unclear("no_volume", [p for p in scan.items if p.kind == "percent"], "the volume")
    scan.use(*scan.kinds("unknown"))
    numbers_read(scan)
    if land == "uk" and volume is not None:  # "units in a pint of 4.5": a pint where drinks are told in units
        volume = Measure(volume.value, _IMPERIAL.get(volume.unit, volume.unit))
    return Label(volume, count, abv, None, Yield(), land, ask, pour)


_ONE_SERVE_ML = 400.0  # a larger volume is no one serve's: common practice, no source
_POURED = frozenset(["pour", "pours", "serve", "serves", "serving", "servings", "glass", "glasses", "shot", "shots"])


def _pour(scan: Scan) -> Measure | None:
    """ "500 ml at 24%, 110 ml pour: units per bottle and per pour": the smaller of two volumes. Marks it."""
    sized = [i for i in scan.kinds("amount", "vessel") if scan.items[i].kind == "amount" or scan.items[i].size is not None]
    volumes = sorted(sized, key=lambda i: rough_ml(*_held(scan, i)) or 0.0)
    poured = any(p.text in _POURED for p in scan.all)
    if len(volumes) != 2 or not poured or scan.items[volumes[0]].kind != "amount":
        return None
    small, large = (_held(scan, i) for i in volumes)
    if not 0.0 < (rough_ml(*small) or 0.0) < (rough_ml(*large) or 0.0):
        return None
    scan.use(volumes[0])
    return Measure(*small)


_IMPERIAL: dict[str, Unit] = {"pint": "imp_pint", "quart": "imp_quart", "gallon": "imp_gallon"}
_SPLIT = re.compile(
    r"\b(?:into|between|among|amongst|across|over|split|divided|makes|making|make|fills|filling|for|is|gives|does|->|=|by)"
    r"(?: (?:into|to|between|over|across|up|about|out|in))*\s*$"
)
_IN_ALL = re.compile(r"\b(?:in total|total|altogether|in all|the lot|all (?:of )?(?:them|it))\b")


def _shots_counted(scan: Scan) -> None:
    """ "70 cl at 40%, 28 shots, units per shot": where a volume is said, shots are so many serves of it."""
    sized = [p for p in scan.items if p.kind == "amount" and (rough_ml(p.value, p.unit) or 0.0) > _ONE_SERVE_ML]
    for p in scan.items:
        if p.kind == "amount" and p.unit in ("shot", "jigger", "pony", "part") and p.value > 1 and len(sized) > int(p in sized):
            p.kind, p.unit = "count", ""


def _split(scan: Scan) -> float | None:
    """ "1.2 L at 28% into 12 bottles, units in each": how many the volume is shared out between. Marks it.

    Raises Unclear two_readings where nothing says whether each holds the volume: "1.2 L at 28%, 12 bottles".
    """
    volumes = [i for i, p in enumerate(scan.items) if p.kind == "amount" and (rough_ml(p.value, p.unit) or 0.0) > _ONE_SERVE_ML]
    counts = [
        i
        for i, p in enumerate(scan.items)
        if p.kind == "count"
        or (p.kind == "vessel" and p.size is None and p.amounts and p.amounts[0] > 1)
        or (p.kind == "bare" and re.match(r" ways\b", scan.text[p.end :]))
    ]
    if len(volumes) != 1 or len(counts) != 1 or counts[0] < volumes[0] or scan.kind_at(volumes[0] + 1) == "cue:each":
        return None
    many = scan.items[counts[0]]
    value = many.amounts[0] if many.kind == "vessel" else many.value
    shared = _SPLIT.search(scan.text, 0, many.start) is not None
    if many.kind == "vessel" and not shared:
        raise Unclear("two_readings", [many], f"{scan.items[volumes[0]].text} in each, or in all {value:g}")
    if value <= 1:
        return None
    scan.use(counts[0])
    return 1.0 if _IN_ALL.search(scan.text) else value


def _held(scan: Scan, i: int) -> tuple[float, str]:
    p = scan.items[i]
    return (p.size or (0.0, "ml")) if p.kind == "vessel" else (p.value, p.unit)


def _volume(scan: Scan) -> tuple[Measure | None, float]:
    """The volume of one, and how many."""
    volume: Measure | None = None
    count = 1.0
    for i in scan.kinds("amount", "same_amount", "vessel", "bare", "count", "fold", "times"):
        p = scan.items[i]
        if p.kind == "same_amount" and volume is None:
            volume = Measure(p.amounts[0], p.units[0])  # "12 oz/355 ml"
        elif p.kind in ("count", "fold", "times"):
            count = p.value
        elif p.kind == "vessel":
            if p.size is not None and volume is None:
                volume = Measure(*p.size)
            if p.amounts:
                count = p.amounts[0]
        elif volume is None and (p.kind == "amount" or p.value >= 25) and rough_ml(p.value, p.unit) is not None:
            volume = Measure(p.value, p.unit or "ml")
        elif p.kind == "bare" and p.value < 25:
            count = p.value
        elif volume is not None and p.kind == "amount" and rough_ml(p.value, p.unit) == rough_ml(volume.value, volume.unit):
            pass  # "a fifth (750 ml)": said twice
        else:
            continue
        scan.use(i)
    return volume, count
