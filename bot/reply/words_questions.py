"""What the bot asks when it cannot answer: one warm question for each problem code, and a message that would work.

A question names what was typed, in quotes, and never a rule, a token or a code; it works nothing out, so it holds no
total. Health and driving are never advised on. Adding a problem code is a row in QUESTIONS and one in EXAMPLES.
"""

import re
from collections.abc import Callable

from bot.core.facts import Problem
from bot.reply.words_notes import clip, quoted

Asker = Callable[[str, dict[str, str]], str]
_WORKED_TOTAL = re.compile(r"total\w*(?=[^\n]{0,20}\d+(?:\.\d+)?\s?(?:ml|l\b|oz))", re.IGNORECASE)
_MISMATCH = "The figures do not match. Which one is right?"
_SPACED_PERCENT = re.compile(r"(?<=\d) %")
_ENDLESS = re.compile(r"\de\+?\d|inf|nan")  # a figure no person would read
_GAP = re.compile(r"(?<=\d) ([:/-]) (?=\d)")
_TOTAL_WORD = re.compile(r"\btotal(?:l?ing)?\b\s*", re.IGNORECASE)


def _same(question: str) -> Asker:
    return lambda found, facts: question


def _about(with_found: str, without: str) -> Asker:
    """A question that names what was found, {} in `with_found`, or one that does without."""
    return lambda found, facts: with_found.format(quoted(found)) if found else without


def _unread(found: str, facts: dict[str, str]) -> str:
    if found and "only" in facts:
        return f"There is no {clip(found)} in it, only {clip(facts['only'], 80)}. Which one is it?"
    return f"I did not {f'understand {quoted(found)}' if found else 'get that'}. Can you put it another way?"


def _no_amounts(found: str, facts: dict[str, str]) -> str:
    names = facts.get("names", found)
    if names == "water":
        return "How much water, and into how much?"
    if names and "," not in names:
        return f"How much {clip(names, 60)} goes in?"
    return f"How much of each: {clip(names, 60)}?" if names else "How much of each goes in?"


def _no_last(found: str, facts: dict[str, str]) -> str:
    if "back" in facts:  # "undo that", with nothing to go back to
        return "I don't know what it was before. How should it be?"
    return "I have nothing earlier here to change. What are we making?"


def _no_volume(found: str, facts: dict[str, str]) -> str:
    if found.startswith("the size"):
        return f"What is {clip(found)}? I need it in mL or oz."
    return "How much of it is there? I need a volume."


def _no_spec(found: str, facts: dict[str, str]) -> str:
    drink = facts.get("drink", found)
    if drink and not drink[0].isdigit():
        return f"What goes into your {clip(drink)}? Tell me the recipe for one."
    return "What goes into one? Tell me the recipe."


def _no_price(found: str, facts: dict[str, str]) -> str:
    if found == "tax":
        return "How many percent is the tax that the price includes?"
    return f"What is the bottle price and size of {clip(found)}?" if found else "What does a bottle cost, of what size?"


def _no_strength(found: str, facts: dict[str, str]) -> str:
    if found.startswith("the strength"):
        return f"What is {clip(found)}?"
    return f"How strong is the {clip(found)}? I need a % or a proof." if found else "How strong is it, in % or proof?"


def _conflict_total(found: str, facts: dict[str, str]) -> str:
    if "comes_to" in facts and "stated" in facts:
        return f"That comes to {facts['comes_to']}, not {facts['stated']}. Which is right?"
    if found.endswith("already saved"):
        return f"{clip(found, 80)}. What other name shall it have?"
    if " is " in found:  # worked out: "8 x 70 ml is 560 ml, not 2000 ml"
        worked = clip(found, 80).replace(" x ", " × ").replace(" ml", " mL")
        return f"{worked[0].upper()}{worked[1:]}. Which one is right?"
    return f"These do not match: {clip(found, 80)}. Which one is right?" if found else _MISMATCH


def _conflict_amounts(found: str, facts: dict[str, str]) -> str:
    if "first" in facts and "second" in facts:
        return f"{facts['first']} and {facts['second']} are not the same. Which one is right?"
    return f"{quoted(found)} gives two amounts that do not match. Which one is right?" if found else _MISMATCH


def _ratio_names(found: str, facts: dict[str, str]) -> str:
    if "parts" in found:
        return f"{clip(found, 60)}. Which part is whose?"
    return f"The ratio {clip(found)} and the ingredients do not pair up. Which part is whose?".replace("  ", " ")


def _cannot_raise(found: str, facts: dict[str, str]) -> str:
    up = f" from {facts['from']} to {facts['to']}" if "from" in facts and "to" in facts else ""
    by = facts.get("by", "Water")
    weak = "it only lowers it" if by == "Water" else "it is weaker than that"
    why = f"{by} can't raise the strength{up}; {weak}."
    if "stronger" in facts and "stronger_ml" in facts:
        return f"{why} {facts['stronger_ml']} mL of {facts['stronger']} would. Is there some?"
    return f"{why} Is there a stronger spirit to add?"


def _no_house_spec(found: str, facts: dict[str, str]) -> str:
    if found.startswith("a name"):
        return "Under what name shall I save it?"
    known = f", only {clip(facts['known'], 80)}" if facts.get("known") else ""
    return f"I have nothing saved as {quoted(found)}{known}. What goes in it?" if found else (
        "I have nothing saved under that name. What goes in it?"
    )


