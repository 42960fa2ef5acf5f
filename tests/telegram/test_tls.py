"""The webhook by TLS: with a certificate of our own that Telegram is handed, and behind nginx with the example's file."""

import asyncio
import subprocess
from pathlib import Path

import aiohttp
import pytest

from tests.servers.install import nginx
from tests.telegram.botapi import BotApi
from tests.telegram.chatting import SECRET, environment, free_port
from tests.telegram.processes import ROOT, BotProcess, running
from tests.telegram.world import World

BATCH = "8 serves: 60 gin, 30 dry vermouth, 25% water"
pytestmark = pytest.mark.servers  # nginx, and openssl for a certificate
EXAMPLE = ROOT / "deploy" / "nginx.conf.example"


@pytest.fixture
def pair(tmp_path: Path) -> tuple[Path, Path]:
    """A certificate for this machine, signed by itself, and its key."""
    certificate, key = tmp_path / "certificate.pem", tmp_path / "key.pem"
    subprocess.run(
        [
            "openssl", "req", "-x509", "-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:prime256v1", "-nodes", "-days", "2",
            "-subj", "/CN=127.0.0.1", "-addext", "subjectAltName=IP:127.0.0.1", "-keyout", key, "-out", certificate,
        ],
        check=True,
        capture_output=True,
    )  # fmt: skip
    return certificate, key


async def answered(api: BotApi, chat: int) -> str:
    """What the bot says to a batch in the chat."""
    api.world.say(chat, BATCH)
    async with asyncio.timeout(15):
        while not api.world.sent[chat]:
            await asyncio.sleep(0.01)
    return next(iter(api.world.sent[chat].values())).text


async def test_tls_of_our_own(tmp_path: Path, pair: tuple[Path, Path]) -> None:
    port = free_port()
    async with BotApi(World()).running(webhook=True) as api:
        settings = environment(api, webhook_port=port) | {
            "SHIFTMATHS_DATABASE": f"sqlite:///{tmp_path}/m.db",
            "TELEGRAM_WEBHOOK_URL": f"https://127.0.0.1:{port}/hook/x",
            "TELEGRAM_WEBHOOK_CERTIFICATE": str(pair[0]),
            "TELEGRAM_WEBHOOK_KEY": str(pair[1]),
        }
        async with running(BotProcess(settings, tmp_path / "log")):
            assert "480" in await answered(api, 1)
            assert api.certificate == pair[0].read_bytes()
            async with aiohttp.ClientSession() as stranger:
                with pytest.raises(aiohttp.ClientError):  # no answer without TLS
                    await stranger.post(f"http://127.0.0.1:{port}/hook/x", json={"update_id": 1})


async def test_behind_nginx_as_in_the_example(tmp_path: Path, pair: tuple[Path, Path]) -> None:
    door, port, nobody = free_port(), free_port(), free_port()
    text = EXAMPLE.read_text("utf-8")
    for was, now in (
        ("127.0.0.1:8443", f"127.0.0.1:{port}"),
        ("127.0.0.1:8444", f"127.0.0.1:{nobody}"),  # the second process is down
        ("listen 443 ssl", f"listen 127.0.0.1:{door} ssl"),
        ("/etc/letsencrypt/live/bot.example.org/fullchain.pem", str(pair[0])),
        ("/etc/letsencrypt/live/bot.example.org/privkey.pem", str(pair[1])),
    ):
        assert was in text
        text = text.replace(was, now)
    (tmp_path / "tmp").mkdir()
    temporary = "".join(f"{what}_temp_path tmp;" for what in ("client_body", "proxy", "fastcgi", "uwsgi", "scgi"))
    (tmp_path / "nginx.conf").write_text(
        f"daemon off; pid nginx.pid; error_log stderr; events {{}} http {{ {temporary}\n{text}\n}}"
    )
    proxy = await asyncio.create_subprocess_exec(nginx(), "-p", tmp_path, "-c", tmp_path / "nginx.conf", "-e", "stderr")
    try:
        async with BotApi(World()).running(webhook=True) as api:
            api.trusts = pair[0].read_bytes()
            settings = environment(api, webhook_port=port) | {
                "SHIFTMATHS_DATABASE": f"sqlite:///{tmp_path}/m.db",
                "TELEGRAM_WEBHOOK_URL": f"https://127.0.0.1:{door}/telegram",
            }
            async with running(BotProcess(settings, tmp_path / "log")):
                for chat in (1, 2, 3):
                    assert "480" in await answered(api, chat)
                headers = {"X-Telegram-Bot-Api-Secret-Token": SECRET}
                async with aiohttp.ClientSession(headers=headers, connector=aiohttp.TCPConnector(ssl=False)) as stranger:
                    for method, path, size, status in (
                        ("POST", "/other", 10, 404),
                        ("GET", "/telegram", 0, 403),
                        ("POST", "/telegram", 300_000, 413),
                        ("POST", "/telegram", 10, 400),
                    ):
                        url = f"https://127.0.0.1:{door}{path}"
                        async with stranger.request(method, url, data=b"x" * size) as answer:
                            assert answer.status == status, (method, path, size)
    finally:
        proxy.terminate()
        await proxy.wait()
