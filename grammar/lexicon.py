"""The look-up from typed words to terminals: units, cues, fillers, ingredients, drinks, longest spelling first.

Built once from grammar.words and grammar.ingredients; a chat's own names (house specs) are added a message at a time.
An entry is (terminal, value); one spelling may have several, and the lexer picks by what stands before it.
"""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from grammar import words, words_measures
from grammar.ingredients import CONTEXT, DRINKS, GARNISHES, SPELLINGS
from grammar.words_cues import MORE_CUES
from grammar.words_slang import SLANG

Entry = tuple[str, str]
Spelling = tuple[str, ...]

_PIECE = re.compile(r"[^\W\d_]+(?:'[^\W\d_]+)*|\d+|->|[^\s.\-\w]")
# A spirit before a drink's name says what is in it ("gin martinis"), so both words must stay visible.
_SPIRITS = frozenset(
    [
        "gin",
        "vodka",
        "rum",
        "whisky",
        "whiskey",
        "rye",
        "bourbon",
        "tequila",
        "mezcal",
        "amaretto",
        "pisco",
        "rom",
        "aperitif",
        "scotch",
        "mint",
    ]
)
_LONG_DRINKS = frozenset(["tonics", "sodas", "colas", "julep", "juleps"])


def pieces(text: str) -> Spelling:
    """Words, digits and marks of a plain text, without dots, hyphens and spaces: the form spellings are compared in."""
    return tuple(_PIECE.findall(text))


@dataclass(frozen=True, slots=True)
class Lexicon:
    """First piece -> [(pieces, entries)], longest first; and the single words that spelling repair may aim at."""

    by_first: Mapping[str, list[tuple[Spelling, tuple[Entry, ...]]]]
    words: frozenset[str]


def _table() -> dict[Spelling, list[Entry]]:
    table: dict[Spelling, list[Entry]] = {}

    def add(spellings: Iterable[str], terminal: str, value: str) -> None:
        for spelling in spellings:
            entries = table.setdefault(pieces(spelling), [])
            if (terminal, value) not in entries:
                entries.append((terminal, value))

    for unit, spelled in words_measures.UNITS.items():
        add(spelled.split("|"), "UNIT", unit)
    add((*words.CUES["water"].split("|"), *SPELLINGS["water"]), "CUE", "water")
    for name, others in SPELLINGS.items():
        if name != "water":
            add((name, *others), "ING", name)
    for name, others in GARNISHES.items():
        add((name, *others), "GARNISH", name)
    for name, others in DRINKS.items():
        for spelling in (name, *others):
            split = spelling.replace("'", " ").split()
            hides_spirit = split[0] in _SPIRITS and split[-1] not in _LONG_DRINKS and len(split) > 1
            if not hides_spirit and not spelling[0].isdigit():
                add((spelling,), "DRINK", name)
    for spelling, name in CONTEXT.items():
        add((spelling,), "CONTEXT", name)
    for noun, size_ml in words_measures.VESSELS.items():
        add((noun,), "VESSEL", noun if size_ml is None else f"{size_ml:g}")
    add(words_measures.COUNTED.split("|"), "COUNT", "serve")
    add(words_measures.GUESTS.split("|"), "GUEST", "guest")
    for cue, spelled in words.CUES.items():
        add(spelled.split("|"), "CUE", cue)
    for cue, spelled in MORE_CUES.items():
        add(spelled.split("|"), "CUE", cue)
    add((*words.FILLER.split("|"), *SLANG.split("|")), "FILL", "")
    return table


def build(extra: Mapping[str, str] = {}) -> Lexicon:
    """The lexicon, with a chat's own names (spelling -> house spec name) on top."""
    table = _table()
    for spelling, name in extra.items():
        table.setdefault(pieces(spelling), []).insert(0, ("HOUSE", name))
    by_first: dict[str, list[tuple[Spelling, tuple[Entry, ...]]]] = {}
    for spelling_pieces, entries in table.items():
        if spelling_pieces:
            by_first.setdefault(spelling_pieces[0], []).append((spelling_pieces, tuple(entries)))
    for found in by_first.values():
        found.sort(key=lambda item: -len(item[0]))
    singles = {
        word
        for spelling, entries in table.items()
        for word in spelling
        if len(word) >= 4 and word.isalpha() and (len(spelling) == 1 or entries[0][0] not in ("CUE", "FILL", "COUNT", "GUEST"))
    }
    return Lexicon(by_first, frozenset(singles | set(words_measures.NUMBER_WORDS) | set(words_measures.FRACTION_WORDS)))


LEXICON = build()
