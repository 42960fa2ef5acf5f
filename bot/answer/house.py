"""House specs: save, show, list, rename, replace, bring back, forget, export as CSV and read it back."""

import csv
from dataclasses import replace
from io import StringIO

from bot.answer.keep import find_spec, recipe_to_text
from bot.answer.notes import Question
from bot.core.facts import Answer, Note
from bot.told import FRESH, HouseSpec, Told
from grammar.message import read
from grammar.request import House, Recipe

MOST_SPECS = 300  # of one chat, so that a runaway script cannot fill the disk


def house(request: House, told: Told, last: Recipe | None) -> tuple[Answer, Told]:
    """What to say, and what the chat has told us after it. last is the recipe of the last request, for "save that".

    Raises Question no_house_spec, no_spec, no_last, too_large.
    """
    match request.do:
        case "save":
            return _save(request, told, last)
        case "list":
            return _list(told), told
        case "export":
            return Answer("listed", understood=(Note("export"),), items=(("", to_csv(told)),)), told
        case "forget_all":
            return Answer("forgotten", understood=(Note("forgotten_all"),)), FRESH
    if request.do == "import":
        return _import(request.text, told)
    spec = find_spec(request.name, told)
    if spec is None:
        known = ", ".join(s.name for s in told.specs[:5])
        raise Question("no_house_spec", found=request.name, known=known)
    others = tuple(s for s in told.specs if s is not spec)
    match request.do:
        case "show":
            return Answer(
                "listed", items=((spec.name, spec.text),), actions=(f"20 {spec.name}", f"forget {spec.name}")
            ), told
        case "rename":
            if find_spec(request.new_name, told) not in (None, spec):
                raise Question("conflict_total", found=f"{request.new_name} is already saved")
            renamed = replace(spec, name=request.new_name)
            specs = tuple(renamed if s is spec else s for s in told.specs)
            return Answer("saved", understood=(Note("renamed", (spec.name, request.new_name)),)), replace(
                told, specs=specs
            )
        case "bring_back":
            if spec.previous is None:
                raise Question("no_house_spec", found=f"an earlier {spec.name}")
            back = HouseSpec(spec.name, spec.previous_text or "", spec.previous, spec.body, spec.text)
            specs = tuple(back if s is spec else s for s in told.specs)
            return Answer(
                "saved", understood=(Note("brought_back", (spec.name,)),), items=((spec.name, back.text),)
            ), replace(told, specs=specs)
        case _:
            return Answer("forgotten", understood=(Note("forgotten", (spec.name,)),)), replace(told, specs=others)


def _save(request: House, told: Told, last: Recipe | None) -> tuple[Answer, Told]:
    recipe, text = request.recipe, request.text
    if recipe is None:
        if last is None:
            raise Question("no_spec", found=request.name)
        recipe, text = replace(last, drink=request.name), spec_text(last)
    if recipe.house:
        raise Question("no_spec", found=request.name)
    old = find_spec(request.name, told)
    if old is None and len(told.specs) >= MOST_SPECS:
        raise Question("too_large", found=f"{MOST_SPECS} house specs")
    spec = HouseSpec(request.name, text, recipe_to_text(recipe), old.body if old else None, old.text if old else None)
    said = Note("replaced", (request.name, old.text)) if old else Note("saved", (request.name,))
    specs = tuple(spec if s is old else s for s in told.specs) if old else (*told.specs, spec)
    actions = (f"20 {request.name}",) + ((f"bring back {request.name}",) if old else ())
    return Answer("saved", understood=(said,), items=((spec.name, text),), actions=actions), replace(told, specs=specs)


def _import(text: str, told: Told) -> tuple[Answer, Told]:
    """Save every row of a CSV of specs. All or none: Raises Question unread for the first row that is no spec."""
    rows = from_csv(text)
    if not rows:
        raise Question("unread", found="no rows of name and spec")
    for name, spec in rows:
        request = read(f"save {name}: {spec}")
        if not isinstance(request, House) or request.recipe is None:
            raise Question("unread", found=f"{name}: {spec}")
        _, told = _save(request, told, None)
    added = Note("saved", (rows[0][0],)) if len(rows) == 1 else Note("imported", (float(len(rows)),))
    return Answer("saved", understood=(added,), items=tuple(rows)), told


def _list(told: Told) -> Answer:
    if not told.specs:
        return Answer(
            "listed",
            understood=(Note("empty_list", ("specs",)),),
            actions=("save low tide: 30 dry sherry 60 tonic",),
        )
    return Answer("listed", items=tuple((s.name, s.text) for s in told.specs))


def spec_text(recipe: Recipe) -> str:
    """A recipe written as someone would type it, so that it can be shown and read again."""
    words = []
    for part in recipe.parts:
        if part.measure is None:
            continue
        unit = {"": "ml", "part": "parts", "count": ""}.get(part.measure.unit, part.measure.unit.replace("_", " "))
        strength = f" {part.abv * 100:g}%" if part.abv is not None else ""
        words.append(f"{part.measure.value:g} {unit} {part.name}{strength}".replace("  ", " "))
    water = recipe.water
    match water.how:
        case "of_undiluted":
            words.append(f"{water.value * 100:g}% water")
        case "of_finished":
            words.append(f"water {water.value * 100:g}% of the finished volume")
        case "amount" | "part":
            words.append(f"{water.value:g} {'parts' if water.how == 'part' else water.unit} water")
        case "none":
            words.append("no water")
        case "rest":
            words.append("rest water")
        case "to_strength":
            words.append(f"water to {water.value * 100:g}% abv")
    return ", ".join(words)


def to_csv(told: Told) -> str:
    """All house specs as CSV (RFC 4180) with a header: name, spec, previous. Cells never start a formula."""
    out = StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(["name", "spec", "previous"])
    for spec in told.specs:
        writer.writerow([_cell(spec.name), _cell(spec.text), _cell(spec.previous_text or "")])
    return out.getvalue().rstrip("\n")


def _cell(text: str) -> str:
    """A spreadsheet would run a cell that opens with one of these marks."""
    text = " ".join(text.split())
    return "'" + text if text[:1] in ("=", "+", "-", "@") else text


def from_csv(text: str) -> list[tuple[str, str]]:
    """(name, spec) rows of a CSV that to_csv wrote, or of any with those two columns. Rows without both are left out."""
    rows = list(csv.reader(StringIO(text)))
    if rows and [c.strip().lower() for c in rows[0][:2]] == ["name", "spec"]:
        rows = rows[1:]
    return [
        (r[0].strip().lstrip("'"), r[1].strip().lstrip("'"))
        for r in rows
        if len(r) >= 2 and r[0].strip() and r[1].strip()
    ]
