"""Reading what a message says about water: a share, of what; an amount; the rest; none.

Takes the percent beside a water or dilution word and marks both. An amount of water is left for the recipe to pair,
because it may stand anywhere an ingredient stands.
"""

import re

from grammar.request import Water
from grammar.scan import Scan, Unclear
from grammar.strongest import strongest
from grammar.to_strength import read_target

#: ways to say that water is a share of everything, itself included
OF_WHOLE = re.compile(
    r"\bwater (?:should |must |to |will |that )?(?:mak(?:e|es|ing) up|accounts? for|accounting for)\b"
    r"|(?<!how much )\bof (?:it|that|which) (?:is |being |as )?water\b"
    r"|\b(?:finished|final)\b[^?;]{0,30}? (?:it'?s|it is|that'?s|which is) \d+(?:\.\d+)? ?(?:%|pct|percent) water\b"
    r"|\b(?:finished|final|whole) (?:mix|batch|drink|product|cocktail|thing|volume|bottle)(?: (?:is|are|has|contains|must"
    r"|should|to|be|being|at|wants?|needs?|about|an?|one|two|three)){0,5}"
    r" (?:\d+ ?(?:%|percent)|thirds?|quarters?|fifths?|sixth|eighth|tenth) water\b"
    r"|\b(?:final|finished|total|overall|whole)\b[^.?;]{0,40}?\bwater (?:is |being |at |to be |should be |will be )?(?:about )?"
    r"\d+(?:\.\d+)? ?(?:%|pct|percent|per cent) of (?:it|that|this|which)\b"
    r"|\bof which (?:is |should be |must be )?\d+(?:\.\d+)? ?(?:%|pct|per ?cent) (?:is |as )?(?:to be )?water\b"
)
#: ways to say that water is a share of a volume said
OF_VOLUME = re.compile(
    r"\bof (?:an? |the |our |my |that |this )?\d+(?:\.\d+)? ?(?:l|ml|cl|oz)\b[^.?;]{0,24} (?:is|be) (?:just |plain )?water\b"
    r"|\bwater (?:is|to be|should be|must be|makes up) (?:about )?(?:an? |one )?(?:[\d./]+ ?(?:%|percent|pct)?|\w+)"
    r" of (?:an? |the |our |my |that |this )\d+(?:\.\d+)? ?(?:l|ml|cl|oz)\b"
    r"(?! (?:of )?(?:the |my )?(?:mix|premix|undiluted|booze))"
)
_MADE = ("amount", "vessel", "bare", "count")
_SAID = ("cue", "unknown")
_MEASURED_NEXT = ("name", "context", "amount", "bare", "percent")
_YET = re.compile(r"\bno water (?:\w+ ){0,2}yet\b")
_BETWEEN = (
    "of", "at", "to", "and", "with", "bigger", "in", "final", "undiluted", "scale", "recipe_word", ":", "(", "=",
    "equals", "dilution", "water", "by_volume", "for", "each", "but", "make_it", "set_to", "smaller",
    "serve_word", "oops", "blend", "same", "what",
)  # fmt: skip
_NAMES = ("name", "context")
_QUALIFIERS = (
    "of",
    "in",
    "final",
    "undiluted",
    "scale",
    "by_volume",
    "recipe_word",
    "each",
    "at",
    "on",
    "to",
    "dilution",
    "water",
)


_LEFT_OUT = re.compile(
    r"\b(?:leave|take|miss|cut) out (?:the |all |that )?(?:water|dilution)\b(?! *\d)"
    r"|\b(?:water|dilution) (?:out|off|away)\b(?! *\d)"
    r"|\b(?:do not|don't|dont|never) (?:dilute|add (?:any |the )?(?:water|dilution))\b"
    r"|\b(?:drop|lose|skip|omit|scrap|ditch|bin) (?:the |all |all the |that )?(?:water|dilution)\b(?! *\d| to| by| down)"
)


