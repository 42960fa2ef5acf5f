"""Reading a spec: which amount, strength and name belong together.

People write "60 gin", "gin 60", "gin: 60 ml", "2:1 gin vermouth", "25 ml each gin lime syrup", "46% gin 2oz". The
phrases become atoms, are paired, and leave as parts. Amounts that belong to no name are left for grammar.makes.
"""

import re

from grammar.atoms import Atom, Reading, read_atoms, take_surroundings
from grammar.fruit import is_fruit
from grammar.half_read import beside_a_ratio, heads_unread, no_liquid
from grammar.own_ratios import own_ratios
from grammar.pairing import leading_volume, pair, said_strengths, spread_each
from grammar.phrase import Phrase
from grammar.ratio import lay_ratio
from grammar.request import Measure, Part, Water
from grammar.scan import BAR_ROUNDING, SMALL_BARE, Scan, Unclear, rough_ml
from grammar.shares import composition
from grammar.strongest import fits
from grammar.surroundings import shared_strength
from grammar.words_measures import FRACTION_WORDS

DASHED = frozenset(["bitters", "saline", "absinthe"])  # bare "2 bitters" is dashes
_BOTTLED_ML = 250.0  # beside such an amount a "1.75" is litres or a slip, not mL: common practice, no source
_POURED_EGG_ML = 10.0  # "20 syrup 20 egg white": mL as the rest, and no twenty eggs: common practice, no source
_NEVER_POURED = frozenset(
    ["table", "tables", "tray", "trays", "rounds", "sets", "bars", "stations", "nights", "days", "events", "rows", "seats"]
)
COUNTED_NAMES = frozenset(["egg white", "egg yolk", "whole egg"])


def read_recipe(scan: Scan, water: Water) -> Reading:
    """Read the ingredients. Raises Unclear: no_amounts, ratio_names, out_of_range, conflict_amounts, unclear_number."""
    out = Reading(water=water)
    own_ratios(scan)
    shared_strength(scan)
    take_surroundings(scan, out)
    atoms = read_atoms(scan, out)
    pair(scan, atoms)
    said_strengths(atoms)
    leading_volume(atoms, out)
    ratio = lay_ratio(scan, atoms, out)
    names = [a for a in atoms if a.kind == "N"]
    _left_out(scan, names)
    spread_each(scan, atoms, names)
    composition(scan, names, out)
    _finish(scan, names, out, ratio)
    return out


def _named(said: Atom, typed: Atom) -> bool:
    return said.name == typed.name or said.name in typed.name.split()


def _left_out(scan: Scan, names: list[Atom]) -> None:
    """ "60 gin 10 vermouth, actually no vermouth": what is refused after its amount was typed is left out."""
    for refused in names:
        before = scan.at(refused.indices[0] - 1) if refused.indices else None
        if before is None or not before.is_cue("none") or refused.name == "water" or not refused.known:
            continue
        if refused.quantity is not None and refused.quantity.phrase.end > before.start and not refused.quantity.each:
            continue
        if refused.quantity is not None:
            refused.quantity = None  # "lime 30 each, no syrup"
        typed = next((a for a in names if a is not refused and a.quantity is not None and _named(refused, a)), None)
        if typed is not None and typed.quantity is not None:
            scan.use(*refused.indices, *typed.indices, *typed.quantity.indices)
            refused.name = typed.name = ""
        elif typed is None and any(a.quantity is not None and a is not refused for a in names):
            scan.use(*refused.indices)
            refused.name = ""


