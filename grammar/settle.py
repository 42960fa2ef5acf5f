"""What a terminal turns out to be once its neighbours are known: a mark's side, a number word's meaning.

The last step of lexing. Changes terminals in place; nothing here knows what a phrase is.
"""

from grammar.lexer_looks import of_bottle, set_off, sized, volume_said, whole_said
from grammar.pieces import Tok
from grammar.scan import LEAST_BOTTLE_ML
from grammar.words_measures import FRACTION_WORDS

_LITRE_PARTS = {"ml": 1, "cl": 10, "l": 1000}
_WHOLE_BOTTLE_ML, _LARGEST_BOTTLE_ML = 500.0, 5000.0  # of a bottle said by its size alone: common practice, no source
_COUNTED = frozenset(["UNIT", "PCT", "PROOF", "GUEST", "COUNT", "DEGREES", "VESSEL", "DRINK"])
PLURAL_SIZES = frozenset([187.0, 200.0, 330.0, 350.0, 375.0, 500.0, 700.0, 750.0, 1000.0, 1750.0])


def settle(out: list[Tok]) -> None:
    """Give "x", currency signs and "to" the side they belong to: x8 or 8x, $28 or 28$, 3 to 1; and "half gin" its half."""
    _drop_between(out)
    if any(t.text in FRACTION_WORDS for t in out):
        _and_a_half(out)
        _part_of_bottle(out)
    for i, tok in enumerate(out):
        before = out[i - 1] if i else None
        after = out[i + 1] if i + 1 < len(out) else None
        left = before is not None and before.type == "NUM"
        right = after is not None and after.type == "NUM"
        if tok.type == "X":
            if left and right and before is not None and after is not None:
                name_first = i > 1 and out[i - 2].type in ("ING", "CONTEXT")
                last = i + 2 >= len(out) or out[i + 2].type == "SEP" or _said_on(out, i)
                listed = i > 1 and out[i - 2].type in ("SLASH", "COLON") and last  # "30/30/30 x 20"
                own = tok.spaced and (not after.spaced or (name_first and last) or listed)
                tok.type = "TIMES" if own else "FOLD"
            else:
                tok.type = "FILL" if sized(out, i) else "TIMES" if right else "FOLD" if left else "FILL"
        elif tok.value == "proof_word" and after is not None and right and not left and _ends(out, i + 2):
            out[i : i + 2] = [after, Tok("PROOF", "proof", "proof", after.end_pos, after.end_pos)]  # "proof 120 to proof 90"
        elif tok.type == "DASH" and left and right and set_off(out, i):
            tok.type, tok.value = "SEP", "-"  # "vermouth 30 - 10 drinks"
        elif tok.text in ("to", "too") and tok.type != "WORD" and left and right and before is not None and after is not None:
            opener = out[i - 2] if i > 1 else None
            closer = out[i + 2] if i + 2 < len(out) else None
            small = 0 < before.value <= 20 and 0 < after.value <= 20
            free = opener is None or not (opener.type == "CUE" and opener.value in ("from", "at", "cut", "raise", "to"))
            if opener is not None and closer is not None and opener.type == closer.type == "COLON":
                free = False  # "2:1 to 1:1" is two ratios
            if opener is not None and opener.value == "at" and (after.value == 1 or max(before.value, after.value) <= 10):
                free = True  # "at four to one", "gin and fino at 5 to 2": no strength is that low
            if (
                small
                and free
                and min(before.value, after.value) < 8  # "change the 12 to 20" is no ratio
                and not (closer is not None and closer.type in _COUNTED and not (opener and opener.type == "COLON"))
            ):
                tok.type, tok.value = "COLON", ":"
        elif tok.text in FRACTION_WORDS and tok.type in ("WORD", "VESSEL", "CUE") and _is_share(out, i):
            tok.type, tok.value = "SHARE", FRACTION_WORDS[tok.text]
            if left and before is not None and before.value in (1, 2, 3, 4) and before.text.isalnum():
                tok.value *= before.value  # "one fifth water", "two fifths of the total is water"
                before.type = "FILL"
        elif (
            tok.type == "NUM"
            and "/" in tok.text
            and tok.value < 1
            and not (after is not None and after.type in ("UNIT", "ING", "SLASH"))
            and _is_share(out, i)
        ):
            tok.type = "SHARE"  # "water 1/6 of the finished 3 L"
        elif tok.text == "4" and right and i + 2 < len(out) and out[i + 2].type in ("DRINK", "COUNT", "GUEST"):
            tok.type, tok.value = "CUE", "for"  # "bottles 4 80 margs"
        elif tok.type == "CUE" and tok.text == "no" and before is not None and _titled(out, i) and _numbered(out, i):
            tok.type = "FILL"  # "mai tai no. 1"
            out[i + 1 if right else i + 2].type = "FILL"
        elif tok.type == "WORD" and tok.text in FRACTION_WORDS and after is not None and after.type in ("ING", "CONTEXT"):
            tok.type, tok.value = "NUM", FRACTION_WORDS[tok.text]
            if left and before is not None and before.value in (1, 2, 3) and before.text.isalnum():
                tok.value *= before.value  # "two thirds gin, one third vermouth"
                before.type = "FILL"
        elif tok.type == "WORD" and tok.text == "half" and after is not None and after.type == "A" and i + 2 < len(out):
            if out[i + 2].value in PLURAL_SIZES:
                out[i + 2].value *= 0.5  # "half a 700"
                tok.type = "FILL"
            elif out[i + 2].type in ("ING", "CONTEXT"):
                tok.type, tok.value, after.type = "NUM", 0.5, "FILL"  # "half a lime"
        elif tok.type == "NUM" and tok.text == "one" and _one_drink(out, i):
            tok.type, tok.value = "CUE", "each"  # "what does one cost", "cost of one"
        elif (
            tok.type == "NUM"
            and tok.text == "one"
            and right
            and i + 2 < len(out)
            and out[i + 2].type == "UNIT"
            and out[i + 2].value in ("cl", "l", "ml")
        ):
            tok.type = "FILL"  # "one 75 cl of prosecco"
        elif tok.text in ("all", "everything in") and tok.type == "FILL" and _whole_said(out, i):
            tok.type, tok.value = "CUE", "final"  # "2 L all in", "3 L with everything in"
            if tok.text == "all" and after is not None:
                after.type = "FILL"
        elif (
            tok.type == "NUM"
            and tok.value == 1.75
            and before is not None
            and (before.type == "A" or before.value == "(")
            and (after is None or after.type in ("SEP", "CUE"))
        ):
            tok.value = 1750.0  # "out of a 1.75": litres
        elif tok.type == "UNSURE" and any(t is not None and t.type == "CURRENCY" for t in (before, after)):
            tok.type, tok.value = "NUM", float(tok.text.replace(".", ""))  # "12.000 pesos": no price has a third decimal
        elif tok.text == "ones" and tok.type == "WORD" and before is not None and before.type == "UNIT" and i > 1:
            measured = out[i - 2].type == "NUM" and out[i - 2].value * _LITRE_PARTS.get(before.value, 0.0) >= LEAST_BOTTLE_ML
            tok.type, tok.value = ("VESSEL", "bottles") if measured else ("FILL", "")  # "1 L ones"
        elif tok.type == "CURRENCY":
            touching = right and after is not None and after.start_pos == tok.end_pos
            tok.type = "SIGN" if right and (touching or not left) else "CODE" if left else "FILL"
            if before is not None and before.type == "A" and after is not None and right and _cents(tok, after, out, i + 2):
                before.type, before.value = "NUM", 1.0 + after.value / 100.0  # "a dollar fifty"
                tok.type, after.type = "CODE", "FILL"
            elif left and right and before is not None and after is not None and _cents(tok, after, out, i + 2):
                before.value += after.value / 100.0  # "one dollar eighty"
                tok.type, after.type = "CODE", "FILL"


