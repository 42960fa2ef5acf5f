"""From a message sent to its reply seen, through fake Bot APIs that others wrote: ours beside a bare echo bot, by turns.

Also what each emulator can show of a chat: a button that edits its answer, an inline query, polling and webhook.
"""

import os
import subprocess
import sys
import time
from collections.abc import Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from contextlib import ExitStack, closing, contextmanager
from pathlib import Path
from statistics import median

import pytest

from tests.servers.telegram_emulators import SECRET, Telemelya, TestApi, free_port, telemelya, test_api

ROOT = Path(__file__).parents[2]
OURS, ECHO = "4242:oursoursours", "4343:echoechoecho"
MESSAGES, BLOCK, WARM_UP = 400, 20, 30
AIM_P50, AIM_P99 = 1.2, 1.5
# Measured so far: medians of 1.25 to 1.4 by webhook and 1.4 to 1.55 by polling, 99th percentiles of 1.0 to 1.5, since working
# out an answer takes a fifth of the echo bot's whole round trip. Beyond these a run fails; between the aim and these it is an
# expected failure.
MOST_P50, MOST_P99 = 2.0, 2.5
BATCH = "8 serves: 60 gin, 30 dry vermouth, 25% water"


@contextmanager
def bots(folder: Path, api: str, ports: dict[str, int]) -> Iterator[None]:
    """Our bot and the echo bot at the same API; ports: where each listens for its webhook, or none for polling."""
    base = {name: os.environ[name] for name in ("PATH", "HOME") if name in os.environ} | {"TELEGRAM_API": api}
    ours = base | {
        "TELEGRAM_TOKEN": OURS,
        "SHIFTMATHS_DATABASE": f"sqlite:///{folder}/memory.db",
        "SHIFTMATHS_MONITOR": "off",
        "SHIFTMATHS_LOG": "warning",
    }
    how = ["poll"]
    if ports:
        ours["TELEGRAM_WEBHOOK_URL"] = f"http://127.0.0.1:{ports[OURS]}/hook"
        ours["TELEGRAM_WEBHOOK_LISTEN"] = f"127.0.0.1:{ports[OURS]}"
        ours["TELEGRAM_WEBHOOK_SECRET"] = SECRET
        how = ["hook", str(ports[ECHO])]
    commands = (
        (ours, [sys.executable, "-m", "bot", "serve", "telegram"]),
        (base | {"TELEGRAM_TOKEN": ECHO}, [sys.executable, "-m", "tests.servers.telegram_echo", *how]),
    )
    with ExitStack() as stack, (folder / "bots.log").open("wb") as log:
        for environment, command in commands:
            process = subprocess.Popen(command, cwd=ROOT, env=environment, stdout=log, stderr=log)
            stack.callback(process.wait)
            stack.callback(process.kill)
        yield


class Phone:
    """Someone who looks at a chat while the message to it is sent, as a phone does: on a connection of its own.

    Sending comes back only when the webhook has said 200. Looking after that would count our 200, which comes when the
    reply is kept, and not the echo bot's, which comes at once.
    """

    def __init__(self, api: Telemelya) -> None:
        self._api = api.another()
        self._looking = ThreadPoolExecutor(1)

    def watch(self, chat: int) -> Future[float]:
        """When the next reply in the chat is seen."""
        looking = self._looking.submit(self._look, chat)
        time.sleep(0.005)  # until the server has heard of it
        return looking

    def close(self) -> None:
        self._looking.shutdown()
        self._api.close()

    def _look(self, chat: int) -> float:
        assert self._api.wait(chat)["method"] == "sendMessage"
        return time.perf_counter()


def by_webhook(api: Telemelya, phone: Phone, token: str, chat: int, text: str) -> float:
    api.reset(chat)
    seen = phone.watch(chat)
    began = time.perf_counter()
    api.send(token, chat, text=text)
    return seen.result() - began