def read_water(scan: Scan) -> Water:
    """The share, "none" or "rest" said of water, marked as used; Water() when nothing is said (or only an amount).

    Raises Unclear conflict_total when two different shares are given, out_of_range for a share no batch can have.
    """
    wanted = read_target(scan)
    if wanted is not None:
        return wanted
    found: Water | None = None
    left_out = _LEFT_OUT.search(scan.text) if scan.has("water", "dilution") else None
    if left_out is not None and "%" not in left_out.group():
        scan.use(*[i for i, p in enumerate(scan.items) if left_out.start() <= p.start < left_out.end() and p.kind in _SAID])
        return Water("none")
    parts = _in_parts(scan) or _asked_for(scan)
    if parts is not None:
        return parts
    down = [i for i in scan.cues("cut") if scan.items[i].text.startswith("water")]  # "water down 20%"
    if _topped_up(scan):
        return Water("rest")
    for w in [*scan.cues("water", "dilution"), *down]:
        if scan.used[w]:
            continue
        read = _one(scan, w)
        if read is None or (read.how == "none" and _YET.search(scan.text)):
            continue  # "no water yet": what it will get may be said beside it
        if found is not None and read.how == "unsaid":
            continue
        if found is not None and found.how != "unsaid" and found != read:
            raise Unclear("conflict_total", [scan.items[w]], "two different amounts of water")
        found = read
    return found or Water()


def watered_by(scan: Scan, i: int) -> bool:
    """Whether the percent at i is the water that went in: "700 ml at 38%, watered 15%", "... diluted by 20%"."""
    before = scan.at(i - 1)
    return before is not None and before.text in ("watered", "diluted", "watered by", "diluted by")


def _in_parts(scan: Scan) -> Water | None:
    """ "one part water to four parts cocktail", "1 part water per 4 parts mix": a share of the undiluted volume. Marks it."""
    for w in scan.cues("water"):
        wet, dry, of_what = scan.at(w - 1), scan.at(w + 2), scan.kind_at(w + 3)
        led = scan.kind_at(w + 1) in ("cue:to", "cue:for", "cue:each", "cue:in", "cue:of")
        fits = wet is not None and dry is not None and wet.kind == dry.kind == "amount" and wet.unit == dry.unit == "part"
        mixed = of_what in ("cue:serve_word", "cue:scale", "cue:blend", "cue:recipe_word", "drink", "unknown", "", "sep")
        if led and fits and mixed and wet is not None and dry is not None and dry.value > 0:
            scan.use(w - 1, w, w + 1, w + 2, *([w + 3] if of_what not in ("", "sep", "drink") else []))
            return Water("of_undiluted", wet.value / dry.value)
    return None


def _asked_for(scan: Scan) -> Water | None:
    """ "how much water for 8: 2 oz rye 1 oz sweet vermouth 25%": a share that is no strength of what it follows. Marks it."""
    asked = [i for i in scan.cues("how_much") if scan.kind_at(i + 1) == "cue:water"]
    shares = scan.kinds("percent")
    if not asked or len(shares) != 1 or scan.kind_at(shares[0] - 1) not in _NAMES or len(scan.kinds(*_NAMES)) < 2:
        return None
    p, name = scan.items[shares[0]], scan.items[shares[0] - 1].name
    ends = all(q.kind == "sep" for q in scan.items[shares[0] + 1 :])
    if not ends or not strongest(name) < p.value < 1.0:
        return None
    scan.use(shares[0], asked[0], asked[0] + 1)
    return Water("of_undiluted", p.value)


def _topped_up(scan: Scan) -> bool:
    """ "top w/ water to 1.35 L", "topped off with water, to 2 L": a volume behind it makes the water the rest of it. Marks it."""
    for t in scan.cues("top"):
        w = t + 1
        while scan.kind_at(w) in ("cue:with", "cue:of"):
            w += 1
        to = w + 2 if scan.kind_at(w + 1) == "sep" else w + 1
        led, size = scan.at(to), scan.at(to + 1)
        reached = led is not None and led.is_cue("to", "rest", "fit", "final") and size is not None
        if scan.kind_at(w) == "cue:water" and reached and size is not None and size.kind in ("amount", "vessel", "bare"):
            scan.use(t, w)
            return True
    return False


