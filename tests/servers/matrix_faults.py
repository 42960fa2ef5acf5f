"""A proxy before a homeserver that fails on purpose: loses the answer after the server acted, or answers 502 instead.

Only what is asked for fails; all else is passed on as it is.
"""

from collections import Counter
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from dataclasses import dataclass, field

from aiohttp import ClientSession, ClientTimeout, web

from tests.servers.synapse import free_port

NOT_PASSED_ON = {"host", "content-length", "content-encoding", "transfer-encoding", "connection"}


@dataclass(slots=True)
class Faults:
    """How often requests whose path holds a text still fail. lost: the server acted, its answer is cut off.

    refused: the server never hears of it. seen: the paths that failed, in order. answers: by HTTP status.
    """

    url: str
    lost: dict[str, int] = field(default_factory=dict)
    refused: dict[str, int] = field(default_factory=dict)
    seen: list[str] = field(default_factory=list)
    answers: Counter[int] = field(default_factory=Counter)

    def _due(self, which: dict[str, int], path: str) -> bool:
        for part, times in which.items():
            if part in path and times > 0:
                which[part] = times - 1
                self.seen.append(path)
                return True
        return False

    def loses(self, path: str) -> bool:
        return self._due(self.lost, path)

    def refuses(self, path: str) -> bool:
        return self._due(self.refused, path)


@asynccontextmanager
async def faulty(homeserver: str) -> AsyncIterator[Faults]:
    """A proxy on loopback."""
    port = free_port()
    faults = Faults(f"http://127.0.0.1:{port}")

    async def pass_on(request: web.Request) -> web.StreamResponse:
        if faults.refuses(request.raw_path):
            return web.Response(status=502, text="<html>bad gateway</html>", content_type="text/html")
        headers = {name: value for name, value in request.headers.items() if name.lower() not in NOT_PASSED_ON}
        body = await request.read()
        async with session.request(request.method, homeserver + request.raw_path, data=body, headers=headers) as answer:
            content = await answer.read()
        faults.answers[answer.status] += 1
        if faults.loses(request.raw_path):
            assert request.transport is not None
            request.transport.close()
        kept = {name: value for name, value in answer.headers.items() if name.lower() not in NOT_PASSED_ON}
        return web.Response(status=answer.status, body=content, headers=kept)

    app = web.Application()
    app.router.add_route("*", "/{path:.*}", pass_on)
    runner = web.AppRunner(app, handler_cancellation=True, shutdown_timeout=1.0)
    async with ClientSession(timeout=ClientTimeout(total=120)) as session:
        await runner.setup()
        await web.TCPSite(runner, "127.0.0.1", port).start()
        try:
            yield faults
        finally:
            await runner.cleanup()
