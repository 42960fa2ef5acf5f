"""Raw pieces to terminals for the phrase grammar.

The longest spelling the lexicon knows, marks that mean something only between numbers, spelling repair where that is
safe. One pass, linear; nothing here knows what a phrase is.
"""

from collections.abc import Iterator

from grammar.lexer_looks import UNIT_WORDS, below, down_to, parts, stands_for, watery
from grammar.lexer_marks import lex_mark
from grammar.lexicon import LEXICON, Entry, Lexicon
from grammar.names import nearest, repair
from grammar.pieces import Tok, scan_pieces
from grammar.settle import PLURAL_SIZES, settle
from grammar.words_measures import NUMBER_WORDS

MOST_REPAIRS = 12  # of one message; beyond that it is not a bar message, and each costs a search
_HUNDREDTHS = frozenset(["cents", "cent", "pence"])
_MONEY_WORDS = {
    "eur": "€", "euro": "€", "euros": "€", "usd": "$", "dollar": "$", "dollars": "$", "bucks": "$", "gbp": "£", "quid": "£",
    "pounds": "£", "aud": "AUD", "cad": "CAD", "chf": "CHF", "sek": "SEK", "nok": "NOK", "dkk": "DKK", "kr": "kr",
    "peso": "pesos", "pesos": "pesos", "mxn": "MXN", "brl": "BRL", "reais": "reais", "rand": "rand", "zar": "ZAR", "inr": "₹",
    "rupees": "₹", "forint": "forint", "huf": "HUF", "francs": "francs",
    "nzd": "NZD", "pln": "PLN", "zl": "zl", "czk": "CZK", "hkd": "HKD", "sgd": "SGD", "yen": "¥", "jpy": "¥",
}  # fmt: skip


_WANTED_FOR = frozenset(["water", "dilution", "how_much"])
_TIME_WORDS = frozenset(["pm", "am", "o'clock", "oclock", "seconds", "secs", "sec", "minutes", "mins", "minute", "hours", "hrs"])


def lex(text: str, lexicon: Lexicon = LEXICON) -> Iterator[Tok]:
    """Terminals of a plain text. Never fails: what it does not know is a WORD or is dropped as an empty mark."""
    raw = scan_pieces(text)
    _drop_numbering(raw)
    out: list[Tok] = []
    repairs = 0
    i = 0
    bullets = sum(1 for k, t in enumerate(raw) if t.value in ("-", "*") and (k == 0 or raw[k - 1].value == "\n"))
    while i < len(raw):
        tok = raw[i]
        before = out[-1] if out else None
        following = raw[i + 1] if i + 1 < len(raw) else None
        if tok.type == "NUM" and following is not None and following.text in ("st", "nd", "rd", "th") and not following.spaced:
            i += 2  # "40th" counts nothing
            continue
        if tok.type == "NUM" and following is not None and following.text in _TIME_WORDS:
            i += 2  # an hour, or how long to stir, counts nothing
            continue
        if tok.type == "NUM" and tok.text == "2" and following is not None and following.text in ("get", "make", "reach"):
            out.append(Tok("CUE", "to", "2", tok.start_pos, tok.end_pos))  # "water 2 get"
            i += 1
            continue
        if tok.type == "NUM" and tok.text == "4" and before is not None and before.value in _WANTED_FOR and _article(raw, i + 1):
            out.append(Tok("CUE", "for", "4", tok.start_pos, tok.end_pos))  # "how much water 4 a batch of 20"
            i += 1
            continue
        if tok.type == "NUM" and tok.text == "2" and down_to(raw, i, before):
            out.append(Tok("CUE", "to", "2", tok.start_pos, tok.end_pos))  # "46% down 2 40%"
            i += 1
            continue
        if tok.type == "NUM" and tok.text == "4" and stands_for(raw, i, before):
            out.append(Tok("CUE", "for", "4", tok.start_pos, tok.end_pos))
            i += 1
            continue
        if tok.type == "NUM" and not (tok.text[0].isalpha() and _longest(raw, i, lexicon)):
            out.append(tok)
            i += 1
            continue
        if tok.type == "WORD" and following is not None and repairs < MOST_REPAIRS and _second_slips(raw, i, lexicon):
            repairs += 1
        if tok.type in ("NUM", "WORD") or (tok.type == "MARK" and tok.value in "@>=&+"):
            step = _word(raw, i, before, following, lexicon)
            if step is None and tok.text.endswith("'s") and tok.text[:-2] in lexicon.by_first:
                raw[i] = tok = Tok("WORD", tok.text[:-2], tok.text[:-2], tok.start_pos, tok.end_pos, (), tok.spaced)
                step = _word(raw, i, before, following, lexicon)  # "gin's 30 a litre"
            if step is None and tok.type == "WORD" and repairs < MOST_REPAIRS:
                repairs += 1
                better = repair(tok.text)
                if better is not None:
                    raw[i] = tok = Tok("WORD", better, better, tok.start_pos, tok.end_pos, (), tok.spaced)
                    if following is not None and repairs < MOST_REPAIRS and _second_slips(raw, i, lexicon):
                        repairs += 1  # "grapfruit jiuce"
                    if better in NUMBER_WORDS:
                        raw[i] = tok = Tok("NUM", float(NUMBER_WORDS[better]), tok.text, tok.start_pos, tok.end_pos)
                    step = _word(raw, i, before, following, lexicon)
            if step is not None:
                taken, new = step
                if new is not None:
                    out.append(new)
                i += taken
                continue
            if tok.type == "NUM" or tok.type == "WORD":
                out.append(tok)
            i += 1
            continue
        if tok.type == "MARK":
            i += lex_mark(raw, i, out, bullets)
            continue
        out.append(tok)
        i += 1
    settle(out)
    return iter(out)