def _beyond(what: str, without: str, ask: str) -> Asker:
    """A figure out of bounds, with the bound where it is known."""

    def asker(found: str, facts: dict[str, str]) -> str:
        said = f"{quoted(found)} {what}" if found and not _ENDLESS.search(found) else without
        return f"{said}{'; at most ' + facts['most'] if 'most' in facts else ''}. {ask}"

    return asker


def _two_readings(found: str, facts: dict[str, str]) -> str:
    return f"Is that {clip(found, 60)}?" if " or " in found else "That can be read in two ways. Which one do you mean?"


QUESTIONS: dict[str, Asker] = {
    "empty": _same("What shall I work out?"),
    "not_ours": _same("I only do bar maths: batches, strength, dilution, freezing, cost. Got a drink to batch?"),
    "health": _same("Health and driving are not mine to answer. Is there a batch to work out?"),
    "too_long": _same("That is too long for one message. Can you send one recipe at a time?"),
    "no_amounts": _no_amounts,
    "no_spec": _no_spec,
    "no_strength": _no_strength,
    "no_volume": _no_volume,
    "no_serves": _same("How many serves, or what volume?"),
    "no_price": _no_price,
    "unread": _unread,
    "unclear_number": _about("I am not sure how to read {}. Which number do you mean?", "Which number do you mean?"),
    "conflict_amounts": _conflict_amounts,
    "conflict_total": _conflict_total,
    "ratio_names": _ratio_names,
    "cannot_raise": _cannot_raise,
    "out_of_range": _beyond("can't be right", "That figure can't be right", "What should it be?"),
    "too_large": _beyond("is too large for me", "That is too large for me", "How many did you mean?"),
    "weight": _about("{} is a weight, and I need a volume. How many mL is it?", "That is a weight. How many mL is it?"),
    "two_readings": _two_readings,
    "no_last": _no_last,
    "no_house_spec": _no_house_spec,
}  # fmt: skip

_BATCH = "8 serves: 60 ml gin, 30 ml dry vermouth, 25% water"
#: a message that would work, for each problem
EXAMPLES: dict[str, str] = {
    "empty": _BATCH,
    "not_ours": _BATCH,
    "health": _BATCH,
    "too_long": _BATCH,
    "no_amounts": _BATCH,
    "no_spec": _BATCH,
    "no_strength": "cut 700 ml from 50% to 40%",
    "no_volume": "cut 700 ml from 50% to 40%",
    "no_serves": "50 ml gin x 40, how many 700 ml bottles?",
    "no_price": "50 ml gin, 24 for 700 ml: cost?",
    "unread": _BATCH,
    "unclear_number": _BATCH,
    "conflict_amounts": "8 serves: 2 oz gin, 1 oz dry vermouth",
    "conflict_total": _BATCH,
    "ratio_names": "2:1 gin, dry vermouth for 8",
    "cannot_raise": "cut 700 ml from 60% to 40%",
    "out_of_range": _BATCH,
    "too_large": _BATCH,
    "weight": _BATCH,
    "two_readings": _BATCH,
    "no_last": _BATCH,
    "no_house_spec": "save fog bell: 50 gin, 20 dry vermouth",
}


#: what was found -> a message that would work, better than the usual one; the first that matches counts
_NEARER: tuple[tuple[str, str], ...] = (
    ("saline|salt", "100 ml of 20% saline"),
    ("syrup|brix", "1 L of 2:1 syrup"),
    ("pours", "how many 45 ml pours in 700 ml"),
    ("tax", "cost 2.40, price 12 inc 20% tax, pour cost?"),
    ("margin|cost|price", "cost 2.80, price 14, pour cost?"),
    ("°c|[0-9] ?c$|^the strength$", "will 25% freeze at -18?"),
    ("what the water goes into|% water", "25% water on 2 L"),
    ("^-?[0-9.]+ ?%$|^[^0-9]+ at [0-9.]+ ?%$", "cut 700 ml from 50% to 40%"),
)
_HAS_NEARER = frozenset(("no_strength", "no_volume", "out_of_range"))


def _tidy(found: str) -> str:
    """What was found, without the gaps that reading left: "10 - 12" -> "10-12", "2 oz ( 30 ml" -> "2 oz (30 ml)"."""
    text = _GAP.sub(r"\1", found.strip()).replace("( ", "(").replace(" )", ")")
    return text + ")" * (text.count("(") - text.count(")"))


def question(problem: Problem) -> str:
    """The question a problem is asked with. An unknown code is asked about as plainly as "unread" is."""
    ask = QUESTIONS.get(problem.code, QUESTIONS["unread"])
    text = _SPACED_PERCENT.sub("%", ask(_tidy(problem.found), dict(problem.facts)))
    return _TOTAL_WORD.sub("", text) if _WORKED_TOTAL.search(text) else text


def example(problem: Problem) -> str:
    """A message that would work: the one made for this problem, else one near what was found, else the usual one."""
    made = problem.try_instead
    if made and not _WORKED_TOTAL.search(made):
        return made
    if problem.code in _HAS_NEARER:
        found = problem.found.strip().lower()
        nearer = next((message for pattern, message in _NEARER if re.search(pattern, found)), "")
        if nearer:
            return nearer
    return EXAMPLES.get(problem.code, _BATCH)
