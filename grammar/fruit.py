"""Whole fruit beside amounts: "juice of 1 lime", "2 limes", "½ lemon" are pieces, "25 lime" is mL of juice.

What one piece gives is the core's to say (EACH_ML), and the reply states it.
"""

import re

from grammar.atoms import Atom
from grammar.scan import Scan, Unclear

_FRUITS = frozenset(["lime", "limes", "lemon", "lemons", "orange", "oranges", "grapefruit", "grapefruits"])
_JUICE_OF = re.compile(r"\bjuice (?:of|from|out of) (?:about |around |a )?$")
_MOST_SINGULAR = 2.0  # "2 lime" of a spec in mL is two limes; more may be mL: common practice, no source
_MOST_IN_A_SERVE = 6.0  # limes: from here on "20 limes" beside mL may be 20 mL: common practice, no source


def is_fruit(scan: Scan, atom: Atom, bare_unit: str, others: bool) -> bool:
    """Whether a bare number counts whole fruit. others: whether anything else has an amount. Raises Unclear two_readings."""
    q = atom.quantity.phrase if atom.quantity is not None else None
    if q is None or q.kind != "bare" or atom.typed not in _FRUITS or not atom.name.endswith(" juice"):
        return False
    if _JUICE_OF.search(scan.text, 0, q.start):
        return True
    plural = atom.typed.endswith("s")
    if not plural:
        return bare_unit == "ml" and q.value <= _MOST_SINGULAR and others
    if others and bare_unit == "ml" and q.value > _MOST_IN_A_SERVE:
        raise Unclear("two_readings", [q, atom.phrase], f"{q.value:g} ml of {atom.name} or {q.value:g} {atom.typed}")
    return True
