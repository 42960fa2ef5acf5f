"""What is named and is no part of the batch: poured later at the pass or the table, or only wetting the glass.

Lives here: "soda on top later", "prosecco and soda at service", "egg white to order", "don't count the soda", "absinthe rinse".
"""

import re

from grammar.scan import Scan
from grammar.words_slang import LATER, RINSES

_FIGURES = ("amount", "bare", "same_amount")
_NAMED = ("name", "context", "garnish")
_AT_THE_PASS = re.compile(
    r"\s*(?:(?:is|are|goes|go|gets|will be|to be|comes?) )*(?:(?:added|poured|put|topped|done|in) )*"
    r"(?:later|after(?:wards)?|separately|on top|to order|last"
    r"|(?:at|on|by|in|into) (?:the )?(?:service|table|bar|pass|end|night|day|party|glass|glasses|flute|venue)"
    r"|(?:when|as) (?:we |they |you )?(?:serv\w+|pour\w*)|on site)\b"
    r"(?:\W*(?:so )?(?:leave|keep|take) (?:it|that|them) out(?: of (?:it|this|that|the batch))?\b)?"
)
_LEFT_OUT = re.compile(
    r"\b(?:don't|dont|do not|not) (?:includ(?:e|ing)|count(?:ing)?|add(?:ing)?|batch(?:ing)?|pre-?mix) (?:in )?(?:the |any )?$"
)


_LEAVE_OUT = re.compile(
    r"\b(?:leave|leaving|keep) (?:the |all the |any )?(?!it\b|them\b|that\b|water\b|dilution\b)\w+(?: \w+)? out\b"
)


def poured_later(scan: Scan) -> list[str]:
    """ "soda on top later", "absinthe rinse": names without an amount that are no part of the batch. Marks them."""
    found: list[str] = []
    out_of_it = _LEAVE_OUT.search(scan.text)
    if out_of_it is not None:  # "leave the whites out"
        held = [k for k, p in enumerate(scan.items) if out_of_it.start() <= p.start < out_of_it.end()]
        if not any(scan.items[k].kind in _FIGURES for k in held):
            scan.use(*held)
    for i in scan.kinds("name", "garnish"):
        if scan.used[i]:
            continue
        wet = _rinse(scan, i)
        if wet:
            found.append(wet)
            continue
        p = scan.items[i]
        near = (scan.kind_at(i - 1), scan.kind_at(i + 1))
        if near[0] in _FIGURES or near[1] in _FIGURES or p.name == "water":
            continue
        last = i
        while (q := scan.at(last + 1)) is not None and not scan.used[last + 1] and q.text in LATER:
            last += 1
        said = _AT_THE_PASS.match(scan.text, p.end)
        out = _LEFT_OUT.search(scan.text, 0, p.start)
        if said is not None:
            last = max(last, *[k for k in range(i, len(scan)) if scan.items[k].start < said.end()])
        if p.kind == "garnish" and said is None and out is None:
            continue
        if last == i and said is None and out is None:
            continue
        for k in (*_beside(scan, i), i):
            found.append(scan.items[k].text if scan.items[k].kind == "garnish" else "top with " + scan.items[k].name)
            scan.use(k)
        scan.use(*range(i, last + 1))
        if out is not None:
            scan.use(*[k for k in range(i) if scan.items[k].start >= out.start()])
    return found


def _rinse(scan: Scan, i: int) -> str:
    """ "absinthe rinse", "mist of peat": what only wets the glass, marked; "" for anything else."""
    p = scan.items[i]
    if scan.kind_at(i + 1) == "unknown" and scan.items[i + 1].text in RINSES and scan.kind_at(i - 1) not in _FIGURES:
        scan.use(i, i + 1)
        return f"{p.text} {scan.items[i + 1].text}"
    wets = i - 2 if scan.kind_at(i - 1) in ("cue:of", "cue:with") else i - 1
    if scan.kind_at(wets) == "unknown" and scan.items[wets].text in RINSES and scan.kind_at(i + 1) not in _FIGURES:
        scan.use(*range(wets, i + 1))
        return f"{scan.items[wets].text} of {p.text}"
    return ""


def _beside(scan: Scan, i: int) -> list[int]:
    """The name joined before the one at i, which goes in with it: "prosecco and soda at service"."""
    joined = scan.kind_at(i - 1) == "cue:and" and scan.kind_at(i - 2) in _NAMED
    return [i - 2] if joined and scan.kind_at(i - 3) not in (*_FIGURES, *_NAMED) else []
