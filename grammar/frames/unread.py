"""Words that nothing read: those that may stand for something to pour are asked about, talk is stated as passed over."""

from grammar.scan import Scan, Unclear
from grammar.words_measures import FRACTION_WORDS


def unread_words(scan: Scan, in_spec: bool) -> tuple[str, ...]:
    """Unknown words: alone where an ingredient would stand they are asked about; in prose they are stated as skipped.

    Raises Unclear unread.
    """
    skipped: list[str] = []
    i = 0
    while i < len(scan):
        if scan.kind_at(i) != "unknown":
            i += 1
            continue
        j = i
        while scan.kind_at(j) == "unknown":
            j += 1
        before, after = scan.at(i - 1), scan.at(j)
        after_name = before is not None and before.kind in ("name", "context", "garnish") and in_spec
        alone = after_name or (
            (before is None or before.kind == "sep" or before.is_cue("and"))
            and (after is None or after.kind == "sep" or after.is_cue("and"))
        )
        strong = before is not None and before.kind in ("percent", "proof") and not scan.has("water", "dilution")
        closed = after is None or after.kind in ("sep", "percent", "proof") or after.is_cue("and", "with")
        words = scan.text[scan.items[i].start : scan.items[j - 1].end]
        if strong and closed and in_spec and j - i <= 2:
            raise Unclear("unread", scan.items[i:j], words)  # "30% flurb"
        if in_spec and any(p.text in FRACTION_WORDS for p in scan.items[i:j]):
            raise Unclear("unclear_number", scan.items[i:j], words)  # "water = a third of the gin"
        if alone and in_spec and before is not None and len(words) > 2 and j - i <= 3:
            raise Unclear("unread", scan.items[i:j], words)
        if len(words) > 1:
            skipped.append(words)
        scan.use(*range(i, j))
        i = j
    poured = {p.name for p in scan.items if p.kind in ("name", "context", "house")}
    if len(skipped) >= 2 and len(poured) <= 1:
        raise Unclear("unread", [], ", ".join(skipped))
    return (f"skipped:{', '.join(skipped)}",) if skipped else ()
