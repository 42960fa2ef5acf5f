"""Which quantity and strength belong to which name.

Inside a stretch between separators first, by the most pairs of neighbours; then along the whole message.
"""

from itertools import pairwise

from grammar.atoms import Atom, Reading
from grammar.phrase import Phrase
from grammar.scan import SERVE_LIMIT_ML, SMALL_BARE, Scan, Unclear, rough_ml


def pair(scan: Scan, atoms: list[Atom]) -> None:
    """Give each name its quantity and strength: inside its own stretch, then along the message."""
    generic = [a for a in atoms if a.kind == "N" and a.name == "spirit"]
    if generic and len([a for a in atoms if a.kind == "N"]) > 2:  # the head of a table: "| spirit | ml |"
        for a in generic:
            k = atoms.index(a)
            if k + 1 >= len(atoms) or atoms[k + 1].kind == "B":
                scan.use(*a.indices)
                atoms.remove(a)
    stretches: list[list[Atom]] = [[]]
    for atom in atoms:
        if atom.kind == "B":
            stretches.append([])
        else:
            stretches[-1].append(atom)
    pairs = {"".join(a.kind for a in stretch if a.kind != "S") for stretch in stretches} & {"QN", "NQ"}
    for stretch in stretches:
        _pair_stretch(stretch, pairs.copy().pop() if len(pairs) == 1 else "")
    # "gin, 60 ml, dry vermouth, 10 ml": stretches of one atom each, alternating
    loose = [a for a in atoms if (a.kind == "N" and a.quantity is None) or (a.kind == "Q" and not a.name)]
    loose = [a for a in loose if a.kind == "Q" or scan.kind_at(a.indices[0] - 1) != "cue:rest"]  # "700 vodka, rest juice"
    if loose and loose[0].kind == "Q" and loose[-1].phrase.kind == "garnish":
        del loose[-1]  # "... fill 2 L, lemon twist", "serves 60, cherry": no amount of the garnish
    large = [k for k, a in enumerate(loose) if a.kind == "Q" and _phrase_ml(a.phrase) >= SERVE_LIMIT_ML and a.phrase.unit]
    if len(loose) > 2 and large == [0]:
        del loose[0]  # "i need 3 L: rum - 45 ml / lime - 20 ml"
    elif len(loose) % 2 and len(loose) > 2 and large == [len(loose) - 1]:
        del loose[-1]
    if len(loose) >= 2 and len(loose) % 2 == 0 and all(a.kind != b.kind for a, b in pairwise(loose)):
        for first, second in zip(loose[::2], loose[1::2], strict=True):
            name, quantity = (first, second) if first.kind == "N" else (second, first)
            if quantity.phrase.kind == "bare" and quantity.phrase.value > 5000:
                continue
            _join(name, quantity)
    for i, atom in enumerate(atoms):  # a strength in brackets or after a comma, "gin (46%)"
        if atom.kind == "S" and not atom.name and i >= 2 and atoms[i - 1].kind == "B" and atoms[i - 1].phrase.name == "(":
            target = atoms[i - 2] if atoms[i - 2].kind == "N" else atoms[i - 3] if i >= 3 and atoms[i - 3].kind == "N" else None
            if target is not None and target.strength is None:
                target.strength, atom.name = atom.strength, target.name


def said_strengths(atoms: list[Atom]) -> None:
    """ "200 ml gin, 300 ml tonic, gin is 46%": a name said again, with its strength only, tells the first one's.

    "6:1 gin dry vermouth, gin 47%, vermouth 18%": so does the kind that only one of them is of.
    """
    for at, again in enumerate(atoms):
        if again.kind != "N" or again.quantity is not None or again.strength is None:
            continue
        before = [a for a in atoms[:at] if a.kind == "N" and a.name]
        same = [a for a in before if a.name == again.name]
        kin = [a for a in before if again.name in a.name.split()] if not same else []
        for first in same or (kin if len(kin) == 1 else []):
            if first.strength is None:
                first.strength, again.name = again.strength, first.name
        for first in atoms[at:]:
            if first.kind == "N" and first.name == again.name and first.quantity is not None and first.strength is None:
                first.strength = again.strength


