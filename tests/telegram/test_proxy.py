"""Calls go through the proxy that the environment names, and not through it where the environment says so."""

import pytest
from aiohttp import web
from aiohttp.test_utils import RawTestServer

from bot.adapters.telegram_http import Calls


@pytest.mark.parametrize(
    ("variables", "proxied"),
    [
        ({"http_proxy": "http://ann:secret@{proxy}"}, True),
        ({"http_proxy": "http://{proxy}", "no_proxy": "127.0.0.1"}, False),
        ({"https_proxy": "http://{proxy}"}, False),
    ],
)
async def test_the_proxy_of_the_environment(variables: dict[str, str], proxied: bool, monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[tuple[str, str | None]] = []

    async def answer(request: web.BaseRequest) -> web.Response:
        asked.append((request.raw_path, request.headers.get("Proxy-Authorization")))
        return web.Response(text="{}")

    for name in ("http_proxy", "https_proxy", "no_proxy", "all_proxy"):
        monkeypatch.delenv(name, raising=False)
        monkeypatch.delenv(name.upper(), raising=False)
    server = RawTestServer(answer)  # the proxy and the Bot API in one: the form of the path says which was asked
    await server.start_server()
    for name, value in variables.items():
        monkeypatch.setenv(name, value.format(proxy=f"127.0.0.1:{server.port}"))
    calls = Calls(2.0, 2)
    await calls.initialize()
    url = f"http://127.0.0.1:{server.port}/botx/getMe"
    try:
        assert await calls.do_request(url, "POST") == (200, b"{}")
        assert asked == [(url, "Basic YW5uOnNlY3JldA==") if proxied else ("/botx/getMe", None)]
    finally:
        await calls.shutdown()
        await server.close()
