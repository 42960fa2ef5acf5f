"""The bot in rooms of a real homeserver: when it speaks, to what, and in which form."""

import asyncio
import json
import os
import signal
import stat
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from bot.adapters.matrix import Listener
from bot.adapters.matrix_device import sign_in
from bot.adapters.matrix_out import Matrix
from bot.memory.store import open_memory
from bot.post.allow import Allow
from bot.post.room import PostRoom
from bot.reply import words_post
from tests.servers.matrix_bot import Bot
from tests.servers.matrix_user import Person, Seen, person
from tests.servers.synapse import Synapse, get, log_in, password_of

pytestmark = pytest.mark.servers

BATCH = "8 serves of 1:1 gin vermouth with 25% water"
RUM = "6 daiquiris, 60 rum 30 lime 20 syrup"
QUIET_S = 1.5  # an answer takes a tenth of that


@pytest.fixture(scope="module")
def bot(synapse: Synapse, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Bot]:
    started = Bot(synapse, "barback", tmp_path_factory.mktemp("bot"))
    started.start()
    yield started
    assert started.end(signal.SIGTERM) == 0, started.log[-3000:]


async def unanswered(who: Person, question: str) -> bool:
    await asyncio.sleep(QUIET_S)
    return not who.answers(question)


def first_line(seen: Seen) -> str:
    return seen.body.split("\n")[0]


@pytest.mark.parametrize("encrypted", [False, True], ids=["plain", "encrypted"])
async def test_a_room_for_two(synapse: Synapse, bot: Bot, tmp_path: Path, encrypted: bool) -> None:
    async with person(synapse, f"two{encrypted}".lower(), tmp_path) as ann:
        room = await ann.room(bot.user_id, encrypted=encrypted)
        assert (await ann.hello(room)).body == words_post.HELLO
        batch = await ann.ask(room, BATCH)
        assert "gin           360 mL" in batch.body
        assert "<pre>gin           360 mL" in batch.content["formatted_body"]
        assert batch.content["format"] == "org.matrix.custom.html"
        assert batch.content["msgtype"] == "m.notice"
        assert batch.decrypted is encrypted
        assert first_line(await ann.ask(room, "make it 12")).startswith("12 serves")
        offered = (await ann.ask(room, BATCH)).body.split("\n")[-1]
        assert offered.startswith(words_post.NEXT)
        for words in offered.removeprefix(words_post.NEXT).split(" · "):
            said = await ann.ask(room, words.strip())
            assert "gin" in said.body, words
        assert len(ann.unasked(room)) == 1


async def test_replying_to_an_old_answer_works_from_that_one(synapse: Synapse, bot: Bot, tmp_path: Path) -> None:
    async with person(synapse, "old", tmp_path) as ann:
        room = await ann.room(bot.user_id)
        gin = await ann.ask(room, BATCH)
        rum = await ann.ask(room, RUM)
        assert "rum" in rum.body
        changed = await ann.answer(await ann.reply(room, gin.event_id, "make it 12"))
        assert "gin" in changed.body
        assert "540 mL" in changed.body


async def test_an_edited_question_gets_a_new_answer_that_says_so(synapse: Synapse, bot: Bot, tmp_path: Path) -> None:
    async with person(synapse, "editor", tmp_path) as ann:
        room = await ann.room(bot.user_id, encrypted=True)
        question = await ann.say(room, "2 oz to ml")
        await ann.answer(question)
        for text in ("3 oz to ml", "4 oz to ml"):
            before = len(ann.answers(question))
            await ann.edit(room, question, text)
            await ann.until(lambda before=before: len(ann.answers(question)) > before)
        answers = ann.answers(question)
        assert [first_line(seen) == words_post.REPLACES for seen in answers] == [False, True, True]
        assert all(ml in seen.body for ml, seen in zip(("59", "88.7", "118"), answers, strict=True))