_COINED = frozenset(["dollar", "dollars", "buck", "bucks", "euro", "euros", "pound", "pounds", "quid"])
_NO_CENTS = ("UNIT", "COUNT", "GUEST", "DRINK", "ING", "CONTEXT", "VESSEL", "PCT", "COLON", "SLASH", "X")


def _cents(tok: Tok, after: Tok, out: list[Tok], j: int) -> bool:
    """Whether the number behind the word for money is its hundredths: "nine dollars fifty", "1 euro 80"."""
    counts = j < len(out) and out[j].type in _NO_CENTS
    two_figures = len(after.text) == 2 or after.text.replace(" ", "").replace("-", "").isalpha()
    return tok.text in _COINED and not counts and two_figures and 1 <= after.value < 100


_SIZE_WORDS = frozenset(
    ["little", "small", "tiny", "big", "large", "huge", "nice", "new", "clean", "more", "cold", "chilled", "good", "standard"]
)
_NOUNS = ("VESSEL", "COUNT", "GUEST", "DRINK")


def _drop_between(out: list[Tok]) -> None:
    """Take out what says nothing between a number and what it counts ("six little bottles"), and an hour ("by six, ...")."""
    for i in range(len(out) - 2, 0, -1):
        before, tok, after = out[i - 1], out[i], out[i + 1]
        if tok.type == "FILL" and before.type == "NUM" and after.type in _NOUNS and tok.text in _SIZE_WORDS:
            del out[i]
        elif tok.text in ("full", "whole") and before.type == "A" and after.type == "UNIT":
            del out[i]  # "a full litre"
        elif tok.type == "NUM" and tok.text.isalpha() and before.text == "by" and _hour_ends(after) and i + 2 < len(out):
            tok.type = "FILL"


