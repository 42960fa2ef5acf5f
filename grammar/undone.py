"""Messages that take the last change back: "undo that", "put it back how it was", "put the water back to what it was".

Whether one does, and what of the drink goes back. What it was before, only the answer knows.
"""

import re

from grammar.scan import Scan

ALL = "all"
_LEAD = (
    r"\W*(?:(?:no|nah|nope|ok|okay|actually|sorry|oops|whoops|wait|please|pls|hmm|ugh|argh|can you|can u|could you|lets|let's"
    r"|just|and|then|so|now|on second thoughts?|scratch that|forget that|never ?mind)\b[\s,.!]*)*"
)
_IT = r"(?:it|that|this|them|those|everything|the lot|all of it|things)"
_CHANGE = (
    r"(?:(?:the |my )?(?:last|latest|previous)(?: (?:one|change|bit|step|swap|edit|thing|message))?"
    r"|(?:the|my) (?:change|swap|edit))"
)
_WAS = (
    r"(?:(?:to )?(?:how|what|the way|as|where|like) (?:it|that|they|we|i|u|you) (?:was|were|had|had it|been|did)"
    r"(?: it)?(?: before| at first)?)"
)
_BEFORE = rf"(?:{_WAS}|(?:as|like|to) before|to the (?:last|previous|one before)(?: one| version)?|again|one step|a step|one)"
_UNDONE = re.compile(
    rf"{_LEAD}(?:"
    rf"(?:undo|revert|reverse|roll back)(?: {_IT}| {_CHANGE}|(?= *(?:$|[,.!;]|please|pls|plz)))"
    rf"|(?:put|change|switch|set|roll|take|turn|bring) {_IT} (?:all )?back(?: {_BEFORE})?"
    rf"|(?:go|going|switch|change|step) back (?:{_BEFORE})"
    rf"|back to (?:how|what|the way|where|as) (?:it|that|they|we|i) (?:was|were|had)(?: it)?(?: before)?"
    rf"|(?:leave|keep|make|have) {_IT} (?:how|the way|as|like|what) (?:it|they|that) (?:was|were)(?: before)?"
    rf"|as (?:it|you) (?:was|were)(?: before)?"
    r")(?= *$|[^\w'])"
)
_PART = re.compile(
    rf"{_LEAD}(?:(?:put|change|set|take|switch|bring|turn) (?:just |only )?the (?P<a>[a-z][a-z ]{{1,30}}?) back(?: {_BEFORE})?"
    rf"|(?:put|leave|keep|have|make) (?:just |only )?the (?P<b>[a-z][a-z ]{{1,30}}?) (?:back )?{_WAS})(?= *$|[^\w'])"
)


def undone(scan: Scan) -> str:
    """What goes back to what it was: ALL, "water", an ingredient's name; "" when the message takes nothing back."""
    if scan.kinds("house", fresh=False):
        return ""
    part = _PART.match(scan.text)
    if part is not None:
        return _named(scan, part)
    found = _UNDONE.match(scan.text)
    return ALL if found is not None and not _figures(scan, found.end()) else ""


def _figures(scan: Scan, end: int) -> bool:
    """Whether a figure stands behind the words that undo: then something else is wanted as well."""
    return any(any(c.isdigit() for c in p.text) for p in scan.items if p.start >= end)


def _named(scan: Scan, part: re.Match[str]) -> str:
    said = part["a"] or part["b"]
    if _figures(scan, part.end()):
        return ""
    if said in ("water", "dilution"):
        return "water"
    named = [p.name for p in scan.all if p.kind in ("name", "context") and part.start() <= p.start < part.end()]
    return named[0] if len(named) == 1 else ""
