"""read: a message to a Request, or to a Trouble that says what to ask. The one door into the grammar.

Pure and deterministic: the same text with the same Known always gives the same result. Never raises for any text.
"""

from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, replace
from functools import lru_cache

from grammar.clean import Cleaned, clean
from grammar.corrections import correct
from grammar.decide import decide
from grammar.decide_follow import may_stand_alone, without_tastes
from grammar.decide_of_last import points_back
from grammar.decide_wants import asks_enough
from grammar.defined import defined
from grammar.degrees import degrees_of_strength
from grammar.frames.batch import read_batch, read_strength
from grammar.frames.bottles import read_bottles
from grammar.frames.convert import read_convert
from grammar.frames.cost import read_cost
from grammar.frames.cut import read_cut
from grammar.frames.dilution import read_dilution
from grammar.frames.follow import read_follow
from grammar.frames.freezer import read_freezer
from grammar.frames.house import read_help, read_house, read_save, read_setting, read_shelf
from grammar.frames.label import read_label
from grammar.frames.syrup import read_syrup
from grammar.half_read import doubles, multiplied
from grammar.lexicon import LEXICON, Lexicon, build
from grammar.loads import (
    both_bottles,
    bottles_added_up,
    bottles_of_strength,
    headed_by_size,
    one_bottle,
    pounds_and_ounces,
)
from grammar.mixers import mixers
from grammar.names import nearest
from grammar.phrase import Phrase
from grammar.proofs_bare import proofs_bare
from grammar.read import read_phrases
from grammar.request import FollowUp, Request, Trouble
from grammar.scan import Scan, Unclear
from grammar.tabled import tabled
from grammar.trouble import helped
from grammar.whole import is_whole, points_nowhere
from grammar.wines import wines

_OUT_OF_IT = 86  # "86 the oysters": the trade's word for being out of something
_MOST_DRINKS = 500  # of a drink without a recipe; more counts something else: common practice, no source
LONGEST = 2000  # characters; a pasted recipe is long, a novel is not a request


@dataclass(frozen=True, slots=True)
class Known:
    """What of a chat's memory matters for reading: its house specs' names, and the kind of its last request."""

    house: tuple[str, ...] = ()
    last: str = ""


_FRAMES: dict[str, Callable[[Scan], Request]] = {
    "batch": read_batch, "strength": read_strength, "convert": read_convert, "cut": read_cut, "freezer": read_freezer,
    "dilution": read_dilution, "syrup": read_syrup, "cost": read_cost, "bottles": read_bottles, "label": read_label,
    "follow": read_follow, "help": read_help, "setting": read_setting,
}  # fmt: skip


@lru_cache(maxsize=64)
def _lexicon(house: tuple[str, ...]) -> Lexicon:
    return build({form: name for name in house for form in _forms(name)})


def _forms(name: str) -> tuple[str, ...]:
    """How a house spec's name is typed: itself, run together, and its plurals."""
    plain = clean(name).text
    forms = [plain, plain.replace(" ", "")]
    return tuple(form + end for form in forms for end in ("", "s", "es"))


def read(text: str, known: Known = Known()) -> Request | Trouble:
    """What a message asks, or what to ask back."""
    if len(text) > LONGEST:
        return Trouble("too_long", (LONGEST, len(text)), found=f"{len(text)} characters")
    cleaned = clean(text)
    scan = scan_of(cleaned, known)
    stands = bool(known.last) and not points_back(scan, known.last)
    may = stands and may_stand_alone(scan)
    if may or (stands and points_nowhere(cleaned.text)):
        alone = scan.copy()
        with suppress(Unclear):
            kind = decide(alone, "")
            request = _frame(kind, alone, known) if kind not in ("chatter", "follow") else None
            if request is not None and not isinstance(request, Trouble) and (may or is_whole(request, known.last)):
                return request
    try:
        made = _frame(decide(scan, known.last), scan, known)
    except Unclear as unclear:
        made = unclear.trouble
    if not isinstance(made, Trouble):
        return made
    return _placed(helped(made, scan_of(cleaned, known), lambda tried: _reads(tried, known)), cleaned, text)


def _reads(text: str, known: Known) -> bool:
    """Whether a message that is to be offered would be read."""
    scan = scan_of(clean(text), known)
    try:
        return not isinstance(_frame(decide(scan, known.last), scan, known), Trouble)
    except Unclear:
        return False


def scan_of(cleaned: Cleaned, known: Known = Known()) -> Scan:
    """The phrases of a cleaned message, with the chat's own names looked up."""
    lexicon = _lexicon(known.house) if known.house else LEXICON
    plain = cleaned.text
    phrases = read_phrases(plain, lexicon)
    asks_enough(phrases)
    degrees_of_strength(phrases)
    correct(phrases)
    tabled(phrases)
    defined(phrases, plain)
    both_bottles(phrases)
    bottles_of_strength(phrases)
    one_bottle(phrases)
    bottles_added_up(phrases)
    headed_by_size(phrases)
    pounds_and_ounces(phrases)
    proofs_bare(phrases)
    wines(phrases)
    mixers(phrases, plain)
    without_tastes(phrases, plain)
    if known.house and not any(p.kind == "house" for p in phrases):
        plain_fixed = _house_typo(plain, phrases, known.house)
        if plain_fixed is not None:
            phrases = plain_fixed
    return Scan(phrases, plain)


