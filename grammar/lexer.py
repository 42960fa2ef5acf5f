"""Raw pieces to terminals for the phrase grammar.

The longest spelling the lexicon knows, marks that mean something only between numbers, spelling repair where that is
safe. One pass, linear; nothing here knows what a phrase is.
"""

from collections.abc import Iterator

from grammar.lexicon import LEXICON, Entry, Lexicon
from grammar.names import repair
from grammar.pieces import Tok, scan_pieces
from grammar.words import FRACTION_WORDS, NUMBER_WORDS, UNITS

UNIT_WORDS = frozenset(word for spelled in UNITS.values() for word in spelled.split("|"))
PLURAL_SIZES = frozenset([187.0, 200.0, 330.0, 350.0, 375.0, 500.0, 700.0, 750.0, 1000.0, 1750.0])
MOST_REPAIRS = 12  # of one message; beyond that it is not a bar message, and each costs a search
_MONEY = {"$": "$", "€": "€", "£": "£", "¥": "¥", "₹": "₹", "₩": "₩", "฿": "฿", "₺": "₺", "₽": "₽"}
_MONEY_WORDS = {
    "eur": "€", "euro": "€", "euros": "€", "usd": "$", "dollar": "$", "dollars": "$", "bucks": "$", "gbp": "£", "quid": "£",
    "pounds": "£", "aud": "AUD", "cad": "CAD", "chf": "CHF", "sek": "SEK", "nok": "NOK", "dkk": "DKK", "kr": "kr",
    "nzd": "NZD", "pln": "PLN", "zl": "zl", "czk": "CZK", "hkd": "HKD", "sgd": "SGD", "yen": "¥", "jpy": "¥",
}  # fmt: skip


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
        if tok.type == "NUM" and tok.text == "2" and following is not None and following.text in ("get", "make", "reach"):
            out.append(Tok("CUE", "to", "2", tok.start_pos, tok.end_pos))  # "water 2 get"
            i += 1
            continue
        if tok.type == "NUM" and not (tok.text[0].isalpha() and _longest(raw, i, lexicon)):
            out.append(tok)
            i += 1
            continue
        if tok.type in ("NUM", "WORD") or (tok.type == "MARK" and tok.value in "@>=&+"):
            step = _word(raw, i, before, following, lexicon)
            if step is None and tok.type == "WORD" and repairs < MOST_REPAIRS:
                repairs += 1
                better = repair(tok.text)
                if better is not None:
                    raw[i] = tok = Tok("WORD", better, better, tok.start_pos, tok.end_pos, (), tok.spaced)
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
            i += _mark(raw, i, out, bullets)
            continue
        out.append(tok)
        i += 1
    _settle(out)
    return iter(out)


def _drop_numbering(raw: list[Tok]) -> None:
    """Take "1." "2)" off the front of lines, when at least two lines have them."""
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
            while j < len(raw) and raw[j].type == "MARK" and raw[j].value in ".-#" and piece not in ".-#":
                j += 1
            if j >= len(raw) or raw[j].text != piece or raw[j].type == "SEP":
                ok = False
                break
            j += 1
        if ok:
            return j - i, entries
    return None


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
    if text == "s" and after_number and not tok.spaced and before is not None and before.value in PLURAL_SIZES:
        return 1, Tok("VESSEL", "bottles", "bottles", tok.start_pos, tok.end_pos)
    if text in ("abv", "alc") and after_number and before is not None and 0 < before.value <= 100:
        return 1, Tok("PCT", "%", text, tok.start_pos, tok.end_pos)
    if text in ("times", "fold") and after_number and not (following is not None and following.text in ("cost", "the")):
        return 1, Tok("X", "x", "x", tok.start_pos, tok.end_pos, (), True)
    if after_number and not tok.spaced and len(text) > 4 and text[:2] in ("ml", "cl", "oz") and text[2:] in lexicon.by_first:
        raw[i] = Tok("WORD", text[2:], text[2:], tok.start_pos + 2, tok.end_pos, (), False)  # "30mlvodka"
        return 0, Tok("UNIT", text[:2], text[:2], tok.start_pos, tok.start_pos + 2)
    if text in ("pf", "prf", "proof") and after_number:
        return 1, Tok("PROOF", "proof", text, tok.start_pos, tok.end_pos)
    if text in ("percent", "pct", "percents", "prcnt", "prc"):
        return 1, Tok("PCT", "%", text, tok.start_pos, tok.end_pos)
    if text == "per" and following is not None and following.text in ("cent", "cents"):
        return 2, Tok("PCT", "%", text, tok.start_pos, following.end_pos)
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
    if kind == "CUE" and value == "proof_word" and after_number:
        kind = "PROOF"
    others = tuple(e for e in entries if e != (kind, value))
    return taken, Tok(kind, value, typed, tok.start_pos, end, others, tok.spaced)


