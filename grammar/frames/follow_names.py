"""What a follow-up does to named ingredients: swap, set an amount, a strength or a price, leave out, ask for one."""

import re
from dataclasses import replace

from grammar.ingredients_strong import SPIRITS
from grammar.phrase import Phrase
from grammar.request import FollowUp, Measure, Money, Part
from grammar.scan import Scan, Unclear, bottled, rough_ml
from grammar.strengths_said import strengths_said

#: before an ingredient that cannot be had: "we're out of gin", "86 gin", "they're off gin"
_GONE = re.compile(r"\b(?:out of|off|86(?:ed)?|no|no more|short (?:of|on)|low on)\s+(?:the |our )?$")

_FIGURES = ("amount", "bare", "percent", "proof")
_LEAVES_OUT = frozenset(["lose", "drop", "without", "skip", "hold", "out", "omit", "ditch", "minus"])
_IN_PLACE = re.compile(r"\b(?:instead of|rather than|in place of)\b")


def take_swap(scan: Scan, out: FollowUp) -> FollowUp:
    """One ingredient for another. Raises Unclear two_readings when an amount stands beside the swap."""
    names = scan.kinds("name", "context")
    kind = _other_kind(scan, names)
    if kind is not None:
        return replace(out, swap=kind)
    if len(names) != 2:
        return out
    if all(scan.kind_at(i + 1) == "cue:to" and scan.kind_at(i + 2) in ("bare", "amount") for i in names):
        return out  # "swap the syrup to 15 and the lime to 25": amounts, not one for the other
    loose = scan.kinds("amount", "ratio") + [i for i in scan.kinds("bare") if not _counts(scan, i)]
    strengths = scan.kinds("percent", "proof")  # "gin 57%, verm 17% now"
    swapping = scan.has("swap") or (scan.has("but", "none", "replace") and not loose and not strengths)
    swapping = swapping or (scan.has("replace") and scan.has("with"))
    gone = next((i for i in names if _GONE.search(scan.text[: scan.items[i].start])), None)
    if gone is not None and scan.kind_at(gone - 1) == "bare" and scan.items[gone - 1].value == 86:
        scan.use(gone - 1)
    other = next((i for i in names if i != gone), names[0])
    at = other + 2 if scan.kind_at(other + 1) in ("cue:at", "cue:equals") else other + 1
    strong = [k for k in (other - 1, at) if scan.kind_at(k) in ("percent", "proof")]
    if gone is not None and not scan.kinds("amount", "bare", "ratio") and scan.kinds("percent", "proof") == strong:
        scan.use(*names, *strong, *scan.cues("none", "make_it", "with"))
        new = scan.items[other]
        parts = tuple(Part(new.name, None, new.text, True, scan.items[k].value) for k in strong)  # "no rye left, use bourbon 45%"
        return replace(out, swap=(scan.items[gone].name, new.name), parts=(*out.parts, *parts))
    for i in scan.kinds("bare"):
        if (
            swapping
            and scan.items[i].text == "4"
            and scan.kind_at(i - 1) in ("name", "context")
            and scan.kind_at(i + 1) in ("name", "context")
        ):
            scan.use(i)  # "swap gin 4 vodka"
    if swapping and any(scan.items[i].kind != "ratio" and not scan.used[i] for i in loose):
        raise Unclear("two_readings", [scan.items[i] for i in names], "swap all of it, or only some")
    if not swapping or scan.kinds("amount"):
        return out
    a, b = names
    first, second = scan.items[a].name, scan.items[b].name
    text = scan.text
    reverse = _IN_PLACE.search(text) is not None or (scan.has("none") and not scan.has("swap"))
    if any(p.is_cue("sub") for p in scan.items) or (text.strip().startswith(("sub ", "use ")) and not _IN_PLACE.search(text)):
        reverse = text.strip().startswith("use ") or (text.strip().startswith("sub ") and " for " in text)
    if " for " in text and text.strip().startswith("sub "):
        reverse = True
    if scan.kind_at(a + 1) == "cue:and" and b == a + 2 and not scan.has("swap", "none", "replace"):
        raise Unclear("two_readings", [scan.items[a], scan.items[b]], f"{scan.items[a].text} and {scan.items[b].text}, for what")
    scan.use(a, b)
    return replace(out, swap=(second, first) if reverse else (first, second))


