"""The atoms of a spec: quantities, names, strengths and breaks, in the order typed.

What a message says around its amounts (title, drink, garnish, technique) is taken off first.
"""

from dataclasses import dataclass, field

from grammar.later import poured_later
from grammar.phrase import Phrase
from grammar.request import Measure, Part, Recipe, Water
from grammar.scan import SERVE_LIMIT_ML, Scan, Unclear, rough_ml, typed_ml
from grammar.surroundings import counted_under, heading, in_own_brackets, named_by_parts

_WEAKEST, _STRONGEST = 10.0, 80.0  # % that a bottle says without its sign: common practice, no source


@dataclass(slots=True)
class Atom:
    """One thing to pair: Q quantity, N name, S strength, B break."""

    kind: str
    indices: list[int]
    phrase: Phrase
    name: str = ""
    typed: str = ""
    known: bool = True
    hard: bool = False
    quantity: "Atom | None" = None
    strength: float | None = None
    each: bool = False


@dataclass(slots=True)
class Reading:
    """A spec as far as it was read."""

    parts: list[Part] = field(default_factory=list)
    water: Water = field(default_factory=Water)
    garnish: list[str] = field(default_factory=list)
    drink: str = ""
    title: str = ""
    technique: str = ""
    notes: list[str] = field(default_factory=list)
    volume: Measure | None = None
    nameless: list[tuple[Measure | None, float]] = field(default_factory=list)

    def recipe(self) -> Recipe:
        """The frozen spec."""
        return Recipe(
            tuple(self.parts),
            self.water,
            self.title or self.drink,
            None,
            tuple(self.garnish),
            self.technique,
            tuple(self.notes),
        )


def take_surroundings(scan: Scan, out: Reading) -> None:
    """Title, drink, technique, garnish: what stands around the amounts."""
    for i in scan.kinds("drink"):
        if not out.drink:
            out.drink = scan.items[i].name
            if out.drink in scan.items[i].text and out.drink != scan.items[i].text.rstrip("s"):
                out.title = scan.items[i].text  # "white negroni" is more than its kind
        scan.use(i)
    for i in scan.kinds("count", fresh=False):
        out.drink = out.drink or scan.items[i].name
    for i in scan.cues("technique_stir", "technique_shake"):
        out.technique = "stirred" if scan.items[i].name == "technique_stir" else "shaken"
        scan.use(i)
    for i in scan.cues("garnish"):
        scan.use(i)
        j = i + 1
        while (
            (p := scan.at(j)) is not None
            and not (p.kind == "sep" and p.name in "\n.;")
            and p.kind not in ("amount", "percent", "ratio", "count", "times")
        ):
            if p.kind in ("name", "garnish", "context", "unknown"):
                out.garnish.append(p.text)
            scan.use(j)
            j += 1
    out.garnish.extend(poured_later(scan))
    for i in scan.cues("top"):
        j = i + 1
        while scan.kind_at(j) in ("cue:with", "cue:of", "filler"):
            j += 1
        measured = scan.kind_at(j + 1) in ("amount", "bare") or _up_to(scan, j + 1) or _tops_a_vessel(scan)
        if scan.kind_at(j) in ("name", "cue:water") and not measured:
            out.garnish.append("top with " + (scan.items[j].name))
            scan.use(i, j)
    out.title = heading(scan) or named_by_parts(scan) or out.title
    _title(scan, out)


def _up_to(scan: Scan, i: int) -> bool:
    """Whether a volume to reach stands at i: "top with soda to 2 L" fills it with soda."""
    led, size = scan.at(i), scan.at(i + 1)
    return led is not None and size is not None and led.is_cue("to", "rest", "final") and size.kind in ("amount", "vessel")


def _tops_a_vessel(scan: Scan) -> bool:
    """ "2 L jug: 500 gin, 250 lemon, top with soda": a batch that leaves room in what it goes into, and nothing is counted."""
    held = [p for p in scan.items if p.kind == "vessel" and p.size is not None]
    if len(held) != 1 or any(p.kind in ("count", "times", "guests", "fold", "ratio") for p in scan.items):
        return False
    typed = sum(typed_ml(scan.items[i]) or 0.0 for i in scan.kinds("amount", "bare"))
    size, unit = held[0].size or (0.0, "ml")
    return SERVE_LIMIT_ML <= typed < (rough_ml(size, unit) or 0.0) * (held[0].value or 1.0)


