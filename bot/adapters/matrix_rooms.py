"""Coming and going: joins rooms when somebody allowed asks, declines for others, leaves those that are empty.

Done beside the listening. What is lost with the process comes up again at the next start, when the server names all
invitations and all rooms. Never here: what is said in rooms.
"""

import asyncio
from collections.abc import Coroutine
from typing import Any

from nio import InviteMemberEvent, JoinResponse, MatrixRoom, SyncResponse

from bot.adapters.matrix_device import Device
from bot.logs import logger
from bot.post.allow import Allow

REFUSED = ("M_FORBIDDEN", "M_NOT_FOUND", "M_BAD_STATE")
PAUSE_S = 2.0
JOIN_TRIES = 8  # over eight minutes


class Rooms:
    """Which rooms one device is in."""

    def __init__(self, device: Device, allow: Allow) -> None:
        self._device = device
        self._allow = allow
        self._errands: set[asyncio.Task[None]] = set()
        self._log = logger(__name__).bind(platform="matrix")

    def invited(self, response: SyncResponse) -> None:
        """Follow or decline the invitations of a response."""
        for room_id, invited in response.rooms.invite.items():
            for event in invited.invite_state:
                if isinstance(event, InviteMemberEvent) and event.state_key == self._device.user_id:
                    allowed = self._allow.permits(event.sender, room_id)
                    self._errand(self._join(room_id) if allowed else self._leave(room_id))

    def alone(self, room: MatrixRoom) -> None:
        """Leave a room in which nobody else is, or is asked to come."""
        if len(room.users) < 2:
            self._errand(self._leave(room.room_id))

    async def _join(self, room_id: str) -> None:
        for tries in range(JOIN_TRIES):
            answer = await self._device.join(room_id)
            if isinstance(answer, JoinResponse) or answer.status_code in REFUSED:
                return
            self._log.warning("a room cannot be joined", room=room_id, error=answer.status_code)
            await asyncio.sleep(PAUSE_S * 2**tries)

    async def _leave(self, room_id: str) -> None:
        self._log.info("leaving or declining", room=room_id)
        await self._device.room_leave(room_id)
        await self._device.room_forget(room_id)

    def _errand(self, errand: Coroutine[Any, Any, None]) -> None:
        task = asyncio.create_task(errand)
        self._errands.add(task)
        task.add_done_callback(self._errands.discard)

    async def close(self) -> None:
        """Drop what is still to be done."""
        for task in self._errands:
            task.cancel()
        await asyncio.gather(*self._errands, return_exceptions=True)
