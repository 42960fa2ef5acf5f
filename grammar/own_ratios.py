"""Ratios that belong to a syrup and not to the drink: "20 ml 2:1 syrup", "20 syrup (1:1)"."""

from grammar.scan import Scan

SYRUPS = frozenset(
    [
        "simple syrup",
        "demerara syrup",
        "honey syrup",
        "agave syrup",
        "rich syrup",
        "rich demerara syrup",
        "rich honey syrup",
    ]
)
_MEASURED = ("amount", "bare")
RICH = {"simple syrup": "rich syrup", "demerara syrup": "rich demerara syrup", "honey syrup": "rich honey syrup"}


def own_ratios(scan: Scan) -> None:
    """ "20 ml 2:1 syrup", "20 syrup (1:1)": the ratio is the syrup's own, when the syrup has an amount."""
    for i in scan.kinds("ratio"):
        if len(scan.items[i].values) != 2 or scan.items[i].name == "SLASH":
            continue
        after, before = scan.at(i + 1), scan.at(i - 1)
        name = None
        behind = scan.kind_at(i + 2) in _MEASURED and scan.kind_at(i + 3) in ("", "sep") and len(scan.kinds("name")) > 1
        if after is not None and after.kind == "name" and after.name in SYRUPS and (behind or scan.kind_at(i - 1) in _MEASURED):
            name = after  # "20 ml 2:1 syrup", "gin 60, 2:1 syrup 20"
        else:
            j = i - 1 if before is None or before.kind != "sep" else i - 2
            p = scan.at(j)
            measured = scan.kind_at(j - 1) in ("amount", "bare") and scan.kind_at(j - 2) in (
                "",
                "sep",
                "name",
                "cue:and",
            )
            if p is not None and p.kind == "name" and p.name in SYRUPS and measured and len(scan.kinds("amount", "bare")) > 1:
                name = p
        if name is None and after is not None and after.kind == "name" and after.name in SYRUPS:
            again = [k for k in scan.kinds("name") if scan.items[k].name == after.name and k != i + 1]
            beside = {scan.kind_at(again[0] - 1), scan.kind_at(again[0] + 1)} if len(again) == 1 else set()
            if beside & {"amount", "bare"}:
                name = scan.items[again[0]]  # "with 1:1 syrup: 60 rum 30 lime 20 syrup"
                scan.use(i + 1)
        if name is None:
            continue
        scan.use(i)
        rich = max(scan.items[i].values) / min(scan.items[i].values) >= 1.8 if min(scan.items[i].values) > 0 else False
        if rich and name.name in RICH:
            name.name = RICH[name.name]
