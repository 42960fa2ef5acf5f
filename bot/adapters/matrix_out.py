"""Sending to Matrix: the post room's letters as notices, each with a transaction id that makes a resend harmless."""

import asyncio
from contextlib import suppress

from nio import AsyncClient, LocalProtocolError, OlmTrustError, RoomSendResponse

from bot.adapters.matrix_device import KeyNotPassedOn
from bot.adapters.matrix_words import notice, packed
from bot.desk import Said
from bot.post.letters import Later, Letter, Undeliverable
from bot.post.steps import Step

PREFIX = "matrix:"  # a chat's name is this and the room's id
REFUSED = ("M_FORBIDDEN", "M_NOT_FOUND", "M_TOO_LARGE", "M_BAD_JSON", "M_INVALID_PARAM", "M_USER_DEACTIVATED")


class Matrix:
    """The platform of bot/post for one signed-in client."""

    name = "matrix"
    at_once = 1000  # each room waits for itself
    edits = False  # a common client shows an edit as a second message, so a changed answer is a new one

    def __init__(self, client: AsyncClient) -> None:
        self._client = client
        self._sending: set[str] = set()
        self._quiet = asyncio.Event()

    async def quiet(self, most_s: float) -> None:
        """Wait until nothing is being sent, for so many seconds at most."""
        if self._sending:
            self._quiet.clear()
            with suppress(TimeoutError):
                async with asyncio.timeout(most_s):
                    await self._quiet.wait()

    def pack(self, said: Said, steps: tuple[Step, ...]) -> str:
        return packed(said, steps)

    def floor(self, chat: str) -> str:
        return ""

    async def find(self, letter: Letter) -> str | None:
        """Never looked for: the server drops a resend, since its transaction id is the same."""
        return None

    async def send(self, letter: Letter) -> str:
        """Send a letter once. A limit on our messages is waited out here: it holds up this room only."""
        self._sending.add(letter.chat)
        try:
            return await self._send(letter)
        finally:
            self._sending.discard(letter.chat)
            if not self._sending:
                self._quiet.set()

    async def _send(self, letter: Letter) -> str:
        content = notice(
            letter.payload, question=letter.question, thread=letter.thread, replaces=letter.kind == "again"
        )
        transaction = f"{letter.question or letter.id}-{letter.at.timestamp():.6f}"  # of the event, and of which answer to it
        try:
            answer = await self._client.room_send(
                letter.chat.removeprefix(PREFIX), "m.room.message", content, transaction, ignore_unverified_devices=True
            )
        except LocalProtocolError as problem:  # not in the room any more
            raise Undeliverable(str(problem)) from None
        except (KeyNotPassedOn, OlmTrustError):
            raise Later from None
        if isinstance(answer, RoomSendResponse):
            sent: str = answer.event_id
            return sent
        if answer.status_code in REFUSED:
            raise Undeliverable(f"{answer.status_code} {answer.message}")
        raise Later
