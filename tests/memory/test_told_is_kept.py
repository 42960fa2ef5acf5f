"""Told written is told read: any sequence of messages, restarts and failures, against a plain dictionary."""

import asyncio
from contextlib import AsyncExitStack, suppress
from dataclasses import replace
from datetime import timedelta
from itertools import count
from random import Random
from typing import Any

from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, rule, run_state_machine_as_test

from bot.memory.store import Memory, open_memory
from bot.told import FRESH, LONGEST_NAME, HouseSpec, Last, Settings, ShelfBottle, Told
from tests.memory.tools import NOON, Clock

words = st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\0"), max_size=30)
names = st.one_of(
    st.sampled_from(["gin", "Gin", "gin ", "fog bell", "x" * LONGEST_NAME]), words.filter(lambda name: name != "")
)
numbers = st.floats(allow_nan=False, allow_infinity=False)
perhaps = st.none() | numbers
chats = st.sampled_from(["bar", "Bar", "bår"])


def several(items: st.SearchStrategy[Any]) -> st.SearchStrategy[tuple[Any, ...]]:
    return st.lists(items, unique_by=lambda item: item.name, max_size=5).map(tuple)


toldings = st.builds(
    Told,
    st.builds(
        Settings,
        st.sampled_from(["us", "imperial", "30ml"]),
        st.sampled_from(["ml", "oz"]),
        numbers,
        numbers,
        numbers,
        words,
        words,
    ),
    several(st.builds(ShelfBottle, names, perhaps, perhaps, perhaps, perhaps)),
    several(st.builds(HouseSpec, names, words, words, st.none() | words, st.none() | words)),
    st.none() | st.builds(Last, st.timedeltas(timedelta(-1), timedelta(1)).map(lambda ago: NOON + ago), words),
)
examples = count()
processes = st.sampled_from([0, 1])


class Undone(Exception):
    """Raised in a conversation to undo it."""


class Messages(RuleBasedStateMachine):
    """Messages of three chats to two processes; each example has chats of its own in the one database."""

    address: str
    runner: asyncio.Runner

    def __init__(self) -> None:
        super().__init__()
        self.clock = Clock()
        self.example = next(examples)
        self.expected: dict[str, Told] = {}
        self.processes = [self.start(), self.start()]

    def start(self) -> tuple[AsyncExitStack, Memory]:
        stack = AsyncExitStack()
        return stack, self.runner.run(stack.enter_async_context(open_memory(self.address, self.clock)))

    def stop(self, process: int) -> None:
        self.runner.run(self.processes[process][0].aclose())

    async def message(
        self, process: int, chat: str, told: Told | None, forget: bool = False, fail: bool = False
    ) -> None:
        expected = self.expected.get(chat, FRESH)
        if expected.last is not None and self.clock.now - expected.last.at > timedelta(hours=12):
            expected = replace(expected, last=None)
        async with self.processes[process][1].conversation(f"{chat} {self.example}") as talk:
            assert talk.told == expected
            if told is not None:
                await talk.remember(told, forget=forget)
            if fail:
                raise Undone
        self.expected[chat] = expected if told is None else FRESH if forget else told

    @rule(process=processes, chat=chats, told=st.none() | toldings)
    def tell(self, process: int, chat: str, told: Told | None) -> None:
        self.runner.run(self.message(process, chat, told))

    @rule(process=processes, chat=chats, told=toldings)
    def fail(self, process: int, chat: str, told: Told) -> None:
        with suppress(Undone):
            self.runner.run(self.message(process, chat, told, fail=True))

    @rule(process=processes, chat=chats)
    def forget(self, process: int, chat: str) -> None:
        self.runner.run(self.message(process, chat, FRESH, forget=True))

    @rule(process=processes, chat=chats, order=st.randoms(use_true_random=False))
    def shuffle(self, process: int, chat: str, order: Random) -> None:
        told = self.expected.get(chat, FRESH)
        shelf = tuple(order.sample(told.shelf, order.randint(0, len(told.shelf))))
        specs = tuple(replace(spec, text="again") if order.random() < 0.3 else spec for spec in told.specs)
        self.runner.run(self.message(process, chat, replace(told, shelf=shelf, specs=specs[::-1], last=None)))

    @rule(hours=st.floats(0, 14))
    def wait(self, hours: float) -> None:
        self.clock.now += timedelta(hours=hours)

    @rule(process=processes)
    def restart(self, process: int) -> None:
        self.stop(process)
        self.processes[process] = self.start()

    def teardown(self) -> None:
        for process in (0, 1):
            self.stop(process)


def test_told_written_is_told_read(address: str) -> None:
    with asyncio.Runner() as runner:
        machine = type("Here", (Messages,), {"address": address, "runner": runner})
        run_state_machine_as_test(
            machine, settings=settings(max_examples=30, stateful_step_count=20, deadline=None)
        )
