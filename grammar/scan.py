"""A message's phrases with a mark on each that was used, and the small moves every frame makes along them.

Nothing may be left unmarked but fillers when a frame has finished: `left` says what is. Unclear carries a Trouble out
of the depth of a frame; only grammar.message catches it.
"""

from collections.abc import Iterable

from grammar.phrase import Phrase
from grammar.request import Measure, Trouble

NUMERIC = frozenset(
    ["amount", "bare", "same_amount", "ratio", "percent", "proof", "temperature", "negative", "unsure", "money", "times",
     "fold", "count", "guests"]
)  # fmt: skip
UK_PROOF = 0.5715  # ABV of 100 UK proof: 12/13 of the weight of water at 51 F (Alcoholic Liquor Duties Act 1979 s.2)
_MEASURES = frozenset(
    ["cup", "pint", "quart", "gallon", "l", "oz", "shot", "jigger", "pony", "part", "tbsp", "tsp", "barspoon", "dash", "kg"]
)
_LARGE = frozenset(["l", "quart", "pint", "gallon", "imp_pint", "imp_quart", "imp_gallon"])
SOFT = frozenset(["filler"])


class Unclear(Exception):
    """A message that cannot be read further without asking."""

    def __init__(self, code: str, at: Iterable[Phrase] = (), found: str = "", try_instead: str = "", **facts: str) -> None:
        spans = [(p.start, p.end) for p in at]
        span = (min(s for s, _ in spans), max(e for _, e in spans)) if spans else (-1, -1)
        super().__init__(code)
        self.trouble = Trouble(code, span, "", found, try_instead, facts)


class Scan:
    """The phrases of one message, fillers dropped, with the used ones marked."""

    __slots__ = ("all", "cue_names", "items", "text", "used")

    def __init__(self, phrases: list[Phrase], text: str) -> None:
        self.all = phrases
        self.items = [p for p in phrases if p.kind != "filler"]
        for before, p in zip(self.items, self.items[1:], strict=False):
            if p.kind == "cue" and p.name == "abv" and before.kind in ("percent", "proof"):
                p.kind = "filler"  # "40 % abv" asks nothing
            lifted = p.kind in ("percent", "proof") and before.is_cue("make_it") and before.text.endswith((" to", "make"))
            if lifted and sum(q.kind in ("percent", "proof") for q in self.items) > 1:
                before.name = "to"  # "500 ml of 60% and 1 L of 40%, take it to 37.5%"
            british = ("uk", "british", "england")
            if before.kind == "bare" and p.is_cue("country") and p.text in british:
                self._british_proof(before, p)
            if before.kind == "proof" and p.is_cue("country") and p.text in british:
                before.value *= 2 * UK_PROOF  # 70 British proof is 40 %
                p.kind = "filler"
            elif p.kind == "proof" and before.is_cue("country") and before.text in british:
                p.value *= 2 * UK_PROOF
                before.kind = "filler"
        self.items = [p for p in self.items if p.kind != "filler"]
        if len(self.items) > 1 and self.items[0].kind == "unit" and self.items[0].unit in _LARGE:
            follows = self.items[1]
            named = follows.kind in ("name", "context") and not self.items[0].text.endswith("s")  # "make a litre gin 55% ..."
            if follows.is_cue("of") or named or follows.kind in ("drink", "house", "ratio", "percent"):
                self.items[0].kind, self.items[0].value = "amount", 1.0  # "quart of 50/50 ..."
        self._single_measures()
        self.used = [False] * len(self.items)
        self.text = text
        self.cue_names = {p.name for p in self.items if p.kind == "cue"}

    def _british_proof(self, figure: Phrase, country: Phrase) -> None:
        """ "70 uk proof" is 40 %."""
        at = next(i for i, q in enumerate(self.items) if q is country)
        if at + 1 < len(self.items) and self.items[at + 1].is_cue("proof_word"):
            figure.kind, figure.value = "proof", figure.value / 100.0 * UK_PROOF
            country.kind = self.items[at + 1].kind = "filler"

    def _single_measures(self) -> None:
        """ "cup of lime juice", "shot of gin, dash of bitters": a measure without a number is one."""
        for i, p in enumerate(self.items[:-1]):
            if p.kind != "unit" or p.unit not in _MEASURES:
                continue
            if not self.items[i + 1].is_cue("of"):
                dashed = (p.unit == "dash" and p.text == "dash") or p.unit in _LARGE
                if dashed and i and self.items[i - 1].kind == "sep" and self.items[i + 1].kind == "name":
                    p.kind, p.value = "amount", 1.0  # "15 fino, dash orange bitters", "1 L rum, gallon tea, qt lime"
                continue
            if i + 2 >= len(self.items):
                continue
            before = self.items[i - 1] if i else None
            opens = before is None or before.kind in ("sep", "name", "context") or before.is_cue("and", "with")
            asked = i + 3 >= len(self.items) or self.items[i + 3].name == "?"  # "..., oz of water?": the unit wanted
            water = self.items[i + 2].is_cue("water") and not asked
            if opens and (self.items[i + 2].kind in ("name", "context", "percent") or water):
                p.kind, p.value = "amount", 1.0

    def __len__(self) -> int:
        return len(self.items)

    def copy(self) -> "Scan":
        """The same phrases with the same marks, to be read in another way."""
        other = Scan.__new__(Scan)
        other.text, other.cue_names = self.text, set(self.cue_names)
        same = {id(p): p.copy() for p in self.all}
        other.all = [same[id(p)] for p in self.all]
        other.items = [same[id(p)] for p in self.items]
        other.used = list(self.used)
        return other

    def has(self, *cues: str) -> bool:
        """Whether one of these cues is in the message."""
        return not self.cue_names.isdisjoint(cues)

    def kinds(self, *kinds: str, fresh: bool = True) -> list[int]:
        """Indices of phrases of these kinds, unused ones only unless told."""
        if not fresh:
            return [i for i, p in enumerate(self.items) if p.kind in kinds]
        used = self.used
        return [i for i, p in enumerate(self.items) if p.kind in kinds and not used[i]]

    def cues(self, *names: str) -> list[int]:
        """Indices of these cues, used or not."""
        return [i for i, p in enumerate(self.items) if p.name in names and p.kind == "cue"]

    def at(self, i: int) -> Phrase | None:
        """The phrase at i, or None past either end."""
        return self.items[i] if 0 <= i < len(self.items) else None

    def kind_at(self, i: int) -> str:
        """The kind of phrase at i; a cue says its name as "cue:name"; "" past either end or when used."""
        if not 0 <= i < len(self.items) or self.used[i]:
            return ""
        p = self.items[i]
        return "cue:" + p.name if p.kind == "cue" else p.kind

    def use(self, *indices: int) -> None:
        """Mark phrases as used."""
        for i in indices:
            self.used[i] = True

    def use_cues(self, *names: str) -> None:
        """Mark these cues as used."""
        self.use(*self.cues(*names))

    def next_fresh(self, i: int, skip: Iterable[str] = (), step: int = 1) -> int | None:
        """Index of the next unused phrase from i on, passing over these cue names and marks."""
        passed = set(skip)
        while 0 <= i < len(self.items):
            if not self.used[i]:
                p = self.items[i]
                if not (p.kind in ("cue", "sep") and p.name in passed):
                    return i
            i += step
        return None

    def left(self, *kinds: str) -> list[Phrase]:
        """Unused phrases of these kinds."""
        return [p for i, p in enumerate(self.items) if p.kind in kinds and not self.used[i]]

    def leftover_numbers(self) -> list[Phrase]:
        """Numbers nothing has explained."""
        return [p for i, p in enumerate(self.items) if p.kind in NUMERIC and not self.used[i]]


