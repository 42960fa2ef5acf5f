"""A figure put right inside one message: "45 palomas, no wait, 30", "300 ml of gin at 47%, sorry, it's 350 ml".

Works on the phrases before anything is read of them: the figure put right takes the new value, and the words of the
correction become filler. What is not plainly a correction of one figure is left as it is, to be asked about.
"""

from grammar.phrase import Phrase

_OPENS = frozenset(
    ["wait", "sorry", "correction", "i mean", "i meant", "oops", "whoops", "scratch that", "meant", "mistake", "my bad"]
)
#: only a count: "20 martinis, actually 24", "40 covers, call it 44"
_OPENS_COUNT = frozenset(["call it", "say", "actually", "make that", "make it", "rather"])
_MOST = 6  # corrections of one message; beyond that it is not a bar message, and each costs a search
_COUNTS = frozenset(["count", "guests", "bare", "times"])
_TIME = frozenset(["minutes", "min", "hours", "hour", "seconds", "secs", "sec"])
_OPENS_SAME = frozenset(["no", "nope"])  # only the figure just before, of the same kind: "a 700 bottle, no, a 750 bottle"
_OPENS_NAMED = frozenset(["make", "do", "change", "put", "have", "but", "instead"])  # only a name's amount: "make the gin 40"
_SLIPS = frozenset(["typo", "mistake", "wrong"])
_ALL = _OPENS | _OPENS_COUNT | _OPENS_SAME | _OPENS_NAMED
_FIGURES = ("amount", "percent", "proof", "money", "temperature", "vessel", "ratio")


def correct(phrases: list[Phrase]) -> None:
    """Carry out every correction, in place."""
    opened = 0
    for at, p in enumerate(phrases):
        if opened < _MOST and at > 0 and p.kind == "cue" and p.text in _ALL:
            opened += 1
            _correct_at(phrases, at)


def _correct_at(phrases: list[Phrase], at: int) -> None:
    """Carry out the correction that the cue at `at` may open."""
    new_at = at + 1
    while new_at < len(phrases) and _empty(phrases[new_at]):
        new_at += 1
    new_at, refused_at = _past_refused(phrases, at, new_at)
    new = phrases[new_at] if new_at < len(phrases) else None
    if new is not None and new.kind in ("name", "context"):
        _correct_named(phrases, at, new_at)
        return
    if phrases[at].text in _OPENS_NAMED:
        return
    if new is None or new.kind not in (*_FIGURES, *_COUNTS):
        return
    after = phrases[new_at + 1] if new_at + 1 < len(phrases) else None
    if after is not None and after.text in _TIME:
        return
    named = after is not None and after.kind in ("name", "context") and new.kind != "ratio"
    name_at = new_at + 1 if named else None
    old_at = refused_at
    if old_at is None:
        old_at = _of_name(phrases, at, new, after.name) if after is not None and name_at is not None else _old(phrases, at, new)
    if old_at is None:
        return
    old = phrases[old_at]
    if old.kind == new.kind == "ratio" and any(p.is_cue("stock") for p in phrases[:old_at]):
        return  # "got 700 ml of 2:1, make it 1:1": what is at hand, and what it is to become
    said_so = phrases[at].text in _SLIPS and phrases[at - 1].kind != "sep"  # "18 was a mistake", not "18, mistake, 28"
    if said_so or any(p.text in _SLIPS for p in phrases[old_at + 1 : at]):
        return  # "22 was a typo, i meant 12": of an earlier message, or of another figure in this one
    refused = old.value
    old.value, old.values, old.unit = new.value, new.values, new.unit
    old.size, old.size_ml, old.amounts = new.size, new.size_ml, new.amounts
    if new.kind == "count" and old.kind in ("count", "bare") and new.name:
        old.kind, old.name, old.text, old.others = "count", new.name, new.text, new.others
    old.text = new.text if new.kind == old.kind else old.text
    end = (name_at or new_at) + 1
    if end + 1 < len(phrases) and phrases[end].is_cue("none") and phrases[end + 1].value == refused:
        end += 2  # "30 not 45"
    first = at
    while first > 1 and (phrases[first - 1].is_cue("none") or phrases[first - 1].name in (",", ".")):
        first -= 1
    for p in phrases[first:end]:
        p.kind, p.name = "filler", ""


