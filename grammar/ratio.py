"""Laying a ratio, "equal parts" or 60/30 over the names that have no amount of their own."""

import re

from grammar.atoms import Atom, Reading
from grammar.ingredients_strong import SPIRITS
from grammar.phrase import Phrase
from grammar.scan import SERVE_LIMIT_ML, Scan, Unclear, rough_ml

#: what a ratio or "equal parts" means for a drink named without ingredients, in the order the trade says the ratio
DRINK_PARTS: dict[str, tuple[str, ...]] = {  # common practice, no source
    "martini": ("gin", "dry vermouth"),
    "gibson": ("gin", "dry vermouth"),
    "fifty fifty": ("gin", "dry vermouth"),
    "manhattan": ("rye", "sweet vermouth"),
    "negroni": ("gin", "sweet vermouth", "bitter red aperitif"),
    "boulevardier": ("bourbon", "sweet vermouth", "bitter red aperitif"),
    "daiquiri": ("white rum", "lime juice", "simple syrup"),
    "bamboo": ("fino sherry", "dry vermouth"),
    "adonis": ("fino sherry", "sweet vermouth"),
    "gin and tonic": ("gin", "tonic"),
    "margarita": ("blanco tequila", "orange liqueur", "lime juice"),
}


def lay_ratio(scan: Scan, atoms: list[Atom], out: Reading) -> bool:
    """Lay a ratio (or "equal parts", or 60/30) over the names that have no amount of their own."""
    if _equal_drink(scan, atoms, out):
        return False
    ratios = scan.kinds("ratio")
    equal = [i for i in scan.cues("equal") if not scan.used[i]]
    if not ratios and not equal:
        halves = next((a for a in atoms if a.kind == "N" and a.typed == "half and half" and a.quantity is None), None)
        others = [a for a in atoms if a.kind == "N" and a is not halves and a.quantity is None and a.phrase.kind != "garnish"]
        if halves is None or len(others) != 2:
            return False
        scan.use(*halves.indices)  # "gin and vermouth half and half"
        atoms.remove(halves)
        equal = halves.indices
    if not ratios and any(a.kind == "Q" and a.each and not a.name for a in atoms):
        scan.use(*equal)  # "equal parts gin, lime, syrup, 20 ml each": the amount is each one's
        return False
    names = [a for a in atoms if a.kind == "N"]
    if not ratios or len(names) > len(scan.items[ratios[0]].values):
        _drop_repeats(names)
    free = [a for a in names if a.quantity is None and a.phrase.kind != "garnish" and a.known and a.name]
    if out.water.how != "unsaid":
        free = [a for a in free if a.name != "water"]
    if ratios:
        i = ratios[0]
        ratio = scan.items[i]
        values = ratio.values
        if len(ratios) > 1 and any(scan.items[k].values != values for k in ratios[1:]):
            raise Unclear("conflict_total", [scan.items[k] for k in ratios], "two different ratios")
        scan.use(*ratios)
        bad = [v for v in values if v <= 0]
        if bad:
            raise Unclear("out_of_range", [ratio], ratio.text)
    else:
        scan.use(*equal)
        ratio = scan.items[equal[0]]
        values = (1.0,) * len(free)
    unit = ratio.unit or (
        ""
        if ratio.kind == "ratio"
        and ratio.name in ("SLASH", "DASH")
        and sum(values) > 20
        and (len(values) > 2 or abs(sum(values) - 100) > 0.01)
        else "part"
    )
    if not unit:
        unit = "ml"
    holders = [a for a in names if a.quantity is not None and a.phrase.kind != "garnish" and a.name != "water"]
    need = len(values)
    anchored = {a.name for a in free} & {a.name for a in holders}
    if anchored:  # "3:1 gin to dry vermouth using 750 ml gin": the amount fixes the ratio's size
        names[:] = [a for a in names if a.quantity is None or a.name not in anchored]
        anchor = next(a for a in holders if a.name in anchored)
        if len(free) > need:  # "..., how much lemon and syrup": asked for again
            free = list({a.name: a for a in reversed(free)}.values())[::-1]
        _anchor(scan, free, values, anchor, out, atoms)
        return True
    if not ratios and len(holders) == 1 and free and _one_amount(scan, equal[0], free, holders[0]):
        for a in free:
            a.quantity = holders[0].quantity
        return True
    if len(free) != need and len(holders) == 1 and len(free) + 1 == need and ratio.kind == "ratio":
        alone = holders[0]
        sized = alone.quantity.phrase if alone.quantity is not None else None
        if sized is not None and (sized.kind == "amount" or sized.value >= 200):
            all_free = [a for a in names if a in free or a is alone]
            using = re.search(r"\b(?:use|using|got|have|whole|all of|left)\b", scan.text) is not None
            using = using or sized.name == "whole" or "with" in _cue_before(scan, alone)
            if using or (scan.has("stock") and not _wanted_apart(scan, alone)):
                _anchor(scan, all_free, values, alone, out, atoms)
                return True
            free = all_free  # "500 ml 2:1 gin vermouth": the amount is the volume, not the gin
            q = alone.quantity
            alone.quantity = None
            if q is not None:
                q.name = ""
    if len(free) > need and free and free[-1].name == "water" and out.water.how != "unsaid":
        free = free[:-1]
    if len(free) > need and scan.has("drink"):
        free = free[-need:]
    seen: list[Atom] = []
    for a in free:  # "2:1 gin martini, gin and dry vermouth": a name said twice is one ingredient
        if not any(b.name == a.name for b in seen):
            seen.append(a)
    if len(free) != need:
        free = seen
    if len(free) == need + 1 and any(a.phrase.kind == "context" for a in free):
        free = [a for a in free if a.phrase.kind != "context"]
    if out.drink in DRINK_PARTS and len(free) < max(need, 2):
        implied = list(DRINK_PARTS[out.drink])
        if not ratios:
            need, values = len(implied), (1.0,) * len(implied)
        told_apart = len(set(values[1:])) == 1 and values[0] >= values[1]  # the base leads; what follows is alike
        held = next((a for a in holders if _may_anchor(a, implied)), None)
        if held is not None and len(implied) == need and len(holders) == 1:  # "15 manhattans 2:1, 60 ml rye"
            laid = [Atom("N", [], ratio, name=n, typed=n) for n in _merge_implied(implied, [held.name])]
            atoms.extend(laid)
            out.notes.append("drink_parts:" + out.drink + ":" + ", ".join(a.name for a in laid if a.name != held.name))
            _anchor(scan, laid, values, held, out, atoms)
            return True
        if len(implied) == need and (told_apart or out.drink not in ("negroni", "boulevardier", "daiquiri", "margarita")):
            given = [a.name for a in free]
            merged = _merge_implied(implied, given)
            made = [next((a for a in free if a.name == n), None) or Atom("N", [], ratio, name=n, typed=n) for n in merged]
            for a in made:
                if not a.indices:
                    atoms.append(a)
            out.notes.append("drink_parts:" + out.drink + ":" + ", ".join(n for n in merged if n not in given))
            free = made
    if not free:
        raise Unclear("no_spec", [ratio], ratio.text)
    if len(free) != need:
        found = f"{ratio.text}: {need} parts, but {len(free)} ingredient{'s' * (len(free) != 1)}"
        names_read = ", ".join(a.typed for a in free)
        raise Unclear("ratio_names", [ratio, *(a.phrase for a in free)], found, names=names_read, ratio=ratio.text)
    for atom, value in zip(free, values, strict=True):
        atom.quantity = Atom("Q", [], Phrase("amount", ratio.text, ratio.start, ratio.end, value=value, unit=unit))
        atom.quantity.name = atom.name
    return True


