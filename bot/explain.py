"""What each stage made of a message: the first tool of whoever changes the language.

Prints the cleaned text, the terminals and phrases, the kind decided on, the Request or Trouble, and the Answer's facts.
"""

from dataclasses import fields, is_dataclass

from bot.answer.turn import turn
from bot.desk import now_utc, said
from bot.reply.render_text import to_text
from bot.told import FRESH
from grammar.clean import clean
from grammar.decide import decide
from grammar.lexer import lex
from grammar.message import read, scan_of


def explain(text: str) -> str:
    """The stages of one message as text."""
    cleaned = clean(text)
    scan = scan_of(cleaned)
    made = turn(text, FRESH, now_utc(), remembers=False)
    sections = (
        ("cleaned", repr(cleaned.text)),
        ("terminals", "  ".join(f"{tok.type}:{tok.value}" for tok in lex(cleaned.text))),
        (
            "phrases",
            "\n".join(f"{p.kind:12} {p.text!r} {p.name or p.values or p.value} {p.unit}".rstrip() for p in scan.items),
        ),
        ("kind", decide(scan, "")),
        ("request", _shown(read(text))),
        ("answer", _shown(made.answer)),
        ("reply", to_text(said(made).reply)),
    )
    return "\n".join(f"── {name}\n{body}" for name, body in sections)


def _shown(value: object, indent: str = "") -> str:
    """A dataclass with one field a line, those at their default left out."""
    if not is_dataclass(value):
        return repr(value)
    lines = [type(value).__name__]
    for f in fields(value):
        held = getattr(value, f.name)
        if held == f.default or held in ((), None, ""):
            continue
        if isinstance(held, tuple) and held and is_dataclass(held[0]):
            lines.append(f"{indent}  {f.name}:")
            lines.extend(f"{indent}    - {_shown(item, indent + '      ')}" for item in held)
        else:
            lines.append(f"{indent}  {f.name}: {_shown(held, indent + '  ')}")
    return "\n".join(lines)
