"""The phrase: what the small grammar recognises, and what frames take.

Frozen, with one shape for all kinds, so that frames can look along a list without caring what each one is.
"""

from dataclasses import dataclass
from typing import Literal

Kind = Literal[
    "amount", "bare", "same_amount", "ratio", "percent", "proof", "temperature", "negative", "unsure", "money",
    "times", "fold", "count", "guests", "vessel", "name", "garnish", "context", "house", "drink", "unit", "cue",
    "filler", "sep", "unknown",
]  # fmt: skip


@dataclass(slots=True)
class Phrase:
    """kind, the numbers in it, its unit (or sign), the name or cue, and where it stood in the plain text."""

    kind: Kind
    text: str
    start: int
    end: int
    value: float = 0.0
    values: tuple[float, ...] = ()
    unit: str = ""
    name: str = ""
    units: tuple[str, ...] = ()
    amounts: tuple[float, ...] = ()
    others: tuple[tuple[str, str], ...] = ()
    size_ml: float | None = None
    size: tuple[float, str] | None = None

    def copy(self) -> "Phrase":
        """One of its own with the same values; the standard copy takes ten times as long."""
        return Phrase(
            self.kind, self.text, self.start, self.end, self.value, self.values, self.unit, self.name, self.units,
            self.amounts, self.others, self.size_ml, self.size,
        )  # fmt: skip

    def is_cue(self, *names: str) -> bool:
        """Whether this is one of these cues."""
        return self.kind == "cue" and self.name in names
