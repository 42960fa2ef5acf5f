"""What arrives is answered once and in order, next steps work from the answer they belong to, and nothing is lost."""

import asyncio
from datetime import datetime, timedelta

import pytest

from bot.post.letters import Incoming, Later, Moved, Undeliverable, Unsure
from bot.reply import words_post
from tests.memory.tools import NOON, Clock, query
from tests.post.fakes import BATCH, World, post_room, said_in, settled


async def test_a_question_is_answered_and_the_letter_is_gone(address: str) -> None:
    world = World()
    async with post_room(address, world) as room:
        receipt = await room.receive(said_in("c", "1", BATCH))
        await settled(world, "c", 1)
        assert receipt.said is not None
        assert world.questions("c") == ["1"]
        assert world.texts("c") == ["8 serves · 90 mL spec + 25% water"]
    assert await query(address, "SELECT count(*) FROM letters") == [(0,)]
    assert await query(address, "SELECT question, reply FROM replies") == [("1", "1")]


async def test_a_message_that_comes_again_is_answered_once(address: str) -> None:
    world = World()
    for _ in range(2):  # also after a restart
        async with post_room(address, world) as room:
            await asyncio.gather(*(room.receive(said_in("c", "1", BATCH)) for _ in range(5)))
            await settled(world, "c", 1)


async def test_order_within_a_chat_and_chats_side_by_side(address: str) -> None:
    world = World(slow_s=0.003)
    async with post_room(address, world) as room:
        for number in range(12):
            await asyncio.gather(*(room.receive(said_in(f"c{c}", str(number), f"{number + 1} oz in ml")) for c in range(6)))
        for c in range(6):
            await settled(world, f"c{c}", 12)
            assert world.questions(f"c{c}") == [str(number) for number in range(12)]


async def test_a_button_works_from_its_own_answer_and_edits_it(address: str) -> None:
    world = World()
    async with post_room(address, world) as room:
        await room.receive(said_in("c", "1", BATCH))
        await room.receive(said_in("c", "2", "3 serves: 50 rum, 25 lime"))
        await settled(world, "c", 2)
        pressed = await room.receive(said_in("c", "3", "make it 12", about="1", press=True))
        assert pressed.letter is not None
        await asyncio.sleep(0.05)
        assert world.texts("c") == ["12 serves · 90 mL spec + 25% water", "3 serves · 75 mL spec"]
        await room.receive(said_in("c", "4", "in oz", about="1", press=True))  # from what the edited answer says now
        await asyncio.sleep(0.05)
        assert world.texts("c")[0].startswith("12 serves")


async def test_a_change_by_a_button_is_taken_back(address: str) -> None:
    world = World()
    async with post_room(address, world) as room:
        await room.receive(said_in("c", "1", BATCH))
        await settled(world, "c", 1)
        before = world.texts("c")[0]
        await room.receive(said_in("c", "2", "make it 12", about="1", press=True))
        await asyncio.sleep(0.05)
        assert world.texts("c") == ["12 serves · 90 mL spec + 25% water"]
        await room.receive(said_in("c", "3", "undo that"))
        await settled(world, "c", 2)
        assert world.texts("c")[1] == before


async def test_a_button_that_only_changes_the_memory_leaves_the_answer(address: str) -> None:
    world = World()
    async with post_room(address, world) as room:
        await room.receive(said_in("c", "1", BATCH))
        await settled(world, "c", 1)
        pressed = await room.receive(said_in("c", "2", "save that as gin mix", about="1", press=True))
        assert pressed.letter is None
        assert pressed.said is not None
        assert pressed.said.answer.kind == "saved"
        await settled(world, "c", 1)
        assert world.texts("c") == ["8 serves · 90 mL spec + 25% water"]
        unknown = await room.receive(said_in("c", "3", "make it 12", about="99", press=True))
        assert (unknown.letter, unknown.said) == (None, None)


async def test_replying_to_an_old_answer_works_from_that_answer(address: str) -> None:
    world = World()
    async with post_room(address, world) as room:
        await room.receive(said_in("c", "1", BATCH))
        await room.receive(said_in("c", "2", "3 serves: 50 rum, 25 lime"))
        await settled(world, "c", 2)
        await room.receive(said_in("c", "3", "make it 12", about="1"))
        await settled(world, "c", 3)
        assert world.texts("c")[2] == "12 serves · 90 mL spec + 25% water"