@pytest.mark.parametrize("encrypted", [False, True], ids=["plain", "encrypted"])
async def test_in_company_it_speaks_when_spoken_to(synapse: Synapse, bot: Bot, tmp_path: Path, encrypted: bool) -> None:
    c, d = (f"{name}{'-secret' if encrypted else ''}" for name in ("cara", "dora"))
    async with person(synapse, c, tmp_path / "c") as cara, person(synapse, d, tmp_path / "d") as dora:
        await dora.client.set_displayname("Dora")
        room = await cara.room(bot.user_id, dora.name, encrypted=encrypted)
        await cara.hello(room)
        assert await unanswered(cara, await cara.say(room, BATCH))
        named = await cara.ask(room, f"barback: {BATCH}")
        assert "gin           360 mL" in named.body
        mention = {"m.mentions": {"user_ids": [bot.user_id]}}
        assert "88.7" in (await cara.answer(await cara.say(room, "3 oz to ml", **mention))).body
        assert "540 mL" in (await dora.answer(await dora.reply(room, named.event_id, "make it 12"))).body
        assert await unanswered(cara, await cara.reply(room, await dora.say(room, "hm"), "make it 20"))
        assert await unanswered(cara, await cara.edit(room, await cara.say(room, "2 oz to ml"), "3 oz to ml"))

        follow_up = await dora.reply(room, named.event_id, "make it 20")
        assert "900 mL" in (await dora.answer(follow_up)).body
        await dora.edit(room, follow_up, "make it 24")
        await dora.until(lambda: len(dora.answers(follow_up)) == 2)
        assert "1080 mL" in dora.answers(follow_up)[1].body

        root = await cara.say(room, "about tonight")
        relation = {"rel_type": "m.thread", "event_id": root, "is_falling_back": True}
        threaded = {"m.relates_to": {**relation, "m.in_reply_to": {"event_id": root}}}
        question = await cara.say(room, "barback 2 oz to ml", **threaded)
        answer = await cara.answer(question)
        assert answer.content["m.relates_to"]["event_id"] == root
        assert answer.content["m.relates_to"]["rel_type"] == "m.thread"


async def test_an_admin_locks_a_room(synapse: Synapse, bot: Bot, tmp_path: Path) -> None:
    async with person(synapse, "boss", tmp_path / "b") as boss, person(synapse, "guest", tmp_path / "g") as guest:
        room = await boss.room(bot.user_id, guest.name)  # whoever makes a room has level 100, whoever comes 0
        await boss.hello(room)
        await guest.until(lambda: room in guest.client.rooms)
        for who, text, said in (
            (guest, "barback lock", words_post.NOT_AN_ADMIN),
            (boss, "barback lock house specs", words_post.LOCKED),
            (guest, "barback save house martini: 60 gin, 10 dry vermouth", words_post.ONLY_ADMINS),
            (guest, "barback 2 oz to ml", "59.1 mL"),
            (boss, "barback unlock", words_post.UNLOCKED),
        ):
            assert (await who.ask(room, text)).body.startswith(said), text
        saved = await guest.ask(room, "barback save house martini: 60 gin, 10 dry vermouth")
        assert words_post.ONLY_ADMINS not in saved.body


async def test_what_is_no_question_to_it(synapse: Synapse, bot: Bot, tmp_path: Path) -> None:
    """The room is encrypted: the server cannot refuse what is malformed."""
    async with person(synapse, "odd", tmp_path / "o") as odd, person(synapse, "meddler", tmp_path / "m") as meddler:
        room = await odd.room(bot.user_id, meddler.name, encrypted=True)
        await odd.hello(room)
        question = await odd.say(room, "barback 2 oz to ml")
        await odd.answer(question)
        text = {"msgtype": "m.text", "body": "barback 5 oz to ml"}
        odd_things: list[dict[str, Any]] = [
            {"msgtype": "m.notice", "body": "barback 2 oz to ml"},
            {"msgtype": "m.emote", "body": "barback 2 oz to ml"},
            {"msgtype": "m.text", "body": "* barback", "m.new_content": [], "m.relates_to": {"rel_type": "m.replace"}},
            {"msgtype": "m.text", "body": "x", "m.new_content": text, "m.relates_to": {"rel_type": "m.replace", "event_id": 7}},
            {"msgtype": "m.text", "body": "x", "m.relates_to": "barback", "m.mentions": [3]},
            {"msgtype": "m.text", "body": "x", "m.mentions": {"user_ids": {"barback": 1}}},
        ]
        sent = [await odd.send(room, content) for content in odd_things]
        await odd.send(room, {"key": "barback"}, "m.reaction")
        await meddler.edit(room, question, "barback 9 oz to ml")
        assert "88.7" in (await odd.ask(room, "barback 3 oz to ml")).body
        assert not any(odd.answers(event_id) for event_id in sent)
        assert len(odd.answers(question)) == 1


