"""A bare nio bot that sends back what it hears, to measure against: python -m tests.servers.matrix_echo FOLDER.

It keeps nothing but its keys: no memory, no record, no place in the stream. Nothing of our bot is used.
"""

import asyncio
import os
import sys

from nio import AsyncClient, AsyncClientConfig, Event, InviteMemberEvent, LoginResponse, MatrixRoom, RoomMessageText


async def main(folder: str) -> None:
    config = AsyncClientConfig(encryption_enabled=True)
    client = AsyncClient(os.environ["MATRIX_HOMESERVER"], os.environ["MATRIX_USER"], store_path=folder, config=config)
    answer = await client.login(os.environ["MATRIX_PASSWORD"])
    assert isinstance(answer, LoginResponse), answer

    async def join(room: MatrixRoom, event: object) -> None:
        await client.join(room.room_id)

    async def echo(room: MatrixRoom, event: Event) -> None:
        if event.sender != client.user_id:
            assert isinstance(event, RoomMessageText)
            relation = {"m.in_reply_to": {"event_id": event.event_id}}
            content = {"msgtype": "m.notice", "body": event.body, "m.relates_to": relation}
            await client.room_send(room.room_id, "m.room.message", content, ignore_unverified_devices=True)

    client.add_event_callback(join, InviteMemberEvent)  # type: ignore[arg-type]  # nio's annotation forgets invitations
    client.add_event_callback(echo, RoomMessageText)
    await client.sync_forever(30_000, full_state=True)


if __name__ == "__main__":
    asyncio.run(main(sys.argv[1]))
