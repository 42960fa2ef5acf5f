"""Strengths of the last drink's bottles, said as bare figures: "gin's navy strength, 57, and the verm is 17. abv now?"."""

import re
from dataclasses import dataclass

from grammar.scan import Scan

_WEAKEST, _STRONGEST = 5.0, 80.0  # % that a bottle says: common practice, no source
_OTHER = ("amount", "count", "guests", "times", "fold", "vessel", "ratio", "money", "house", "drink", "temperature", "negative")
_IS = re.compile(r"\b(?:is|are|it's|its|strength|at|actually)\b")
_LINKS = ("cue:equals", "cue:at", "cue:but", "cue:abv", "cue:make_it", "cue:to")


@dataclass(frozen=True, slots=True)
class Strong:
    """A name and its figure. words: phrases that only say more of the name. sure: it can be no amount."""

    name: int
    figure: int
    words: tuple[int, ...]
    sure: bool


def strengths_said(scan: Scan) -> list[Strong]:
    """Every name with its strength behind it, where the strength of the whole is asked for; [] for anything else."""
    if not scan.has("abv", "proof_word") or scan.kinds(*_OTHER) or scan.has("water", "dilution") or not _IS.search(scan.text):
        return []
    found: list[Strong] = []
    taken: set[int] = set()
    for i in scan.kinds("name", "context"):
        if i in taken:
            continue
        words: list[int] = []
        sure = False
        j = i + 1
        while scan.kind_at(j) in ("name", "context", "sep", *_LINKS):
            said = scan.items[j]
            if said.kind in ("name", "context"):
                if scan.items[i].name not in said.name.split():
                    return []
                words.append(j)  # "gin" of navy strength
            elif said.is_cue("abv"):
                words.append(j)
                sure = True
            elif said.kind == "sep" and said.name != ",":
                return []
            j += 1
        p = scan.at(j)
        fits = p is not None and (p.kind in ("percent", "proof") or (p.kind == "bare" and _WEAKEST <= p.value <= _STRONGEST))
        if p is None or not fits or scan.kind_at(j + 1) not in ("", "sep", "cue:and", "cue:but", "cue:abv", "cue:what"):
            return []
        found.append(Strong(i, j, tuple(words), sure or p.kind != "bare"))
        taken |= {*words, j}
    return found if len(found) == len(scan.kinds("bare", "percent", "proof")) else []
