"""Whether a message is a conversion: amounts or units and nothing to make of them."""

from grammar.scan import Scan, bottled


def is_convert(
    scan: Scan,
    spec: bool,
    names: list[int],
    amounts: list[int],
    percents: list[int],
    units: list[int],
    counted: list[int],
) -> bool:
    items = scan.items
    if scan.kinds("house"):
        return False
    counted = [i for i in counted if not _of_bottles(scan, i)]
    said = [p for p in items if p.kind != "sep" and not p.is_cue("country")]
    if len(units) in (2, 3) and not names and not amounts and len(said) <= len(units) + 3:
        return True
    if (
        scan.kinds("temperature")
        and not amounts
        and not percents
        and not names
        and (scan.has("in", "to", "convert", "what", "equals") or units)
    ):
        return True
    if not spec:
        if (
            scan.kinds("proof")
            and not amounts
            and not names
            and not scan.has("water", "dilution")
            and (scan.has("abv", "percent_word", "what", "in", "to", "convert") or len(items) <= 2)
        ):
            return True
        if percents and scan.has("proof_word") and not amounts and not names:
            return True
        if scan.has("proof_word") and scan.has("abv", "percent_word") and scan.kinds("bare") and not names:
            return True
    if (
        units
        and (amounts or scan.kinds("vessel") or any(p.kind == "ratio" and p.unit for p in items))
        and not counted
        and not scan.has("water", "dilution", "abv")
    ):
        if not names:
            return True
        alone = len(names) == 1 and len(amounts) == 1 and units == [len(items) - 1]  # "a cup of lime juice, mls?"
        ask = scan.has("in", "to", "how_many", "convert") or alone
        return ask and not scan.kinds("ratio", "vessel") and not scan.has("final", "scale", "equal")
    if scan.has("convert") and spec and not counted and not scan.kinds("ratio", "vessel") and not scan.has("water"):
        return True
    if (
        scan.has("convert", "equals")
        and amounts
        and not names
        and not counted
        and not scan.has("water", "dilution")
        and len(percents) < 2
    ):
        return True
    if scan.has("how_many", "convert") and units and not names and not scan.has("water", "dilution"):
        return True
    pours = any(p.text in ("pours", "pour") for p in items)
    large = [i for i in scan.kinds("bare") if items[i].value >= 300]
    if pours and len(scan.kinds("amount", "vessel")) + len(large) >= 2 and not names:
        return True
    parts = any(p.kind == "unit" and p.unit == "part" for p in items) or any(p.text in ("ratio", "ratios") for p in items)
    return bool(parts and scan.has("in", "to", "convert", "what", "equals") and (amounts or scan.kinds("ratio")) and not counted)


def strengths_listed(scan: Scan) -> bool:
    """ "proof 86, 94 and 101 to abv", "40, 45 and 50% in proof": the unit of one is that of all."""
    if not scan.has("in", "to", "convert", "what", "equals") or not scan.kinds("bare") or not scan.kinds("percent", "proof"):
        return False
    asked = scan.has("proof_word") if scan.kinds("percent") else scan.has("abv", "percent_word")
    return asked and not (scan.kinds("percent") and scan.kinds("proof")) and all(
        p.kind in ("bare", "percent", "proof", "sep") or p.is_cue("and", "or", "in", "to", "convert", "what", "equals", "abv")
        or p.is_cue("percent_word", "proof_word") for p in scan.items
    )  # fmt: skip


def _of_bottles(scan: Scan, i: int) -> bool:
    """Whether the count at i is of bottles of a size: "a case of 12 x 750 in gallons"."""
    size = scan.at(i + 1)
    return scan.items[i].kind == "fold" and size is not None and (size.kind == "vessel" or bottled(size))
