"""How many serves the amounts of a recipe are typed for: "recipe serves 4: ...", "my recipe for 7 people"."""

from grammar.phrase import Phrase
from grammar.scan import Scan, typed_ml

_NEW_COUNT = ("cue:for", "cue:want", "cue:make_it", "cue:but", "cue:to")
_LEAST_SERVE_ML = 25.0  # amounts for that many serves are no less each: common practice, no source


def base_serves(scan: Scan) -> float | None:
    """ "recipe serves 4": how many serves the amounts typed are for."""
    for i in scan.cues("serves_base"):
        for j in (i + 1, i + 2):
            p = scan.at(j)
            if p is not None and p.kind in ("bare", "count", "guests") and not scan.used[j]:
                scan.use(i)
                if p.kind in ("bare", "count") and not for_that_many(scan, p.value, p):
                    p.kind = "count"  # "makes 36: 40 ml rum, 20 ml lime": so many of that
                    break
                scan.use(j)
                return p.value
    for i in scan.cues("show", "recipe_word"):  # "my recipe for 7 people is ...; I need it for 18"
        j = i + 2 if scan.kind_at(i + 1) == "cue:for" else i + 1
        p = scan.at(j)
        led = j == i + 2 or scan.items[i].text.endswith(" for")
        others = [k for k in scan.kinds("bare", "count", "guests") if k != j and scan.kind_at(k - 1) in _NEW_COUNT]
        if led and others and p is not None and p.kind in ("bare", "count", "guests") and not scan.used[j]:
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
            if not for_that_many(scan, nxt.value, nxt):
                scan.use(i)
                nxt.kind = "count"
                return None
            scan.use(i, i + 1)
            return nxt.value
    return None


_LED = ("make_it", "want", "but", "what", "to", "final", "how_much")
_COUNTED = ("count", "guests")


def then_for(scan: Scan) -> float | None:
    """ "1.2 L rye, 600 sweet vermouth for 25, what's it for 40": amounts for one count, wanted for another."""
    counts = [i for i in scan.kinds("bare", *_COUNTED) if scan.items[i].kind in _COUNTED or _labelled(scan, i)]
    if len(counts) != 2 or scan.kinds("times", "fold"):
        return None
    first, second = counts
    p, q = scan.items[first], scan.items[second]
    led = any(r.is_cue(*_LED) for r in scan.items[first + 1 : second])
    each = scan.kind_at(second + 1) == "cue:each" or scan.kind_at(second - 1) == "cue:each"
    if p.value == q.value or not led or each or not for_that_many(scan, p.value, p):
        return None
    scan.use(first, *[k for k in (first - 1,) if scan.kind_at(k) in ("cue:for", "cue:serve_word")])
    q.kind = "count" if q.kind == "bare" else q.kind
    scan.use(*[k for k in range(second - 3, second) if scan.kind_at(k) in ("cue:final", "cue:what")])
    return p.value


def _labelled(scan: Scan, i: int) -> bool:
    """Whether a bare number is a count by the word before it: "for 25", "do 30", "serves: 1", "yield needed: 45"."""
    before = scan.at(i - 1)
    marked = before is not None and before.kind == "sep" and before.name == ":"
    ends = scan.kind_at(i + 1) in ("", "sep", "cue:of")
    return ends and scan.kind_at(i - 2 if marked else i - 1) in ("cue:serve_word", "cue:serves_base", *_NEW_COUNT)


def for_that_many(scan: Scan, serves: float, at: Phrase) -> bool:
    """Whether the amounts typed can be for that many serves together: "makes 36: 40 ml rum ..." is for one of 36."""
    typed = [p for p in scan.items if p is not at and p.kind in ("amount", "bare", "same_amount")]
    sizes = [typed_ml(p) for p in typed]
    return any(s is None for s in sizes) or sum(s or 0.0 for s in sizes) >= _LEAST_SERVE_ML * serves
