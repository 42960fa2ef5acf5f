"""The webhook's server: one path, the secret, a cap on the body; 200 only when the update is dealt with.

Never here: what an update means.
"""

import hmac
import json
import ssl
from collections.abc import AsyncIterator, Awaitable, Callable
from contextlib import asynccontextmanager
from typing import Any

from aiohttp import hdrs, web

from bot.config import Webhook
from bot.logs import logger
from bot.post.letters import MemoryProblem

LONGEST_BODY = 256 * 1024  # bytes; an update holds 4096 characters of text and little else
GRACE_S = 10.0  # for the requests in hand when the server stops: our own choice
Take = Callable[[dict[str, Any]], Awaitable[None]]


class Hook:
    """Takes updates from whoever knows the secret."""

    def __init__(self, path: str, take: Take, secret: bytes) -> None:
        self._path = path
        self._take = take
        self._secret = secret

    async def answer(self, request: web.Request) -> web.Response:
        if request.raw_path.partition("?")[0] != self._path:
            return web.Response(status=404)  # nobody is here
        if request.method != hdrs.METH_POST:
            return web.Response(status=405)
        given = request.headers.get("X-Telegram-Bot-Api-Secret-Token", "").encode("utf-8", "replace")
        if not hmac.compare_digest(given, self._secret):
            return web.Response(status=403)
        try:
            update = json.loads(await request.read())
        except web.HTTPRequestEntityTooLarge:
            return web.Response(status=413)
        except ValueError:
            update = None
        if not isinstance(update, dict) or not isinstance(update.get("update_id"), int):
            return web.Response(status=400)
        try:
            await self._take(update)
        except MemoryProblem as problem:
            logger(__name__).error("the memory failed", error=str(problem))
            return web.Response(status=503)  # Telegram delivers it again
        return web.Response()


async def _nameless(request: web.Request, response: web.StreamResponse) -> None:
    """Do not say what answers."""
    response.headers.pop(hdrs.SERVER, None)


@asynccontextmanager
async def listening(webhook: Webhook, take: Take) -> AsyncIterator[int]:
    """Listen until the block ends, then finish the requests in hand. Yields the port. OSError when it is taken."""
    application = web.Application(client_max_size=LONGEST_BODY)
    application.on_response_prepare.append(_nameless)
    application.router.add_route("*", "/{path:.*}", Hook(webhook.path, take, webhook.secret.reveal().encode()).answer)
    tls = None
    if webhook.certificate is not None:
        tls = ssl.create_default_context(ssl.Purpose.CLIENT_AUTH)
        tls.load_cert_chain(webhook.certificate, webhook.key)
    runner = web.AppRunner(application, access_log=None, handle_signals=False, shutdown_timeout=GRACE_S)
    await runner.setup()
    try:
        await web.TCPSite(runner, webhook.host, webhook.port, ssl_context=tls).start()
        yield webhook.port
    finally:
        await runner.cleanup()