def _hour_ends(after: Tok) -> bool:
    return after.type == "SEP" or after.text in ("tonight", "tomorrow", "today", "latest", "sharp")


def _one_drink(out: list[Tok], i: int) -> bool:
    """Whether "one" is one drink whose cost is asked for, and no amount."""
    after = out[i + 1] if i + 1 < len(out) else None
    if after is not None and after.value in ("cost", "price"):
        return True
    closed = after is None or after.type == "SEP" or after.value in ("and", "final")
    return closed and i > 1 and out[i - 1].value in ("of", "for") and out[i - 2].value in ("cost", "price")


def _and_a_half(out: list[Tok]) -> None:
    """ "an ounce and a half of gin", "shot and a half": the fraction belongs to the amount before it.

    In "700 ml and a fifth of that" it is a share.
    """
    i = 1
    while i < len(out):
        half = i + 2 if i + 2 < len(out) and out[i + 1].type == "A" else i + 1
        joined = out[i].value == "and" and out[i - 1].type == "UNIT" and half < len(out)
        whole = half + 2 < len(out) and out[half + 1].value == "of" and out[half + 2].type in ("FILL", "CUE")
        whole = whole or (half + 1 < len(out) and out[half + 1].type in ("A", "VESSEL", "UNIT"))  # "1 L plus half a bottle"
        if joined and not whole and out[half].text in FRACTION_WORDS and out[half].type in ("WORD", "VESSEL"):
            more = FRACTION_WORDS[out[half].text]
            del out[i : half + 1]
            held = out[i - 2] if i > 1 else None
            if held is not None and held.type == "NUM":
                held.value += more
            elif held is not None and held.type == "A":
                held.type, held.value = "NUM", 1.0 + more
            else:
                unit = out[i - 1]
                out.insert(i - 1, Tok("NUM", 1.0 + more, unit.text, unit.start_pos, unit.end_pos, (), True))
        i += 1


def _part_of_bottle(out: list[Tok]) -> None:
    """ "half a handle", "half a bottle of 750", "a third of a 70 cl bottle": so much of what it holds.

    A "half bottle (375 ml)" has a size of its own.
    """
    for i, tok in enumerate(out):
        if tok.type != "WORD" or tok.text not in FRACTION_WORDS:
            continue
        rest = [t for t in out[i + 1 : i + 7] if t.type not in ("A", "FILL") and t.value not in ("of", "(")]
        share = FRACTION_WORDS[tok.text]
        kinds = [t.type for t in rest]
        if kinds[:1] == ["VESSEL"] and rest[0].value[0].isdigit():
            rest[0].value = f"{float(rest[0].value) * share:g}"
            tok.type = "FILL"
            continue
        at = 1 if kinds[:2] == ["VESSEL", "NUM"] else 0 if kinds[:1] == ["NUM"] and "VESSEL" in kinds[1:3] else -1
        if at < 0:
            continue
        unit = rest[at + 1].value if kinds[at + 1 : at + 2] == ["UNIT"] else "ml"
        if _WHOLE_BOTTLE_ML <= rest[at].value * _LITRE_PARTS.get(unit, 0.0) <= _LARGEST_BOTTLE_ML:
            rest[at].value *= share
            tok.type = "FILL"


