"""Who may change a Matrix room itself, and so lock its house specs: whoever has the level for state, and its makers.

From room version 12 on, who made a room has every right and no level (Matrix specification, Room Version 12). Never
here: what is locked.
"""

from typing import Any

from nio import MatrixRoom, RoomGetStateResponse

from bot.adapters.matrix_device import Device

MAKERS_WITHOUT_LEVEL = 12  # the room version from which that is so
MOST_REMEMBERED = 1000


class Admins:
    """Looks up who the admins of one device's rooms are."""

    def __init__(self, device: Device) -> None:
        self._device = device
        self._makers: dict[str, frozenset[str]] = {}  # they never change

    async def among(self, room: MatrixRoom, user_id: str) -> bool:
        """Whether a user is one. False when the server does not say: whoever may not be one must not change anything."""
        levels = room.power_levels
        if levels.get_user_level(user_id) >= levels.defaults.state_default:
            return True
        version = room.room_version
        if version.isdecimal() and int(version) < MAKERS_WITHOUT_LEVEL:
            return False
        return user_id in await self._made(room.room_id)

    async def _made(self, room_id: str) -> frozenset[str]:
        if room_id not in self._makers:
            answer = await self._device.room_get_state(room_id)
            if not isinstance(answer, RoomGetStateResponse):
                return frozenset()
            if len(self._makers) >= MOST_REMEMBERED:
                self._makers.clear()
            self._makers[room_id] = makers(answer.events)
        return self._makers[room_id]


def makers(state: list[dict[str, Any]]) -> frozenset[str]:
    """Who made a room, from its state: who sent the first event, and whom that names beside."""
    first = next((event for event in state if event.get("type") == "m.room.create"), {})
    more = first.get("content", {}).get("additional_creators", [])
    named = [user for user in more if isinstance(user, str)] if isinstance(more, list) else []
    return frozenset([str(first.get("sender", "")), *named])
