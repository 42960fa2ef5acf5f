"""In the chat: who is answered, how, and what buttons, edits, commands and inline queries do. Polling and webhook."""

from functools import partial
from pathlib import Path

import pytest

from bot.config import read_telegram
from bot.reply import words_post
from tests.memory.tools import query
from tests.telegram.botapi import BotApi
from tests.telegram.chatting import answered, chatting, environment, quiet, serving, until
from tests.telegram.world import BOT, World

BATCH = "8 serves: 60 gin, 30 dry vermouth, 25% water"
FIRST_LINE = "8 serves · 90 mL spec + 25% water"
ANN, BEN = 70, 71
GROUP, SUPERGROUP = -500, -1_000_000_000_900
TO_US = {"reply_to_message": {"message_id": 1, "date": 1, "chat": {"id": GROUP, "type": "group"}, "from": BOT}}


@pytest.fixture
def place(tmp_path: Path) -> str:
    return f"sqlite:///{tmp_path}/memory.db"


@pytest.mark.parametrize("webhook", [False, True], ids=["polling", "webhook"])
async def test_a_batch_is_answered_to_its_question_in_html(place: str, webhook: bool) -> None:
    async with chatting(place, webhook=webhook) as api:
        question = api.world.say(ANN, BATCH)
        (text,) = await answered(api, ANN, 1)
        (message,) = api.world.sent[ANN].values()
        assert text.split("\n")[0] == FIRST_LINE
        assert message.question == question
        assert "<pre>" in message.html
        await until(api, lambda world: world.commands)
        assert {command["command"] for command in api.world.commands} == {"start", "help", "settings"}


def _shows(chat: int, number: int, text: str, world: World) -> bool:
    return text in world.sent[chat][number].text


async def test_buttons_edit_their_own_answer(place: str) -> None:
    async with chatting(place) as api:
        api.world.say(ANN, BATCH)
        await answered(api, ANN, 1)
        api.world.say(ANN, "3 serves: 50 rum, 25 lime")
        await answered(api, ANN, 2)
        first, second = sorted(api.world.sent[ANN])
        offered = dict(api.world.sent[ANN][first].buttons)
        assert list(offered.values()) == [
            "make it 6", "make it 10", "make it 16", "in oz", "20% water", "30% water", "save that as gin mix", "label"
        ]  # fmt: skip
        api.world.press(ANN, first, "make it 10")
        await until(api, lambda world: world.sent[ANN][first].text.startswith("10 serves"))
        assert "make it 12" in dict(api.world.sent[ANN][first].buttons).values()
        assert api.world.sent[ANN][second].edits == 0
        for said, shown in (("in oz", "oz"), ("20% water", "20%"), ("label", "% vol")):
            api.world.press(ANN, first, said)
            await until(api, partial(_shows, ANN, first, shown))
        api.world.press(ANN, second, "save that as rum mix")
        await until(api, lambda world: world.toasts[-1:] == ["Saved rum mix"])
        assert api.world.sent[ANN][second].edits == 0
        api.world.press(ANN, 9999, "make it 3")
        await until(api, lambda world: world.toasts[-1:] == [words_post.TOO_OLD])


async def test_an_edited_question_edits_its_answer(place: str) -> None:
    async with chatting(place) as api:
        question = api.world.say(ANN, BATCH)
        await answered(api, ANN, 1)
        api.world.edit(ANN, question, BATCH.replace("8", "9", 1))
        await until(api, lambda world: next(iter(world.sent[ANN].values())).text.startswith("9 serves"))
        assert await quiet(api) == 1


@pytest.mark.parametrize(
    ("text", "more", "is_answered"),
    [
        (BATCH, {}, False),
        ("/unknown", {}, False),
        ("/help@another_bot", {}, False),
        (f"@another_bot {BATCH}", {}, False),
        (None, {"photo": [{"file_id": "f", "file_unique_id": "u", "width": 1, "height": 1}]}, False),
        (f"@shiftmaths_bot {BATCH}", {}, True),
        (f"🍸 @ShiftMaths_Bot {BATCH}", {}, True),
        (BATCH, TO_US, True),
        ("/settings", {}, True),
        ("/help@shiftmaths_bot syrup", {}, True),
    ],
)  # fmt: skip
async def test_in_groups_only_what_is_for_us(place: str, text: str | None, more: dict[str, object], is_answered: bool) -> None:
    async with chatting(place) as api:
        question = api.world.say(GROUP, text, user=ANN, **more)
        end = api.world.say(GROUP, "/help", user=BEN)
        await until(api, lambda world: end in world.answers(GROUP))
        assert api.world.answers(GROUP) == ([question, end] if is_answered else [end])


async def test_a_group_is_one_memory_and_a_mention_is_no_ingredient(place: str) -> None:
    async with chatting(place) as api:
        api.world.say(GROUP, f"@shiftmaths_bot {BATCH}", user=ANN)
        assert (await answered(api, GROUP, 1))[0].startswith(FIRST_LINE)
        api.world.say(GROUP, "make it 12 @shiftmaths_bot", user=BEN)
        assert (await answered(api, GROUP, 2))[1].startswith("12 serves")


async def test_a_topic_is_answered_in_its_topic(place: str) -> None:
    async with chatting(place) as api:
        api.world.say(SUPERGROUP, "/help", user=ANN, message_thread_id=5, is_topic_message=True)
        await answered(api, SUPERGROUP, 1)
        assert next(iter(api.world.sent[SUPERGROUP].values())).thread == 5