def _past_refused(phrases: list[Phrase], at: int, new_at: int) -> tuple[int, int | None]:
    """ "sorry not 60 gin, 50 gin": the figure behind the one that is wrong, and where that one was said first."""
    wrong = phrases[new_at] if new_at < len(phrases) else None
    refuses = any(p.is_cue("none") for p in phrases[at + 1 : new_at])
    if wrong is None or not refuses or wrong.kind not in (*_FIGURES, *_COUNTS):
        return new_at, None
    kinds = _COUNTS if wrong.kind in _COUNTS else (wrong.kind,)
    said = [k for k, p in enumerate(phrases[:at]) if p.kind in kinds and (p.value, p.values) == (wrong.value, wrong.values)]
    k = new_at + 1
    while k < len(phrases) and (_empty(phrases[k]) or phrases[k].kind in ("name", "context")):
        k += 1
    if said and k < len(phrases) and phrases[k].kind == wrong.kind:
        return k, said[0] if len(said) == 1 else None
    return new_at, None


def _correct_named(phrases: list[Phrase], at: int, name_at: int) -> None:
    """ "12 drinks: 45 gin 20 lemon. sorry, gin is 50 not 45": the amount of a name, said behind it; nothing else may follow."""
    new_at = name_at + 1
    while new_at < len(phrases) and (_empty(phrases[new_at]) or phrases[new_at].is_cue("at", "to")):
        new_at += 1  # "actually do the rye at 1.75 oz"
    new = phrases[new_at] if new_at < len(phrases) else None
    if new is None or new.kind not in ("bare", "amount"):
        return
    name = phrases[name_at].name
    was = next((j for k in range(at) for j in (k - 1, k + 1) if _is_named(phrases, k, name) and 0 <= j < at
                and phrases[j].kind in ("bare", "amount")), None)  # fmt: skip
    rest = [p for p in phrases[new_at + 1 :] if not _empty(p)]
    if was is None or (rest and not (len(rest) == 1 and rest[0].value == phrases[was].value)):
        return
    old = phrases[was]
    old.value, old.unit, old.text = new.value, new.unit or old.unit, new.text
    for p in phrases[at:]:
        p.kind, p.name = "filler", ""


def _is_named(phrases: list[Phrase], k: int, name: str) -> bool:
    return phrases[k].kind in ("name", "context") and phrases[k].name == name


def _empty(p: Phrase) -> bool:
    return p.kind == "filler" or (p.kind == "sep" and p.name in ",-.:") or p.is_cue("equals", "make_it", "oops", "none", "but")


def _compatible(old: Phrase, new: Phrase, counts_only: bool) -> bool:
    if counts_only:
        return old.kind in ("count", "guests", "times") and new.kind in _COUNTS
    if old.kind in ("count", "guests", "times"):
        return new.kind in _COUNTS
    return old.kind == new.kind and (old.kind != "amount" or old.unit == new.unit)


def _old(phrases: list[Phrase], at: int, new: Phrase) -> int | None:
    """The figure that is put right: the one just before, else the only one of its kind."""
    counts_only = phrases[at].text in _OPENS_COUNT
    near = at - 1
    while near > 0 and _empty(phrases[near]):
        near -= 1
    if _compatible(phrases[near], new, counts_only and new.kind in _COUNTS):
        return near
    opens = near == 0 or phrases[near - 1].kind in ("filler", "sep", "cue")
    if new.kind == "count" and phrases[near].kind == "bare" and opens:  # "need 30 no wait 35 gimlets"
        return near
    if phrases[at].text in _OPENS_SAME:
        return None
    fitting = [k for k in range(at) if _compatible(phrases[k], new, counts_only)]
    return fitting[0] if len(fitting) == 1 else None


def _of_name(phrases: list[Phrase], at: int, new: Phrase, name: str) -> int | None:
    """The figure beside the same name earlier: "50 gin, 25 vermouth, sorry, 60 gin"."""
    for k in range(at):
        if phrases[k].kind in ("name", "context") and phrases[k].name == name:
            return next((j for j in (k - 1, k + 1) if 0 <= j < at and _compatible(phrases[j], new, False)), None)
    return None
