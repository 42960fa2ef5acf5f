"""Percents that say how much of the whole each ingredient is, and no strength: "55% gin, 25% vermouth, 20% water"."""

from dataclasses import replace

from grammar.atoms import Atom, Reading
from grammar.phrase import Phrase
from grammar.scan import Scan, Unclear

_LEAST_SHARES = 3  # two strengths may come to about 100 %: common practice, no source
_MOST_OF_ALL = 0.5  # a first share of so much is seldom a strength: common practice, no source
_NEAR_ALL = (0.8, 1.3)  # of all: shares that somebody added up wrong; common practice, no source
_NAMED = ("name", "context", "cue:water")


def shares_of_all(scan: Scan, percents: list[int], names: list[int]) -> bool:
    """Whether percents that add up to 100 stand before or behind as many names: "60% wine, 10% brandy, 30% juice"."""
    watered = [i for i in scan.cues("water") if scan.kind_at(i) and "percent" in (scan.kind_at(i - 1), scan.kind_at(i + 1))]
    if len(percents) < _LEAST_SHARES or len(percents) != len(names) + len(watered):
        return False
    led = all(scan.kind_at(i + 1 + (scan.kind_at(i + 1) == "cue:of")) in _NAMED for i in percents)
    followed = all(scan.kind_at(i - 1) in _NAMED for i in percents)
    return (led or followed) and abs(sum(scan.items[i].value for i in percents) - 1.0) < 0.006


def is_the_whole(scan: Scan, i: int) -> bool:
    """Whether the amount at i is all of what the shares behind it divide: "a litre 55% gin 25% vermouth 20% water"."""
    percents, names = scan.kinds("percent"), scan.kinds("name", "context")
    if not percents or not i < min([*percents, *names]) <= i + 2:
        return False
    return shares_of_all(scan, percents, names)


def composition(scan: Scan, names: list[Atom], out: Reading) -> None:
    """ "60% gin, 25% vermouth, 15% lime": percents of all names that add up to 100 are parts, not strengths."""
    real = [a for a in names if a.phrase.kind != "garnish" and a.name]
    if len(real) < 2 or any(a.quantity is not None for a in real) or any(a.strength is None for a in real if a.name != "water"):
        return
    shares = [a.strength or 0.0 for a in real]
    total = sum(shares)
    water = out.water.value if out.water.how in ("of_undiluted", "of_finished") else 0.0
    if abs(total + water - 1.0) < 0.006 and water:
        out.water = replace(out.water, how="of_finished")
    elif abs(total - 1.0) > 0.006:
        led = all(p is not None and p.kind == "percent" for p in (scan.at(scan.items.index(a.phrase) - 1) for a in real))
        listed = len(real) + bool(water) >= _LEAST_SHARES
        over = shares[0] >= _MOST_OF_ALL and total + water > 1.0  # "gin 60%, vermouth 30%, water 20%"
        if listed and (led or over) and _NEAR_ALL[0] <= total + water <= _NEAR_ALL[1]:
            said = " + ".join(f"{share * 100:.4g}%" for share in [*shares, *([water] if water else [])])
            raise Unclear("conflict_total", [a.phrase for a in real], f"{said} is {(total + water) * 100:.4g}%, not 100%")
        return
    scan.use(*[i for i in scan.kinds("percent") if scan.items[i].value in shares])
    for atom, share in zip(real, shares, strict=True):
        atom.quantity = Atom(
            "Q", [], Phrase("amount", "", atom.phrase.start, atom.phrase.end, value=round(share * 100, 6), unit="part")
        )
        atom.strength = None