async def test_start_and_what_is_no_text(place: str) -> None:
    photo = [{"file_id": "f", "file_unique_id": "u", "width": 1, "height": 1}]
    voice = {"file_id": "f", "file_unique_id": "u", "duration": 1}
    async with chatting(place) as api:
        api.world.say(ANN, "/start")
        api.world.say(ANN, None, voice=voice)
        api.world.say(ANN, None, photo=photo, media_group_id="a")
        api.world.say(ANN, None, photo=photo, media_group_id="a")
        api.world.say(GROUP, None, user=ANN, voice=voice)
        api.world.say(ANN, None, pinned_message=None)
        assert await answered(api, ANN, 3) == [words_post.HELLO, words_post.TEXT_ONLY, words_post.TEXT_ONLY]
        assert await quiet(api) == 3


async def test_strangers_get_one_line_and_leave_no_trace(place: str) -> None:
    async with chatting(place, allow=f"{BEN}, {GROUP}") as api:
        api.world.say(ANN, BATCH)
        api.world.say(ANN, BATCH)
        api.world.say(BEN, BATCH)
        api.world.say(GROUP, "/help", user=ANN)
        api.world.press(ANN, 1, "make it 3")
        api.world.ask_inline(ANN, BATCH)
        await until(api, lambda world: world.sent[BEN] and world.sent[GROUP] and world.toasts and world.shared)
        assert await answered(api, ANN, 1) == [words_post.STRANGER]
        assert api.world.toasts == [words_post.STRANGER]
        assert api.world.shared == [[]]
        assert await quiet(api) == 3
    for table in ("chats", "handled", "letters", "replies", "marks"):
        assert await query(place, f"SELECT count(*) FROM {table} WHERE chat = 'telegram:{ANN}'") == [(0,)], table


async def test_an_admin_locks_a_group(place: str) -> None:
    async with chatting(place) as api:
        api.world.admins.add(ANN)
        told = [
            (BEN, "@shiftmaths_bot lock", words_post.NOT_AN_ADMIN),
            (ANN, "@shiftmaths_bot lock house specs", words_post.LOCKED),
            (BEN, "@shiftmaths_bot save fog bell: 50 gin, 20 dry vermouth", words_post.ONLY_ADMINS),
            (BEN, "/settings freezer -20", words_post.ONLY_ADMINS),
            (BEN, "/settings", "How this chat is set"),
            (BEN, f"@shiftmaths_bot {BATCH}", FIRST_LINE),
            (ANN, "@shiftmaths_bot save fog bell: 50 gin, 20 dry vermouth", "Saved fog bell"),
            (ANN, "@shiftmaths_bot unlock", words_post.UNLOCKED),
            (BEN, "@shiftmaths_bot save low tide: 30 dry sherry, 60 tonic", "Saved low tide"),
        ]
        for number, (user, text, shown) in enumerate(told):
            api.world.say(GROUP, text, user=user)
            assert (await answered(api, GROUP, number + 1))[number].startswith(shown), text


async def test_a_group_that_becomes_a_supergroup_keeps_its_memory(place: str) -> None:
    async with chatting(place) as api:
        api.world.say(GROUP, "@shiftmaths_bot save fog bell: 50 gin, 20 dry vermouth", user=ANN)
        await answered(api, GROUP, 1)
        api.world.say(GROUP, None, user=ANN, migrate_to_chat_id=SUPERGROUP)
        api.world.say(SUPERGROUP, "@shiftmaths_bot 20 fog bell", user=ANN)
        assert (await answered(api, SUPERGROUP, 1))[0].startswith("fog bell · 20 serves")


async def test_a_reply_follows_a_group_that_moved(place: str) -> None:
    async with chatting(place) as api:
        api.world.moved[GROUP] = SUPERGROUP
        api.world.say(GROUP, f"@shiftmaths_bot {BATCH}", user=ANN)
        assert (await answered(api, SUPERGROUP, 1))[0].startswith(FIRST_LINE)


async def test_inline_offers_the_answer_and_nothing_for_nonsense(place: str) -> None:
    async with chatting(place) as api:
        for text in (BATCH, "what a night", ""):
            api.world.ask_inline(ANN, text)
            await until(api, lambda world: world.shared)
            offered = api.world.shared.pop()
            if text == BATCH:
                assert offered[0]["input_message_content"]["message_text"].startswith("<b>8\u00a0serves")
            else:
                assert offered == []


async def test_what_has_blocked_us_is_dropped(place: str) -> None:
    async with chatting(place) as api:
        api.world.blocked.add(ANN)
        api.world.say(ANN, BATCH)
        api.world.say(BEN, BATCH)
        await answered(api, BEN, 1)
        api.world.blocked.clear()
        api.world.say(ANN, "2 oz in ml")
        assert len(await answered(api, ANN, 1)) == 1


async def test_the_backlog_of_a_night_gets_one_line_a_chat(place: str) -> None:
    async with BotApi(World()).running() as api:
        for chat in (ANN, BEN):
            for age in (7200, 3600, 1000):
                newest = api.world.say(chat, BATCH, age_s=age)
            fresh = api.world.say(chat, "2 oz in ml", age_s=60)
        async with serving(place, read_telegram(environment(api))):
            for chat in (ANN, BEN):
                assert sorted(text[:6] for text in await answered(api, chat, 2)) == ["59.1 m", "I was "]
            assert sorted(api.world.answers(BEN), key=str) == sorted([newest, fresh], key=str)
            assert await quiet(api, 0.5) == 4