@pytest.mark.parametrize(("in_place", "shown"), [(True, 2), (False, 3)], ids=["in place", "anew"])
async def test_an_edited_question_is_answered_from_what_stood_before_it(
    address: str, in_place: bool, shown: int
) -> None:
    world = World()
    async with post_room(address, world, edits=in_place) as room:
        await room.receive(said_in("c", "1", BATCH))
        await room.receive(said_in("c", "2", "make it 12"))
        await settled(world, "c", 2)
        await room.receive(said_in("c", "2-edited", "make it 16", edits=True))
        await settled(world, "c", shown)
        await asyncio.sleep(0.05)
        assert world.texts("c")[-1].startswith("16 serves")
        assert world.questions("c")[-1] == "2"
        await room.receive(said_in("c", "1-edited", "20 serves: 60 rye, 30 sweet vermouth", edits=True))
        await room.receive(said_in("c", "5", "make it 3"))  # goes on from the last one, not from the edited first
        await settled(world, "c", shown + (1 if in_place else 2))
        assert world.texts("c")[-1] == "3 serves · 90 mL spec + 25% water"


async def test_what_a_question_asked_for_and_an_edit_of_the_message_it_asks_about(address: str) -> None:
    world = World()
    async with post_room(address, world) as room:
        await room.receive(said_in("c", "1", "negroni for 18 people"))
        await room.receive(said_in("c", "2", "30 gin 30 sweet vermouth 30 red bitter"))
        await settled(world, "c", 2)
        assert world.texts("c")[1].startswith("negroni · 18 guests · 18 serves")
        await room.receive(said_in("c", "3", "how much water for 20% dilution"))
        await room.receive(said_in("c", "3-edited", "5 serves: 60 rye, 30 sweet vermouth", edits=True))
        await room.receive(said_in("c", "4", "make it 3"))  # the edited message was the last: nothing came after it
        await settled(world, "c", 4)
        assert world.texts("c")[-1] == "3 serves · 90 mL spec"


async def test_an_edit_before_the_answer_was_sent(address: str) -> None:
    world = World(slow_s=0.05)
    async with post_room(address, world) as room:
        await room.receive(said_in("c", "1", BATCH))
        await room.receive(said_in("c", "1-edited", "3 serves: 50 rum, 25 lime", edits=True))
        async with asyncio.timeout(5):
            while world.texts("c") != ["3 serves · 75 mL spec"]:
                await asyncio.sleep(0.01)


async def test_old_questions_get_one_line_for_the_newest_of_each_chat(address: str) -> None:
    world, clock = World(), Clock()
    async with post_room(address, world, clock) as room:
        for number in range(5):
            at = NOON - timedelta(minutes=20 - number)
            await room.receive(said_in("c", str(number), BATCH, at=at))
            await room.receive(said_in("d", str(number), BATCH, at=at))
        await room.receive(said_in("e", "9", BATCH, at=NOON - timedelta(minutes=15)))  # not older than that
        await settled(world, "e", 1)
        assert world.texts("e") == ["8 serves · 90 mL spec + 25% water"]
        assert world.texts("c") == []
    clock.now += timedelta(seconds=3)
    async with post_room(address, world, clock):
        for chat in ("c", "d"):
            await settled(world, chat, 1)
            assert world.messages[chat].values().__iter__().__next__() == ("4", words_post.BACK)


async def test_an_answer_that_waited_too_long_becomes_the_line(address: str) -> None:
    world, clock = World(faults=[Later(3600.0)]), Clock()
    async with post_room(address, world, clock) as room:
        for number in range(3):
            await room.receive(said_in("c", str(number), BATCH))
        await asyncio.sleep(0.05)
    clock.now += timedelta(hours=2)
    async with post_room(address, world, clock):
        await settled(world, "c", 1)
        assert list(world.messages["c"].values()) == [("2", words_post.BACK)]


@pytest.mark.parametrize(
    "fault", [Later(0.01), Later(), Unsure(), OSError("ours")], ids=["told when", "refused", "unsure", "a fault of ours"]
)
async def test_a_letter_that_did_not_arrive_is_sent_again_and_keeps_its_place(address: str, fault: Exception) -> None:
    world = World(faults=[fault])
    async with post_room(address, world, Moving()) as room:
        for number in range(3):
            await room.receive(said_in("c", str(number), BATCH))
        await settled(world, "c", 3)
        assert world.questions("c") == ["0", "1", "2"]