def _one_amount(scan: Scan, equal: int, free: list[Atom], alone: Atom) -> bool:
    """Whether the one amount of "equal parts 25 ml gin, lime, maraschino" is each one's. Raises Unclear two_readings.

    It stands first, or behind the last name; "with 10 ml syrup" is one more ingredient.
    """
    at = alone.quantity.indices[0] if alone.quantity is not None and alone.quantity.indices else -1
    first = equal < at < alone.indices[0] < free[0].indices[0] and at - equal <= 2
    last = at > alone.indices[-1] > free[-1].indices[-1]
    q = alone.quantity.phrase if alone.quantity is not None and (first or last) else None
    ml = rough_ml(q.value, q.unit) if q is not None and q.unit not in ("part", "dash", "drop", "barspoon") else None
    if q is None or not ml or ml >= SERVE_LIMIT_ML:
        return False
    if ml > _MOST_EACH_ML:
        raise Unclear("two_readings", [q], f"{q.text} of each or {q.text} a serve")
    return True


def _wanted_apart(scan: Scan, alone: Atom) -> bool:
    """Whether a word of making stands between a name and the amount behind it: "gin fino 5:2, i need 2 L" is 2 L of it all."""
    q = alone.quantity
    making = [*scan.cues("want", "stock", "scale", "make_it", "final", "to"), *scan.kinds("ratio", fresh=False)]
    return q is not None and any(k in range(alone.indices[-1] + 1, q.indices[0]) for k in making)


#: drinks that are equal parts wherever they are made: common practice, no source
EQUAL_DRINKS = frozenset(["negroni", "fifty fifty"])
_MOST_EACH_ML = 50.0  # above it "each" is a serve, not an ingredient: common practice, no source