_TITLE = ("unknown", "context", "drink", "garnish")


def _title(scan: Scan, out: Reading) -> None:
    """A title: unknown words that open a line and are closed by a line end, colon, dash or bracket."""
    for first in range(len(scan)):
        opens = (
            first == 0 or (scan.items[first - 1].kind == "sep" and scan.items[first - 1].name in "\n.:") or all(scan.used[:first])
        )
        if scan.kind_at(first) not in ("unknown", "context", "garnish") or not opens:
            continue
        j = first
        while scan.kind_at(j) in _TITLE or (scan.kind_at(j) in ("cue:and", "cue:of") and scan.kind_at(j + 1) in _TITLE):
            j += 1  # "smoke & mirrors - ..."
        end, nxt = scan.at(j), scan.at(j + 1)
        if end is None or not any(scan.items[k].kind == "unknown" for k in range(first, j)):
            continue
        if first == 0 and counted_under(scan, j):
            out.title = scan.text[scan.items[0].start : scan.items[j - 1].end]
            scan.use(*range(j))
            return
        if end.kind != "sep":
            continue
        lists = nxt is not None and (
            nxt.kind in ("amount", "bare", "count", "times", "ratio", "name") or nxt.is_cue("serve_word", "serves_base", "for")
        )
        if end.name in "\n:" or (end.name in "-(" and lists):
            out.title = scan.text[scan.items[first].start : scan.items[j - 1].end]
            scan.use(*range(first, j))
            return


def read_atoms(scan: Scan, out: Reading) -> list[Atom]:
    """The unused phrases as atoms, in order."""
    atoms: list[Atom] = []
    items = scan.items
    i = 0
    while i < len(items):
        p = items[i]
        if scan.used[i]:
            i += 1
            continue
        if (
            p.kind == "bare"
            and scan.kind_at(i - 1) == "cue:at"
            and scan.kind_at(i - 2) in ("name", "context")
            and p.value <= 100
            and not scan.has("cost", "price")
        ):
            atoms.append(Atom("S", [i], p, strength=p.value / 100))  # "gin @46"
            scan.use(i)
        elif _asked_water(scan, i):
            scan.use(i)
        elif _bare_strength(scan, i):
            atoms.append(Atom("S", [i], p, strength=p.value / 100))  # "vodka (40)", "250 ml of 13.5 wine"
            if scan.kind_at(i - 1) in ("name", "context") and scan.kind_at(i - 2) in ("amount", "bare"):
                out.notes.append(f"read_as:{p.text}:{p.value:g}% alcohol")
            scan.use(i)
        elif p.kind in ("amount", "bare", "same_amount"):
            of_each = scan.kind_at(i + 1) == "cue:of" and scan.kind_at(i + 2) == "cue:each"
            atoms.append(Atom("Q", [i], p, each=of_each or scan.kind_at(i + 1) == "cue:each"))
        elif p.kind in ("percent", "proof"):
            atoms.append(Atom("S", [i], p, strength=p.value))
        elif p.kind == "name" and scan.at(i + 1) is not None and items[i + 1].kind == "drink" and _names_after(scan, i + 2):
            scan.use(i)  # "whiskey sours: 60 ml bourbon ..." says the drink's kind, not an ingredient
            kind = items[i + 1].name
            out.drink = kind if kind.startswith(p.text) else f"{p.text} {kind}"
        elif p.kind in ("name", "context") and scan.kind_at(i - 1) == "cue:none" and scan.kinds("house", fresh=False):
            scan.use(i - 1, i)
            out.parts.append(Part(p.name, Measure(0.0), p.text))  # "fog bell but no vermouth"
        elif p.kind in ("name", "garnish") or (p.kind == "cue" and p.name == "water") or p.kind == "context":
            name = "water" if p.kind == "cue" else p.name
            atoms.append(Atom("N", [i], p, name=name, typed=p.text, strength=p.value or None))
        elif p.kind == "unknown":
            run = [i]
            while scan.kind_at(run[-1] + 1) == "unknown":
                run.append(run[-1] + 1)
            after = run[-1] + 1
            text = scan.text[items[run[0]].start : items[run[-1]].end]
            if scan.kind_at(after) in ("name", "context"):
                q = items[after]
                atoms.append(Atom("N", [*run, after], q, name=q.name, typed=f"{text} {q.text}"))
                i = after + 1
                continue
            if scan.kind_at(after) == "drink":
                i = after
                continue
            atoms.append(Atom("N", run, p, name=text, typed=text, known=False))
            i = run[-1] + 1
            continue
        elif p.kind == "sep" and p.name in "()," and (_around_strength(scan, i) or in_own_brackets(scan, i)):
            pass  # "rum (40%) 50 ml", "rum (50 ml, 40%)"
        elif p.kind == "sep":
            if not (
                p.name == ":"
                and atoms
                and atoms[-1].kind == "N"
                and scan.kind_at(i + 1) in ("amount", "bare")
                and scan.kind_at(i + 2) not in ("name", "context", "cue:of")
            ):
                atoms.append(Atom("B", [i], p, hard=p.name in "\n;"))
        elif p.kind == "cue" and p.name in ("and", "with", "for", "or", "top"):
            atoms.append(Atom("B", [i], p))
        elif p.kind in ("negative", "unsure"):
            code = "out_of_range" if p.kind == "negative" else "unclear_number"
            raise Unclear(code, [p], p.text)
        i += 1
    return atoms


