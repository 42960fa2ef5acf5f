"""Messages that point back: "cut it to 22%", "what's it cost if rye is 34 a bottle", "how many serves is that at 80 ml".

What "it" is was said before, so they are never read by themselves.
"""

import re

from grammar.bottles_of_one import bottles_of_one, split_at
from grammar.frames.follow_money import prices_alone
from grammar.scan import LEAST_BOTTLE_ML, Scan, rough_ml
from grammar.strengths_said import strengths_said
from grammar.to_strength import target
from grammar.undone import undone

_WITH_SPEC = frozenset(["batch", "strength", "freezer", "cost", "label", "bottles", "dilution"])
_COST_OF_IT = re.compile(
    r"\b(?:it|that|this|these|those|they|them)\b[^.?!]{0,20}\bcosts?\b"
    r"|\bcosts?(?: me| us)?(?: per \w+| each| a \w+)?,? (?:if|when)\b"
)
_COUNTED = re.compile(
    r"\bhow many (?:\d[\d.]*[ -]?(?:ml|mls|cl|oz)[ -])?(?:serves|servings|drinks|pours|glasses|portions|cocktails|people)\b"
    r".*\b(?:it|that|this)\b"
)
_LARGEST_SERVE_ML = 400.0  # common practice, no source


_ADDED = re.compile(r"^\W*(?:and|plus|add|with|n)\b")
_PRICED = re.compile(
    r"(?:\bat|@) ?\d+(?:\.\d+)? (?:for |per )?(?:an? |the |per )?(?:\d{3}|bottle|btl|litre|liter)\b|\d ?/ ?\d{3}\b"
)
_ONE_IS = re.compile(r"^(?:and |but |so )?(?:what )?if [^,;]* (?:is|was|were|goes to|at) \d+(?:\.\d+)?\W*$")


#: what is asked again of the last answer, or what it comes to in all
_AGAIN = re.compile(r"\b(?:was|were|is) (?:that|it|this|those|they)(?: again)?\b|\bagain\b")
_IN_ALL = re.compile(
    r"\b(?:how much|how many|what)(?:'s)? (?:\w+ )?(?:will|does|do|would|did|is) (?:i|we|that|it|this|they|you)(?: all)?"
    r" (?:make|makes|come to|comes to|add up to|get|have|yield|end up with|be left with|work out to|work out at|give me|total)\b"
    r"(?: in total| in all| at the end| all told| altogether| out of (?:it|that)| when (?:it's|its) done)?\W*$"
)


_IN_UNIT = re.compile(
    r"\b(?:do|give|show|put|say|write|have|get|see|send|print) (?:me |us )?(?:it|that|them|this|those|these)(?: all)? in"
    r" (?:ml|mls|millilit(?:re|er)s|cl|centilit(?:re|er)s|l|lit(?:re|er)s|oz|ounces|quarts|pints|gallons|jiggers|cups)\b"
)

_OWN = ("amount", "bare", "percent", "count", "ratio", "vessel", "guests", "house", "drink", "temperature", "money", "fold")


def asks_again(scan: Scan) -> bool:
    """ "how much water was that again", "how much will that make": about the last answer, with no figure of its own."""
    asked = scan.has("how_much", "how_many", "what")
    own = scan.kinds(*_OWN, fresh=False)
    return asked and not own and (_IN_ALL.search(scan.text) is not None or _AGAIN.search(scan.text) is not None)


def own_names(scan: Scan) -> bool:
    """Whether a message names what goes into something, or what it is."""
    return bool(scan.kinds("name", "context", "house", "ratio", "drink"))


_OF_THAT = re.compile(r"\bhow (?:many|much) [a-z]+ (?:is|are) (?:that|it|this)\b")
_LEFT_OUT = re.compile(r"\b(?:drop|lose|skip|omit|ditch|leave out|take out|without|no|minus|remove|less)\b")


