"""What a part of a spec is: its name, strength and sugar, from the message, the chat's shelf or the pantry.

Lives here: that order of precedence, what "vermouth" means beside what, and the note for every reading that was not
typed out. Must never: read amounts; invent a strength for something nobody knows.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from bot.answer.notes import Notes, Question, percent
from bot.core.ingredient import Ingredient
from bot.core.pantry import INGREDIENTS
from bot.told import ShelfBottle, Told
from grammar.ingredients import GARNISHES, SPELLINGS
from grammar.lexicon import LEXICON
from grammar.names import repair
from grammar.request import Part

__all__ = ["WATER", "Known", "know", "shelf_bottle", "vermouth_kind"]

WATER = "water"
_WORDS: dict[str, frozenset[str]] = {
    name: frozenset(word for spelling in (name, *others) for word in spelling.split())
    for name, others in {**GARNISHES, **SPELLINGS}.items()
}
# What "vermouth" is taken to be beside what else is in the spec: the trade's habit (martini, manhattan, negroni),
# common practice, no source.
_DRY_BESIDE = ("gin", "vodka", "sherry", "aquavit", "genever")
_SWEET_BESIDE = (
    "whisky", "whiskey", "bourbon", "rye", "scotch", "rum", "brandy", "cognac", "armagnac", "calvados", "amaro",
    "fernet", "bitter red aperitif",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Known:
    """A part's liquid. abv None: nobody knows. ingredient None: not in the pantry."""

    name: str
    abv: float | None
    sugar_g_per_l: float
    ingredient: Ingredient | None
    bottle: ShelfBottle | None


def shelf_bottle(name: str, told: Told) -> ShelfBottle | None:
    """The chat's own bottle of that name."""
    return next((bottle for bottle in told.shelf if bottle.name == name), None) if told.shelf else None


def _beside(names: Iterable[str], families: tuple[str, ...]) -> str:
    for name in names:
        words = name.split()
        if any(family == name or family in words for family in families) and name != "sloe gin":
            return name
    return ""


def vermouth_kind(names: Iterable[str]) -> tuple[str, str]:
    """What plain "vermouth" is beside these names, and the one that decided; ("vermouth", "") when none does."""
    all_names = tuple(names)
    if "bitter red aperitif" in all_names:
        return "sweet vermouth", "bitter red aperitif"
    sweet = _beside(all_names, _SWEET_BESIDE)
    dry = _beside(all_names, _DRY_BESIDE)
    if sweet and not dry:
        return "sweet vermouth", sweet
    if dry and not sweet:
        return "dry vermouth", dry
    first = next((name for name in all_names if name in (sweet, dry)), "")
    return ("vermouth", "") if not first else ("dry vermouth" if first == dry else "sweet vermouth", first)


def _extra_words(part: Part) -> bool:
    """Whether a name was typed with words that belong to no spelling of it and mean nothing else ("acme gin")."""
    own = _WORDS.get(part.name)
    if own is None or part.typed == part.name:
        return False
    typed = part.typed.lower().split()
    strange = [word for word in typed if word not in own and word.isalpha() and word not in LEXICON.by_first]
    if not strange or len(strange) == len(typed):
        return False
    return any(repair(word) is None for word in strange)


def know(part: Part, others: tuple[str, ...], told: Told, notes: Notes, strength: bool = True) -> Known:
    """What a part is. `others` are the names in the same spec; with strength False no strength is noted.

    Raises Question out_of_range for an impossible strength, no_strength for a liquid with neither name nor strength.
    """
    name = part.name
    if part.abv is not None and not 0.0 <= part.abv <= 1.0:
        called = part.typed or name
        raise Question("out_of_range", f"{called} at {percent(part.abv)}".strip(), strength=percent(part.abv))
    if not name:
        if part.abv is None:
            raise Question("no_strength", part.typed)
        return Known(f"{part.abv * 100.0:g}%", part.abv, 0.0, None, None)
    bottle = shelf_bottle(name, told)
    if name == "vermouth" and bottle is None:
        name, beside = vermouth_kind(n for n in others if n != "vermouth")
        if beside:
            notes.assume("vermouth_kind", name, beside)
            bottle = shelf_bottle(name, told)
    if part.known and part.typed and _extra_words(part):
        notes.assume("read_as", part.typed, name)
    ingredient = INGREDIENTS.get(name)
    sugar = ingredient.sugar_g_per_l if ingredient is not None else 0.0
    abv = part.abv
    if bottle is not None and strength and (abv is None or bottle.sugar_g_per_l is not None):
        sugar = bottle.sugar_g_per_l if bottle.sugar_g_per_l is not None else sugar
        abv = abv if abv is not None else bottle.abv
        if bottle.abv is not None or bottle.sugar_g_per_l is not None:
            notes.assume("shelf", name) if bottle.abv is None else notes.assume("shelf", name, bottle.abv)
    if abv is None and ingredient is not None:
        abv = ingredient.abv
        if abv > 0.0 and strength:
            notes.assume("abv", name, abv)
    if abv is None and name in GARNISHES:
        abv = 0.0
    return Known(name, abv, sugar, ingredient, bottle)
