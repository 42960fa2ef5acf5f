"""Calls to the Bot API over aiohttp: the library's own client spends more time on a call than a whole answer takes.

Kept open between calls; an environment's proxy is used, as the library does. Never here: what is called, or why.
"""

import asyncio
from typing import Any
from urllib.parse import urlsplit
from urllib.request import getproxies, proxy_bypass

import aiohttp
from telegram import Bot
from telegram.error import NetworkError, TimedOut
from telegram.request import BaseRequest, RequestData

NEVER_LEFT = (aiohttp.ClientConnectorError, aiohttp.ConnectionTimeoutError)  # the call did not reach the server


class Calls(BaseRequest):
    """HTTP for a bot. timeout_s: for the answer, beyond what a long poll waits; at_once: connections."""

    def __init__(self, timeout_s: float, at_once: int) -> None:
        self._timeout_s = timeout_s
        self._at_once = at_once
        self._session: aiohttp.ClientSession | None = None
        self._proxies: dict[tuple[str, str], str | None] = {}

    @property
    def read_timeout(self) -> float | None:
        return self._timeout_s

    async def initialize(self) -> None:
        if self._session is None:
            connector = aiohttp.TCPConnector(limit=self._at_once, keepalive_timeout=60.0)
            self._session = aiohttp.ClientSession(connector=connector, auto_decompress=True)

    async def shutdown(self) -> None:
        session, self._session = self._session, None
        if session is not None:
            await session.close()
            await asyncio.sleep(0)  # its transports close on the next turn of the loop

    async def do_request(
        self,
        url: str,
        method: str,
        request_data: RequestData | None = None,
        read_timeout: Any = BaseRequest.DEFAULT_NONE,
        write_timeout: Any = BaseRequest.DEFAULT_NONE,
        connect_timeout: Any = BaseRequest.DEFAULT_NONE,
        pool_timeout: Any = BaseRequest.DEFAULT_NONE,
    ) -> tuple[int, bytes]:
        """One call. TimedOut and NetworkError as the library says, with what happened as their cause."""
        if self._session is None:
            raise RuntimeError("called before it was initialized")
        read_s = self._timeout_s if read_timeout is BaseRequest.DEFAULT_NONE else read_timeout
        timeout = aiohttp.ClientTimeout(total=None, connect=self._timeout_s, sock_connect=self._timeout_s, sock_read=read_s)
        try:
            async with self._session.request(
                method, url, data=_body(request_data), timeout=timeout, proxy=self._proxy(url)
            ) as answer:
                return answer.status, await answer.read()
        except TimeoutError as error:
            raise TimedOut from error
        except aiohttp.ClientError as error:  # whose words would name the address, token included
            raise NetworkError(type(error).__name__) from error

    def _proxy(self, url: str) -> str | None:
        """The environment's proxy for an address, looked up once: aiohttp's trust_env asks two threads before every call."""
        scheme, host = where = urlsplit(url)[:2]
        if where not in self._proxies:
            self._proxies[where] = None if proxy_bypass(host) else getproxies().get(scheme)
        return self._proxies[where]


class CallingBot(Bot):
    """The library's bot, with a call that makes no objects of what goes out and comes back: a tenth of a message's time."""

    async def call(self, method: str, fields: dict[str, Any]) -> Any:
        """One call by the API's own names. Returns the result as JSON; raises TelegramError as the library's calls do."""
        return await self._post(method, fields)


def _body(data: RequestData | None) -> Any:
    if data is None:
        return None
    files = data.multipart_data
    if not files:
        return aiohttp.JsonPayload(data.parameters)
    form = aiohttp.FormData(data.json_parameters)
    for name, (filename, content, kind) in files.items():
        form.add_field(name, content, filename=filename, content_type=kind)
    return form
