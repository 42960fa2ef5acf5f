"""A person in Matrix rooms: a second nio client that asks, and collects what is answered. Nothing of the bot is used."""

import asyncio
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any, cast

from nio import (
    AsyncClient,
    AsyncClientConfig,
    Event,
    InviteMemberEvent,
    LoginResponse,
    MatrixRoom,
    MegolmEvent,
    MessageDirection,
    RoomCreateResponse,
    RoomMemberEvent,
    RoomMessageNotice,
    RoomMessagesResponse,
    RoomSendResponse,
)

from tests.servers.synapse import Synapse, password_of

ENCRYPTED = {
    "type": "m.room.encryption", "state_key": "", "content": {"algorithm": "m.megolm.v1.aes-sha2"},
}  # fmt: skip
PATIENCE_S = 30.0


@dataclass(frozen=True, slots=True)
class Seen:
    """A notice that somebody else sent."""

    room: str
    event_id: str
    body: str
    content: dict[str, Any]
    decrypted: bool

    @property
    def replies_to(self) -> str:
        relation = self.content.get("m.relates_to", {})
        return str(relation.get("m.in_reply_to", {}).get("event_id", ""))


class Person:
    """One user on one device. seen: notices of others, in the order in which they came."""

    def __init__(self, client: AsyncClient) -> None:
        self.client = client
        self.seen: list[Seen] = []
        self.unreadable: list[str] = []
        self._came = asyncio.Condition()
        client.add_event_callback(self._notice, RoomMessageNotice)
        client.add_event_callback(self._secret, MegolmEvent)
        client.add_event_callback(self._member, RoomMemberEvent)
        client.add_event_callback(self._invited, cast(type[Event], InviteMemberEvent))

    @property
    def name(self) -> str:
        return self.client.user_id

    async def _notice(self, room: MatrixRoom, event: Event) -> None:
        if event.sender != self.name:
            assert isinstance(event, RoomMessageNotice)
            content = event.source["content"]
            self.seen.append(Seen(room.room_id, event.event_id, event.body, content, event.decrypted))
            await self._wake()

    async def _secret(self, room: MatrixRoom, event: Event) -> None:
        self.unreadable.append(event.event_id)

    async def _member(self, room: MatrixRoom, event: Event) -> None:
        await self._wake()

    async def _invited(self, room: MatrixRoom, event: Event) -> None:
        await self.client.join(room.room_id)

    async def _wake(self) -> None:
        async with self._came:
            self._came.notify_all()

    async def room(self, *invited: str, encrypted: bool = False, name: str = "bar") -> str:
        """Make a room, and wait until those who are invited have come."""
        state = [ENCRYPTED] if encrypted else []
        made = await self.client.room_create(invite=list(invited), initial_state=state, name=name, is_direct=len(invited) == 1)
        assert isinstance(made, RoomCreateResponse), made
        room_id: str = made.room_id
        await self.until(lambda: self.members(room_id) >= {self.name, *invited})
        return room_id

    def members(self, room_id: str) -> set[str]:
        room = self.client.rooms.get(room_id)
        return {user_id for user_id, user in room.users.items() if not user.invited} if room else set()

    async def until(self, ready: Any, patience_s: float = PATIENCE_S) -> None:
        """Wait until ready() holds, looked at whenever something came."""
        async with asyncio.timeout(patience_s), self._came:
            await self._came.wait_for(ready)

    async def say(self, room_id: str, text: str, **more: Any) -> str:
        """Send a text; returns its event id."""
        content = {"msgtype": "m.text", "body": text, **more}
        return await self.send(room_id, content)

    async def reply(self, room_id: str, to: str, text: str) -> str:
        return await self.say(room_id, text, **{"m.relates_to": {"m.in_reply_to": {"event_id": to}}})

    async def edit(self, room_id: str, of: str, text: str) -> str:
        new = {"msgtype": "m.text", "body": text}
        relation = {"rel_type": "m.replace", "event_id": of}
        return await self.say(room_id, f"* {text}", **{"m.new_content": new, "m.relates_to": relation})

    async def send(self, room_id: str, content: dict[str, Any], kind: str = "m.room.message") -> str:
        sent = await self.client.room_send(room_id, kind, content, ignore_unverified_devices=True)
        assert isinstance(sent, RoomSendResponse), sent
        event_id: str = sent.event_id
        return event_id

    def answers(self, question: str) -> list[Seen]:
        return [seen for seen in self.seen if seen.replies_to == question]

    async def answer(self, question: str, patience_s: float = PATIENCE_S) -> Seen:
        """The first answer to a question, waited for."""
        await self.until(lambda: self.answers(question), patience_s)
        return self.answers(question)[0]

    async def ask(self, room_id: str, text: str) -> Seen:
        """Say something and wait for the answer to it."""
        return await self.answer(await self.say(room_id, text))

    async def hello(self, room_id: str) -> Seen:
        """The first thing that is said in a room without being asked."""
        await self.until(lambda: self.unasked(room_id))
        return self.unasked(room_id)[0]

    async def history(self, room_id: str) -> list[Event]:
        """Everything that was sent in a room, oldest first, from the server."""
        found: list[Event] = []
        start = None
        while True:
            page = await self.client.room_messages(room_id, start, direction=MessageDirection.front, limit=100)
            assert isinstance(page, RoomMessagesResponse), page
            found += [event for event in page.chunk if isinstance(event, Event)]
            start = page.end
            if not start:
                return found

    async def notices(self, room_id: str, sender: str) -> list[Seen]:
        """What somebody said in a room as notices, in order, from the server. AssertionError if it cannot be read."""
        found = []
        for event in await self.history(room_id):
            assert not isinstance(event, MegolmEvent), "this person cannot read what was sent"
            if isinstance(event, RoomMessageNotice) and event.sender == sender:
                found.append(Seen(room_id, event.event_id, event.body, event.source["content"], event.decrypted))
        return found

    def unasked(self, room_id: str) -> list[Seen]:
        return [seen for seen in self.seen if seen.room == room_id and not seen.replies_to]


@asynccontextmanager
async def person(server: Synapse, name: str, folder: Path) -> AsyncIterator[Person]:
    """A new user of the server, signed in and listening. folder: for the keys, made if need be."""
    user_id = server.register(name)
    folder.mkdir(parents=True, exist_ok=True)
    config = AsyncClientConfig(max_timeout_retry_wait_time=1.0, encryption_enabled=True)
    client = AsyncClient(server.url, user_id, store_path=str(folder), config=config)
    answer = await client.login(password_of(name))
    assert isinstance(answer, LoginResponse), answer
    who = Person(client)
    await client.sync(0, full_state=True)
    listening = asyncio.create_task(client.sync_forever(30_000))
    try:
        yield who
    finally:
        listening.cancel()
        await asyncio.gather(listening, return_exceptions=True)
        await client.close()  # type: ignore[no-untyped-call]  # nio has no annotation there