def _whole_said(out: list[Tok], i: int) -> bool:
    """Whether "all in" or "everything in" at i is said of the amount before it: "2 L all in", not "all in 2 L bottles"."""
    k = i - 1
    while k > 0 and (out[k].type == "FILL" or out[k].value == "with"):
        k -= 1
    last = i + 1 if out[i].text == "all" else i
    closed = last + 1 >= len(out) or out[last + 1].type == "SEP"
    joined = out[i].text != "all" or (i + 1 < len(out) and out[i + 1].text == "in")
    return closed and joined and k >= 0 and (out[k].type in ("UNIT", "VESSEL") or out[k].value == "each")


_SMALL_NUMBERS = frozenset(range(1, 13))  # a drink's own number
_HAS_NUMBER = frozenset(["spec", "recipe", "special", "cocktail", "formula"])


def _said_on(out: list[Tok], i: int) -> bool:
    """Whether talk, or what is left out, follows the number after "x": "tonic 120 x 15 no ice"."""
    talk = out[i + 2].type == "FILL" or out[i + 2].value == "none"
    return bool(talk and out[i - 1].value >= 10 and out[i + 1].value < LEAST_BOTTLE_ML)


def _titled(out: list[Tok], i: int) -> bool:
    """Whether a drink's name stands before "no", or around it and its number: "mai tai no. 1", "queens park no.3 swizzle"."""
    named = any(t.type == "WORD" for t in out[max(0, i - 2) : i]) and out[i - 1].type in ("WORD", "FILL")
    inside = named and i + 2 < len(out) and out[i + 2].type == "DRINK"
    return out[i - 1].type == "DRINK" or out[i - 1].text in _HAS_NUMBER or inside


def _numbered(out: list[Tok], i: int) -> bool:
    """Whether "no" is "number": followed by a small whole number that counts nothing."""
    j = i + 2 if i + 1 < len(out) and out[i + 1].type == "SEP" else i + 1
    if j >= len(out) or out[j].type != "NUM" or out[j].value not in _SMALL_NUMBERS:
        return False
    return not (j + 1 < len(out) and out[j + 1].type in ("ING", "UNIT", "COUNT", "PCT"))


def _ends(out: list[Tok], i: int) -> bool:
    """Whether nothing at i can own the figure before it."""
    return i >= len(out) or out[i].type == "SEP" or (out[i].type == "CUE" and out[i].value in ("to", "cut"))


def _is_share(out: list[Tok], i: int) -> bool:
    """Whether a fraction word is a share of water: "water a quarter of the final", "dilute by a fifth"."""
    before = [t for t in out[max(0, i - 6) : i] if t.type not in ("FILL", "A")]
    if before and before[-1].type == "NUM" and before[-1].text in ("one", "two", "three", "1", "2", "3"):
        before.pop()  # "one fifth"
    while before and before[-1].type == "CUE" and before[-1].value in ("oops", "make_it", "to", "at", "equals"):
        before.pop()  # "water should be a fifth", "water equal to a quarter"
    wet = (
        i + 1 < len(out)
        and out[i + 1].value == "water"
        and out[i].text.isalpha()
        and not any((t.text in FRACTION_WORDS and t is not out[i]) or (t.type == "UNIT" and t.value == "part") for t in out)
    )  # "a fifth water"; "half gin half water" is a spec
    after = [t for t in out[i + 1 : i + 5] if t.type != "FILL"]
    of_water = (
        len(after) > 1
        and after[0].value == "of"
        and after[1].value == "water"
        and not any((t.text in FRACTION_WORDS and t is not out[i]) or t.text == "the" for t in out)
    )  # "a fifth of water on top"; "half of the water" is of what there is
    of_that = (
        i + 2 < len(out)
        and out[i + 1].value == "of"
        and out[i + 2].text in ("that", "it", "which", "this")
        and any(t.value == "water" for t in out[i + 3 : i + 8])
    )  # "a fifth of that has to be water"
    of_that = of_that or (i + 1 < len(out) and out[i + 1].text == "of it" and any(t.value == "water" for t in out[i + 2 : i + 6]))
    of_whole = whole_said(after) or (volume_said(after) and any(t.value == "water" for t in out))
    watery = bool(before) and before[-1].type == "CUE" and before[-1].value in ("water", "dilution")
    by = i > 1 and any(t.text == "by" for t in out[max(0, i - 2) : i])
    return not of_bottle(out, i) and (of_whole or of_water or of_that or watery or by or wet)
