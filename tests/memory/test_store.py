"""Conversations: what is told is kept, undone when the message fails, forgotten when asked, never seen by others."""

import asyncio
from dataclasses import replace
from datetime import timedelta

import pytest

from bot.memory.store import CHATS_AT_HAND, Memory, open_memory
from bot.told import FRESH, LONGEST_NAME, HouseSpec, Last, Settings, ShelfBottle, Told
from tests.memory.tools import FOG_BELL, NOON, PLOVER, Clock, query, tell, told_anew, told_by


async def test_a_new_chat_is_fresh(address: str) -> None:
    assert await told_anew(address, "bar") == FRESH


async def test_what_is_told_survives_a_restart(address: str) -> None:
    async with open_memory(address, Clock()) as memory:
        await tell(memory, "bar", PLOVER)
        assert await told_by(memory, "bar") == PLOVER
    assert await told_anew(address, "bar") == PLOVER


async def test_another_process_sees_a_change_at_once(address: str) -> None:
    """What one process has at hand is not believed when another has written."""
    async with open_memory(address, Clock()) as one, open_memory(address, Clock()) as other:
        await tell(one, "bar", PLOVER)
        assert await told_by(other, "bar") == PLOVER
        await tell(other, "bar", replace(PLOVER, specs=(FOG_BELL,)))
        assert await told_by(one, "bar") == replace(PLOVER, specs=(FOG_BELL,))
        await tell(other, "bar", FRESH)
        await tell(other, "bar", replace(PLOVER, shelf=()))
        assert await told_by(one, "bar") == replace(PLOVER, shelf=())


async def test_more_chats_than_are_held_at_hand(address: str) -> None:
    async with open_memory(address, Clock()) as memory:
        for number in range(CHATS_AT_HAND + 2):
            await tell(memory, f"bar {number}", Told(shelf=(ShelfBottle("gin", price=float(number)),)))
        for number in (0, 1, CHATS_AT_HAND + 1):
            assert (await told_by(memory, f"bar {number}")).shelf[0].price == number
        assert len(memory._known) == CHATS_AT_HAND


ALIKE = ["bar", "Bar", "bar ", "b%r", "b_r", "bår", "ba\u030ar", "-18", "' OR 1=1 --", "\U0001f378", "x" * LONGEST_NAME]


async def test_one_chat_never_sees_another(address: str) -> None:
    def own(chat: str) -> Told:
        return Told(Settings(currency=chat[:20]), (ShelfBottle(chat),), (HouseSpec(chat, chat, chat),))

    async with open_memory(address) as memory:
        for chat in ALIKE:
            assert await told_by(memory, chat) == FRESH
            await tell(memory, chat, own(chat))
        async with memory.conversation(ALIKE[0]) as talk:
            await talk.remember(talk.told, forget=True)
    async with open_memory(address) as memory:
        assert [await told_by(memory, chat) for chat in ALIKE] == [FRESH, *map(own, ALIKE[1:])]


async def failing(memory: Memory) -> None:
    async with memory.conversation("bar", platform="p", message="7") as talk:
        await talk.remember(FRESH)
        raise ZeroDivisionError


async def test_an_error_undoes_the_message(address: str) -> None:
    async with open_memory(address, Clock()) as memory:
        await tell(memory, "bar", PLOVER)
        with pytest.raises(ZeroDivisionError):
            await failing(memory)
        assert await told_by(memory, "bar") == PLOVER
        async with memory.conversation("bar", platform="p", message="7") as talk:
            assert not talk.repeated  # it was not answered, so it is to be answered when it comes again
    assert await told_anew(address, "bar") == PLOVER


async def test_a_cancelled_message_leaves_nothing_locked(address: str) -> None:
    async with open_memory(address, Clock()) as memory:
        inside = asyncio.Event()

        async def stuck() -> None:
            async with memory.conversation("bar") as talk:
                await talk.remember(PLOVER)
                inside.set()
                await asyncio.sleep(60)

        task = asyncio.create_task(stuck())
        await inside.wait()
        task.cancel()
        with pytest.raises(asyncio.CancelledError):
            await task
        async with asyncio.timeout(5):
            assert await told_by(memory, "bar") == FRESH


async def test_no_message_of_a_chat_overwrites_another(address: str) -> None:
    """Forty messages at once, through two memories as two processes have: each adds a bottle, none is lost."""
    async with open_memory(address) as one, open_memory(address) as other:

        async def add(number: int) -> None:
            async with (one, other)[number % 2].conversation("bar") as talk:
                await asyncio.sleep(0)
                await talk.remember(replace(talk.told, shelf=(*talk.told.shelf, ShelfBottle(str(number)))))

        await asyncio.gather(*(add(number) for number in range(40)))
        assert {bottle.name for bottle in (await told_by(one, "bar")).shelf} == set(map(str, range(40)))


@pytest.mark.parametrize(
    ("passed", "kept"),
    [
        (timedelta(hours=12), True),
        (timedelta(hours=12, microseconds=1), False),
        (timedelta(days=400), False),
        (timedelta(minutes=-5), True),  # a clock that was set back
    ],
    ids=str,
)
async def test_the_last_answer_expires(address: str, passed: timedelta, kept: bool) -> None:
    clock = Clock()
    async with open_memory(address, clock) as memory:
        await tell(memory, "bar", PLOVER)
        clock.now += passed
        expected = PLOVER if kept else replace(PLOVER, last=None)
        assert await told_by(memory, "bar") == expected
    assert await query(address, "SELECT last_body IS NOT NULL, last_at IS NOT NULL FROM chats") == [(kept, kept)]
    assert await told_anew(address, "bar", clock) == expected


