"""The table of amounts: one ingredient a line, both systems in aligned columns, never wider than 34 characters.

Takes lines of facts and gives table lines; knows columns and widths, no sentence but the label of the sum.
"""

from collections.abc import Sequence

from bot.core.facts import Line as Fact
from bot.core.facts import Result
from bot.reply import numbers
from bot.reply.spans import Line, row
from bot.reply.words import TOTAL
from bot.reply.words_notes import clip
from bot.reply.words_units import quantity

WIDTH = 34
_OUNCES = frozenset(("oz", "us_fl_oz", "imp_fl_oz"))
_LITRES = frozenset(("l", "cl", "dl"))
_NAMELESS = "liquid"

Cells = tuple[str, ...]


def amounts(facts: tuple[Fact, ...], first: str, ounce_ml: float, total: bool = True) -> list[Line]:
    """Volumes in mL and ounces with their sum, counted things after them. `first` is the column that leads."""
    poured = [f for f in facts if f.ml is not None]
    volumes = [f.ml or 0.0 for f in poured]
    water = next((i for i, f in enumerate(poured) if f.name == "water"), None)
    mls, ml_sum = numbers.ml_column(volumes, water)
    ozs, oz_sum = numbers.oz_column([v / ounce_ml for v in volumes], [f.typed_unit in _OUNCES for f in poured])
    summed = total and len(poured) > 1
    if summed:
        mls.append(ml_sum)
        ozs.append(oz_sum)
    cells = [(m + " mL", o + " oz") for m, o in zip(mls, ozs, strict=True)]
    if first == "oz":
        cells = [(b, a) for a, b in cells]
    unit = 3 if cells else 0
    names = [_name(f) for f in poured]
    last: tuple[str, Cells] | None = (TOTAL, cells.pop()) if summed else None
    rows: list[tuple[str, Cells]] = list(zip(names, cells, strict=True))
    for f in facts:
        if f.ml is None and f.g is not None:
            rows.append((_name(f), (numbers.grams(f.g), "")))
        elif f.ml is None:
            rows.append((_name(f), ("" if f.count is None else numbers.count(f.count) + " " * unit, "")))
    if last is not None:
        rows.append(last)
    return aligned(rows)


def in_unit(facts: tuple[Fact, ...], results: tuple[Result, ...], ounce_ml: float) -> list[Line]:
    """The lines in a unit that was asked for, beside mL (beside ounces when it is litres). A result names its line."""
    asked = {r.of: quantity(r.value, r.unit) for r in results}
    poured = [f for f in facts if f.ml is not None]
    volumes = [f.ml or 0.0 for f in poured]
    litres = bool(results) and all(r.unit in _LITRES for r in results)
    column, column_sum = numbers.ml_column(volumes)
    if litres:
        column, column_sum = numbers.oz_column([v / ounce_ml for v in volumes], [f.typed_unit in _OUNCES for f in poured])
    beside = " oz" if litres else " mL"
    rows: list[tuple[str, Cells]] = [
        (_name(f), (asked.get(f.name, ""), cell + beside)) for f, cell in zip(poured, column, strict=True)
    ]
    if len(rows) > 1:
        alike = len(results) == len(poured) and len({r.unit for r in results}) == 1 and results[0].unit != "parts"
        whole = quantity(sum(r.value for r in results), results[0].unit) if alike else ""
        rows.append((TOTAL, (whole, column_sum + beside)))
    return aligned(rows)


def weights(facts: tuple[Fact, ...], first: str, ounce_ml: float) -> list[Line]:
    """Things to weigh: grams, and beside them the volume of what can be poured."""
    rows: list[tuple[str, Cells]] = []
    for f in facts:
        volume = "" if f.ml is None else numbers.oz(f.ml, ounce_ml) if first == "oz" else numbers.ml(f.ml)
        rows.append((_name(f), ("" if f.g is None else numbers.grams(f.g), volume)))
    return aligned(rows)


def _name(fact: Fact) -> str:
    if fact.name:
        return clip(fact.name, WIDTH)
    return _NAMELESS if fact.abv is None else f"{_NAMELESS} {numbers.percent(fact.abv)}"


def aligned(rows: Sequence[tuple[str, Cells]]) -> list[Line]:
    """Names left, cells right-aligned under each other; a name too long for its line stands above its amounts."""
    if not rows:
        return []
    widths = [max(map(len, column)) for column in zip(*[cells for _, cells in rows], strict=True)]
    widths = [w for w in widths if w]
    room = WIDTH - sum(widths) - len(widths)
    longest = max([len(name) for name, _ in rows if len(name) <= room], default=0)
    left = min(room, longest + 1)
    lines: list[Line] = []
    for name, cells in rows:
        tail = "".join([" " + cell.rjust(w) for cell, w in zip(cells, widths, strict=False)])
        if len(name) > left:
            lines.append(row(name))
            name = ""
        lines.append(row((name.ljust(left) + tail).rstrip()))
    return lines