def _one(scan: Scan, w: int) -> Water | None:
    items = scan.items
    left = _percent(scan, w, -1)
    right = _percent(scan, w, +1)
    if left is not None and right is not None:
        before = scan.at(left - 1)
        owned = before is not None and before.kind in ("name", "context") and not scan.used[left - 1]
        own_amount = before is not None and before.kind in ("bare", "amount")  # "gin 60 40% water 20%"
        owned = owned or (own_amount and scan.kind_at(left - 2) in _NAMES and scan.kind_at(left - 3) not in ("bare", "amount"))
        owned = owned and not _shares_first(scan, right)
        owned = owned and scan.kind_at(right + 1) not in ("cue:water", "cue:dilution")  # "vermouth 20% water 30% water"
        left, right = (None, right) if owned else (left, None)
    chosen = left if left is not None else right
    if chosen is not None:
        share = items[chosen].value
        leads = scan.kind_at(chosen - 1) == "cue:final" and chosen < w
        of_share = leads and scan.kind_at(chosen - 2) not in _MADE  # "final 25% water", not "2 L final, 25% water"
        if leads:
            scan.use(chosen - 1)
        lo, hi = min(w, chosen), max(w, chosen)
        of_finished = of_share or any(p.is_cue("final") for p in items[lo : hi + 1]) or OF_WHOLE.search(scan.text) is not None
        of_undiluted = any(p.is_cue("undiluted") for p in items[lo : hi + 1])
        scan.use(*range(lo, hi + 1))
        i = hi + 1
        while i < len(items) and items[i].kind == "cue" and items[i].name in _QUALIFIERS and not scan.used[i]:
            if items[i].name == "each" or (items[i].name in ("water", "dilution") and items[i - 1].kind != "cue"):
                break
            if items[i].name == "final" and starts_volume(scan, i):
                break
            of_finished |= items[i].name == "final"
            of_undiluted |= items[i].name == "undiluted"
            i += 1
        if of_finished or of_undiluted or i == hi + 1:
            scan.use(*range(hi + 1, i))
        if w < chosen and scan.kind_at(hi + 1) == "cue:of" and scan.kind_at(hi + 2) in ("name", "context"):
            raise Unclear("unclear_number", items[lo : hi + 3], f"{items[chosen].text} of the {items[hi + 2].text}")
        if share < 0 or share > 3 or (of_finished and share >= 1):
            raise Unclear("out_of_range", items[lo : hi + 1], f"{share * 100:g} % water")
        if share == 0:
            return Water("none")
        return Water("of_finished" if of_finished and not of_undiluted else "of_undiluted", share)
    for step in (-1, +1):
        i = w + step
        while scan.at(i) is not None and (
            items[i].is_cue("bigger", "of", "dilution", "and", "with", "to", "scale", "at")
            or (items[i].kind == "sep" and items[i].name in "(:-")
            or (step > 0 and items[i].is_cue("equals"))
            or items[i].kind == "unknown"
        ):
            i += step
        p = scan.at(i)
        if p is None or scan.used[i]:
            continue
        closed = scan.kind_at(i + 1) not in _MEASURED_NEXT and items[i].text in ("none", "no", "zero")
        if p.is_cue("none") and (step < 0 or closed):
            scan.use(i, w)
            return Water("none")
        if p.is_cue("rest") and not (p.text == "up to" and scan.kind_at(i + 1) == "bare" and items[i + 1].value <= 100):
            scan.use(i, w)
            return Water("rest")
    sides = (scan.kind_at(w - 2 if scan.kind_at(w - 1) == "cue:of" else w - 1), scan.kind_at(w + 1))
    filled = any(items[i].text != "up to" or scan.kind_at(i + 1) != "bare" for i in scan.cues("rest"))
    if filled and "amount" not in sides and "bare" not in sides:
        scan.use(w, *scan.cues("rest"))  # "make up to 2 L with water"
        return Water("rest")
    return None


def _shares_first(scan: Scan, right: int) -> bool:
    """Whether every share stands before its name, the one at `right` too: "60% rum 30% water 10% lime"."""
    named = ("name", "context")
    first = scan.kinds("percent", fresh=False)[0]
    return scan.kind_at(right + 1) in named and scan.kind_at(first - 1) not in named and scan.kind_at(first + 1) in named


def starts_volume(scan: Scan, i: int) -> bool:
    """Whether "final" at i is said of the amount after it, not of the share before: "25% water, finished 5 L"."""
    joined = scan.at(i - 1) is not None and scan.items[i - 1].is_cue("of", "in")
    return not joined and scan.kind_at(i + 1) in ("amount", "vessel")


def _percent(scan: Scan, w: int, step: int) -> int | None:
    """Index of an unused percent on one side of a water word, with only linking words between."""
    i = w + step
    passed = 0
    while (p := scan.at(i)) is not None and passed < 6:
        if p.kind == "negative" and not scan.used[i] and "%" in scan.text[p.start : p.end + 2]:
            raise Unclear("out_of_range", [p], f"{p.value:g} % water")
        if p.kind == "percent" and not scan.used[i]:
            return i
        up_to = p.is_cue("rest") and p.text == "up to"  # "bump the dilution up to 30%"
        if p.kind == "cue" and (p.name in _BETWEEN or up_to) and not (step < 0 and p.name == "with"):
            i += step
            passed += 1
            continue
        if p.kind == "sep" and p.name in ":(":
            i += step
            passed += 1
            continue
        return None
    return None
