"""Spelling repair: what a mistyped word was meant to be, or None.

Lives here: the distance, its floors, and the words that must never be "repaired" into bar talk. A word that is
already known is never touched; a tie is never broken; words of one to three letters are left alone.
"""

import re
from collections.abc import Iterable
from functools import lru_cache

from rapidfuzz import process
from rapidfuzz.distance import OSA

from grammar.lexicon import LEXICON
from grammar.words_measures import NUMBER_WORDS

_CHOICES = tuple(sorted(LEXICON.words))
_BY_LENGTH: dict[int, tuple[str, ...]] = {n: tuple(w for w in _CHOICES if abs(len(w) - n) <= 2) for n in range(4, 24)}
# English words close to a bar word and meaning something else. From reading misrepairs in the cases.
_NEVER_WORDS = (
    "leave|leaving|menus|meals|rider|riders|able|admin|alert|anger|aspirin|baby|band|bark|beach|bell|better|bill|blade|bleach|bone|boney|boom|born|bought|"
    "brand|breach|broke|brother|bunch|bunny|cable|capital|care|carpet|cart|cheese|china|choke|choose|chose|close|"
    "coach|code|cort|couch|cough|court|cram|crime|date|daughter|dime|dine|doctor|done|dose|drank|drive|driver|"
    "driving|drunk|fable|fade|fall|fate|father|fight|file|files|finger|forgot|forgotten|fort|france|funny|game|games|gate|goose|"
    "grade|grand|great|guess|hate|height|hell|hill|hint|horn|horse|hose|http|https|hunger|ignore|image|insert|jade|"
    "java|joke|juicy|kill|king|lake|land|lane|lark|late|later|latter|lawyer|letter|link|live|loose|louse|love|"
    "lunch|mail|mall|marble|matter|medicine|might|money|mother|mouse|movie|music|noon|nose|note|other|pack|parade|"
    "password|peas|peck|pills|pilot|place|plate|poach|poem|point|poke|police|pose|preach|pregnant|president|pride|"
    "prime|prompt|python|quote|range|rate|reach|ring|roach|rome|rough|rouse|russia|scar|score|scores|script|select|shade|shark|"
    "shell|shrink|sight|sine|sing|singer|sink|smoke|song|soon|sought|spark|spite|spoke|sport|sprite|stable|"
    "stand|stark|stoke|story|strange|string|such|sugary|sunny|system|tables|teach|though|thought|through|tight|"
    "times|tine|toady|tony|torn|touch|tough|tram|trim|union|user|users|vine|vote|wade|waiter|wall|weather|whether|"
    "whine|whose|wing|winter|wonder|world|worm|worn|write|writing|written|wrote|zoom"
)
NEVER = frozenset(_NEVER_WORDS.split("|"))
_DRAWN_OUT = re.compile(r"(.)\1{2,}")
_LONGEST_DRAWN_OUT = 200  # characters: our own choice


@lru_cache(maxsize=8192)
def repair(word: str) -> str | None:
    """The known word that `word` was meant to be, or None. Optimal string alignment, one slip under eight letters, two above."""
    if len(word) <= _LONGEST_DRAWN_OUT and _DRAWN_OUT.search(word):
        once, twice = _DRAWN_OUT.sub(r"\1", word), _DRAWN_OUT.sub(r"\1\1", word)
        return next((w for w in (twice, once) if w in LEXICON.by_first), repair(once))  # "negroniiii", "ginnnn"
    length = len(word)
    if length < 4 or length > 22 or word in NEVER or not word.isascii():
        return None
    allowed = 1 if length < 8 else 2
    found = process.extract(word, _BY_LENGTH[length], scorer=OSA.distance, score_cutoff=allowed, limit=3)
    if not found:
        return None
    best = found[0][1]
    near = [w for w, distance, _ in found if distance == best and w[0] == word[0]] or [
        w for w, distance, _ in found if distance == best and length >= 6
    ]
    doubled = [w for w in near if _single(w) == _single(word)]
    near = doubled or near  # "cobler" lacks a letter of "cobbler", and is no "cooler"
    if length == 4:  # short words are too near each other: only swapped or doubled letters
        near = [w for w in near if sorted(w) == sorted(word) or _single(w) == _single(word)]
    elif length == 5:
        near = [w for w in near if w[0] == word[0]]
    if best > 1 and any(w in NUMBER_WORDS for w in near):
        return None  # "sixtyteen" may be another number
    return near[0] if len({_meaning(w) for w in near}) == 1 else None


def _single(word: str) -> str:
    """The word with doubled letters made one."""
    return "".join(c for i, c in enumerate(word) if i == 0 or word[i - 1] != c)


def _meaning(word: str) -> object:
    """What a single known word stands for; two spellings of one thing are no tie."""
    for spelling, entries in LEXICON.by_first.get(word, ()):
        if len(spelling) == 1:
            return entries[0]
    return word.rstrip("s")


def nearest(name: str, choices: Iterable[str], least: int = 5) -> str | None:
    """Which of a few names was meant, or None: one slip from five letters on (or `least`), two from nine, never a tie."""
    allowed = 0 if len(name) < least else 1 if len(name) < 9 else 2
    scored = sorted((OSA.distance(name, choice), choice) for choice in choices)
    if not scored or scored[0][0] > allowed:
        return None
    if len(scored) > 1 and scored[1][0] == scored[0][0]:
        return None
    return scored[0][1]
