"""The whole Telegram side in one process, without a network, answering 100,000 messages: what it holds after each part.

python -m tests.bench.telegram_memory ADDRESS MESSAGES...: prints the messages answered so far and the resident MB.
"""

import asyncio
import gc
import json
import sys
import time
from pathlib import Path
from typing import Any

from telegram import Update
from telegram.request import BaseRequest, RequestData

from bot.adapters.telegram import Listener
from bot.adapters.telegram_http import CallingBot
from bot.adapters.telegram_out import Telegram
from bot.memory.store import open_memory
from bot.post.allow import Allow
from bot.post.room import PostRoom

CHATS = 400
PAGE_MB = 4096 / 1e6


class Nowhere(BaseRequest):
    """Says yes to everything."""

    def __init__(self) -> None:
        self.sent = 0
        self.heard = asyncio.Event()

    @property
    def read_timeout(self) -> float | None:
        return None

    async def initialize(self) -> None: ...

    async def shutdown(self) -> None: ...

    async def do_request(
        self, url: str, method: str, request_data: RequestData | None = None, *times: Any, **more: Any
    ) -> tuple[int, bytes]:
        if url.endswith("/getMe"):
            return 200, json.dumps({"ok": True, "result": {"id": 1, "is_bot": True, "first_name": "B", "username": "b"}}).encode()
        self.sent += 1
        self.heard.set()
        chat = int(str((request_data.parameters if request_data else {}).get("chat_id", 0)))
        message = {"message_id": 10_000_000 + self.sent, "date": 1, "chat": {"id": chat, "type": "private"}}
        return 200, json.dumps({"ok": True, "result": message}).encode()


def resident_mb() -> float:
    gc.collect()
    return int(Path("/proc/self/statm").read_text().split()[1]) * PAGE_MB


async def run(address: str, parts: list[int]) -> None:
    request = Nowhere()
    async with open_memory(address) as memory, CallingBot("1:A", request=request, get_updates_request=request) as bot:
        platform = Telegram(bot)
        room = PostRoom(memory, platform)
        listener = Listener(bot, platform, room, Allow())
        await room.open()
        number = 0
        for part in parts:
            while number < part:
                for _ in range(CHATS // 4):
                    number += 1
                    chat = number % CHATS + 1
                    message = {
                        "message_id": number, "date": int(time.time()), "chat": {"id": chat, "type": "private"},
                        "from": {"id": chat, "is_bot": False, "first_name": "Ann"},
                        "text": f"{number % 60 + 2} serves: 60 gin, {number % 37 + 5} dry vermouth, {number % 30}% water",
                    }  # fmt: skip
                    await listener.take(Update.de_json({"update_id": number, "message": message}, bot))
                while request.sent < number:
                    request.heard.clear()
                    await request.heard.wait()
            print(part, round(resident_mb(), 2), flush=True)
        await room.close()


if __name__ == "__main__":
    asyncio.run(run(sys.argv[1], [int(one) for one in sys.argv[2:]]))