def _finish(scan: Scan, names: list[Atom], out: Reading, ratio: bool) -> None:
    """Atoms to parts, bare numbers to a unit, and the marks."""
    held = [a for a in names if a.quantity is not None and a.name]
    bares = [
        a.quantity.phrase.value
        for a in held
        if a.quantity
        and a.quantity.phrase.kind == "bare"
        and a.phrase.kind != "garnish"
        and a.name not in COUNTED_NAMES
        and not _dashed(a)
    ]
    units = [
        a.quantity.phrase.unit
        for a in held
        if a.quantity
        and a.quantity.phrase.kind in ("amount", "same_amount")
        and a.quantity.phrase.unit not in ("dash", "drop", "barspoon", "part", "tsp")
    ]
    counted = bool(scan.kinds("count", "times", "fold", "guests", fresh=False))
    asked = next((p.unit for p in scan.items if p.kind == "unit" and p.unit in ("ml", "oz", "cl")), "")
    in_oz = asked == "oz" or re.search(r"\b(?:all|in) (?:in )?(?:oz|ounces)\b", scan.text) is not None
    if len(bares) > 1 and max(bares) < 1 and not units:
        bare_unit = "part"  # "a third gin, two thirds vermouth"
    elif bares and not units and in_oz and max(bares) <= 6:
        bare_unit = "oz"
    elif bares and max(bares) > SMALL_BARE and (not units or units[0] not in ("ml", "cl")):
        bare_unit = "ml"
    elif units and bares and (max(bares) <= 6 or units[0] not in ("oz",)):
        bare_unit = units[0] if not (units[0] == "oz" and max(bares) > 6) else "ml"
        bare_unit = "ml" if units[0] in ("l", "g", "kg") else bare_unit
    elif (bares and max(bares) > SMALL_BARE) or (not bares and units and units[0] == "ml"):
        bare_unit = "ml"  # "60/30/20 pisco lime syrup, 20 egg white"
    else:
        bare_unit = "part"
    for atom in names:
        if not atom.name:
            continue
        q = atom.quantity
        if atom.strength is not None and not 0 <= atom.strength <= 1:
            raise Unclear("out_of_range", [atom.phrase], f"{atom.typed} at {atom.strength * 100:g} %")
        if atom.strength is not None and atom.name != "water" and not fits(atom.name, atom.strength):
            share = f"{100.0 * atom.strength:.4g}%"
            raise Unclear("two_readings", [atom.phrase], f"{share} water, or {atom.typed} of {share}")  # "60 rye 30 lime 20%"
        if q is None:
            if any(a.name == atom.name and None is not a.strength != atom.strength is not None for a in held):
                raise Unclear("no_amounts", [atom.phrase], atom.typed, names=_strong(atom))  # "500 ml 40% gin with 60% gin"
            _without_amount(scan, atom, out)
            continue
        value, unit, whole = q.phrase.value, q.phrase.unit, q.phrase.name == "whole"
        tiny = q.phrase.kind == "bare" and bare_unit == "ml" and q.phrase.value < 3 and not _dashed(atom)
        if tiny and max(bares, default=0.0) >= _BOTTLED_ML:
            raise Unclear("unclear_number", [q.phrase, atom.phrase], f"{q.phrase.text} {atom.typed}")  # "1.75 gin, 500 vermouth"
        if not atom.known and (atom.typed in _NEVER_POURED or no_liquid(atom.typed)):
            raise Unclear("unread", [q.phrase, atom.phrase], f"{q.phrase.text} {atom.typed}")
        first = atom is held[0] and not counted and q.phrase.kind == "bare" and q.phrase.end < atom.phrase.end
        if not atom.known and beside_a_ratio(q.phrase.unit, ratio):
            raise Unclear("unread", [q.phrase, atom.phrase], f"{q.phrase.text} {atom.typed}")
        if not atom.known and heads_unread(atom.typed, q.phrase.value, first, sum(a.known for a in held)):
            raise Unclear("unread", [q.phrase, atom.phrase], f"{q.phrase.text} {atom.typed}")
        spelled_out = q.phrase.text.isalpha() and not all(a.quantity is None or a.quantity.phrase.text.isalpha() for a in held)
        if ratio and q.phrase.kind == "bare" and _poured_plain(atom) and not q.each:  # "gin, fino in equal parts 48 at once"
            raise Unclear("unclear_number", [q.phrase], q.phrase.text)
        no_name = len(atom.typed) == 1 or atom.typed in FRACTION_WORDS
        in_prose = (q.phrase.kind == "bare" and (units or spelled_out or _unlike(held, atom))) or _far(scan, atom, q)
        if not atom.known and (no_name or in_prose):
            raise Unclear("unread", [atom.phrase, q.phrase], f"{q.phrase.text} {atom.typed}")
        if q.phrase.kind == "same_amount":
            value, unit = _agreed(q.phrase)
        elif q.phrase.kind == "bare":
            parted = atom.name in COUNTED_NAMES and bare_unit == "part" and bool(bares) and not atom.typed.endswith("s")
            poured = atom.name in COUNTED_NAMES and bare_unit == "ml" and value >= _POURED_EGG_ML and not atom.typed.endswith("s")
            if parted and (value > 1 or not counted):
                out.notes.append("bare_parts")  # "6 gin 3 lemon 3 syrup 2 egg white"
            else:
                parted = False
            unit = (
                "count"
                if (atom.phrase.kind == "garnish" or atom.name in COUNTED_NAMES) and not (parted or poured)
                else "dash"
                if _dashed(atom) and value <= 6
                else bare_unit
            )
        elif unit in ("g", "kg", "lb", "ozw") and atom.name == "water":
            unit, value = "ml", value * {"g": 1.0, "kg": 1000.0, "lb": 453.59237, "ozw": 28.349523125}[unit]
        if is_fruit(scan, atom, bare_unit, len(held) > 1):
            unit = "count"
        if q.phrase.kind == "bare" and 0 < value < 1 and unit == "ml":
            raise Unclear("unclear_number", [q.phrase, atom.phrase], f"{q.phrase.text} {atom.typed}")  # half a lime is no mL
        if value < 0 or (value == 0 and not q.each and atom.name != "water"):
            raise Unclear("out_of_range", [q.phrase], f"{q.phrase.text} {atom.typed}")
        scan.use(*atom.indices, *q.indices)
        after = max(atom.indices + q.indices, default=-1) + 1
        if scan.kind_at(after) == "cue:each":
            scan.use(after)
        else:
            while scan.kind_at(after) in ("cue:for", "cue:of", "cue:in", "cue:to", "cue:with"):
                after += 1
            led_to = scan.at(after + 1)  # "gin 1:1 fino, total 45 drinks"
            counts = led_to is not None and led_to.kind in ("count", "guests", "bare")
            if scan.kind_at(after) == "cue:final" and after > 0 and not counts:
                whole = True
                scan.use(after)
        if atom.name == "water" and out.water.how == "unsaid":
            ratio_spec = any(a.quantity is not None and a.quantity.phrase.unit == "part" for a in names)
            large = (rough_ml(value, unit) or 0.0) >= 100.0
            whole = whole or (ratio_spec and large and (scan.has("final") or not counted))
            out.water = Water("part" if unit == "part" else "amount", value, unit, whole)
            continue
        if atom.phrase.kind == "garnish" and unit not in ("ml", "oz", "cl", "l", "g"):
            unit = "count"
        typed = atom.typed
        out.parts.append(Part(atom.name, Measure(value, unit), typed, atom.known, atom.strength, whole=whole))
    for i, p in enumerate(scan.items):  # strengths that found their name
        if p.kind in ("percent", "proof") and not scan.used[i] and any(a.strength == p.value and a.name for a in names):
            scan.use(i)
            if scan.kind_at(i + 1) == "cue:abv":
                scan.use(i + 1)
    if asked and held:
        out.notes = list(out.notes)