def _around_strength(scan: Scan, i: int) -> bool:
    """Whether the bracket at i holds nothing but a strength."""
    if scan.items[i].name == ",":
        return False
    j = i + 1 if scan.items[i].name == "(" else i - 1
    step = 1 if j > i else -1
    while scan.kind_at(j) in ("cue:by_volume", "cue:abv"):
        j += step
    p = scan.at(j)
    return p is not None and (
        p.kind in ("percent", "proof") or (p.kind == "bare" and 3 <= p.value <= 96 and _bare_strength(scan, j))
    )


_CLOSED = ("", "sep", "cue:and", "cue:abv")


def _bare_strength(scan: Scan, i: int) -> bool:
    """Whether a bare number can only be a strength: in brackets after a measured name, or between "of" and a name."""
    p = scan.items[i]
    if p.kind != "bare" or p.value > 96:
        return False
    before, after = scan.at(i - 1), scan.at(i + 1)
    bracketed = before is not None and before.kind == "sep" and before.name == "(" and after is not None and after.name == ")"
    measured = scan.kind_at(i - 3) in ("amount", "bare") and scan.kind_at(i - 2) in ("name", "context")
    if scan.kind_at(i - 1) == "cue:abv" and scan.kind_at(i - 2) in ("name", "context") and len(scan.kinds("bare", "amount")) > 1:
        return True  # "lime cordial abv 0"
    closed = scan.kind_at(i - 3) in _CLOSED and scan.kind_at(i + 1) in _CLOSED and _WEAKEST <= p.value <= _STRONGEST
    sides = (scan.kind_at(i - 1), scan.kind_at(i - 2))
    named = sides[0] in ("name", "context") and sides[1] in ("amount", "bare")
    if closed and scan.has("abv") and (named or (sides[0] == "amount" and sides[1] in ("name", "context"))):
        return True  # "abv 45 ml gin 43, 15 ml vermouth 18, 15 ml water", "gin 45 ml 43"
    alone = len(scan.kinds("bare")) == 1
    behind = scan.kind_at(i - 1) in ("name", "context") and scan.kind_at(i - 2) == "amount" and _WEAKEST <= p.value <= _STRONGEST
    follows = scan.kind_at(i + 1) in ("", "sep", "cue:in", "cue:with", "cue:and", "cue:to")
    if alone and behind and follows and scan.has("abv", "percent_word", "proof_word"):
        return True  # "50 ml rum 37.5 in 150 ml cola, % alcohol?"
    of_name = alone and scan.kind_at(i - 1) == "cue:of" and scan.kind_at(i - 2) == "amount" and scan.kind_at(i + 1) == "name"
    return p.value >= 3 and ((bracketed and measured) or of_name)


def _asked_water(scan: Scan, i: int) -> bool:
    """ "how much water for ...": the water is asked for, not given."""
    asked = scan.kind_at(i - 1) in ("cue:how_much", "cue:what", "cue:but")
    return asked and scan.items[i].is_cue("water") and scan.kind_at(i + 1) not in ("amount", "bare")


def _names_after(scan: Scan, i: int) -> bool:
    """Whether two ingredients with amounts of their own follow, so that a name before the drink is only its kind."""
    rest = [p.kind for p in scan.items[i:]]
    return sum(k in ("name", "context") for k in rest) >= 2 and any(k in ("amount", "bare") for k in rest)