def _article(raw: list[Tok], i: int) -> bool:
    """Whether "a" or "the" opens a thing at i, and does not say "each": "4 a batch", not "4 a head"."""
    led = i + 1 < len(raw) and raw[i].text in ("a", "an", "the", "my", "our", "this", "that")
    return led and raw[i + 1].text not in ("piece", "head", "person", "pop", "guest", "serve", "drink", "cocktail", "bottle")


def _drop_numbering(raw: list[Tok]) -> None:
    """Take "1." "2)" off the front of lines, when at least two lines have them, and the number off "No. 7 punch ..."."""
    numbered = len(raw) > 3 and raw[0].text in ("no", "nr") and raw[1].value == "." and raw[2].type == "NUM"
    if numbered and raw[3].type == "WORD" and raw[3].text not in UNIT_WORDS:
        del raw[:3]
    found = [
        k for k, t in enumerate(raw[:-1])
        if t.type == "NUM" and (k == 0 or raw[k - 1].value == "\n") and raw[k + 1].value in (")", ".") and t.value == int(t.value)
    ]  # fmt: skip
    if len(found) >= 2:
        for k in reversed(found):
            del raw[k : k + 2]


def _longest(raw: list[Tok], i: int, lexicon: Lexicon) -> tuple[int, tuple[Entry, ...]] | None:
    """The longest spelling that starts at raw piece i: how many pieces it takes, and its entries."""
    for spelling, entries in lexicon.by_first.get(raw[i].text, ()):
        if len(spelling) == 1:
            return 1, entries
        j, ok = i + 1, True
        for piece in spelling[1:]:
            while j < len(raw) and raw[j].type == "MARK" and raw[j].value in ".-#" and piece not in ".-#" and not parts(raw, j):
                j += 1
            if j >= len(raw) or raw[j].text != piece or raw[j].type == "SEP":
                ok = False
                break
            j += 1
        if ok:
            return j - i, entries
    return None


def _second_slips(raw: list[Tok], i: int, lexicon: Lexicon) -> bool:
    """ "coffee lqueur", "sweet vermot": puts the second word of a longer spelling right, where it is a slip."""
    second = raw[i + 1]
    known = lexicon.by_first.get(raw[i].text, ())
    if not known or len(known[0][0]) == 1 or not second.text.isalpha() or second.text in lexicon.by_first:
        return False
    if (_longest(raw, i, lexicon) or (0,))[0] > 1:
        return False
    better = nearest(second.text, {spelling[1] for spelling, _ in known if len(spelling) > 1}, 4)
    if better is None:
        return False
    raw[i + 1] = Tok("WORD", better, better, second.start_pos, second.end_pos, (), second.spaced)
    if (_longest(raw, i, lexicon) or (0,))[0] > 1:
        return True
    raw[i + 1] = second
    return False


def _choose(entries: tuple[Entry, ...], before: Tok | None) -> Entry:
    """Which of several meanings a spelling has here. A unit wants a number, or a word that asks for units, before it."""
    first = entries[0]
    if len(entries) == 1:
        return first
    if first[0] == "UNIT":
        wants_unit = before is not None and (
            before.type in ("NUM", "UNSURE", "XNUM")
            or (before.type == "CUE" and before.value in ("in", "to", "how_many", "convert", "equals", "each", "what"))
        )
        if wants_unit:
            return first
        entries = entries[1:]
    if before is not None and before.type in ("NUM", "A"):
        for entry in entries:
            if entry[0] in ("COUNT", "VESSEL", "GUEST", "DRINK"):
                return entry
    return entries[0]


_OF_WATER = frozenset(["water", "h2o", "dilution", "dil", "dilute", "diluted", "abv", "alc", "strength", "melt"])


