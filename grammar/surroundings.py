"""What stands around a list of amounts: a heading above it, a strength said of several names, brackets behind a name."""

import re

from grammar.scan import Scan
from grammar.words_measures import NUMBER_WORDS

_OF_SEVERAL = re.compile(
    r"\b(?:all|both|each)(?: (?:of )?(?:them|these|those))?(?: (two|three|four|five|six|[2-6]))? (?:are |is )?(?:at |@ ?)$"
)
_FIGURES = frozenset(["amount", "bare", "same_amount", "ratio", "percent", "proof", "count", "guests", "times", "fold", "vessel"])
_HEADING = ("scale", "blend", "recipe_word", "for", "with", "and", "of", "final", "serve_word")


def shared_strength(scan: Scan) -> None:
    """ "gin, rum and vodka, all three at 40%": a strength said of several; each name's phrase carries it as its value."""
    for i in scan.kinds("percent", "proof"):
        said = _OF_SEVERAL.search(scan.text[: scan.items[i].start])
        if said is None:
            continue
        first = next(k for k, p in enumerate(scan.items) if p.end > said.start())
        names = [k for k in scan.kinds("name", "context") if k < first]
        counted = said[1] or ("2" if said[0].startswith("both") else str(len(names)))
        many = NUMBER_WORDS[counted] if counted in NUMBER_WORDS else float(counted)
        if len(names) < many or many < 2:
            continue
        for k in names[-int(many) :]:
            scan.items[k].value = scan.items[i].value
        scan.use(*range(first, i + 1))


def counted_under(scan: Scan, end: int) -> bool:
    """Whether unknown words up to `end` head a count and then a spec: "palate cleanser, 60 covers at 35 ml: gin 1, lime 1"."""
    mark, count = scan.at(end), scan.at(end + 1)
    closed = mark is not None and (mark.is_cue("for") or (mark.kind == "sep" and mark.name == ","))
    counts = count is not None and count.kind in ("count", "guests", "fold", "times")
    if not closed or not counts or scan.kinds("drink", "house") or any(p.kind != "unknown" for p in scan.items[:end]):
        return False
    return len({scan.items[i].name for i in scan.kinds("name", "context")}) > 1


def heading(scan: Scan) -> str:
    """A first line without a figure, above lines that each have one and a name, is a title: "whisky sour mix". Marks it."""
    ends = [i for i, p in enumerate(scan.items) if p.kind == "sep" and p.name == "\n"]
    if not ends or ends[0] == 0:
        return ""
    head = scan.items[: ends[0]]
    if not any(p.kind == "name" for p in head) or any(
        p.kind in _FIGURES or (p.kind == "cue" and p.name not in _HEADING) for p in head
    ):
        return ""
    lines = [scan.items[a + 1 : b] for a, b in zip(ends, [*ends[1:], len(scan)], strict=True)]
    named = [line for line in lines if any(p.kind in ("name", "context") for p in line)]
    if len(named) < 2 or not all(any(p.kind in _FIGURES for p in line) for line in named):
        return ""
    scan.use(*range(ends[0]))
    return scan.text[head[0].start : head[-1].end]


_MEASURES = ("amount", "bare", "same_amount")
_STRENGTHS = ("percent", "proof")


def in_own_brackets(scan: Scan, i: int) -> bool:
    """Whether the mark at i belongs to brackets with one amount and one strength behind a name: "vodka (50 ml, 40%)"."""
    first = i
    while first > 0 and i - first < 4 and not (scan.items[first].kind == "sep" and scan.items[first].name == "("):
        first -= 1
    held = scan.items[first + 1 : first + 5]
    last = next((k for k, p in enumerate(held) if p.kind == "sep" and p.name == ")"), -1)
    if scan.items[first].name != "(" or last < 2 or first + 1 + last < i or scan.kind_at(first - 1) not in ("name", "context"):
        return False
    kinds = [p.kind for p in held[:last] if p.kind != "sep" and not p.is_cue("at", "abv")]
    measured = sum(k in _MEASURES for k in kinds) == 1 and sum(k in _STRENGTHS for k in kinds) == 1
    return measured and len(kinds) == 2 and scan.kind_at(first - 2) not in _MEASURES


def named_by_parts(scan: Scan) -> str:
    """ "rum and coke: 50 ml 43% rum, 150 ml cola": names that open the message and come again with figures. Marks them."""
    end = 0
    while end < len(scan) and (scan.items[end].kind in ("name", "context") or scan.items[end].is_cue("and", "with")):
        end += 1
    said = [p.name for p in scan.items[:end] if p.kind in ("name", "context")]
    mark = scan.at(end)
    if len(said) < 2 or mark is None or any(scan.used[:end]):
        return ""
    first = end + 1 if mark.kind == "sep" else end
    later = [scan.items[i].name for i in scan.kinds("name", "context") if i > first]
    figures = len(scan.kinds("amount", "bare"))
    if scan.kind_at(first) not in _MEASURES or figures < len(later) or any(later.count(name) != 1 for name in said):
        return ""
    scan.use(*range(first))
    return scan.text[scan.items[0].start : scan.items[end - 1].end]