def _other_kind(scan: Scan, names: list[int]) -> tuple[str, str] | None:
    """ "gin's navy strength", "use navy strength gin": the same ingredient of another kind; "" for the one it is a kind of."""
    if not names or len(names) > 2 or scan.kinds(*_FIGURES, "ratio", "count") or scan.has("how_much"):
        return None
    if ("?" in scan.text or scan.has("what")) and " instead" not in scan.text:
        return None
    if scan.has("none", "forget") or any(w.text in _LEAVES_OUT for w in scan.all):
        return None  # "no bitters"
    first, last = scan.items[names[0]], scan.items[names[-1]]
    if len(names) == 2 and names[1] == names[0] + 1 and first.name in last.name.split() and first.name != last.name:
        scan.use(*names, *[k for k in scan.cues("abv") if k == names[1] + 1])
        scan.cue_names.discard("abv")
        return first.name, last.name
    instead = len(names) == 1 and " instead" in scan.text and first.name in SPIRITS
    if instead and scan.kind_at(names[0] + 1) in ("", "sep", "cue:but") and not _IN_PLACE.search(scan.text):
        scan.use(names[0])
        return "", first.name  # "mezcal instead"
    leads = scan.kind_at(names[0] - 1) in ("cue:set_to", "cue:make_it", "cue:with", "cue:but")
    leads = leads or (first.text != first.name and first.text.split()[0] == first.name.split()[-1])  # "gin's navy strength"
    if len(names) == 1 and leads and " " in first.name and scan.kind_at(names[0] + 1) in ("", "sep", "cue:but"):
        scan.use(*names, *[k for k in (names[0] - 1,) if k >= 0])
        return "", first.name
    return None


def _counts(scan: Scan, i: int) -> bool:
    """Whether the bare number at i counts serves beside a swap: "bourbon not rye, 22 of them", "..., make it 22"."""
    before, after = scan.kind_at(i - 1), scan.kind_at(i + 1)
    of_them = after == "cue:of" and scan.kind_at(i + 2) in ("", "sep")
    return of_them or (before in ("", "sep", "cue:make_it", "cue:want", "cue:for", "cue:and") and after in ("", "sep", "cue:but"))


def take_names(scan: Scan, out: FollowUp) -> FollowUp:
    """Amounts and strengths for named ingredients; names to leave out; names asked for."""
    parts: list[Part] = list(out.parts)
    drop: list[str] = []
    ask = out.ask
    for said in strengths_said(scan):
        named, figure = scan.items[said.name], scan.items[said.figure]
        scan.use(said.name, said.figure, *said.words)
        abv = figure.value / 100.0 if figure.kind == "bare" else figure.value
        parts.append(Part(named.name, None if said.sure else Measure(figure.value), named.text, True, abv))
        ask = "abv"
    _unknown_amounts(scan, parts)
    for i in scan.kinds("name", "context"):
        if scan.used[i]:
            continue
        p = scan.items[i]
        before = [scan.kind_at(i - 1), scan.kind_at(i - 2)]
        if i == 1 and before[0] == "bare" and scan.items[0].value == 86 and len(scan.kinds("bare", "amount")) == 1:
            scan.use(0, i)  # "86 the lime": there is no more of it
            drop.append(p.name)
            continue
        q, at = _quantity_near(scan, i)
        dropping = "cue:none" in before[:1] or (
            q is None
            and (
                scan.has("forget")
                or any(w.text in _LEAVES_OUT for w in scan.all)
            )
        )
        if q is None and dropping:
            drop.append(p.name)
            scan.use(i)
            continue
        if q is not None and at is not None:
            scan.use(i, at)
            if _bottle_of(scan, q, at):
                parts.append(Part(p.name, None, p.text))  # "how many bottles of gin of 70 cl"
                out = replace(out, makes=replace(out.makes, vessel_ml=rough_ml(q.value, q.unit)))
                ask = "bottles"
                continue
            if q.kind in ("percent", "proof"):
                parts.append(Part(p.name, None, p.text, True, q.value))
            else:
                parts.append(Part(p.name, Measure(q.value, q.unit), p.text, True))
            for j in (at + 1, i + 1):
                if scan.kind_at(j) == "cue:each":
                    scan.use(j)
            continue
        in_bottles = scan.kind_at(i + 1) == "cue:in" and scan.kind_at(i + 2) == "vessel"  # "bottles? rum in 1.75s"
        if in_bottles and any(v.kind == "vessel" and v.size is None for v in scan.items):
            ask = "bottles"
        if not scan.has("bottles", "cost", "price", "how_many"):
            ask = ask or p.name
        out = replace(out, ask=ask or out.ask)
        scan.use(i)
        if scan.has("bottles") or scan.kinds("vessel"):
            parts.append(Part(p.name, None, p.text))
    held = [p.measure for p in parts if p.measure is not None]
    large = len(held) == 1 and bottled(held[0])
    if len(parts) == 1 and large and ask != "enough" and scan.has("stock", "left", "but"):
        ask = "limit"  # "only got 700 rye": what there is of it
    if scan.has("cost", "price") or scan.kinds("money"):
        parts = _prices(scan, parts)
    return replace(out, parts=tuple(parts), drop=tuple(drop), ask=ask if ask and not drop else out.ask)


def _bottle_of(scan: Scan, q: Phrase, at: int) -> bool:
    """Whether the amount at `at`, behind a name, is the size of the bottles that are counted."""
    sized = q.kind == "amount" and bottled(q)
    asked = scan.has("bottles") or (scan.has("how_many") and bool(scan.kinds("vessel")))
    return sized and asked and scan.kind_at(at - 1) in ("cue:of", "cue:at")