def _mark(raw: list[Tok], i: int, out: list[Tok], bullets: int) -> int:
    """A punctuation mark: a terminal only where numbers stand around it. Returns how many raw pieces it took."""
    tok = raw[i]
    mark = tok.value
    before = out[-1] if out else None
    nxt = raw[i + 1] if i + 1 < len(raw) else None
    number_before = (
        before is not None and before.type in ("NUM", "UNSURE", "RATIO2") and before.end_pos >= (raw[i - 1].end_pos if i else 0)
    )
    number_after = nxt is not None and nxt.type in ("NUM", "UNSURE")
    if mark == "%":
        out.append(Tok("PCT", "%", "%", tok.start_pos, tok.end_pos))
    elif mark in _MONEY:
        out.append(Tok("CURRENCY", _MONEY[mark], mark, tok.start_pos, tok.end_pos))
    elif mark == "°" and nxt is not None and nxt.text in ("bx", "brix"):
        return 1
    elif mark == "°":
        scale = nxt.text if nxt is not None and nxt.text in ("c", "f") else ""
        out.append(Tok("DEGREES", scale, mark, tok.start_pos, nxt.end_pos if scale and nxt else tok.end_pos))
        return 2 if scale else 1
    elif (
        mark == ":"
        and number_before
        and number_after
        and nxt is not None
        and tok.spaced == nxt.spaced
        and not (len(out) > 1 and out[-2].type == "X")
    ):
        out.append(Tok("COLON", ":", ":", tok.start_pos, tok.end_pos))
    elif mark in "/(" and number_after and before is not None and before.type == "UNIT":
        unit_after = i + 2 < len(raw) and raw[i + 2].text in UNIT_WORDS
        out.append(Tok("SLASH" if unit_after else "SEP", "/" if unit_after else mark, mark, tok.start_pos, tok.end_pos))
    elif mark == ")" and len(out) > 2 and out[-1].type == "UNIT" and out[-3].type == "SLASH" and out[-3].text == "(":
        return 1
    elif mark == "/" and tok.spaced and nxt is not None and nxt.spaced and len(out) > 1 and out[-2].type in ("ING", "CONTEXT"):
        out.append(Tok("SEP", "/", "/", tok.start_pos, tok.end_pos))  # "gin 55 / fino 15 / 9 drinks"
    elif mark == "/" and number_after and before is not None and before.type in ("NUM", "RATIO2"):
        out.append(Tok("SLASH", "/", "/", tok.start_pos, tok.end_pos))
    elif (
        mark == "/"
        and nxt is not None
        and nxt.type == "WORD"
        and nxt.text in ("drink", "serve", "serving", "cocktail", "guest", "person", "head", "each")
    ):
        out.append(Tok("CUE", "each", "/" + nxt.text, tok.start_pos, nxt.end_pos))
        return 2
    elif mark in "-~" and number_after and nxt is not None:
        touching = not nxt.spaced
        line_start = before is None or before.value == "\n"
        if mark == "~":
            return 1
        apart = (
            tok.spaced
            and not touching
            and (nxt.value >= 15 or (len(out) > 1 and out[-2].type == "CUE" and out[-2].value == "for"))
        )
        if number_before and before is not None and not apart and (not tok.spaced or not touching):
            out.append(Tok("DASH", "-", "-", tok.start_pos, tok.end_pos))
        elif line_start and bullets >= 2:
            pass
        elif (
            touching
            and tok.spaced
            and not (
                before is not None
                and before.type in ("ING", "CONTEXT", "WORD", "GARNISH", "DRINK")
                and i + 2 < len(raw)
                and raw[i + 2].text in ("ml", "oz", "cl")
            )
        ):
            out.append(Tok("NEG", -nxt.value, "-" + nxt.text, tok.start_pos, nxt.end_pos))
            return 2
        elif tok.spaced:
            out.append(Tok("SEP", "-", mark, tok.start_pos, tok.end_pos))
    elif mark == "*" and number_before and (number_after or nxt is None or nxt.type == "WORD"):
        out.append(Tok("X", "x", "x", tok.start_pos, tok.end_pos, (), tok.spaced))
    elif mark == "->":
        out.append(Tok("CUE", "to", "->", tok.start_pos, tok.end_pos))
    elif mark in ",;:|/()[]" or (mark == "-" and tok.spaced):
        out.append(Tok("SEP", mark, mark, tok.start_pos, tok.end_pos))
    elif mark in ".!?":
        spaced_after = nxt is None or nxt.spaced or nxt.type == "SEP"
        if spaced_after:
            out.append(Tok("SEP", mark, mark, tok.start_pos, tok.end_pos))
    return 1