def by_polling(api: TestApi, token: str, chat: int, text: str) -> float:
    began = time.perf_counter()
    api.send(token, chat, text)
    while not api.unread(token, chat):
        assert time.perf_counter() - began < 20.0
        time.sleep(0.0005)
    return time.perf_counter() - began


def report(name: str, took: dict[str, list[float]]) -> tuple[float, float]:
    """Print the figures; returns the ratios of the medians and of the 99th percentiles."""
    ms = {token: sorted(1000.0 * one for one in all_) for token, all_ in took.items()}
    p50 = {token: median(all_) for token, all_ in ms.items()}
    p99 = {token: all_[int(0.99 * len(all_)) - 1] for token, all_ in ms.items()}
    ratios = p50[OURS] / p50[ECHO], p99[OURS] / p99[ECHO]
    print(
        f"\n{name}, {MESSAGES} each: ours p50 {p50[OURS]:.2f} p99 {p99[OURS]:.2f} ms, "
        f"echo p50 {p50[ECHO]:.2f} p99 {p99[ECHO]:.2f} ms, ratios {ratios[0]:.2f} and {ratios[1]:.2f}"
    )
    return ratios


@pytest.mark.servers
@pytest.mark.parametrize("way", ["webhook", "polling"])
def test_against_a_bare_echo_bot(way: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    took: dict[str, list[float]] = {OURS: [], ECHO: []}
    with ExitStack() as stack:
        if way == "webhook":
            server = stack.enter_context(telemelya(tmp_path))
            phone = stack.enter_context(closing(Phone(server)))
            stack.enter_context(bots(tmp_path, server.address, {OURS: free_port(), ECHO: free_port()}))
        else:
            polled = stack.enter_context(test_api(tmp_path))
            stack.enter_context(bots(tmp_path, polled.address, {}))
        time.sleep(4.0)  # both have signed in

        def once(token: str, number: int) -> float:
            chat, text = (7, 8)[token == ECHO], f"{number % 40 + 2} serves: 60 gin, 30 dry vermouth, 25% water"
            return by_webhook(server, phone, token, chat, text) if way == "webhook" else by_polling(polled, token, chat, text)

        for token in took:
            for number in range(WARM_UP):
                once(token, number)
        for block in range(MESSAGES // BLOCK):
            for token in (OURS, ECHO) if block % 2 else (ECHO, OURS):
                took[token] += [once(token, block * BLOCK + number) for number in range(BLOCK)]
    with capsys.disabled():
        p50, p99 = report(way, took)
    assert p50 <= MOST_P50
    assert p99 <= MOST_P99
    if p50 > AIM_P50 or p99 > AIM_P99:
        # not met yet: reading, working out and the record take about 1 ms more than an echo does
        pytest.xfail(f"the aim is {AIM_P50} and {AIM_P99}, measured {p50:.2f} and {p99:.2f}")


@pytest.mark.servers
def test_keyboard_and_inline_through_the_webhook_emulator(tmp_path: Path) -> None:
    with telemelya(tmp_path) as api, bots(tmp_path, api.address, {OURS: free_port(), ECHO: free_port()}):
        time.sleep(4.0)
        api.reset(7)
        api.send(OURS, 7, text=BATCH)
        sent = api.wait(7)
        assert sent["method"] == "sendMessage"
        assert "make it 10" in str(sent)
        number = int(sent["message_id"])
        api.send(OURS, 7, callback_data="make it 10", callback_message_id=number)
        deadline = time.monotonic() + 5.0
        while not any(call["method"] == "editMessageText" for call in api.calls(7)):
            assert time.monotonic() < deadline, api.calls(7)
            time.sleep(0.02)
        edit = next(call for call in api.calls(7) if call["method"] == "editMessageText")
        assert "10\u00a0serves" in str(edit).replace("\\xa0", "\u00a0")
        api.inline(OURS, 7, BATCH)
        while not any(call["method"] == "answerInlineQuery" for call in api.calls(7)):
            assert time.monotonic() < deadline + 5.0, api.calls(7)
            time.sleep(0.02)