def points_back(scan: Scan, last: str) -> bool:
    """Whether a message is about what was answered last, and says so."""
    if undone(scan):
        return True
    own = scan.kinds("name", "context", "house", "ratio", "drink", "amount", "vessel", "count", "guests")
    if not own and (last == "cut" or last in _WITH_SPEC) and target(scan) is not None:
        return True  # "cut it to 22%", "bring it down to 28 percent"
    figures = scan.kinds("amount", "bare", "ratio", "house")
    if last in _WITH_SPEC and scan.has("allergens") and not figures and _LEFT_OUT.search(scan.text) is not None:
        return True  # "drop the egg white, what allergens are left": of the drink, not of egg white
    if last in _WITH_SPEC and _OF_THAT.search(scan.text) and not scan.kinds("name", "context", "ratio", "house", "drink"):
        return True  # "how many litres is that, and how many 1 L bottles to put it in"
    if asks_again(scan) or (last in _WITH_SPEC and prices_alone(scan)):
        return True
    if last in _WITH_SPEC and not own and _IN_UNIT.search(scan.text) is not None:
        return True  # "can you do it in cl, our jigger is in cl"
    cold = scan.kinds("temperature", "negative") and scan.has("fridge", "freezer")
    if cold and not own and not scan.kinds("percent", "proof", "bare") and (last == "freezer" or last in _WITH_SPEC):
        return True  # "and in the fridge at 3c"
    if last == "cost" and _ONE_IS.search(scan.text) is not None and len(scan.kinds("name", "context")) == 1:
        return True  # "what if gin is 36": its price, or its amount
    if last not in _WITH_SPEC:
        return False
    kinds = [scan.kind_at(i) for i in range(len(scan)) if scan.kind_at(i) not in ("sep", "cue:make_it", "cue:but", "cue:and")]
    if kinds in (["bare", "cue:at", "amount"], ["cue:show", "cue:each"]):
        return True  # "20 at 90 ml", "what's in each"
    if _ADDED.search(scan.text) and len(scan.kinds("name", "context")) == 1 and _PRICED.search(scan.text):
        return True  # "plus 25 ml of vermouth at 12 for a 750"
    if split_at(scan) is not None and not own_names(scan):
        return True  # "split it between 3 bottles"
    if bottles_of_one(scan) is not None or _all_moved(scan) or strengths_said(scan):
        return True
    if _COST_OF_IT.search(scan.text) and scan.kinds("money", "bare") and not _measured(scan):
        return True
    sizes = [scan.items[i] for i in scan.kinds("amount")]
    serve = len(sizes) == 1 and (rough_ml(sizes[0].value, sizes[0].unit) or 0.0) <= _LARGEST_SERVE_ML
    return serve and not scan.kinds("name", "context", "house") and _COUNTED.search(scan.text) is not None


_BY_WORDS = frozenset(["up to", "down to", "back to", "back up to", "back down to", "to"])


def _all_moved(scan: Scan) -> bool:
    """ "rum up to 60, syrup down to 15", "gin only 50, lime now 25": every name has its figure behind a word of change."""
    names = scan.kinds("name", "context")
    if not names or scan.kinds("house", "drink", "ratio", "vessel") or (scan.has("water", "dilution", "rest") and len(names) < 2):
        return False
    for i in names:
        link = scan.at(i + 1)
        moves = link is not None and (link.text in _BY_WORDS or link.is_cue("but"))
        if not moves or scan.kind_at(i + 2) not in ("bare", "amount") or scan.kind_at(i - 1) in ("bare", "amount", "cue:none"):
            return False
        if scan.kind_at(i + 3) in ("name", "context", "cue:of"):
            return False
    return True


def _measured(scan: Scan) -> bool:
    """Whether an ingredient has an amount of its own, so that the message brings its own spec."""
    small = [i for i in scan.kinds("amount") if (rough_ml(scan.items[i].value, scan.items[i].unit) or 1e9) < LEAST_BOTTLE_ML]
    return bool(small or scan.kinds("ratio", "house"))