def _settle(out: list[Tok]) -> None:
    """Give "x", currency signs and "to" the side they belong to: x8 or 8x, $28 or 28$, 3 to 1; and "half gin" its half."""
    for i, tok in enumerate(out):
        before = out[i - 1] if i else None
        after = out[i + 1] if i + 1 < len(out) else None
        left = before is not None and before.type == "NUM"
        right = after is not None and after.type == "NUM"
        if tok.type == "X":
            if left and right and before is not None and after is not None:
                name_first = i > 1 and out[i - 2].type in ("ING", "CONTEXT")
                last = i + 2 >= len(out) or out[i + 2].type == "SEP"
                own = tok.spaced and (not after.spaced or (name_first and last))
                tok.type = "TIMES" if own else "FOLD"
            else:
                tok.type = "TIMES" if right else "FOLD" if left else "FILL"
        elif tok.type == "CUE" and tok.text == "to" and left and right and before is not None and after is not None:
            opener = out[i - 2] if i > 1 else None
            closer = out[i + 2] if i + 2 < len(out) else None
            small = 0 < before.value <= 20 and 0 < after.value <= 20
            free = opener is None or not (opener.type == "CUE" and opener.value in ("from", "at", "cut", "raise", "to"))
            if (
                small
                and free
                and not (
                    closer is not None and closer.type in ("UNIT", "PCT", "PROOF", "GUEST", "COUNT", "DEGREES", "VESSEL", "DRINK")
                )
            ):
                tok.type, tok.value = "COLON", ":"
        elif tok.text in FRACTION_WORDS and tok.type in ("WORD", "VESSEL", "CUE") and _is_share(out, i):
            tok.type, tok.value = "SHARE", FRACTION_WORDS[tok.text]
        elif tok.type == "NUM" and "/" in tok.text and tok.value < 1 and _is_share(out, i):
            tok.type = "SHARE"  # "water 1/6 of the finished 3 L"
        elif (
            tok.type == "NUM"
            and tok.text == "4"
            and right
            and i + 2 < len(out)
            and out[i + 2].type in ("DRINK", "COUNT", "GUEST")
        ):
            tok.type, tok.value = "CUE", "for"  # "bottles 4 80 margs"
        elif tok.type == "CUE" and tok.text == "no" and before is not None and before.type == "DRINK" and _numbered(out, i):
            tok.type = "FILL"  # "mai tai no. 1"
            number = out[i + 1] if right else out[i + 2]
            number.type = "FILL"
        elif tok.type == "WORD" and tok.text in FRACTION_WORDS and after is not None and after.type == "ING":
            tok.type, tok.value = "NUM", FRACTION_WORDS[tok.text]
        elif (
            tok.type == "WORD"
            and tok.text == "half"
            and after is not None
            and after.type == "A"
            and i + 2 < len(out)
            and out[i + 2].value in PLURAL_SIZES
        ):
            out[i + 2].value *= 0.5  # "half a 700"
            tok.type = "FILL"
        elif tok.type == "CURRENCY":
            touching = right and after is not None and after.start_pos == tok.end_pos
            tok.type = "SIGN" if right and (touching or not left) else "CODE" if left else "FILL"


def _numbered(out: list[Tok], i: int) -> bool:
    """Whether "no" is "number": followed by a small whole number that counts nothing."""
    j = i + 2 if i + 1 < len(out) and out[i + 1].type == "SEP" else i + 1
    if j >= len(out) or out[j].type != "NUM" or out[j].value not in (1, 2, 3, 4, 5):
        return False
    return not (j + 1 < len(out) and out[j + 1].type in ("ING", "UNIT", "COUNT", "PCT"))


def _is_share(out: list[Tok], i: int) -> bool:
    """Whether a fraction word is a share of water: "water a quarter of the final", "dilute by a fifth"."""
    before = [t for t in out[max(0, i - 3) : i] if t.type not in ("FILL", "A")]
    after = [t for t in out[i + 1 : i + 5] if t.type != "FILL"]
    of_whole = len(after) > 1 and after[0].value == "of" and after[1].value in ("final", "undiluted")
    watery = bool(before) and before[-1].type == "CUE" and before[-1].value in ("water", "dilution")
    by = i > 1 and any(t.text == "by" for t in out[max(0, i - 2) : i])
    return of_whole or watery or by
