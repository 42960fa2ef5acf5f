"""On a phone's width, in a client that nobody of us wrote: the batch, the follow-up, and amounts that line up."""

import asyncio
import signal
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.servers.hydrogen import client, drive
from tests.servers.install import SERVERS
from tests.servers.matrix_bot import Bot
from tests.servers.matrix_user import person
from tests.servers.synapse import Synapse, password_of

WIDTH = 400  # CSS pixels
BATCH = "8 serves of 1:1 gin vermouth with 25% water"
PICTURES = SERVERS / "pictures"


@pytest.fixture
def hydrogen(tmp_path: Path) -> Iterator[str]:
    with client(tmp_path / "web") as page:
        yield page


@pytest.mark.servers
async def test_batch_and_follow_up_on_the_screen(synapse: Synapse, hydrogen: str, tmp_path: Path) -> None:
    PICTURES.mkdir(exist_ok=True)
    bot = Bot(synapse, "screenbot", tmp_path / "bot")
    bot.start()
    try:
        async with person(synapse, "phone", tmp_path / "keys") as phone:
            for kind in ("plain", "encrypted"):
                await phone.hello(await phone.room(bot.user_id, encrypted=kind == "encrypted", name=f"Plover {kind}"))
        rooms = [
            {
                "name": f"Plover {kind}",
                "asks": [
                    {"say": BATCH, "wait": "360 mL", "picture": str(PICTURES / f"hydrogen-{kind}-batch.png")},
                    {"say": "make it 12", "wait": "540 mL", "picture": str(PICTURES / f"hydrogen-{kind}-12.png")},
                ],
            }
            for kind in ("plain", "encrypted")
        ]
        wanted = {"page": hydrogen, "homeserver": synapse.url, "user": "phone", "password": password_of("phone")}
        pictures = {"trouble": str(PICTURES / "hydrogen-trouble.png")}
        seen = await asyncio.to_thread(drive, {**wanted, **pictures, "width": WIDTH, "rooms": rooms})
    finally:
        assert bot.end(signal.SIGTERM) == 0
    assert [one["room"] for one in seen] == ["Plover plain"] * 2 + ["Plover encrypted"] * 2
    for one, serves, amounts in zip(seen, (8, 12) * 2, (("360", "180", "900"), ("540", "270", "1350")) * 2, strict=True):
        assert f"\n{serves} serves · 90 mL spec" in one["text"].replace("\u00a0", " "), one["text"]
        assert all(f"{amount} mL" in one["text"] for amount in amounts), one["text"]
        assert_lined_up(one["table"])
    print([one["ms"] for one in seen], "ms from Enter to the answer on the screen")


def assert_lined_up(table: dict[str, Any]) -> None:
    """Every line on one line, nothing to scroll, and the mL of all lines end at the same place."""
    assert "mono" in table["family"].lower() or "courier" in table["family"].lower()
    assert table["shown"] == table["typed"]
    assert table["hidden"] <= 0
    assert table["page"] <= WIDTH
    assert len(table["ends"]) == table["typed"]
    assert max(table["ends"]) - min(table["ends"]) < 1.0, table
