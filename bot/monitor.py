"""Health and figures for whoever watches the bot: GET /healthz and /metrics on a loopback port, nothing else.

Never here: what is counted where, or whether the memory works (both are handed over).
"""

import asyncio
from collections.abc import AsyncIterator, Awaitable, Callable
from contextlib import asynccontextmanager

from prometheus_client import CONTENT_TYPE_LATEST, CollectorRegistry, Counter, Histogram, ProcessCollector, generate_latest

from bot.post.counts import Counts

LONGEST_REQUEST = 8192
PATIENCE_S = 5.0
STEPS_S = (0.001, 0.0025, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1.0, 2.5, 5.0, 10.0, 60.0)


class Figures(Counts):
    """Counts for Prometheus."""

    def __init__(self) -> None:
        self.registry = CollectorRegistry()
        ProcessCollector(registry=self.registry)
        self._received = Counter("shiftmaths_received", "What arrived, by what became of it", ["what"], registry=self.registry)
        self._took = Histogram(
            "shiftmaths_received_seconds", "From arrival until the reply was kept", buckets=STEPS_S, registry=self.registry
        )
        self._letters = Counter("shiftmaths_letters", "Letters done with, by how", ["how"], registry=self.registry)
        self._waited = Histogram(
            "shiftmaths_letter_seconds", "From keeping a reply until it was sent", buckets=STEPS_S, registry=self.registry
        )
        self._again = Counter("shiftmaths_sent_again", "Sendings that failed, by why", ["why"], registry=self.registry)

    def received(self, what: str, seconds: float) -> None:
        self._received.labels(what).inc()
        self._took.observe(seconds)

    def letter(self, how: str, seconds: float) -> None:
        self._letters.labels(how).inc()
        if how != "dropped":
            self._waited.observe(seconds)

    def again(self, why: str) -> None:
        self._again.labels(why).inc()


@asynccontextmanager
async def monitor(
    where: tuple[str, int] | None, figures: Figures, healthy: Callable[[], Awaitable[bool]]
) -> AsyncIterator[None]:
    """Answer at host and port until the block ends; None: at none. OSError when the port is taken."""
    if where is None:
        yield
        return

    async def answer(path: str) -> tuple[str, str, bytes]:
        if path == "/metrics":
            return "200 OK", CONTENT_TYPE_LATEST, generate_latest(figures.registry)
        if path == "/healthz":
            well = await healthy()
            return ("200 OK", "text/plain", b"ok\n") if well else ("503 Service Unavailable", "text/plain", b"no memory\n")
        return "404 Not Found", "text/plain", b""

    async def handle(reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        try:
            async with asyncio.timeout(PATIENCE_S):
                asked = (await reader.readuntil(b"\r\n\r\n")).split(None, 2)
                path = asked[1].decode("ascii", "replace").partition("?")[0] if asked[0] == b"GET" else ""
                status, kind, body = await answer(path)
                head = f"HTTP/1.1 {status}\r\nContent-Type: {kind}\r\nContent-Length: {len(body)}\r\nConnection: close\r\n\r\n"
                writer.write(head.encode() + body)
                await writer.drain()
        except (TimeoutError, OSError, IndexError, asyncio.IncompleteReadError, asyncio.LimitOverrunError):
            pass  # whoever asked badly or went away is owed nothing
        finally:
            writer.close()

    server = await asyncio.start_server(handle, *where, limit=LONGEST_REQUEST)
    try:
        yield
    finally:
        server.close()
        await server.wait_closed()
