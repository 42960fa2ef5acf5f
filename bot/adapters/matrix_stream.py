"""Which events of a room's stream were said to us: from our place in it on, in order, gaps filled, not before we came.

Reads from the server what it left out. Never here: what an event means, or keeping the place.
"""

from contextlib import suppress
from datetime import UTC, datetime, timedelta
from http import HTTPStatus
from typing import Any

from nio import ErrorResponse, Event, MegolmEvent, MessageDirection, RoomGetEventResponse, RoomMemberEvent, RoomMessagesResponse
from nio.exceptions import EncryptionError

from bot.adapters.matrix_device import Device

# More filtering would spare us typing notices, and costs Synapse about 4 ms of every answer.
WANTED: dict[str, dict[str, Any]] = {"presence": {"not_types": ["*"]}, "room": {"timeline": {"limit": 50}}}
PAGE = 100  # events a request, the most that Synapse gives


class Unreached(Exception):
    """The server did not give what it has; ask again later, from the same place."""


def sent_at(event: Event) -> datetime:
    """When the server took the event."""
    return datetime.fromtimestamp(event.server_timestamp / 1000, UTC)


class Stream:
    """The rooms of one device. late: what is older need not be read."""

    def __init__(self, device: Device, late: timedelta) -> None:
        self._device = device
        self._late = late

    async def said_to_us(self, room_id: str, timeline: Any, place: str) -> list[Event]:
        """The room's new events after our place ("" at the very first start, when nothing before counts). Unreached."""
        events = [event for event in timeline.events if isinstance(event, Event)]  # not those that nio finds malformed
        if timeline.limited and place and not any(self.is_ours(event, "invite", "join") for event in events):
            events = await self._missed(room_id, timeline.prev_batch, place) + events
        asked_in = [at for at, event in enumerate(events) if self.is_ours(event, "invite")]
        if asked_in:
            return events[asked_in[-1] :]
        return events if place else []

    async def _missed(self, room_id: str, start: str | None, place: str) -> list[Event]:
        found: list[Event] = []
        while start:
            page = await self._device.room_messages(room_id, start, place, MessageDirection.back, PAGE)
            if not isinstance(page, RoomMessagesResponse):
                _worth_another_try(page)
                break
            earlier = [event for event in page.chunk if isinstance(event, Event)]
            found += earlier
            late = bool(earlier) and datetime.now(UTC) - sent_at(earlier[-1]) > self._late
            start = None if late or not page.chunk else page.end
        return found[::-1]

    def is_ours(self, event: Event, *memberships: str) -> bool:
        """Whether the event is that we were invited, or came in, and not before."""
        if not isinstance(event, RoomMemberEvent) or event.state_key != self._device.user_id:
            return False
        return event.membership in memberships and event.prev_membership != event.membership

    async def event(self, room_id: str, event_id: str) -> Event | None:
        """One event by its id, decrypted if that can be; None when the server does not show it to us. Unreached."""
        answer = await self._device.room_get_event(room_id, event_id)
        if not isinstance(answer, RoomGetEventResponse):
            _worth_another_try(answer)
            return None
        if isinstance(answer.event, MegolmEvent):
            with suppress(EncryptionError):
                read = self._device.decrypt_event(answer.event)
                return read if isinstance(read, Event) else None
        return answer.event


def _worth_another_try(error: ErrorResponse) -> None:
    status: int = getattr(error.transport_response, "status", 0)  # aiohttp's answer, whatever nio's annotation says
    if status >= HTTPStatus.INTERNAL_SERVER_ERROR:
        raise Unreached(f"HTTP status {status}")
