"""The coins of a money question: "20c" and "20p" are hundredths, small change beside a name, and one currency for all of it."""

from grammar.request import Measure, Money, Part
from grammar.scan import Scan, Unclear

_LABELS = ("name", "context", "garnish", "unknown", "cue:garnish", "cue:ice", "cue:rest", "cue:serve_word")
#: what goes into a drink beside its bottles and is never bought by the bottle
_SUNDRIES = frozenset(
    ["bits", "other", "others", "extra", "extras", "mixer", "mixers", "garnish", "garnishes", "rest", "else", "everything",
     "stuff", "sundries", "ice", "straw", "napkin"]
)  # fmt: skip
_SMALL_CHANGE = 1.0  # below it a sum is no bottle's price: common practice, no source
_ENDS = ("", "sep", "cue:and", "cue:each")


def small_coins(scan: Scan) -> None:
    """ "olive 20c", "20p garnish": hundredths, where money is spoken of and no cold."""
    if scan.has("freezer", "slush", "point", "convert"):
        return
    for i in reversed(range(len(scan))):
        p, after = scan.items[i], scan.at(i + 1)
        pence = p.kind == "bare" and after is not None and after.kind == "unknown" and after.text == "p"
        cents = p.kind == "temperature" and p.unit == "c"
        if (cents or pence) and 0 < p.value < 100:
            p.kind, p.value, p.unit = "money", p.value / 100.0, ""
            if pence and after is not None:
                after.kind = "filler"
                del scan.items[i + 1], scan.used[i + 1]


def one_currency(scan: Scan) -> None:
    """Raises Unclear two_readings where pounds and euros are reckoned together: no rate of exchange is known here."""
    said = [p for p in scan.items if p.kind == "money" and p.unit]
    signs = list(dict.fromkeys(p.unit for p in said))
    if len(signs) > 1:
        raise Unclear("two_readings", said, f"{signs[0]} or {signs[1]}")


def small_change(scan: Scan) -> list[Part]:
    """ "olive 20c", "other bits .60", "mixer 1.20": what a drink costs beside its bottles. Marks it."""
    out: list[Part] = []
    for i in scan.kinds("money", "bare"):
        p = scan.items[i]
        before, after = _run(scan, i, -1), _run(scan, i, 1)
        opened = scan.kind_at(i - len(before) - 1) in _ENDS and scan.kind_at(i + 1) in _ENDS
        closed = scan.kind_at(i - 1) in _ENDS and scan.kind_at(i + len(after) + 1) in _ENDS
        run = before if before and opened else after if after and closed else []
        sundry = bool(run) and all(scan.items[k].text in _SUNDRIES or scan.items[k].kind == "garnish" for k in run)
        priced = sundry and (p.kind == "money" or "." in p.text)  # "2 oz gin, .75 lime" is poured
        if not run or not (priced or (p.kind == "money" and p.value < _SMALL_CHANGE)):
            continue
        named = scan.text[scan.items[min(run)].start : scan.items[max(run)].end]
        scan.use(i, *run, *([i + 1] if scan.kind_at(i + 1) == "cue:each" else []))
        for k in run:
            scan.items[k].kind = "filler"  # no bottle's name
        out.append(Part(f"{named} a drink", Measure(1.0, "count"), named, False, None, Money(p.value, p.unit)))
    return out


def _run(scan: Scan, i: int, step: int) -> list[int]:
    """The words that name a thing, from the figure at i on, up to four."""
    run: list[int] = []
    while len(run) < 4 and scan.kind_at(i + step * (len(run) + 1)) in _LABELS:
        run.append(i + step * (len(run) + 1))
    return run
