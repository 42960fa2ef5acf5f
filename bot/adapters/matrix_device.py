"""Our device on the homeserver: signed in once, its keys in a folder that only we may read, the same after a restart.

What the server may act on is on the disk before the server hears of it, so a killed process loses no key.
Never here: rooms and messages.
"""

import asyncio
import json
import logging
import os
from collections.abc import Callable, Coroutine
from http import HTTPStatus
from pathlib import Path
from typing import Any, cast

from nio import (
    Api,
    AsyncClient,
    AsyncClientConfig,
    KeysClaimResponse,
    KeysQueryResponse,
    KeysUploadResponse,
    LoginResponse,
    ShareGroupSessionResponse,
    SyncResponse,
)
from nio.store import SqliteStore

from bot.post.letters import CannotServe

DEVICE_NAME = "Shiftmaths"
FIRST_WAIT_S = 0.2  # before a second try; each later wait is twice the last
LONGEST_WAIT_S = 10.0  # between two tries while the server cannot be reached
KEPT = ("user_id", "device_id", "access_token")


class CannotSignIn(CannotServe):
    """The homeserver does not let us in; str() is one plain sentence without the password."""


class KeyNotPassedOn(Exception):
    """The homeserver did not take a room's key for the others in it, so they could not read what follows."""


class Store(SqliteStore):
    """nio's store, which it also asks to write nothing, after every answer of the server, at 2 ms a time."""

    def save_encrypted_rooms(self, rooms: set[str]) -> None:
        if rooms:
            super().save_encrypted_rooms(rooms)


class Device(AsyncClient):
    """nio's client, with two things written down in time, and one answer looked at that it takes for granted."""

    def __init__(self, *args: Any, **more: Any) -> None:
        super().__init__(*args, **more)
        self._not_passed_on: set[str] = set()  # rooms

    async def keys_upload(self) -> Any:
        """Upload our keys. They are kept first: of a key that others know and we lost, messages could not be read."""
        assert self.olm is not None
        keys = self.olm.share_keys()
        self.olm.save_account()
        method, path, data = Api.keys_upload(self.access_token, keys)
        return await self._send(KeysUploadResponse, method, path, data)

    async def publish_keys(self) -> None:
        """Upload our keys until the server takes them: nobody could write to us in an encrypted room before.

        Returns without them when we are signed out. A server that cannot be reached is waited for: nio tries again by itself.
        """
        pause_s = FIRST_WAIT_S
        while self.should_upload_keys:
            answer = await self.keys_upload()
            if isinstance(answer, KeysUploadResponse) or getattr(answer, "status_code", "") == "M_UNKNOWN_TOKEN":
                return  # signed out: listening says so
            await asyncio.sleep(pause_s)
            pause_s = min(2.0 * pause_s, LONGEST_WAIT_S)

    async def _handle_to_device(self, response: SyncResponse) -> None:
        """Take the keys that others sent us: all that they change is kept together, or none of it."""
        assert self.store is not None
        with self.store.database.atomic():
            await super()._handle_to_device(response)

    async def share_group_session(self, room_id: str, ignore_unverified_devices: bool = False) -> Any:
        """Give a room's key to everybody in it. KeyNotPassedOn: nio goes on whatever the server answers."""
        if self.should_query_keys and not isinstance(await self.keys_query(), KeysQueryResponse):
            raise KeyNotPassedOn(room_id)
        missing = self.get_missing_sessions(room_id)
        if missing and not isinstance(await self.keys_claim(missing), KeysClaimResponse):
            raise KeyNotPassedOn(room_id)
        answer = await super().share_group_session(room_id, ignore_unverified_devices)
        if room_id in self._not_passed_on:
            self._not_passed_on.discard(room_id)
            self.invalidate_outbound_session(room_id)
            raise KeyNotPassedOn(room_id)
        return answer

    async def _send(self, response_class: type, *args: Any, **more: Any) -> Any:
        answer = await super()._send(response_class, *args, **more)
        if response_class is ShareGroupSessionResponse and answer.transport_response.status != HTTPStatus.OK:
            self._not_passed_on.add(more["response_data"][0])  # nio takes an error page for an empty answer, which is right
        return answer

    def when(self, kind: type, handler: Callable[[Any], Coroutine[Any, Any, None]]) -> None:
        """Have responses of a kind handled."""
        self.add_response_callback(cast(Any, handler), kind)  # nio annotates it as what the handler returns

    async def close(self) -> None:
        """Close the connections."""
        await super().close()  # type: ignore[no-untyped-call]  # the only part of nio used here without annotations

    @property
    def fingerprint(self) -> str:
        """The public key by which a person can verify this device."""
        assert self.olm is not None
        key: str = self.olm.account.identity_keys["ed25519"]
        return key


async def sign_in(homeserver: str, user: str, password: str, folder: Path) -> Device:
    """The device kept in the folder, or a new one. CannotSignIn; OSError when the folder cannot be written."""
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    folder.chmod(0o700)
    logging.getLogger("nio").setLevel(logging.ERROR)  # its warnings quote what was sent
    os.umask(0o077)  # whatever this process writes from here on is for its owner only
    config = AsyncClientConfig(store=Store, max_timeout_retry_wait_time=LONGEST_WAIT_S, encryption_enabled=True)
    device = Device(homeserver.rstrip("/"), user, store_path=str(folder), config=config)
    kept = folder / "device.json"
    if kept.exists():
        known = json.loads(kept.read_text())
        device.restore_login(*(known[name] for name in KEPT))
        return device
    answer = await device.login(password, device_name=DEVICE_NAME)
    if not isinstance(answer, LoginResponse):
        await device.close()
        raise CannotSignIn(f"{homeserver} does not sign {user} in: {answer.message}")
    new = folder / "device.new"
    new.write_text(json.dumps({name: getattr(answer, name) for name in KEPT}))
    new.rename(kept)
    return device