def _join(name: Atom, quantity: Atom) -> None:
    name.quantity = quantity
    quantity.name = name.name


def _pair_stretch(stretch: list[Atom], habit: str) -> None:
    """Pair within one stretch; habit is how the others stand, "QN" or "NQ", when they all stand alike."""
    names = [a for a in stretch if a.kind == "N" and a.typed != "half and half"] or [a for a in stretch if a.kind == "N"]
    quantities = [a for a in stretch if a.kind == "Q"]
    strengths = [a for a in stretch if a.kind == "S"]
    if not names:
        return
    order = {id(a): k for k, a in enumerate(stretch)}
    if strengths:
        before = order[id(strengths[0])] < order[id(names[0])]
        for s in strengths:
            k = order[id(s)]
            bare = [n for n in names if n.strength is None and n.name != "water"]
            beside = _beside_it(stretch, k)
            bare = [n for n in bare if n.known or n is beside] or bare  # a word of talk has no strength beside an ingredient
            side = [n for n in bare if (order[id(n)] > k) == before] or bare
            if side:
                target = min(side, key=lambda n: abs(order[id(n)] - k))
                target.strength, s.name = s.strength, target.name
    if not quantities:
        return
    if len(names) == 1 and len(quantities) == 1:
        _join(names[0], quantities[0])
        return
    row = [a for a in stretch if a.kind != "S"]
    units = [a.phrase.kind != "bare" for a in quantities]
    both = len(quantities) == len(names) + 1 and row[0].kind == row[-1].kind == "Q"
    if both and habit and not any(units) and len(names) == 1:
        del row[-1 if habit == "QN" else 0]  # "50 rum / 22 lime / 20 fino 16": the others have their amount before them
    elif both and not any(units) and row[0].phrase.end == row[1].phrase.start:
        del row[-1]  # "60gin 30lime 20syrup 8": the amounts touch their names
    elif both and all(units[:-1]) and not units[-1]:
        del row[-1]  # "25 ml rye 20": what stands alone behind measured amounts is none of theirs
    elif len(quantities) == len(names) + 1 and row[-1].kind == "Q" and "Q" in (row[0].kind, row[-2].kind):
        _drop_volume(row)
    for name, quantity in _best_pairs(row, "Q" if row[-1].kind == "N" else "N"):  # what ends the row must be paired
        _join(name, quantity)


def _beside_it(stretch: list[Atom], k: int) -> Atom | None:
    """The name that a strength at k belongs to by touch: "60 ml zorp 11%", "60 ml 11% zorp"."""
    if k > 1 and stretch[k - 1].kind == "N" and stretch[k - 2].kind == "Q":
        return stretch[k - 1]
    if 0 < k < len(stretch) - 1 and stretch[k - 1].kind == "Q" and stretch[k + 1].kind == "N":
        return stretch[k + 1]
    return None


def _drop_volume(row: list[Atom]) -> None:
    """ "2 gin 1 vermouth 1 litre", "1 L gin 2 vermouth 1": one large amount at an end is what is made."""
    sizes = [_phrase_ml(a.phrase) for a in row if a.kind == "Q"]
    for end, others in ((-1, sizes[:-1]), (0, sizes[1:])):
        size = _phrase_ml(row[end].phrase) if row[end].phrase.kind == "amount" else 0.0
        if size >= SERVE_LIMIT_ML and (sum(others) < SERVE_LIMIT_ML or (end == -1 and size >= sum(others))):
            del row[end]
            return


def _phrase_ml(p: Phrase) -> float:
    return rough_ml(p.value, p.unit) or 0.0


