"""The ingredient and drink words as data: no word has two meanings, every name is in the pantry.

Lives here: checks of grammar/ingredients*.py and drinks.py, and words people use that must be there.
Never here: the look-up and its spelling repair (test_names.py).
"""

import re
from itertools import chain

import pytest

from bot.core.pantry import INGREDIENTS
from grammar.ingredients import CONTEXT, DRINKS, GARNISHES, SPELLINGS

TABLES = {"ingredient": SPELLINGS, "garnish": GARNISHES, "drink": DRINKS}
WORDS = [
    (kind, name, word)
    for kind, table in TABLES.items()
    for name, more in table.items()
    for word in (name, *more)
]

#: the tables are split by family in files; a merge must not have dropped a name
LEAST_NAMES = {"ingredient": 170, "garnish": 40, "drink": 60}

#: word -> canonical name, as people type them (lower case, accents and hyphens folded)
SAID = {
    "oj": "orange juice",
    "swt verm": "sweet vermouth",
    "sweet verm": "sweet vermouth",
    "dry verm": "dry vermouth",
    "verm": "vermouth",
    "fino": "fino sherry",
    "red bitter": "bitter red aperitif",
    "simple": "simple syrup",
    "syrup": "simple syrup",
    "sugar syrup": "simple syrup",
    "gomme": "gum syrup",
    "lime": "lime juice",
    "lemon": "lemon juice",
    "bitters": "aromatic bitters",
    "soda": "soda water",
    "orange liqueur": "orange liqueur",
    "rich demerara": "rich demerara syrup",
    "watter": "water",
}

COUNTED = {
    "neg": "negroni",
    "negs": "negroni",
    "marts": "martini",
    "daiq": "daiquiri",
    "manhatans": "manhattan",
    "corpse reviver no.2": "corpse reviver",
    "corpse reviver #2": "corpse reviver",
    "bees knees": "bee's knees",
    "g&t": "gin and tonic",
    "50/50 martini": "martini",
}


def named(table: dict[str, tuple[str, ...]], word: str) -> list[str]:
    return [name for name, more in table.items() if word == name or word in more]


@pytest.mark.parametrize("kind", TABLES)
def test_the_merged_table_holds_every_family(kind: str) -> None:
    assert len(TABLES[kind]) >= LEAST_NAMES[kind]


@pytest.mark.parametrize("kind", TABLES)
def test_no_spelling_is_listed_twice_under_a_name(kind: str) -> None:
    twice = {name for name, more in TABLES[kind].items() if len({name, *more}) != 1 + len(more)}
    assert twice == set()


def test_no_word_has_two_meanings() -> None:
    owners: dict[str, set[str]] = {}
    for kind, name, word in WORDS:
        owners.setdefault(word, set()).add(f"{kind} {name}")
    for word in CONTEXT:
        owners.setdefault(word, set()).add("context")
    assert {word: names for word, names in owners.items() if len(names) > 1} == {}


def test_every_word_is_spelled_as_the_cleaner_leaves_it() -> None:
    plain = re.compile(r"[a-z0-9&#/'.+]+(?: [a-z0-9&#/'.+]+)*")
    bad = [word for word in chain((w for _, _, w in WORDS), CONTEXT) if not plain.fullmatch(word)]
    assert bad == []


def test_no_ingredient_word_starts_with_a_digit() -> None:
    """A number in an ingredient's spelling would be taken from the amounts around it ("h2o" is no number)."""
    digits = [word for kind, _, word in WORDS if kind != "drink" and re.search(r"\b\d", word)]
    assert digits == []


def test_every_canonical_name_has_a_pantry_entry_and_back() -> None:
    assert set(SPELLINGS) == set(INGREDIENTS)


def test_every_context_word_is_one_word_and_names_an_ingredient() -> None:
    assert {w: n for w, n in CONTEXT.items() if " " in w or n not in SPELLINGS} == {}


@pytest.mark.parametrize(("word", "name"), SAID.items())
def test_a_word_people_use_names_its_ingredient(word: str, name: str) -> None:
    assert named(SPELLINGS, word) == [name]


@pytest.mark.parametrize(("word", "name"), COUNTED.items())
def test_a_word_people_use_names_its_drink(word: str, name: str) -> None:
    assert named(DRINKS, word) == [name]
