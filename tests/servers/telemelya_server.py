"""telemelya, a fake Bot API for webhooks, in one process on loopback; run by the python of its own environment.

python telemelya_server.py PORT KEY SECRET. fakeredis stands in for Redis and a dict for its object store; the webhook's
secret, which it does not know of, is added to what it delivers.
"""

import os
import sys
from functools import partial
from importlib import import_module
from types import SimpleNamespace
from typing import Any

os.environ |= {"MOCK_SERVER_HOST": "127.0.0.1", "AUTH_KEYS": sys.argv[2], "STRICT_EDIT": "true"}  # read on import

fakeredis, uvicorn = import_module("fakeredis"), import_module("uvicorn")
app: Any = import_module("telemelya.server.app").app
media: Any = import_module("telemelya.server.media").media_manager
webhook: Any = import_module("telemelya.server.webhook")
session: Any = partial(webhook.aiohttp.ClientSession, headers={"X-Telegram-Bot-Api-Secret-Token": sys.argv[3]})
webhook.aiohttp = SimpleNamespace(ClientSession=session, ClientTimeout=webhook.aiohttp.ClientTimeout)
state: Any = import_module("telemelya.server.state").state_manager
FILES: dict[str, bytes] = {}


async def nothing(*args: Any, **more: Any) -> None:
    return None


async def redis() -> None:
    state._redis = fakeredis.FakeAsyncRedis(decode_responses=True)


async def upload(session: str, file: str, name: str, data: bytes, kind: str = "") -> str:
    key: str = media._object_key(session, file, name)
    FILES[key] = data
    return key


async def download(session: str, file: str, name: str) -> bytes | None:
    return FILES.get(media._object_key(session, file, name))


async def download_by_key(key: str) -> bytes | None:
    return FILES.get(key)


state.connect, media.connect, media.close, media.cleanup_session = redis, nothing, nothing, nothing
media.upload, media.download, media.download_by_key = upload, download, download_by_key
uvicorn.run(app, host="127.0.0.1", port=int(sys.argv[1]), log_level="warning", lifespan="on")
