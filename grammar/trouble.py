"""A Trouble made helpful: what was understood of the message, and one message of the person's own that would work.

Suggestions are built from what was typed and tried out before they are offered; what does not read is not offered, and
the reply falls back on its general example. Nothing here words a sentence.
"""

from collections.abc import Callable
from dataclasses import replace

from grammar.phrase import Phrase
from grammar.ratio import DRINK_PARTS
from grammar.request import Trouble
from grammar.scan import Scan

_SHOWN = frozenset(
    ["amount", "bare", "same_amount", "ratio", "percent", "proof", "temperature", "money", "times", "fold", "count", "guests",
     "vessel", "name", "context", "house", "drink", "garnish"]
)  # fmt: skip
_LONGEST = 70
_SPEC_ML = (60, 30, 20, 15, 10)
_NO_HELP = frozenset(["empty", "not_ours", "health", "too_long", "no_last", "no_house_spec", "two_readings"])


def helped(trouble: Trouble, scan: Scan, reads: Callable[[str], bool]) -> Trouble:
    """The Trouble with what was understood and what would work, both in the words typed. `reads` tells what reads."""
    if trouble.code in _NO_HELP:
        return trouble
    understood = trouble.understood or _understood(trouble, scan)
    for text in filter(None, [trouble.try_instead, *_candidates(trouble, scan)]):
        if len(text) <= 2 * _LONGEST and reads(text):
            return replace(trouble, understood=understood, try_instead=text)
    return replace(trouble, understood=understood)


def _understood(trouble: Trouble, scan: Scan) -> str:
    """The stretches that were read, as typed, without the one that is asked about; "" when there is no other."""
    start, end = trouble.at
    stretches: list[str] = []
    run: list[Phrase] = []
    for p in [*scan.items, Phrase("sep", "", 0, 0)]:
        fits = p.kind in _SHOWN or (p.kind == "cue" and p.name in ("water", "dilution", "each", "of", "at", "to", "rest"))
        if fits and not (start <= p.start < end):
            run.append(p)
            continue
        while run and run[0].kind == "cue":
            run.pop(0)
        if any(q.kind in _SHOWN and q.kind != "bare" for q in run):
            stretches.append(" ".join(scan.text[run[0].start : run[-1].end].split()))
        run = []
    text = ", ".join(stretches)
    return "" if not stretches or len(text) > _LONGEST or trouble.at == (-1, -1) else text


def _candidates(trouble: Trouble, scan: Scan) -> list[str]:
    """Messages that might work, best first."""
    count = _count(scan)
    match trouble.code:
        case "no_amounts":
            names = [p.text for p in scan.items if p.kind in ("name", "context")]
            return [_spec(count, list(dict.fromkeys(names)))]
        case "no_spec":
            drink = next((p for p in scan.items if p.kind in ("drink", "count") and p.name), None)
            parts = DRINK_PARTS.get(drink.name, ()) if drink is not None else ()
            said = next((p.text for p in scan.items if p.kind == "count" and p.name), "")
            return [_spec(said or count, list(parts or ("gin", "dry vermouth")))]
        case "unread" | "unclear_number":
            start, end = trouble.at
            sides = scan.text[max(0, start - 1) : start] + scan.text[end : end + 1]
            if any(c in "@+()/*:" for c in sides):
                return []  # what is left would be no sentence
            return [_tidy(scan.text[:start] + " " + scan.text[end:])] if 0 <= start < end else []
        case "ratio_names":
            names = [p.text for p in scan.items if p.kind in ("name", "context")]
            ratio = ":".join(["2", "1", "1", "1"][: max(2, len(dict.fromkeys(names)))])
            made = f"{ratio} {', '.join(dict.fromkeys(names))}"
            return [f"{made}, {count or '8 serves'}"] if len(names) > 1 else []
        case "no_volume":
            if len(scan.text) > 40 or scan.left("unknown"):
                return []
            typed = _tidy(scan.text.rstrip("?!. "))
            return [f"{typed}, 1 L", f"{typed} on 1 L", f"1 L {typed}"]
        case "no_strength":
            typed = _tidy(scan.text.rstrip("?!. "))
            if trouble.found == "the strength you want":
                return [f"{typed} to 40%"]
            return [typed.replace(" to ", " of 60% to ", 1), f"{typed} from 60%", f"{typed} at 30%"]
        case "conflict_total":
            without = [i for i, p in enumerate(scan.items) if p.is_cue("final")]
            return [_without(scan, i) for i in without]
        case _:
            return []


def _spec(count: str, names: list[str]) -> str:
    """A spec of these ingredients with amounts in the place of those that are missing."""
    amounts = (f"{ml} ml {name}" for ml, name in zip(_SPEC_ML, names, strict=False))
    return f"{count or '8 serves'}: {', '.join(amounts)}"


def _count(scan: Scan) -> str:
    """How many were asked for, as typed; "" when it was not said."""
    for p in scan.items:
        if p.kind in ("count", "guests") and p.value >= 1:
            return f"{p.value:g} serves"
        if p.kind == "vessel" and p.size is not None:
            return p.text
    return next((f"{p.value:g} serves" for p in scan.items if p.kind == "bare" and p.value == int(p.value) and p.value > 1), "")


def _without(scan: Scan, i: int) -> str:
    """The message without the stretch between separators that holds phrase i."""
    first = last = i
    while first > 0 and scan.items[first - 1].kind != "sep":
        first -= 1
    while last + 1 < len(scan.items) and scan.items[last + 1].kind != "sep":
        last += 1
    return _tidy(scan.text[: scan.items[first].start] + scan.text[scan.items[last].end :])


def _tidy(text: str) -> str:
    """Single spaces, and no separators left hanging."""
    flat = " ".join(text.split())
    for mark in (", ,", " ,", ",,", ": ,"):
        flat = flat.replace(mark, ",")
    return flat.strip(" ,;:.-+")
