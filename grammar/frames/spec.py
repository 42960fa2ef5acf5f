"""The frame pieces every request about a spec shares: ingredients, water, how much to make, and what was not read."""

from dataclasses import replace

from grammar.makes import claim_rest, claim_yield
from grammar.recipe import read_recipe
from grammar.request import Part, Recipe, Yield
from grammar.scan import Scan, Unclear
from grammar.water import read_water


def read_spec(scan: Scan, need: bool = True) -> tuple[Recipe, Yield]:
    """The spec and the yield of a message, everything marked.

    Raises Unclear no_spec (a count or volume without a recipe), no_amounts, unread, unclear_number and what the
    pieces raise. With need False a message without ingredients gives an empty Recipe.
    """
    base = _base_serves(scan)
    makes = claim_yield(scan)
    water = read_water(scan)
    house = _house(scan)
    reading = read_recipe(scan, water)
    makes = claim_rest(scan, makes)
    recipe = replace(reading.recipe(), base_serves=base, house=house)
    recipe = _multiplied(scan, replace(recipe, parts=_measured(scan, recipe, need)), makes)
    if recipe.water.how == "unsaid" and not recipe.parts and not house and need:
        raise _nothing(scan, recipe, makes)
    if not recipe.parts and not house and need:
        raise _nothing(scan, recipe, makes)
    recipe = replace(recipe, notes=recipe.notes + unread_words(scan, bool(recipe.parts) or bool(house)))
    numbers_read(scan)
    return recipe, makes


def _base_serves(scan: Scan) -> float | None:
    """ "recipe serves 4": how many serves the amounts typed are for."""
    for i in scan.cues("serves_base"):
        for j in (i + 1, i + 2):
            p = scan.at(j)
            if p is not None and p.kind in ("bare", "count", "guests") and not scan.used[j]:
                scan.use(i, j)
                return p.value
    for i, p in enumerate(scan.items[:-1]):
        nxt = scan.items[i + 1]
        if (
            p.is_cue("serve_word")
            and p.text in ("serves", "makes")
            and nxt.kind == "bare"
            and len(scan.kinds("count", "times", "guests", "bare")) > 1
        ):
            scan.use(i, i + 1)
            return nxt.value
    return None


def _multiplied(scan: Scan, recipe: Recipe, makes: Yield) -> Recipe:
    """ "double this: 50 gin ...", "half of this batch: ...": the amounts typed, that many times."""
    times = 2.0 if scan.has("double") else 3.0 if scan.has("triple") else 0.5 if scan.has("half") else None
    if times is None and any(p.kind == "unknown" and p.text == "half" for p in scan.items):
        times = 0.5
        scan.use(*[i for i, p in enumerate(scan.items) if p.kind == "unknown" and p.text == "half"])
    if times is None or makes.serves is not None or makes.volume is not None or not recipe.parts:
        return recipe
    parts = tuple(
        replace(p, measure=replace(p.measure, value=p.measure.value * times), whole=True) if p.measure is not None else p
        for p in recipe.parts
    )
    water = recipe.water
    if water.how == "amount":
        water = replace(water, value=water.value * times, whole=True)
    return replace(recipe, parts=parts, water=water, notes=(*recipe.notes, f"times:{times:g}"))


def _house(scan: Scan) -> str:
    found = scan.kinds("house")
    if not found:
        return ""
    scan.use(*found)
    return scan.items[found[0]].name


def _measured(scan: Scan, recipe: Recipe, need: bool) -> tuple[Part, ...]:
    """The parts that have an amount. A name said twice, or as a drink's kind ("gin martini"), needs none."""
    measured = [p for p in recipe.parts if p.measure is not None]
    bare = [p for p in recipe.parts if p.measure is None]
    if not bare:
        return recipe.parts
    if not measured:
        if not need:
            return recipe.parts
        names = ", ".join(dict.fromkeys(p.typed for p in bare))
        raise Unclear("no_amounts", [p for p in scan.items if p.kind in ("name", "context")], names, names=names)
    held = {p.name for p in measured}
    missing = [p for p in bare if p.name not in held and not _kin(p.name, held) and not _before_drink(scan, p)]
    if missing and need:
        names = ", ".join(dict.fromkeys(p.typed for p in missing))
        raise Unclear("no_amounts", [p for p in scan.items if p.name in {m.name for m in missing}], names, names=names)
    return tuple(measured)


def _kin(name: str, held: set[str]) -> bool:
    return any(name in other.split() or other in name.split() for other in held)


def _before_drink(scan: Scan, part: Part) -> bool:
    return any(p.name == part.name and scan.items[i + 1].kind in ("drink",) for i, p in enumerate(scan.items[:-1]))


def _nothing(scan: Scan, recipe: Recipe, makes: Yield) -> Unclear:
    """What to ask when no ingredient was read."""
    unknown = [p for p in scan.items if p.kind == "unknown"]
    if makes.serves or makes.volume or makes.guests or recipe.drink:
        if unknown and not recipe.drink and len(scan.all) > 7:
            return Unclear("not_ours", [], scan.text.strip())
        if unknown and not recipe.drink:
            return Unclear("no_spec", unknown, " ".join(p.text for p in unknown))
        return Unclear("no_spec", [p for p in scan.items if p.kind in ("count", "drink")], recipe.drink)
    if scan.leftover_numbers():
        raise Unclear("no_spec", scan.leftover_numbers(), " ".join(p.text for p in scan.leftover_numbers()))
    return Unclear("not_ours", [], scan.text.strip())


def unread_words(scan: Scan, in_spec: bool) -> tuple[str, ...]:
    """Unknown words: alone where an ingredient would stand they are asked about; in prose they are stated as skipped.

    Raises Unclear unread.
    """
    skipped: list[str] = []
    i = 0
    while i < len(scan):
        if scan.kind_at(i) != "unknown":
            i += 1
            continue
        j = i
        while scan.kind_at(j) == "unknown":
            j += 1
        before, after = scan.at(i - 1), scan.at(j)
        after_name = before is not None and before.kind in ("name", "context", "garnish") and in_spec
        alone = after_name or (
            (before is None or before.kind == "sep" or before.is_cue("and"))
            and (after is None or after.kind == "sep" or after.is_cue("and"))
        )
        words = scan.text[scan.items[i].start : scan.items[j - 1].end]
        if alone and in_spec and before is not None and len(words) > 2 and j - i <= 3:
            raise Unclear("unread", scan.items[i:j], words)
        if len(words) > 1:
            skipped.append(words)
        scan.use(*range(i, j))
        i = j
    poured = {p.name for p in scan.items if p.kind in ("name", "context", "house")}
    if len(skipped) >= 2 and len(poured) <= 1:
        raise Unclear("unread", [], ", ".join(skipped))
    return (f"skipped:{', '.join(skipped)}",) if skipped else ()


def numbers_read(scan: Scan) -> None:
    """Raises Unclear unclear_number when a number is left that nothing explains."""
    left = scan.leftover_numbers()
    if left:
        raise Unclear("unclear_number", left[:1], left[0].text)