async def test_what_is_past_its_time_goes_though_its_chat_is_silent(address: str) -> None:
    clock = Clock()
    async with open_memory(address, clock) as memory:
        for hour, chat in ((0, "early"), (2, "late")):
            clock.now = NOON + timedelta(hours=hour)
            async with memory.conversation(chat, platform="p", message="1") as talk:
                await talk.remember(Told(last=Last(clock.now, "{}")))
        left = "SELECT chat FROM chats WHERE last_body IS NOT NULL", "SELECT chat FROM handled"
        clock.now = NOON + timedelta(hours=13)
        await told_by(memory, "third")
        assert [await query(address, statement) for statement in left] == [[("late",)], [("early",), ("late",)]]
        clock.now = NOON + timedelta(days=7, hours=1)
        await told_by(memory, "third")
        assert [await query(address, statement) for statement in left] == [[], [("late",)]]


async def test_forgetting_deletes_every_row_of_the_chat(address: str) -> None:
    async with open_memory(address, Clock()) as memory:
        for chat in ("bar", "other"):
            async with memory.conversation(chat, platform="p", message="1") as talk:
                await talk.remember(PLOVER)
        memory._clock = Clock(NOON + timedelta(minutes=1))
        async with memory.conversation("bar", platform="p", message="2") as talk:
            await talk.remember(talk.told, forget=True)
        for table, rows in (("chats", 0), ("shelf", 0), ("specs", 0), ("handled", 1)):  # 1: the asking itself
            counted = f"SELECT count(*) FROM {table} WHERE chat = :chat"
            assert await query(address, counted, chat="bar") == [(rows,)], table
            assert await query(address, counted, chat="other") != [(0,)], table
        assert await told_by(memory, "bar") == FRESH
        async with memory.conversation("bar", platform="p", message="2") as talk:
            assert talk.repeated


async def test_a_message_is_answered_once(address: str) -> None:
    seen = []
    places = [("p", "bar", "1"), ("p", "bar", "2"), ("q", "bar", "1"), ("p", "pub", "1")]
    async with open_memory(address) as memory:
        for platform, chat, message in places * 2:
            async with memory.conversation(chat, platform=platform, message=message) as talk:
                seen.append(talk.repeated)
    async with open_memory(address) as memory, memory.conversation("bar", platform="p", message="1") as talk:
        assert talk.repeated
    assert seen == [False] * 4 + [True] * 4


async def test_only_differences_are_written(address: str) -> None:
    """A row keeps its place in the file, or its version, unless what it says has changed."""
    specs = tuple(HouseSpec(f"spec {number}", "60 gin", "{}") for number in range(30))
    version = "rowid, stamp" if address.startswith("sqlite") else "xmin::text, stamp"
    chat_row = f"SELECT {version} FROM chats"
    spec_rows = f"SELECT {version.split(',')[0]}, name, place, text FROM specs ORDER BY name"
    async with open_memory(address, Clock()) as memory:
        await tell(memory, "bar", Told(specs=specs))
        before, chat_before = set(await query(address, spec_rows)), await query(address, chat_row)
        await told_by(memory, "bar")
        assert await query(address, chat_row) == chat_before
        await tell(memory, "bar", Told(specs=specs, last=Last(NOON, "{}")))
        assert set(await query(address, spec_rows)) == before
        changed = (*specs[1:15], replace(specs[15], text="45 gin"), *specs[16:], HouseSpec("new", "", ""))
        await tell(memory, "bar", Told(specs=changed))
        after = set(await query(address, spec_rows))
        assert {row[1] for row in before - after} == {"spec 0", "spec 15"}
        assert {row[1] for row in after - before} == {"spec 15", "new"}
        assert await told_by(memory, "bar") == Told(specs=changed)


async def test_order_is_kept(address: str) -> None:
    names = "dry", "fog bell", "cargo", "low tide", "anchor"
    async with open_memory(address) as memory:
        for order in (names, names[::-1], names[2:] + names[:2], names[1:4], names):
            told = Told(specs=tuple(HouseSpec(name, "", "") for name in order))
            await tell(memory, "bar", told)
            assert (await told_anew(address, "bar")).specs == told.specs


async def test_what_no_database_can_write_is_replaced(address: str) -> None:
    odd, plain = "60 gin\0 \ud83d", "60 gin\ufffd ?"
    async with open_memory(address) as memory:
        await tell(memory, "bar", Told(specs=(HouseSpec("fog bell", odd, odd, odd, odd),)))
    assert (await told_anew(address, "bar")).specs == (HouseSpec("fog bell", plain, plain, plain, plain),)


@pytest.mark.parametrize("chat", ["", "x" * (LONGEST_NAME + 1), "bar\0", "\udc80"], ids=ascii)
async def test_a_chat_name_that_will_not_do(address: str, chat: str) -> None:
    async with open_memory(address) as memory:
        with pytest.raises(ValueError, match="name must have"):
            await told_by(memory, chat)


@pytest.mark.parametrize("name", ["", "x" * (LONGEST_NAME + 1)], ids=["none", "too long"])
async def test_a_bottle_or_spec_name_that_will_not_do(address: str, name: str) -> None:
    async with open_memory(address, Clock()) as memory:
        await tell(memory, "bar", PLOVER)
        for told in (Told(shelf=(ShelfBottle(name),)), Told(specs=(HouseSpec(name, "", ""),))):
            with pytest.raises(ValueError, match="name must have"):
                await tell(memory, "bar", told)
        assert await told_by(memory, "bar") == PLOVER