_MOST_BETWEEN = 2  # words that say nothing between an amount and a name we do not know


def _far(scan: Scan, atom: Atom, q: Atom) -> bool:
    """Whether too much talk stands between an amount and an unknown word for it to be an ingredient: "10 when you get a tick"."""
    if not atom.indices or not q.indices or q.each:
        return False
    first, last = sorted((scan.items[atom.indices[0]], scan.items[q.indices[0]]), key=lambda p: p.start)
    return len(scan.text[first.end : last.start].split()) > _MOST_BETWEEN


def _unlike(held: list[Atom], atom: Atom) -> bool:
    """Whether a bare number and an unknown word stand otherwise than all the ingredients do: "gin - 50, fino - 20 15 once"."""
    known = [a for a in held if a.known and a.quantity is not None]
    laid = [a for a in known if a.quantity is not None and a.quantity.phrase.kind == "amount"]
    if laid and len(laid) == len(known):
        return True  # all of them have units or parts
    first = [a.quantity.indices < a.indices for a in known if a.quantity is not None and a.quantity.indices]
    own = atom.quantity is not None and atom.quantity.indices < atom.indices
    return len(first) > 1 and len(set(first)) == 1 and first[0] != own


def _poured_plain(atom: Atom) -> bool:
    """Whether a name is poured by volume: no dashes, no pieces, no water."""
    return not _dashed(atom) and atom.phrase.kind != "garnish" and atom.name not in COUNTED_NAMES and atom.name != "water"


def _strong(atom: Atom) -> str:
    return f"{atom.typed} {100.0 * (atom.strength or 0.0):.4g}%"


def _dashed(atom: Atom) -> bool:
    return atom.name.endswith("bitters") or atom.name in DASHED


def _agreed(p: Phrase) -> tuple[float, str]:
    """Two figures for one amount, within bar rounding of each other (6 %: 1 oz is 28 to 30 mL, 25 mL is not).

    Raises Unclear conflict_amounts when they differ by more.
    """
    sizes = [rough_ml(v, u) for v, u in zip(p.amounts, p.units, strict=True)]
    known = [s for s in sizes if s is not None]
    if len(known) > 1 and max(known) > min(known) * BAR_ROUNDING:
        raise Unclear("conflict_amounts", [p], p.text)
    return p.amounts[0], p.units[0]


def _without_amount(scan: Scan, atom: Atom, out: Reading) -> None:
    """A name without an amount: a garnish is a garnish; what it means for a liquid is the frame's to say."""
    if atom.phrase.kind == "garnish":
        out.garnish.append(atom.typed)
        scan.use(*atom.indices)
        return
    if atom.name == "water":
        return
    if not atom.known:
        return
    scan.use(*atom.indices)
    out.parts.append(Part(atom.name, None, atom.typed, True, atom.strength))
