"""Encrypted messages that came before their key: kept over restarts, as they came, until they can be read.

Never here: the keys themselves (matrix_device.py), or what a message means.
"""

import json
from typing import Any

from nio import Event, ForwardedRoomKeyEvent, MegolmEvent, RoomKeyEvent, SyncResponse
from nio.exceptions import EncryptionError

from bot.adapters.matrix_device import Device
from bot.post.insist import insist
from bot.post.room import PostRoom

MARK = "unread"
MOST = 100  # messages; the oldest are given up first


class Unread:
    """What one device cannot read yet."""

    def __init__(self, device: Device, post: PostRoom) -> None:
        self._device = device
        self._post = post
        self._waiting: list[dict[str, Any]] = []

    async def load(self) -> None:
        """What was kept by the process before."""
        self._waiting = json.loads(await insist(lambda: self._post.mark(MARK)) or "[]")

    async def put(self, room_id: str, event: MegolmEvent) -> None:
        """Keep a message until its key comes."""
        self._waiting = [*self._waiting, {"room_id": room_id, **event.source}][-MOST:]
        await self._keep()

    async def readable(self, response: SyncResponse) -> list[tuple[str, Event]]:
        """(room, message) of all that can be read with the keys that have come."""
        if not self._waiting or not any(
            isinstance(event, RoomKeyEvent | ForwardedRoomKeyEvent) for event in response.to_device_events
        ):
            return []
        read: list[tuple[str, Event]] = []
        still: list[dict[str, Any]] = []
        for source in self._waiting:
            event = self._read(source)
            if event is None:
                still.append(source)
            else:
                read.append((source["room_id"], event))
        self._waiting = still
        return read

    async def done(self) -> None:
        """What was read has been dealt with."""
        await self._keep()

    def _read(self, source: dict[str, Any]) -> Event | None:
        event = MegolmEvent.from_dict(dict(source))
        if not isinstance(event, MegolmEvent):
            return None
        event.room_id = source["room_id"]
        try:
            read = self._device.decrypt_event(event)
        except EncryptionError:
            return None
        return read if isinstance(read, Event) else None

    async def _keep(self) -> None:
        await insist(lambda: self._post.set_mark(MARK, json.dumps(self._waiting) if self._waiting else ""))