def measure(p: Phrase) -> Measure:
    """The amount a phrase says."""
    return Measure(p.value, p.unit)


#: about how many mL a unit holds, to tell a serve from a batch while reading; exact factors live in the core
ROUGH_ML: dict[str, float] = {
    "ml": 1, "cl": 10, "dl": 100, "l": 1000, "oz": 29.5735295625, "us_fl_oz": 29.5735295625, "imp_fl_oz": 28.4130625,
    "cup": 236.5882365, "pint": 473.176473, "imp_pint": 568.26125, "quart": 946.352946, "imp_quart": 1136.5225,
    "gallon": 3785.411784, "imp_gallon": 4546.09,
    "tbsp": 14.8, "tsp": 4.93, "barspoon": 5, "dash": 0.92, "drop": 0.05, "shot": 44, "jigger": 44, "pony": 30, "": 1,
}  # fmt: skip


def rough_ml(value: float, unit: str) -> float | None:
    """About how many mL an amount is; None for parts and weights."""
    factor = ROUGH_ML.get(unit)
    return None if factor is None else value * factor


def typed_ml(p: Phrase) -> float | None:
    """About how many mL the amount typed is, the first where it is said in two units; None for parts and weights."""
    return rough_ml(p.amounts[0], p.units[0]) if p.kind == "same_amount" else rough_ml(p.value, p.unit)


SMALL_BARE = 12.0  # bare numbers up to this are parts, above it mL: common practice, no source
SERVE_LIMIT_ML = 400.0  # above this an amount is a batch, not a serve: common practice, no source
BAR_ROUNDING = 1.06  # times: 1 oz is 28 to 30 mL, and never 25: common practice, no source
#: bottles a bar has (of Directive 2007/45/EC and 27 CFR 4.72, 5.203, and minis): a bare number among them may be a size
BOTTLE_SIZES_ML = frozenset([50, 100, 187, 200, 250, 330, 350, 375, 500, 700, 720, 750, 1000, 1125, 1500, 1750, 3000, 5000])
LEAST_BOTTLE_ML = 180.0  # below this nothing is a bottle (the smallest filled holds 187 mL): common practice, no source
MOST_BOTTLES = 60.0  # no shift fills more; a larger figure counts something else: common practice, no source


def bottled(p: Phrase | Measure) -> bool:
    """Whether the amount typed is at least what a bottle holds."""
    return (rough_ml(p.value, p.unit) or 0.0) >= LEAST_BOTTLE_ML