def _house_typo(plain: str, phrases: list[Phrase], house: tuple[str, ...]) -> list[Phrase] | None:
    """A mistyped house spec's name becomes that name: tried on every run of words as long as a name."""
    words = [p for p in phrases if p.kind in ("unknown", "name", "context", "drink", "filler", "cue", "garnish", "unit", "count")]
    forms = {form: name for name in house for form in _forms(name)}
    for size in (3, 2, 1):
        for i in range(len(words) - size + 1):
            run = words[i : i + size]
            first, last = phrases.index(run[0]), phrases.index(run[-1])
            if last - first != size - 1 or not any(p.kind == "unknown" for p in run):
                continue
            typed = plain[run[0].start : run[-1].end]
            name = nearest(typed, forms)
            if name is not None:
                made = Phrase("house", typed, run[0].start, run[-1].end, name=forms[name])
                return [*phrases[:first], made, *phrases[last + 1 :]]
    return None


def _frame(kind: str, scan: Scan, known: Known) -> Request | Trouble:
    if kind == "health":
        return Trouble("health")
    if kind == "empty":
        return Trouble("empty")
    if kind == "chatter":
        return _chatter(scan)
    if kind == "follow" and not known.last:
        raise Unclear("no_last", scan.items, scan.text.strip())
    if kind not in ("freezer", "follow", "setting", "shelf:put", "convert"):
        for p in scan.left("negative"):
            if p.unit or scan.text[p.end : p.end + 1] == "%" or "%" in p.text:
                raise Unclear("out_of_range", [p], p.text)
    multiplied(scan)
    doubles(scan)
    if kind.startswith("house:"):
        do = kind.removeprefix("house:")
        verbs = [
            i
            for i, p in enumerate(scan.items)
            if p.is_cue("save" if do == "save" else do, "replace", "show", "forget", "rename", "bring_back", "list")
        ]
        verb = verbs[0] if verbs else 0
        if do in ("save", "replace"):
            return read_save(scan, verb, scan.text)
        return read_house(scan, do, verb)
    if kind.startswith("shelf:"):
        return read_shelf(scan, kind.removeprefix("shelf:"))
    made = _FRAMES[kind](scan)
    if isinstance(made, FollowUp) and made == FollowUp():
        return _chatter(scan)
    return made


def _chatter(scan: Scan) -> Trouble:
    words = [p for p in scan.all if p.kind != "sep"]
    if not words:
        return Trouble("empty")
    numbers = scan.kinds("bare", "amount", "count", "percent", "temperature", "ratio")
    names = scan.kinds("name", "context", "drink")
    prose = scan.kinds("unknown")
    if len(numbers) == 1 and scan.items[numbers[0]].value == _OUT_OF_IT and scan.items[numbers[0]].kind == "bare":
        return Trouble("not_ours", (0, len(scan.text)), found=scan.text.strip())  # "86 the oysters": they are out of it
    if (
        numbers
        and prose
        and len(prose) <= 3
        and len(numbers) == 1
        and all(
            p.kind in ("bare", "count", "unknown", "amount") or p.is_cue("for", "each", "make_it", "scale", "of")
            for p in scan.items
        )
    ):
        typed = " ".join(scan.items[i].text for i in prose)
        return Trouble("no_spec", (scan.items[prose[0]].start, scan.items[prose[-1]].end), found=typed)
    titled = _counted_words(scan)
    if titled:
        return Trouble("no_spec", (0, len(scan.text)), found=titled)
    if any(p.is_cue("scale", "serve_word", "recipe_word") for p in words) and not prose:
        return Trouble("no_spec", (0, len(scan.text)))
    if names and not numbers and not prose:
        typed = ", ".join(scan.items[i].text for i in names)
        code = "no_spec" if scan.kinds("drink") and not scan.kinds("name", "context") else "no_amounts"
        return Trouble(code, (scan.items[names[0]].start, scan.items[names[-1]].end), found=typed, facts={"names": typed})
    return Trouble("not_ours", (0, len(scan.text)), found=scan.text.strip())


def _counted_words(scan: Scan) -> str:
    """ "30 copper finches for the terrace by 6": what is counted at the start, when it may be a drink; else nothing."""
    i = 1 if scan.kind_at(0) == "cue:want" else 0
    end = i + 1
    while scan.kind_at(end) == "unknown" and end <= i + 3:
        end += 1
    many = scan.at(i)
    counts = many is not None and many.kind == "bare" and 2 <= many.value <= _MOST_DRINKS and many.value != _OUT_OF_IT
    ends = scan.kind_at(end) in ("", "sep") or scan.kind_at(end).startswith("cue:")
    if not counts or end == i + 1 or not ends or len(scan) > 8 or not scan.items[end - 1].text.endswith("s"):
        return ""
    return scan.text[scan.items[i + 1].start : scan.items[end - 1].end]


def _placed(trouble: Trouble, cleaned: Cleaned, typed: str) -> Trouble:
    """The Trouble with its place in the typed text instead of the plain one."""
    start, end = trouble.at
    if start < 0:
        return replace(trouble, at=(0, len(typed)))
    return replace(trouble, at=cleaned.typed_at(start, max(end, start)))
