"""Specs pasted from a sheet: heads of columns, a unit in a column of its own, a kind said behind its spirit.

Works on the phrases before anything is read of them, as grammar.corrections does: what says nothing becomes filler.
"""

from grammar.phrase import Phrase

_HEADS = frozenset(
    ["qty", "quantity", "unit", "units", "item", "items", "ingredient", "ingredients", "product", "amount", "amounts", "spirit",
     "measure", "measures", "ml", "oz", "cl", "name", "spec", "recipe", "component", "volume", "vol", "per serve", "notes"]
)  # fmt: skip
_FIGURES = frozenset(["amount", "bare", "same_amount", "ratio", "percent", "count", "guests", "times", "vessel"])
_NAMED = ("name", "context")


def tabled(phrases: list[Phrase]) -> None:
    """Carry out all of it, in place."""
    _heads(phrases)
    seen = [p for p in phrases if p.kind != "filler"]
    for i, p in enumerate(seen[:-2]):
        mark, after = seen[i + 1], seen[i + 2]
        if mark.kind != "sep" or mark.name not in ",|":
            continue
        if p.kind == "bare" and after.kind == "unit" and _ends(seen, i + 3):
            p.kind, p.unit = "amount", after.unit  # "bourbon,45,ml"
            mark.kind = after.kind = "filler"
        elif p.kind in _NAMED and after.kind in _NAMED and p.name != after.name and after.name.endswith(" " + p.name):
            if i + 3 < len(seen) and seen[i + 3].kind == "sep" and seen[i + 3].name in "-:":
                p.name = after.name  # "rum, aged - 1.75 oz"
                mark.kind = after.kind = "filler"
        elif p.kind in _NAMED and after.kind == "sep" and after.name in "-:":
            mark.kind = "filler"  # "lime, fresh - 3/4 oz"


def _ends(seen: list[Phrase], i: int) -> bool:
    """Whether a column or a line ends at i."""
    return i >= len(seen) or (seen[i].kind == "sep" and seen[i].name in ",|\n")


def _heads(phrases: list[Phrase]) -> None:
    """A first line that has no figure and nothing but heads of columns, above lines with figures."""
    end = next((k for k, p in enumerate(phrases) if p.kind == "sep" and p.name == "\n"), 0)
    head = [p for p in phrases[:end] if p.kind != "sep"]
    if len(head) < 2 or not all(p.text in _HEADS for p in head):
        return
    if sum(p.kind in _FIGURES for p in phrases[end:]) < 2:
        return
    units = {p.unit for p in head if p.kind == "unit" and p.unit in ("ml", "oz", "cl")}
    for p in phrases[: end + 1]:
        p.kind, p.name = "filler", ""
    if len(units) == 1:  # "spirit | oz" above the rows
        for row in _rows(phrases[end + 1 :]):
            figures = [p for p in row if p.kind in _FIGURES]
            if len(figures) == 1 and figures[0].kind == "bare" and any(p.kind in _NAMED for p in row):
                figures[0].kind, figures[0].unit = "amount", next(iter(units))


def _rows(phrases: list[Phrase]) -> list[list[Phrase]]:
    """The lines, without what ends them."""
    rows: list[list[Phrase]] = [[]]
    for p in phrases:
        if p.kind == "sep" and p.name == "\n":
            rows.append([])
        else:
            rows[-1].append(p)
    return rows
