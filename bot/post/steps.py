"""The likely next steps after an answer: what a button says, and the message it stands for.

Every message is one that a person could type; on a platform without buttons the words themselves are offered.
Pure. Never here: how a button looks, or what a message means.
"""

from collections.abc import Collection
from dataclasses import dataclass
from math import floor

from bot.core.facts import Answer
from bot.reply import words_post

LONGEST_SAY = 60  # characters; a platform's button holds 64 bytes (Telegram Bot API, InlineKeyboardButton)
WATER_STEP = 5.0  # percentage points: common practice, no source
MOST_WATER = 100.0


@dataclass(frozen=True, slots=True)
class Step:
    """A next step: its label and the message that takes it."""

    label: str
    say: str


def steps(answer: Answer, specs: Collection[str] = ()) -> tuple[Step, ...]:
    """The next steps after an answer. specs: the names of the house specs there are."""
    match answer.kind:
        case "batch":
            found = [*_size(answer), _unit(answer), *_water(answer), *_save(answer, specs)]
            found.append(Step(words_post.LABEL, "label"))
        case "cut" | "syrup":
            found = [Step("½×", "halve it"), Step("2×", "double")]
        case "strength" if answer.lines or answer.serves:
            found = [Step(words_post.LABEL, "label")]
        case "cost" | "bottles":
            found = _size(answer)
        case "label" if answer.serves:
            found = [Step("mL", "in ml"), Step("oz", "in oz")]
        case _:
            found = []
    return tuple(step for step in found if len(step.say.encode()) <= LONGEST_SAY)


def _size(answer: Answer) -> list[Step]:
    n = answer.serves
    if n is None or n != floor(n) or n < 1:
        return [Step("½×", "halve it"), Step("2×", "double")]
    by = 1 if n < 6 else 2 if n < 15 else 5 if n < 50 else 10
    sizes = [size for size in (n - by, n + by, 2 * n) if 1 <= size <= 1000]
    return [Step(words_post.serves(size), f"make it {size:g}") for size in dict.fromkeys(sizes)]


def _unit(answer: Answer) -> Step:
    return Step(words_post.unit("mL"), "in ml") if answer.first == "oz" else Step(words_post.unit("oz"), "in oz")


def _water(answer: Answer) -> list[Step]:
    now = (answer.water_share or 0.0) * 100.0
    found = []
    if now > 0.05:
        less = max(0.0, WATER_STEP * (-(-round(now, 3) // WATER_STEP) - 1))
        found.append(Step(words_post.water(less, False), f"{less:g}% water" if less else "no water"))
    more = WATER_STEP * (round(now, 3) // WATER_STEP + 1)
    if more <= MOST_WATER:
        found.append(Step(words_post.water(more, True), f"{more:g}% water"))
    return found


def _save(answer: Answer, specs: Collection[str]) -> list[Step]:
    taken = {" ".join(name.lower().split()) for name in specs}
    if answer.title:
        name = answer.title
        return [] if name.lower() in taken else [Step(words_post.SAVE, f"save that as {name}")]
    if not answer.lines:
        return []
    mix = f"{answer.lines[0].name} mix"
    names = (mix, *(f"{mix} {letter}" for letter in "bcdefghijklmnopqrstuvwxyz"))
    free = next((name for name in names if name not in taken), None)
    return [Step(words_post.SAVE, f"save that as {free}")] if free else []
