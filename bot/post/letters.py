"""What comes in and goes out of the post room, and what a platform must be able to do.

Plain values and one Protocol. Never here: a chat library, a database, a sentence.
"""

from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING, Protocol

from bot.memory.letters import Letter
from bot.memory.problem import MemoryProblem
from bot.post.steps import Step

if TYPE_CHECKING:
    from bot.desk import Said

__all__ = [
    "CannotServe", "Incoming", "Later", "Letter", "MemoryProblem", "Moved", "NotSent", "Platform",
    "Receipt", "Undeliverable", "Unsure",
]  # fmt: skip


@dataclass(frozen=True, slots=True)
class Incoming:
    """One thing that arrived. Ids are the platform's own, as text.

    chat: the memory's name of the chat, which is its address too. key: what makes this delivery one of a kind.
    question: the message to reply to. about: our message it works from. thread: handed back with the letter.
    edits: the question was changed. press: a button under `about`. line: say this, in the place of an answer.
    """

    chat: str
    key: str
    question: str
    sent_at: datetime
    text: str
    thread: str = ""
    about: str = ""
    edits: bool = False
    press: bool = False
    may_change: bool = True
    line: str = ""


@dataclass(frozen=True, slots=True)
class Receipt:
    """What became of something that arrived: the letter to be sent, if there is one, and what it says."""

    letter: Letter | None = None
    said: "Said | None" = None
    repeated: bool = False
    alone: bool = False  # no other letter waits for the chat


class NotSent(Exception):
    """A letter was not sent, as far as is known. Never raised itself; see the four below."""


class Later(NotSent):
    """It surely did not arrive; send it again, after the seconds the platform asks for, or as the post room likes."""

    def __init__(self, seconds: float | None = None) -> None:
        super().__init__(seconds)
        self.seconds = seconds


class Unsure(NotSent):
    """It may have arrived: the answer to sending it was lost. seconds: before which not to ask or send again."""

    def __init__(self, seconds: float | None = None) -> None:
        super().__init__(seconds)
        self.seconds = seconds


class Undeliverable(NotSent):
    """It can never arrive: we were blocked, removed, or it is refused. The reason is a few words for the log."""


class Moved(NotSent):
    """The chat has a new name."""

    def __init__(self, chat: str) -> None:
        super().__init__(chat)
        self.chat = chat


class CannotServe(Exception):
    """The platform does not let us in, at the start or any more: one line that says what to do."""


class Platform(Protocol):
    """What the post room needs of a chat platform."""

    @property
    def name(self) -> str: ...

    @property
    def at_once(self) -> int:
        """How many letters may be on their way at the same time."""
        ...

    @property
    def edits(self) -> bool:
        """Whether the answer to a question that was edited is edited too, or sent anew."""
        ...

    def pack(self, said: "Said", steps: tuple[Step, ...]) -> str:
        """A reply and its next steps as the text that is kept until it is sent."""
        ...

    def floor(self, chat: str) -> str:
        """The newest message that is known to exist where the chat's messages are counted; "" if of no use."""
        ...

    async def send(self, letter: Letter) -> str:
        """Send it once; returns the id of the message. Raises Later, Unsure, Undeliverable, Moved."""
        ...

    async def find(self, letter: Letter) -> str | None:
        """The id of a letter that may have arrived, or None if it did not or sending it again does no harm."""
        ...
