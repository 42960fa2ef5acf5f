"""A homeserver whose answers get lost on the way, or that refuses for a while: answered once all the same."""

import asyncio
import signal
from pathlib import Path

import pytest

from tests.servers.matrix_bot import Bot
from tests.servers.matrix_faults import faulty
from tests.servers.matrix_user import person
from tests.servers.synapse import Synapse

pytestmark = pytest.mark.servers


@pytest.mark.parametrize("encrypted", [False, True], ids=["plain", "encrypted"])
@pytest.mark.parametrize("how", ["lost", "refused"])
async def test_sending_goes_wrong(synapse: Synapse, tmp_path: Path, how: str, encrypted: bool) -> None:
    name = f"{how}-{'secret' if encrypted else 'open'}"
    bot = Bot(synapse, f"bot-{name}", tmp_path / "bot")
    async with faulty(synapse.url) as faults, person(synapse, name, tmp_path / "keys") as ann:
        bot.start(MATRIX_HOMESERVER=faults.url)
        try:
            room = await ann.room(bot.user_id, encrypted=encrypted)
            await ann.hello(room)
            getattr(faults, how)["/send/"] = 3
            asked = [await ann.say(room, f"{n} oz to ml") for n in range(1, 6)]
            await ann.answer(asked[-1])
            await asyncio.sleep(1.0)
            assert [seen.replies_to for seen in await ann.notices(room, bot.user_id)] == ["", *asked]
            assert len(faults.seen) == 3
        finally:
            assert await asyncio.to_thread(bot.end, signal.SIGTERM) == 0


@pytest.mark.parametrize("path", ["/sendToDevice/", "/keys/claim", "/keys/query", "/keys/upload", "/sync", "/join"])
async def test_a_key_that_was_not_passed_on_is_passed_on_later(synapse: Synapse, tmp_path: Path, path: str) -> None:
    """Whatever is refused at first, the person can read the answer."""
    name = path.strip("/").lower().replace("/", "-")
    bot = Bot(synapse, f"bot-{name}", tmp_path / "bot")
    async with faulty(synapse.url) as faults, person(synapse, f"ann-{name}", tmp_path / "keys") as ann:
        faults.refused[path] = 2
        bot.start(MATRIX_HOMESERVER=faults.url)
        try:
            room = await ann.room(bot.user_id, encrypted=True)
            await ann.hello(room)
            question = await ann.say(room, "2 oz to ml")
            assert "59" in (await ann.answer(question)).body
            assert len(await ann.notices(room, bot.user_id)) == 2
            assert faults.seen
        finally:
            assert await asyncio.to_thread(bot.end, signal.SIGTERM) == 0


async def test_a_real_limit_is_waited_out(strict_synapse: Synapse, tmp_path: Path) -> None:
    """The server lets the bot send one message a second: every question is answered all the same, once, in order."""
    bot = Bot(strict_synapse, "hasty", tmp_path / "bot")
    async with (
        faulty(strict_synapse.url) as faults,
        person(strict_synapse, "gil", tmp_path / "g") as gil,
        person(strict_synapse, "hal", tmp_path / "h") as hal,
    ):
        bot.start(MATRIX_HOMESERVER=faults.url)
        try:
            rooms = [await gil.room(bot.user_id), await hal.room(bot.user_id, encrypted=True)]
            asked: dict[str, list[str]] = {room: [] for room in rooms}
            for n in range(1, 6):
                for who, room in zip((gil, hal), rooms, strict=True):
                    asked[room].append(await who.say(room, f"{n} oz to ml"))
            for who, room in zip((gil, hal), rooms, strict=True):
                await who.answer(asked[room][-1], 60.0)
                assert [seen.replies_to for seen in await who.notices(room, bot.user_id)] == ["", *asked[room]]
            assert faults.answers[429] > 0
        finally:
            assert await asyncio.to_thread(bot.end, signal.SIGTERM) == 0
