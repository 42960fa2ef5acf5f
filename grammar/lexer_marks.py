"""Punctuation as terminals: only where numbers stand around it does a mark part a ratio, a fraction, a price or a list."""


from grammar.lexer_looks import UNIT_WORDS, starred, unlike, waters
from grammar.pieces import Tok

_MONEY = {"$": "$", "€": "€", "£": "£", "¥": "¥", "₹": "₹", "₩": "₩", "฿": "฿", "₺": "₺", "₽": "₽"}
_TITLED = frozenset(["recipe", "spec", "cocktail", "drink", "special", "punch", "cooler", "cup", "formula", "serve", "swizzle"])


def lex_mark(raw: list[Tok], i: int, out: list[Tok], bullets: int) -> int:
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
        and not (len(out) > 1 and out[-2].type == "X" and not (len(out) > 2 and out[-3].type == "NUM" and not tok.spaced))
    ):
        out.append(Tok("COLON", ":", ":", tok.start_pos, tok.end_pos))
    elif mark in "/(" and number_after and before is not None and before.type == "UNIT":
        unit_after = i + 2 < len(raw) and raw[i + 2].text in UNIT_WORDS and not waters(raw, i + 3)
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
        if number_before and before is not None and unlike(before.text, nxt.text) and not touching:
            apart = True  # "by six - 3 cl gin", "20 - two each": no range is half in words
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
    elif mark == "*" and number_after and tok.spaced and not number_before and nxt is not None and starred(raw, i, before):
        out.append(Tok("X", "x", "x", tok.start_pos, tok.end_pos, (), True))  # "25 ml rye *20"
    elif mark == "*" and number_before and (number_after or nxt is None or nxt.type == "WORD"):
        out.append(Tok("X", "x", "x", tok.start_pos, tok.end_pos, (), tok.spaced))
    elif mark == "#" and number_after and before is not None and (before.type == "DRINK" or before.text in _TITLED):
        return 2  # "cocktail #3": a name
    elif mark == "#" and nxt is not None and nxt.text == "of":
        out.append(Tok("CUE", "how_many", "# of", tok.start_pos, nxt.end_pos))  # "# of 750s"
        return 2
    elif mark == "->":
        out.append(Tok("CUE", "to", "->", tok.start_pos, tok.end_pos))
    elif mark in ",;:|/()[]" or (mark == "-" and tok.spaced):
        out.append(Tok("SEP", mark, mark, tok.start_pos, tok.end_pos))
    elif mark in ".!?":
        spaced_after = nxt is None or nxt.spaced or nxt.type == "SEP"
        if spaced_after:
            out.append(Tok("SEP", mark, mark, tok.start_pos, tok.end_pos))
    return 1
