"""What a kind of database must offer: one transaction at a time for a chat.

sqlite.py and postgres.py are the two that there are.
"""

from collections.abc import Callable
from contextlib import AbstractAsyncContextManager
from typing import Protocol, TypeVar

from sqlalchemy import Connection

T = TypeVar("T")
HOUSE = ""  # the lock of what belongs to no chat: migrations and sweeping


class Transaction(Protocol):
    """Begun by the first step, ended by the last; leaving it before the last step undoes everything."""

    async def step(self, work: Callable[[Connection], T]) -> T:
        """Do work in the transaction. MemoryProblem when the database fails."""
        ...

    async def last(self, work: Callable[[Connection], T], to_disk: bool = False) -> T:
        """Do work and commit. to_disk: come back only when a power cut could not undo it. MemoryProblem."""
        ...


class Back(Protocol):
    """An open database."""

    def transaction(self, chat: str) -> AbstractAsyncContextManager[Transaction]:
        """One message's transaction; those of one chat come one after the other, also across processes."""
        ...

    shared: bool  # other processes may use it at the same time, and serve the same chats

    async def take_turn(self, chat: str) -> bool:
        """Be the only one, in any process, that sends to the chat; False while another is. MemoryProblem."""
        ...

    async def give_turn(self, chat: str) -> None:
        """Let others send to the chat."""
        ...

    async def after_forgetting(self) -> None:
        """Make sure that what was deleted is not left in the files."""
        ...

    async def close(self) -> None: ...
