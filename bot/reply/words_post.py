"""What the bot says about being in a chat, not about drinks: hello, back again, not for you, only admins.

One line each. Never here: sentences of an answer (words.py) or questions (words_questions.py).
"""

BACK = "I was away and am back. Ask again and I answer right now."
STRANGER = "Sorry, I only work for the team that runs me."
TEXT_ONLY = "I read text only. Type the recipe and I work it out."
SORRY = "Something went wrong on my side. Try it in other words."
ONLY_ADMINS = "House specs and settings are locked here; an admin can say “unlock”."
LOCKED = "Locked: only admins change house specs and settings now. “unlock” opens them."
UNLOCKED = "Unlocked: everyone here may change house specs and settings."
NOT_AN_ADMIN = "Only an admin of this group can do that."
TOO_OLD = "That answer is too old for me. Ask again."
HELLO = "Hello! Tell me what to batch, cut, freeze or cost. “help” shows how."
REPLACES = "Instead of my answer before:"
NEXT = "Reply with:"

MORE_WATER, LESS_WATER = "weaker", "stronger"
SAVE, LABEL = "Save", "Label"
INLINE_TITLE = "Share this answer"
COMMANDS = (
    ("help", "What I can work out, by example"),
    ("settings", "How this chat is set"),
    ("start", "Hello"),
)


def serves(n: float) -> str:
    """The next step to another number of serves: "12 serves"."""
    return f"{n:g} serve{'' if n == 1 else 's'}"


def water(percent: float, weaker: bool) -> str:
    """The next step to another share of water: "30% water, weaker"."""
    return f"{percent:g}% water, {MORE_WATER if weaker else LESS_WATER}"


def unit(name: str) -> str:
    """The next step to the other unit: "oz first"."""
    return f"{name} first"