async def test_it_leaves_an_empty_room(synapse: Synapse, bot: Bot, tmp_path: Path) -> None:
    token = log_in(synapse, "barback")
    async with person(synapse, "leaver", tmp_path) as ann:
        room = await ann.room(bot.user_id)
        await ann.hello(room)
        joined = f"{synapse.url}/_matrix/client/v3/joined_rooms"
        assert room in get(joined, token)["joined_rooms"]
        await ann.client.room_leave(room)
        for _ in range(50):
            if room not in get(joined, token)["joined_rooms"]:
                return
            await asyncio.sleep(0.1)
        pytest.fail("it stays in an empty room")


async def test_only_those_who_are_allowed(synapse: Synapse, tmp_path: Path) -> None:
    async with person(synapse, "mine", tmp_path / "i") as mine, person(synapse, "theirs", tmp_path / "t") as theirs:
        bot = Bot(synapse, "private", tmp_path / "bot", SHIFTMATHS_ALLOW=f"{mine.name}, :elsewhere.example")
        bot.start()
        try:
            made = await theirs.client.room_create(invite=[bot.user_id])
            refused = made.room_id
            room = await mine.room(bot.user_id, theirs.name)
            assert "59" in (await mine.ask(room, "private: 2 oz to ml")).body
            assert await unanswered(theirs, await theirs.say(room, "private: 2 oz to ml"))
            assert bot.user_id not in theirs.members(refused)
        finally:
            assert bot.end(signal.SIGTERM) == 0


async def test_device_and_place_are_kept(synapse: Synapse, tmp_path: Path) -> None:
    """More is asked while it is away than the server sends at once, and all of it is read after the restart."""
    bot = Bot(synapse, "sleeper", tmp_path / "bot")
    bot.start()
    try:
        async with person(synapse, "early", tmp_path / "early") as ann:
            room = await ann.room(bot.user_id, encrypted=True)
            await ann.hello(room)
            await ann.ask(room, BATCH)
            assert bot.end(signal.SIGTERM) == 0
            kept = bot.device()
            asked = [await ann.say(room, f"{n} oz to ml") for n in range(1, 131)]
            bot.start()
            await ann.answer(asked[-1], 60.0)
            replied = [seen.replies_to for seen in await ann.notices(room, bot.user_id)]
            assert replied[2:] == asked
            assert bot.device() == kept
        files = [path for path in (tmp_path / "bot" / "data").rglob("*") if path.is_file()]
        assert len(files) >= 2
        assert all(stat.S_IMODE(path.stat().st_mode) == 0o600 for path in files)
        secrets = [json.loads(kept)["access_token"], "pw-sleeper", BATCH, "oz to ml", "gin"]
        assert not any(secret in bot.log for secret in secrets)
    finally:
        if bot.running:
            bot.end(signal.SIGTERM)


async def test_what_is_too_old_gets_one_line(synapse: Synapse, tmp_path: Path) -> None:
    """Twenty minutes late, by its own clock: the newest question gets a line, the others nothing."""
    mask = os.umask(0o022)
    try:
        user_id = synapse.register("latecomer")
        device = await sign_in(synapse.url, user_id, password_of("latecomer"), tmp_path / "device")
        async with open_memory(f"sqlite:///{tmp_path}/memory.db") as memory, person(synapse, "early-bird", tmp_path / "k") as ann:
            platform = Matrix(device)
            post = PostRoom(memory, platform, clock=lambda: datetime.now(UTC) + timedelta(minutes=20))
            listening = asyncio.create_task(Listener(device, platform, post, Allow()).listen())
            room = await ann.room(user_id)
            await ann.hello(room)
            asked = [await ann.say(room, f"{n} oz to ml") for n in (1, 2, 3)]
            assert (await ann.answer(asked[-1])).body == words_post.BACK
            assert [seen.replies_to for seen in await ann.notices(room, user_id)] == ["", asked[-1]]
            listening.cancel()
            await asyncio.gather(listening, return_exceptions=True)
            await post.close(1.0)
        await device.close()
    finally:
        os.umask(mask)
