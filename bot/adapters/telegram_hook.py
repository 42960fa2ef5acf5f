"""The webhook's server: one path, the secret, a cap on the body; 200 only when the update is dealt with.

Never here: what an update means.
"""

import hmac
import json
import ssl
from collections.abc import AsyncIterator, Awaitable, Callable
from contextlib import asynccontextmanager
from typing import Any

from tornado.httpserver import HTTPServer
from tornado.web import Application, RequestHandler

from bot.config import Webhook
from bot.logs import logger
from bot.post.letters import MemoryProblem

LONGEST_BODY = 256 * 1024  # bytes; an update holds 4096 characters of text and little else
Take = Callable[[dict[str, Any]], Awaitable[None]]


class Hook(RequestHandler):
    """Takes updates from whoever knows the secret."""

    def initialize(self, take: Take, secret: bytes) -> None:
        self._take = take
        self._secret = secret

    async def post(self) -> None:
        given = self.request.headers.get("X-Telegram-Bot-Api-Secret-Token", "").encode("utf-8", "replace")
        if not hmac.compare_digest(given, self._secret):
            self.set_status(403)
            return
        try:
            update = json.loads(self.request.body)
        except ValueError:
            update = None
        if not isinstance(update, dict) or not isinstance(update.get("update_id"), int):
            self.set_status(400)
            return
        try:
            await self._take(update)
        except MemoryProblem as problem:
            logger(__name__).error("the memory failed", error=str(problem))
            self.set_status(503)  # Telegram delivers it again

    def set_default_headers(self) -> None:
        self.clear_header("Server")

    def write_error(self, status_code: int, **more: Any) -> None:
        self.finish()

    def data_received(self, chunk: bytes) -> None:
        """The body comes whole; tornado calls this for streams only."""


class Nothing(RequestHandler):
    """Every other path: nobody is here."""

    def prepare(self) -> None:
        self.set_status(404)
        self.finish()

    def set_default_headers(self) -> None:
        self.clear_header("Server")

    def data_received(self, chunk: bytes) -> None:
        """See Hook."""


@asynccontextmanager
async def listening(webhook: Webhook, take: Take) -> AsyncIterator[int]:
    """Listen until the block ends, then finish the requests in hand. Yields the port. OSError when it is taken."""
    handler = (webhook.path + "$", Hook, {"take": take, "secret": webhook.secret.reveal().encode()})
    application = Application([handler], default_handler_class=Nothing, log_function=lambda handler: None)
    tls = None
    if webhook.certificate is not None:
        tls = ssl.create_default_context(ssl.Purpose.CLIENT_AUTH)
        tls.load_cert_chain(webhook.certificate, webhook.key)
    server = HTTPServer(application, ssl_options=tls, max_body_size=LONGEST_BODY, max_header_size=16 * 1024, xheaders=False)
    server.listen(webhook.port, webhook.host)
    try:
        yield webhook.port
    finally:
        server.stop()
        await server.close_all_connections()
