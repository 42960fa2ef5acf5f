"""A mix that is said to hold no alcohol is an ingredient: "3 gal mix no booze", "2 L alcohol free mix".

Changes phrases in place. Never here: a mix of which nothing is said, which may be the whole batch.
"""

import re

from grammar.phrase import Phrase

_NONE = (
    r"(?:(?:no|zero|without|without any|nil|non|not any)[ -]?(?:booze|alcohol(?:ic)?|alc|liquor|spirits?|abv)"
    r"|(?:alcohol|booze|alc)[ -]?free|0 ?%(?: abv| alc(?:ohol)?)?|virgin)"
)
_MIX = r"(?:mix|mixer|base|premix|punch base)"
_BEFORE = re.compile(rf"\b{_NONE} (?:\w+ )?{_MIX}\b")
_BEHIND = re.compile(
    rf"\b{_MIX}\b\W{{0,3}}(?:(?:that|which|with|has|is|has got|got|at) ){{0,2}}{_NONE}"
    r"(?: in (?:it|there|that))?(?: at all)?\)?(?!\w)"
)


def mixers(phrases: list[Phrase], text: str) -> None:
    """An amount of mix without alcohol becomes an amount of mixer."""
    for said in (_BEFORE.search(text), _BEHIND.search(text)):
        if said is None:
            continue
        inside = [i for i, p in enumerate(phrases) if said.start() <= p.start and p.end <= said.end()]
        if not inside:
            continue
        first, last = inside[0], inside[-1]
        while first > 0 and phrases[first - 1].kind in ("drink", "unknown", "filler"):
            first -= 1  # "3 gal marg mix no booze"
        of = first > 0 and phrases[first - 1].is_cue("of")
        if first == 0 or phrases[first - 1 - of].kind not in ("amount", "bare"):
            continue
        start, end = phrases[first].start, phrases[last].end
        phrases[first : last + 1] = [Phrase("name", text[start:end], start, end, name="mixer")]
        return


def _behind_amount(said: list[Phrase], i: int) -> bool:
    j = i - 1
    while j >= 0 and (said[j].kind == "drink" or said[j].is_cue("of")):
        j -= 1
    return j >= 0 and said[j].kind == "amount"


def unsaid_mix(said: list[Phrase]) -> Phrase | None:
    """ "1 L tequila, 3 L mix", "1 gal marg mix plus 750 of tequila": something poured in, or the whole batch."""
    for i, p in enumerate(said):
        alone = i + 1 == len(said) or said[i + 1].kind == "sep" or said[i + 1].is_cue("abv", "percent_word", "what", "how_much")
        poured = p.is_cue("blend") and p.text in ("mix", "mixture") and alone and i > 2 and _behind_amount(said, i)
        if p.is_cue("blend") and i + 2 < len(said) and said[i + 1].is_cue("and", "with", "bigger") and _behind_amount(said, i):
            return p
        if poured and any(q.kind in ("name", "context") for q in said[:i]):
            return p
    return None