def leading_volume(atoms: list[Atom], out: Reading) -> None:
    """ "1 quart sour mix, half lemon half syrup": one big amount before small bare numbers is the volume, its name the title."""
    held = [a for a in atoms if a.kind == "N" and a.quantity is not None and a.phrase.kind != "garnish"]
    laid = sum(a.kind == "N" and a.quantity is None and a.known for a in atoms) > 1  # a ratio is still to be laid over them
    for a in held:
        q = a.quantity
        rest = sum(_ml(b) for b in held if b is not a)
        if q is not None and not a.known and q.phrase.kind == "amount" and _ml(a) >= SERVE_LIMIT_ML > rest and (rest or laid):
            q.name, a.quantity, a.name = "", None, ""
            return  # "a 6 quart tub of ours to fill, 60 rum 22 lime": what holds the batch
    if len(held) < 3 or held[0].quantity is None:
        return
    first = held[0].quantity.phrase
    others = [a.quantity.phrase for a in held[1:] if a.quantity is not None]
    big = first.kind == "amount" and (rough_ml(first.value, first.unit) or 0.0) >= SERVE_LIMIT_ML
    if not big or any(q.kind != "bare" or q.value > SMALL_BARE for q in others):
        return
    held[0].quantity.name = ""
    held[0].quantity = None
    if not any(a.name == held[0].name for a in held[1:]):
        out.title = out.title or held[0].typed
        held[0].name = ""


def _ml(atom: Atom) -> float:
    """About how many mL a name was given; 0 for none and for parts."""
    q = atom.quantity.phrase if atom.quantity is not None else None
    return 0.0 if q is None else _phrase_ml(q)


def _best_pairs(row: list[Atom], opens: str) -> list[tuple[Atom, Atom]]:
    """The most (name, quantity) pairs of neighbours in a row; known names count more, then pairs that open as the row does."""
    best: list[tuple[float, list[tuple[Atom, Atom]]]] = [(0.0, []), (0.0, [])]
    for i in range(1, len(row)):
        score, pairs = best[i]
        first, second = row[i - 1], row[i]
        if first.kind != second.kind:
            name, quantity = (first, second) if first.kind == "N" else (second, first)
            worth = (
                1.0
                + (0.1 if name.known and name.name != "water" and name.phrase.kind != "garnish" else 0.0)
                + (0.01 if first.kind == opens else 0.0)
            )
            before, earlier = best[i - 1]
            if before + worth > score + 1e-9:
                score, pairs = before + worth, [*earlier, (name, quantity)]
        best.append((score, pairs))
    return best[-1][1]


def _beside(atoms: list[Atom], quantity: Atom, empty: list[Atom]) -> list[Atom]:
    """The names without an amount between an amount and the next one either way: "25 ml each gin, lime, syrup"."""
    ends = [k for k, a in enumerate(atoms) if a.kind == "Q"]
    at = next(k for k, a in enumerate(atoms) if a is quantity)
    low = max((k for k in ends if k < at), default=-1)
    high = min((k for k in ends if k > at), default=len(atoms))
    near = {id(a) for a in atoms[low + 1 : high]}
    return [a for a in empty if id(a) in near]


def spread_each(scan: Scan, atoms: list[Atom], names: list[Atom]) -> None:
    """ "25 ml each gin, lime, syrup": one amount for every name that has none. Raises Unclear unread."""
    empty = [a for a in names if a.quantity is None and a.name and a.phrase.kind != "garnish" and a.name != "water"]
    each = [a for a in atoms if a.kind == "Q" and a.each]
    if not empty or not each or not scan.has("each"):
        return
    if len(each) == 1:
        for atom in _beside(atoms, each[0], empty):
            glued = [scan.items[k] for k in atom.indices if scan.items[k].kind == "unknown"]
            before = scan.at(min(atom.indices) - 1) if atom.indices else None
            if glued and atom.known and before is not None and before.kind in ("name", "context"):
                raise Unclear("unread", glued, " ".join(p.text for p in glued))  # "20 each gin triple sec zorbaki lemon"
            if atom.known or len(atom.typed) > 2:
                atom.quantity = each[0]
        each[0].name = empty[0].name
