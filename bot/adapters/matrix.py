"""Matrix: takes what arrives in rooms to the post room, comes and leaves, and keeps its own place in the stream.

nio moves on before its handlers have run, so the place is kept here, once everything before it is dealt with. nio's
types stay in the files of this adapter. Never here: an answer, a sentence, what is sent when.
"""

import asyncio
from dataclasses import replace
from time import monotonic
from typing import Any

from nio import (
    Event,
    MatrixRoom,
    MegolmEvent,
    RoomMessageText,
    SyncError,
    SyncResponse,
    UploadFilterResponse,
)

from bot.adapters.matrix_admins import Admins
from bot.adapters.matrix_device import CannotSignIn, Device
from bot.adapters.matrix_out import PREFIX, Matrix
from bot.adapters.matrix_rooms import Rooms
from bot.adapters.matrix_stream import WANTED, Stream, Unreached, sent_at
from bot.adapters.matrix_unread import Unread
from bot.adapters.matrix_words import Names
from bot.logs import logger
from bot.post.allow import Allow
from bot.post.delivery import LATE
from bot.post.insist import insist
from bot.post.letters import Incoming
from bot.post.lock import under_lock
from bot.post.room import PostRoom
from bot.reply import words_post

PLACE = "place"  # the mark of how far we read
KEEP_EVERY_S = 60.0  # also when nothing was for us
BREATH_S = 0.1
PAUSE_S = 2.0


class Listener:
    """Listens to all rooms of one device."""

    def __init__(self, device: Device, platform: Matrix, post: PostRoom, allow: Allow) -> None:
        self._device = device
        self._platform = platform
        self._post = post
        self._allow = allow
        self._names = Names(device.user_id)
        self._stream = Stream(device, LATE)
        self._place = ""
        self._kept_at = monotonic()
        self._opened = False
        self._unread = Unread(device, post)
        self._rooms = Rooms(device, allow)
        self._admins = Admins(device)
        self._log = logger(__name__).bind(platform="matrix")
        device.when(SyncResponse, self._synced)
        device.when(SyncError, self._failed)

    async def listen(self) -> None:
        """Take what arrives, from our place on, until cancelled. CannotSignIn when this device was signed out."""
        self._place = await insist(lambda: self._post.mark(PLACE))
        await self._unread.load()
        await self._device.publish_keys()
        kept = await self._device.upload_filter(**WANTED)
        wanted = kept.filter_id if isinstance(kept, UploadFilterResponse) else WANTED
        shown = await self._device.get_displayname()
        self._names = Names(self._device.user_id, getattr(shown, "displayname", None) or "")
        try:
            await self._listen(wanted)
        finally:
            await self._rooms.close()

    async def _listen(self, wanted: str | dict[str, Any]) -> None:
        while True:
            try:
                await self._device.sync_forever(30_000, wanted, since=self._place or None, full_state=True)
            except CannotSignIn:
                raise
            except Unreached as problem:
                self._log.warning("the homeserver holds something back", why=str(problem))
            except Exception:  # nothing that a server sends may end the listening
                self._log.exception("listening failed")
            await asyncio.sleep(PAUSE_S)
            self._device.next_batch = self._place

    async def _failed(self, error: SyncError) -> None:
        if error.status_code == "M_UNKNOWN_TOKEN":
            raise CannotSignIn("the homeserver has signed this device out; remove its folder and start again")
        self._log.warning("the homeserver refuses", error=error.status_code)
        await asyncio.sleep(PAUSE_S)

    async def _synced(self, response: SyncResponse) -> None:
        if not self._opened:  # sending needs the rooms, and they are known now
            self._opened = True
            await self._post.open()
        self._rooms.invited(response)
        taken = 0
        if readable := await self._unread.readable(response):
            for room_id, event in readable:
                if room_id in self._device.rooms:
                    taken += await self._take(self._device.rooms[room_id], event)
            await self._unread.done()
        for room_id, joined in response.rooms.join.items():
            room = self._device.rooms[room_id]
            for event in await self._stream.said_to_us(room_id, joined.timeline, self._place):
                taken += await self._take(room, event)
            self._rooms.alone(room)
        if taken or not self._place or monotonic() - self._kept_at > KEEP_EVERY_S:
            await asyncio.sleep(0)  # what was taken is sent first
            await insist(lambda: self._post.set_mark(PLACE, response.next_batch))
            self._kept_at = monotonic()
        self._place = response.next_batch
        if taken:  # a server that is asked for more meanwhile takes longer over the answers
            await self._platform.quiet(BREATH_S)

    async def _take(self, room: MatrixRoom, event: Event) -> bool:
        """Take an event to the post room. False when it is nothing to us: it may be read again, and is nothing again."""
        try:
            if isinstance(event, MegolmEvent) and event.sender != self._device.user_id:
                await self._unread.put(room.room_id, event)
                return True
            incoming = await self._incoming(room, event)
            if incoming is not None:
                await insist(lambda: self._post.receive(incoming))
        except Unreached:
            raise
        except Exception:  # one odd event must not hold up the rest
            self._log.exception("an event was passed over", room=room.room_id, event_id=event.event_id)
            return True
        return incoming is not None

    async def _incoming(self, room: MatrixRoom, event: Event) -> Incoming | None:
        chat = PREFIX + room.room_id
        if self._stream.is_ours(event, "join"):
            return Incoming(chat, event.event_id, "", sent_at(event), "", line=words_post.HELLO)  # in reply to nothing
        if not isinstance(event, RoomMessageText) or event.sender == self._device.user_id:
            return None
        heard = self._names.heard(event.event_id, event.source["content"])
        if heard is None or not self._allow.permits(event.sender, room.room_id):
            return None
        if heard.edits:  # who was asked, and where, is what it was at first
            first = await self._stream.event(room.room_id, heard.question)
            was = self._names.heard(heard.question, first.source["content"]) if first is not None else None
            if first is None or was is None or first.sender != event.sender:
                return None
            heard = replace(was, text=heard.text, edits=True, mentioned=heard.mentioned or was.mentioned)
        company = len(room.users) > 2  # more than the one who writes and us
        if company and not heard.mentioned:
            replied_to = await self._stream.event(room.room_id, heard.about) if heard.about else None
            if replied_to is None or replied_to.sender != self._device.user_id:
                return None
        incoming = Incoming(
            chat, event.event_id, heard.question, sent_at(event), heard.text,
            thread=heard.thread, about=heard.about, edits=heard.edits,
        )  # fmt: skip
        if not company:
            return incoming
        return await insist(lambda: under_lock(self._post, incoming, lambda: self._admins.among(room, event.sender)))
