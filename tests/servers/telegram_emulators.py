"""The two fake Bot APIs that others wrote, each in a process of its own: telemelya for webhooks, telegram-test-api for
polling; and a person who talks to a bot through each. What they lack is in tests/telegram/botapi.py.
"""

import http.client
import json
import os
import socket
import subprocess
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from typing import Any, Self
from urllib.parse import urlencode

from tests.servers.install import node_folder, python_of

HERE = Path(__file__).parent
KEY, SECRET = "key", "a-secret-of-the-webhook"
PATIENCE_S = 30.0


class Client:
    """HTTP with one connection that is kept."""

    def __init__(self, port: int, headers: dict[str, str] | None = None) -> None:
        self.port = port
        self.address = f"http://127.0.0.1:{port}"
        self._connection = http.client.HTTPConnection("127.0.0.1", port, timeout=PATIENCE_S)
        self._headers = {"Content-Type": "application/json", **(headers or {})}

    def another(self) -> Self:
        """The same on a connection of its own."""
        return type(self)(self.port, self._headers)

    def close(self) -> None:
        self._connection.close()

    def call(self, method: str, path: str, body: object = None) -> Any:
        self._connection.request(method, path, None if body is None else json.dumps(body), self._headers)
        answer = self._connection.getresponse()
        content = answer.read()
        assert answer.status == 200, (path, answer.status, content[:300])
        return json.loads(content)


class Telemelya(Client):
    """A person at telemelya: one session a chat."""

    def send(self, token: str, chat: int, **what: Any) -> None:
        """text, command, or callback_data and callback_message_id. Comes back when the webhook has said 200."""
        query = urlencode({"bot_token": token, "session_id": f"s{chat}"})
        self.call("POST", f"/api/v1/test/send_update?{query}", {"chat_id": chat, **what})

    def inline(self, token: str, chat: int, text: str) -> None:
        query = urlencode({"bot_token": token, "session_id": f"s{chat}"})
        self.call("POST", f"/api/v1/test/send_inline_query?{query}", {"query": text, "chat_id": chat})

    def wait(self, chat: int) -> dict[str, Any]:
        """The bot's next call in the chat since the last reset."""
        return dict(self.call("GET", f"/api/v1/test/responses/wait?session_id=s{chat}&timeout=5")["response"])

    def calls(self, chat: int) -> list[dict[str, Any]]:
        """All of them."""
        return list(self.call("GET", f"/api/v1/test/responses?session_id=s{chat}")["responses"])

    def reset(self, chat: int) -> None:
        self.call("POST", f"/api/v1/test/reset?session_id=s{chat}")


class TestApi(Client):
    """A person at telegram-test-api."""

    __test__ = False  # the package's name, no test

    def send(self, token: str, chat: int, text: str, **more: Any) -> None:
        self.call("POST", "/sendMessage", {"botToken": token, "text": text, **self._who(chat), **more})

    def press(self, token: str, chat: int, message: int, data: str) -> None:
        who = self._who(chat)
        under = {"message_id": message, "date": int(time.time()), "chat": who["chat"], "from": who["from"], "text": "x"}
        self.call("POST", "/sendCallback", {"botToken": token, "data": data, "message": under, **who})

    def unread(self, token: str, chat: int) -> list[dict[str, Any]]:
        """The bot's messages that were not asked for before."""
        return list(self.call("POST", "/getUpdates", {"token": token, "chatId": chat})["result"])

    def history(self, token: str) -> list[dict[str, Any]]:
        return list(self.call("POST", "/getUpdatesHistory", {"token": token})["result"])

    @staticmethod
    def _who(chat: int) -> dict[str, Any]:
        person = {"id": chat, "first_name": "Ann", "username": "ann", "is_bot": False}
        return {"date": int(time.time()), "from": person, "chat": {"id": chat, "type": "private", "first_name": "Ann"}}


def free_port() -> int:
    with socket.socket() as listener:
        listener.bind(("127.0.0.1", 0))
        port: int = listener.getsockname()[1]
        return port


@contextmanager
def _running(port: int, command: list[Any], log: Path, **more: Any) -> Iterator[None]:
    with log.open("wb") as out, subprocess.Popen(command, stdout=out, stderr=out, **more) as process:
        try:
            give_up = time.monotonic() + PATIENCE_S
            while True:
                try:
                    socket.create_connection(("127.0.0.1", port), 1.0).close()
                    break
                except OSError:
                    assert process.poll() is None, log.read_text()
                    assert time.monotonic() < give_up, log.read_text()
                    time.sleep(0.05)
            yield
        finally:
            process.kill()


@contextmanager
def telemelya(folder: Path) -> Iterator[Telemelya]:
    """telemelya, until the block ends."""
    port = free_port()
    command = [python_of("tm-venv"), HERE / "telemelya_server.py", str(port), KEY, SECRET]
    client = Telemelya(port, {"Authorization": f"Bearer {KEY}"})
    with _running(port, command, folder / "telemelya.log"), closing(client):
        yield client


@contextmanager
def test_api(folder: Path) -> Iterator[TestApi]:
    """telegram-test-api, until the block ends."""
    port = free_port()
    environment = os.environ | {"NODE_PATH": str(node_folder() / "node_modules")}
    command, client = ["node", HERE / "telegram_test_api.js", str(port)], TestApi(port)
    with _running(port, command, folder / "test-api.log", env=environment), closing(client):
        yield client


test_api.__test__ = False  # type: ignore[attr-defined]  # it is the package's name, no test
