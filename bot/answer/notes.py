"""What is noted on the way to an answer, and the question raised when there can be none.

Lives here: the collector of assumptions, readings, remarks and cautions; Question, the only exception that travels
inside bot.answer; figures as text for a question's facts. Must never: word a sentence (bot.reply does, by code).
"""

from bot.core.facts import Note, Problem

__all__ = ["Notes", "Question", "figure", "percent"]


class Question(Exception):
    """There is something to ask before there is an answer. Only bot.answer.answer catches it."""

    def __init__(self, code: str, found: str = "", try_instead: str = "", **facts: str) -> None:
        super().__init__(code)
        self.problem = Problem(code, None, found, try_instead, tuple(facts.items()))


class Notes:
    """Notes in the order they arise, each once."""

    __slots__ = ("assumed", "cautions", "remarks", "understood")

    def __init__(self) -> None:
        self.understood: list[Note] = []
        self.assumed: list[Note] = []
        self.remarks: list[Note] = []
        self.cautions: list[Note] = []

    def understand(self, code: str, *args: str | float) -> None:
        """Note what was read."""
        self.understood.append(Note(code, args))

    def assume(self, code: str, *args: str | float) -> None:
        """Note an assumption that was used."""
        note = Note(code, args)
        if note not in self.assumed:
            self.assumed.append(note)

    def remark(self, code: str, *args: str | float) -> None:
        """Note something worth saying about the result."""
        note = Note(code, args)
        if note not in self.remarks:
            self.remarks.append(note)

    def caution(self, code: str, *args: str | float) -> None:
        """Note a caution; the weightiest is noted first."""
        note = Note(code, args)
        if note not in self.cautions:
            self.cautions.append(note)

    def take(self, written: tuple[str, ...]) -> None:
        """Readings the grammar wrote into a recipe as "code:argument:argument"."""
        for text in written:
            code, *args = text.split(":", 2)
            self.assume(code, *args)


def figure(x: float) -> str:
    """A number as a person writes it in a question: whole from 100 up, else up to three figures."""
    return f"{x:.0f}" if abs(x) >= 100.0 else f"{x:.3g}"


def percent(fraction: float) -> str:
    """A strength or share in a question: "46.5 %"."""
    return f"{fraction * 100.0:.4g} %"