async def test_a_letter_that_arrived_although_we_never_heard_is_not_sent_again(address: str) -> None:
    world = World(lost=1)
    async with post_room(address, world, Moving()) as room:
        await room.receive(said_in("c", "1", BATCH))
        await room.receive(said_in("c", "2", BATCH))
        await settled(world, "c", 2)
    assert await query(address, "SELECT question, reply FROM replies ORDER BY question") == [("1", "1"), ("2", "2")]


async def test_what_cannot_be_delivered_is_dropped_and_holds_up_nothing(address: str) -> None:
    world = World(faults=[Undeliverable("blocked")])
    async with post_room(address, world) as room:
        await room.receive(said_in("c", "1", BATCH))
        await room.receive(said_in("c", "2", BATCH))
        await settled(world, "c", 1)
        assert world.questions("c") == ["2"]


async def test_a_chat_that_moves_takes_its_memory_and_its_letters(address: str) -> None:
    world = World()
    async with post_room(address, world) as room:
        await room.receive(said_in("old", "1", "save fog bell: 50 gin, 20 dry vermouth"))
        await settled(world, "old", 1)
        await room.set_locked("old", True)
        world.faults.append(Moved("new"))
        await room.receive(said_in("old", "2", BATCH))
        await settled(world, "new", 1)
        await room.receive(said_in("new", "3", "20 fog bell"))
        await settled(world, "new", 2)
        assert world.texts("new")[1].startswith("fog bell · 20 serves")
        assert (await room.locked("new"), await room.locked("old")) == (True, False)
        await room.receive(said_in("old", "4", "list specs"))
        await settled(world, "old", 2)
        assert "fog bell" not in world.texts("old")[1]


async def test_a_locked_chat_keeps_what_it_was_told(address: str) -> None:
    world = World()
    async with post_room(address, world) as room:
        for number, text in enumerate(
            ["save fog bell: 50 gin, 20 dry vermouth", "freezer -20", "my gin is 46%", "forget everything", "8 fog bell"]
        ):
            await room.receive(said_in("c", str(number), text, may_change=number == 0))
        await settled(world, "c", 5)
        assert world.texts("c")[1:4] == [words_post.ONLY_ADMINS] * 3
        assert world.texts("c")[4].startswith("fog bell · 8 serves")


async def test_forgetting_forgets_what_replies_answer(address: str) -> None:
    world = World()
    async with post_room(address, world, Moving()) as room:
        await room.receive(said_in("c", "1", BATCH))
        await room.receive(said_in("d", "1", BATCH))
        await settled(world, "c", 1)
        await room.receive(said_in("c", "2", "forget everything"))
        await settled(world, "c", 2)
        pressed = await room.receive(said_in("c", "3", "make it 12", about="1", press=True))
        assert pressed.said is None
    assert await query(address, "SELECT count(*) FROM replies WHERE chat = 'c' AND body <> ''") == [(0,)]
    assert await query(address, "SELECT count(*) FROM replies WHERE chat = 'd' AND body <> ''") == [(1,)]


async def test_a_fault_of_ours_is_owned_up_to_once(address: str, monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(*args: object, **more: object) -> None:
        raise ZeroDivisionError

    world = World()
    async with post_room(address, world) as room:
        monkeypatch.setattr("bot.post.room.steps", broken)
        for _ in range(2):
            await room.receive(said_in("c", "1", BATCH))
        await settled(world, "c", 1)
        assert world.texts("c") == [words_post.SORRY]


async def test_a_ready_line_and_marks(address: str) -> None:
    world = World()
    async with post_room(address, world) as room:
        await room.receive(Incoming("c", "1", "1", NOON, "", line=words_post.TEXT_ONLY))
        await settled(world, "c", 1)
        assert world.texts("c") == [words_post.TEXT_ONLY]
        await room.set_mark("since", "s1")
        await room.set_mark("since", "s2")
        assert (await room.mark("since"), await room.mark("other")) == ("s2", "")


class Moving(Clock):
    """A clock that moves a second at every look, so that pauses pass."""

    def __call__(self) -> datetime:
        self.now += timedelta(seconds=0.2)
        return self.now
