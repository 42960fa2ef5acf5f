"""Proof said without the word: "750 of 151 rum", "2 oz 101 bourbon" is a strength beside an amount, no second amount.

Changes phrases in place. Only spirits are called so; where other names have bare amounts of that size too, nothing is changed.
"""

from grammar.ingredients_strong import SPIRITS
from grammar.phrase import Phrase

_LEAST, _MOST = 101, 192  # proof of what is called by it; "100 rum" may be an amount: common practice, no source
_BY_ITSELF = 151  # the one figure that needs no name behind it
_LEAST_PROOF = 10.0  # smaller figures are amounts: common practice, no source
_SIZED = ("amount", "vessel", "bare")


def proofs_bare(phrases: list[Phrase]) -> None:
    """Bare figures that can only be a spirit's proof become proofs."""
    said = [p for p in phrases if p.kind != "filler"]
    measured = [
        p
        for k, p in enumerate(said)
        if p.kind == "bare" and p.value >= _LEAST_PROOF and _named(said, k) and not _sized_before(said, k)
    ]
    sizes = [p for p in said if p.kind in ("amount", "vessel", "count") or (p.kind == "bare" and p.value != _BY_ITSELF)]
    shared = not sizes and any(p.kind in ("percent", "proof") for p in said)  # "equal parts 151 rum and 80 proof rum, proof?"
    for i, p in enumerate(said):
        if p.kind != "bare" or not _LEAST <= p.value <= _MOST or p.value != int(p.value):
            continue
        famous = p.value == _BY_ITSELF
        spirit = _named(said, i) and said[i + 1].name in SPIRITS
        alone = famous and said[i - 1].is_cue("of") and not _named(said, i) and i > 1
        if (spirit or alone) and (_sized_before(said, i) or (famous and shared)) and (famous or not measured):
            p.kind, p.value = "proof", p.value / 200.0


def _named(said: list[Phrase], i: int) -> bool:
    return i + 1 < len(said) and said[i + 1].kind in ("name", "context")


def _sized_before(said: list[Phrase], i: int) -> bool:
    """Whether an amount or a bottle stands right before, or before "of"."""
    of = i > 1 and said[i - 1].is_cue("of")
    before = said[i - 2] if of else said[i - 1] if i > 0 else None
    if before is None:
        return False
    return before.kind in _SIZED if of else before.kind == "amount" and before.unit != "part"