def _unknown_amounts(scan: Scan, parts: list[Part]) -> None:
    """ "oh and 2 dashes of something": an amount of a thing we do not know is added under its name."""
    for i in scan.kinds("unknown"):
        end = i
        while scan.kind_at(end + 1) == "unknown":
            end += 1
        strength = scan.at(end + 1)
        if strength is not None and strength.kind in ("percent", "proof") and not scan.used[end + 1] and not scan.used[i]:
            name = scan.text[scan.items[i].start : scan.items[end].end]
            parts.append(Part(name, None, name, False, strength.value))  # "flurb 20%": what was asked for
            scan.use(*range(i, end + 2))
            continue
        q = scan.at(i - 1)
        j = i - 1
        if q is not None and q.is_cue("of"):
            j, q = i - 2, scan.at(i - 2)
        if q is None or q.kind != "amount" or scan.used[j]:
            continue
        last = i
        while scan.kind_at(last + 1) == "unknown":
            last += 1
        name = scan.text[scan.items[i].start : scan.items[last].end]
        parts.append(Part(name, Measure(q.value, q.unit), name, False))
        scan.use(j, *range(i, last + 1))
        if scan.kind_at(last + 1) == "cue:each":
            scan.use(last + 1)


def _prices(scan: Scan, parts: list[Part]) -> list[Part]:
    """ "gin is 28 for 700": the amounts near a name are a bottle's."""
    out: list[Part] = []
    for part in parts:
        size = (
            part.measure if part.measure is not None and (rough_ml(part.measure.value, part.measure.unit) or 0) >= 200 else None
        )
        money = scan.kinds("money")
        if money:
            p = scan.items[money[0]]
            scan.use(money[0])
            out.append(replace(part, measure=None if size else part.measure, size=size, price=Money(p.value, p.unit)))
        else:
            out.append(part)
    return out


def _each_of(scan: Scan, j: int) -> bool:
    """Whether what stands behind the mark at j is the one name's: "forgot the syrup, 10 ml each"."""
    alone = len(scan.kinds("name", "context", fresh=False)) == 1
    return alone and scan.kind_at(j + 1) == "amount" and scan.kind_at(j + 2) == "cue:each"


def _quantity_near(scan: Scan, i: int) -> tuple[Phrase | None, int | None]:
    """The number a name is given: after it ("gin to 65", "gin is 47%"), else before it ("45 gin", "47% gin")."""
    j = i + 1
    while scan.kind_at(j) in ("cue:to", "cue:at", "cue:equals", "cue:of", "cue:make_it", "cue:rest") or (
        scan.kind_at(j) == "sep" and (scan.items[j].name in ":" or _each_of(scan, j))
    ):
        j += 1
    if j == i + 1 and scan.kind_at(j) == "cue:but" and scan.kind_at(i - 1) != "cue:none":
        own = scan.kind_at(j + 1) in _FIGURES and scan.kind_at(j + 2) not in ("name", "context")
        j += own  # "gin only 50", "bourbon's actually 100 proof"; not "gin but 20 vermouth"
    if scan.kind_at(j) == "cue:from" and scan.kind_at(j + 2) == "cue:to" and scan.kind_at(j + 1) == scan.kind_at(j + 3):
        scan.use(j, j + 1)  # "the rye from 60 to 50": what it was
        j += 3
    p = scan.at(j)
    following_name = scan.kind_at(j + 1) in ("name", "context")
    if (
        p is not None
        and not scan.used[j]
        and p.kind in _FIGURES
        and not (following_name and scan.kind_at(i - 1) in ("amount", "bare", "percent"))
    ):
        before = scan.at(i - 1)
        if not (
            before is not None
            and before.kind in _FIGURES
            and not scan.used[i - 1]
            and j == i + 1
            and p.kind == "bare"
            and scan.kind_at(j + 1) == "cue:serve_word"
        ):
            return p, j
    k = i - 1
    while scan.kind_at(k) in ("cue:of",):
        k -= 1
    p = scan.at(k)
    if p is not None and not scan.used[k] and p.kind in _FIGURES:
        return p, k
    return _added(scan, i)


def _added(scan: Scan, i: int) -> tuple[Phrase | None, int | None]:
    """ "guests want pineapple in it, add 15 ml per drink": what is added of the one name, said after it."""
    amounts = scan.kinds("amount")
    if len(amounts) != 1 or amounts[0] < i or len(scan.kinds("name", "context", fresh=False)) != 1:
        return None, None
    q, verb = amounts[0], scan.at(amounts[0] - 1)
    adds = verb is not None and verb.is_cue("bigger") and verb.text in ("add", "adding", "put in")
    return (scan.items[q], q) if adds and scan.kind_at(q + 1) == "cue:each" else (None, None)
