"""The conversation at 360 pixels, from the exact HTML that is sent: no fixed-width block runs over its bubble."""

import json
from pathlib import Path

import pytest

from tests.servers.install import chromium
from tests.telegram.chatting import answered, chatting
from tests.telegram.screen import page, shoot

TALK = (
    "/start",
    "8 serves: 60 gin, 30 dry vermouth, 25% water",
    "make it 12",
    "fill a 750 with 3:1 rye and sweet vermouth, 20% water",
    "cut 1 L of 60% to 45%",
    "1½ oz in ml",
    "save fog bell: 50 gin, 20 dry vermouth, 5 dry sherry, 1 dash orange bitters",
    "20 fog bell",
    "cost of 50 ml gin at 28 for 700 ml",
    "label for 500 ml at 23.4%",
    "20 negronis",
    "help",
)


@pytest.mark.servers
async def test_the_conversation_fits_a_phone(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    async with chatting(f"sqlite:///{tmp_path}/memory.db") as api:
        for number, text in enumerate(TALK):
            api.world.say(7, text)
            await answered(api, 7, number + 1)
        sent = [message for _, message in sorted(api.world.sent[7].items())]
    talk = []
    for text, message in zip(TALK, sent, strict=True):
        keyboard = (json.loads(message.wire[1]) or {}).get("inline_keyboard", [])
        talk.append((text, message.html, [[button["text"] for button in row] for row in keyboard]))
    source, picture = tmp_path / "talk.html", tmp_path / "talk.png"
    source.write_text(page(talk), encoding="utf-8")
    wide, over = shoot(chromium(), source, picture, 3600)
    with capsys.disabled():
        print(f"\nthe picture of the conversation: {picture}")
    assert over == 0
    assert wide <= 500
    assert picture.stat().st_size > 20_000