def equal_drink(scan: Scan) -> str:
    """The drink of "12 negronis, 30 ml each": equal parts by its name alone, with one amount for each; "" for others."""
    drinks = [p for p in scan.items if p.kind in ("drink", "count") and p.name in EQUAL_DRINKS]
    counted = [i + 1 for i in scan.cues("for")]  # "negroni for 12, 25 each"
    amounts = [i for i, p in enumerate(scan.items) if p.kind in ("amount", "bare") and i not in counted]
    if len(drinks) != 1 or len(amounts) != 1 or scan.kinds("name", "context", "ratio", "house", "unknown", fresh=False):
        return ""
    p = scan.items[amounts[0]]
    after = scan.at(amounts[0] + 1)
    of_each = after is not None and after.is_cue("of") and scan.kind_at(amounts[0] + 2) == "cue:each"
    plain = drinks[0].text.lstrip("0123456789 ").rstrip("s") == drinks[0].name  # a white negroni is another drink
    small = 10.0 <= (rough_ml(p.value, p.unit) or 0.0) <= _MOST_EACH_ML
    each = after is not None and (after.is_cue("each") or of_each)
    return drinks[0].name if plain and small and each else ""


def _equal_drink(scan: Scan, atoms: list[Atom], out: Reading) -> bool:
    """Give the ingredients of a drink of equal parts the one amount that was said; the reply states them."""
    drink = equal_drink(scan)
    amounts = [a for a in atoms if a.kind == "Q"]
    if not drink or len(amounts) != 1:
        return False
    names = DRINK_PARTS[drink]
    for name in names:
        atoms.append(Atom("N", [], amounts[0].phrase, name=name, typed=name, quantity=amounts[0]))
    amounts[0].name = names[0]
    out.notes.append(f"drink_parts:{drink}:{', '.join(names)}, equal parts")
    return True


def _drop_repeats(names: list[Atom]) -> None:
    """A generic name beside its own kind ("dry vermouth ... how much vermouth") is the same ingredient."""
    for a in list(names):
        if a.quantity is None and any(b is not a and a.name != b.name and a.name in b.name.split() for b in names):
            names.remove(a)
            a.name = ""


def _merge_implied(implied: list[str], given: list[str]) -> list[str]:
    """The implied ingredients with the given ones in the place of their kin: vodka for gin, bourbon for rye."""
    merged = list(implied)
    for name in given:
        if name in merged:
            continue
        wine = "vermouth" in name or "sherry" in name
        for k, old in enumerate(merged):
            if ("vermouth" in old or "sherry" in old) == wine and old not in given:
                merged[k] = name
                break
    return merged


def _cue_before(scan: Scan, atom: Atom) -> str:
    first = min([*atom.indices, *(atom.quantity.indices if atom.quantity else [])])
    return " ".join(scan.items[k].name for k in range(max(0, first - 2), first) if scan.items[k].kind == "cue")


_LEAST_OF_ONE_ML, _MOST_OF_ONE_ML = 5.0, 150.0  # of one ingredient in one serve: common practice, no source


def _may_anchor(atom: Atom, implied: list[str]) -> bool:
    """Whether an amount fixes the size of a drink known by its name: its own ingredient, or a spirit in the base's place."""
    q = atom.quantity.phrase if atom.quantity is not None else None
    ml = rough_ml(q.value, q.unit) if q is not None and q.unit not in ("part", "dash", "drop", "barspoon") else None
    return ml is not None and ml >= _LEAST_OF_ONE_ML and (atom.name in implied or atom.name in SPIRITS)


def _anchor(scan: Scan, free: list[Atom], values: tuple[float, ...], anchor: Atom, out: Reading, atoms: list[Atom]) -> None:
    """Scale a ratio so that one ingredient has the amount typed."""
    if len(free) != len(values):
        raise Unclear("ratio_names", [a.phrase for a in free], f"{len(values)} parts, but {len(free)} ingredients")
    assert anchor.quantity is not None
    fixed = anchor.quantity.phrase
    counted = any(p.kind in ("count", "guests", "times") for p in scan.items)
    of_one = counted and (rough_ml(fixed.value, fixed.unit) or SERVE_LIMIT_ML) <= _MOST_OF_ONE_ML
    share = next((v for a, v in zip(free, values, strict=True) if a.name == anchor.name), values[0])
    for atom, value in zip(free, values, strict=True):
        atom.quantity = Atom(
            "Q",
            [],
            Phrase(
                "amount",
                fixed.text,
                fixed.start,
                fixed.end,
                value=fixed.value * value / share,
                unit=fixed.unit or "ml",
                name="" if of_one else "whole",
            ),
        )
        atom.quantity.name = atom.name
    scan.use(*anchor.indices, *[k for a in atoms if a.kind == "Q" and a.phrase is fixed for k in a.indices])
    if anchor not in free:
        anchor.name = ""