def _word(raw: list[Tok], i: int, before: Tok | None, following: Tok | None, lexicon: Lexicon) -> tuple[int, Tok | None] | None:
    """A word (or a mark spelled like one) as a terminal, with how many raw pieces it takes; None when unknown."""
    tok = raw[i]
    text = tok.text
    after_number = before is not None and before.type in ("NUM", "NEG", "UNSURE")
    if text == "x" and tok.type == "WORD":
        return 1, Tok("X", "x", "x", tok.start_pos, tok.end_pos, (), tok.spaced)
    if len(text) == 1 and after_number:
        if text in "cf":
            return 1, Tok("DEGREES", text, text, tok.start_pos, tok.end_pos)
        if text == "k" and not tok.spaced and before is not None:
            before.value *= 1000.0
            return 1, None
    if text == "below" and after_number and before is not None and before.type == "NUM" and below(raw, i):
        before.type, before.value, before.text = "NEG", -before.value, "-" + before.text  # "ten below zero"
        return (2 if following is not None and following.type == "NUM" else 1), None
    if text == "minus" and following is not None and following.type == "NUM":
        return 2, Tok("NEG", -following.value, "-" + following.text, tok.start_pos, following.end_pos)
    if text in ("celsius", "centigrade", "fahrenheit") or (text in ("deg", "degrees", "degree", "degs") and after_number):
        scale = "f" if text[0] == "f" else "c" if text[0] == "c" else ""
        nxt = following.text if following is not None else ""
        if not scale and nxt in ("c", "f", "celsius", "fahrenheit", "centigrade"):
            return 2, Tok(
                "DEGREES",
                "f" if nxt[0] == "f" else "c",
                nxt,
                tok.start_pos,
                following.end_pos if following else tok.end_pos,
            )
        if not scale and nxt in ("proof", "brix"):
            return 1, None
        return 1, Tok("DEGREES", scale, text, tok.start_pos, tok.end_pos)
    if text == "s" and after_number and not tok.spaced and before is not None and before.value in (1.5, 1.75):
        before.value *= 1000.0  # "in 1.75s": litres
        return 1, Tok("VESSEL", "bottles", "bottles", tok.start_pos, tok.end_pos)
    if text == "s" and after_number and not tok.spaced and before is not None and before.value in PLURAL_SIZES:
        return 1, Tok("VESSEL", "bottles", "bottles", tok.start_pos, tok.end_pos)
    if text in ("abv", "alc") and after_number and before is not None and 0 < before.value <= 100:
        return 1, Tok("PCT", "%", text, tok.start_pos, tok.end_pos)
    if text == "times" and following is not None and following.type == "NUM" and not after_number:
        return 1, Tok("X", "x", "x", tok.start_pos, tok.end_pos, (), True)  # "... times 11"
    if text in ("times", "fold") and after_number and not (following is not None and following.text in ("cost", "the")):
        return 1, Tok("X", "x", "x", tok.start_pos, tok.end_pos, (), True)
    if after_number and not tok.spaced and len(text) > 4 and text[:2] in ("ml", "cl", "oz") and text[2:] in lexicon.by_first:
        raw[i] = Tok("WORD", text[2:], text[2:], tok.start_pos + 2, tok.end_pos, (), False)  # "30mlvodka"
        return 0, Tok("UNIT", text[:2], text[:2], tok.start_pos, tok.start_pos + 2)
    if text in ("pf", "prf", "proof") and after_number:
        return 1, Tok("PROOF", "proof", text, tok.start_pos, tok.end_pos)
    if text in ("percent", "pct", "percents", "prcnt", "prc"):
        return 1, Tok("PCT", "%", text, tok.start_pos, tok.end_pos)
    if text == "pc" and after_number and ((following is not None and following.text in _OF_WATER) or watery(raw)):
        return 1, Tok("PCT", "%", text, tok.start_pos, tok.end_pos)  # "20pc water"; elsewhere it is pour cost
    if text == "per" and following is not None and following.text in ("cent", "cents"):
        return 2, Tok("PCT", "%", text, tok.start_pos, following.end_pos)
    if text in _HUNDREDTHS and after_number and before is not None and before.type == "NUM":
        before.value /= 100.0
        return 1, Tok("CURRENCY", "", text, tok.start_pos, tok.end_pos)
    if text in _MONEY_WORDS and (after_number or (following is not None and following.type == "NUM")):
        return 1, Tok("CURRENCY", _MONEY_WORDS[text], text, tok.start_pos, tok.end_pos)
    found = _longest(raw, i, lexicon)
    if found is None:
        return None
    taken, entries = found
    end = raw[i + taken - 1].end_pos
    kind, value = _choose(entries, before)
    if kind == "FILL" and text in ("a", "an") and taken == 1:
        kind, value = "A", "a"
    typed = " ".join(t.text for t in raw[i : i + taken])
    measured = before is not None and before.type in ("NUM", "UNIT")
    poured = before is not None and (before.type == "UNIT" or before.text == "of")
    if kind == "DRINK" and text == "fizz" and taken == 1 and poured:
        kind, value = "ING", "sparkling wine"  # "125 ml fizz each"
    listed = before is not None and before.type == "ING" and following is not None and following.type == "WORD"
    if kind == "CUE" and value == "triple" and text == "triple" and taken == 1 and (measured or listed):
        kind, value = "ING", "triple sec"  # "50 tequila 25 triple 25 lime"
    if kind == "CUE" and value == "proof_word" and after_number:
        kind = "PROOF"
    others = tuple(e for e in entries if e != (kind, value))
    return taken, Tok(kind, value, typed, tok.start_pos, end, others, tok.spaced)
