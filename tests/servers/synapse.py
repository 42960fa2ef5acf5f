"""A real Synapse on loopback, with SQLite and no federation, in a folder that is thrown away with the test run.

Starts, stops and restarts the server and registers users on it. Never here: what is said in rooms (matrix_user.py).
"""

import hashlib
import hmac
import json
import secrets
import socket
import subprocess
import time
import urllib.error
import urllib.request
from pathlib import Path
from typing import Any

from tests.servers.install import python_of

SERVER_NAME = "test.local"
PATIENCE_S = 60.0
NO_LIMIT = "{per_second: 10000, burst_count: 10000}"

CONFIG = """\
server_name: {name}
public_baseurl: {url}/
pid_file: {folder}/synapse.pid
listeners:
  - port: {port}
    bind_addresses: [127.0.0.1]
    type: http
    tls: false
    resources: [{{names: [client], compress: false}}]
database: {{name: sqlite3, args: {{database: "{folder}/synapse.db"}}}}
log_config: {folder}/log.yaml
media_store_path: {folder}/media
signing_key_path: {folder}/signing.key
registration_shared_secret: {secret}
macaroon_secret_key: {secret}
form_secret: {secret}
report_stats: false
trusted_key_servers: []
suppress_key_server_warning: true
federation_domain_whitelist: []
url_preview_enabled: false
presence: {{enabled: false}}
bcrypt_rounds: 4
rc_message: {messages}
rc_registration: {free}
rc_login: {{address: {free}, account: {free}, failed_attempts: {free}}}
rc_joins: {{local: {free}, remote: {free}}}
rc_joins_per_room: {free}
rc_invites: {{per_room: {free}, per_user: {free}, per_issuer: {free}}}
rc_admin_redaction: {free}
rc_room_creation: {free}
rc_key_requests: {free}
rc_media_create: {free}
"""
LOG = """\
version: 1
handlers: {{file: {{class: logging.FileHandler, filename: "{folder}/synapse.log"}}}}
root: {{level: WARNING, handlers: [file]}}
disable_existing_loggers: false
"""


def free_port() -> int:
    """A port of 127.0.0.1 that nothing listens on now."""
    with socket.socket() as listener:
        listener.bind(("127.0.0.1", 0))
        port: int = listener.getsockname()[1]
        return port


class Synapse:
    """One homeserver. messages: its rate limit for messages, as Synapse's configuration writes it."""

    def __init__(self, folder: Path, messages: str = NO_LIMIT) -> None:
        self.port = free_port()
        self.url = f"http://127.0.0.1:{self.port}"
        self._folder = folder
        self._secret = secrets.token_hex(16)
        self._process: subprocess.Popen[bytes] | None = None
        self._python = python_of("hs-venv")
        folder.mkdir(parents=True, exist_ok=True)
        values = {"name": SERVER_NAME, "url": self.url, "port": self.port, "folder": folder, "secret": self._secret}
        text = CONFIG.format(**values, messages=messages, free=NO_LIMIT)
        (folder / "homeserver.yaml").write_text(text)
        (folder / "log.yaml").write_text(LOG.format(folder=folder))
        subprocess.run([*self._command(), "--generate-keys"], check=True, cwd=folder, stderr=subprocess.DEVNULL)

    def _command(self) -> list[str]:
        homeserver = str(self._folder / "homeserver.yaml")
        return [str(self._python), "-m", "synapse.app.homeserver", "-c", homeserver]

    def start(self) -> None:
        """Start, and wait until the server answers. RuntimeError when it does not."""
        with (self._folder / "output").open("ab") as output:
            self._process = subprocess.Popen(self._command(), cwd=self._folder, stdout=output, stderr=output)
        give_up = time.monotonic() + PATIENCE_S
        while time.monotonic() < give_up and self._process.poll() is None:
            try:
                urllib.request.urlopen(f"{self.url}/health", timeout=5).close()
            except OSError:
                time.sleep(0.1)
            else:
                return
        self.stop()
        raise RuntimeError(f"Synapse did not start: {(self._folder / 'output').read_text()[-2000:]}")

    def stop(self) -> None:
        """Stop the server as its service would, and wait for its end."""
        if self._process is not None:
            self._process.terminate()
            try:
                self._process.wait(PATIENCE_S)
            except subprocess.TimeoutExpired:
                self._process.kill()
                self._process.wait()
            self._process = None

    def register(self, name: str) -> str:
        """Make a user of that name; returns the full user id. The password is password_of(name)."""
        where = f"{self.url}/_synapse/admin/v1/register"
        nonce = json.load(urllib.request.urlopen(where, timeout=10))["nonce"]
        signed = "\0".join((nonce, name, password_of(name), "notadmin")).encode()
        mac = hmac.new(self._secret.encode(), signed, hashlib.sha1).hexdigest()
        form = {"nonce": nonce, "username": name, "password": password_of(name), "admin": False, "mac": mac}
        user: str = post(where, form)["user_id"]
        return user


def password_of(name: str) -> str:
    """The password of a user of a test server."""
    return f"pw-{name}"


def log_in(server: Synapse, name: str) -> str:
    """A new device of the user; returns its access token."""
    who = {"type": "m.id.user", "user": name}
    form = {"type": "m.login.password", "identifier": who, "password": password_of(name)}
    token: str = post(f"{server.url}/_matrix/client/v3/login", form)["access_token"]
    return token


def post(url: str, form: dict[str, Any], token: str = "") -> Any:
    """POST as JSON; returns the JSON answer. AssertionError with the server's words when it refuses."""
    return _request(urllib.request.Request(url, json.dumps(form).encode(), {"Content-Type": "application/json"}), token)


def get(url: str, token: str = "") -> Any:
    """GET; returns the JSON answer. AssertionError with the server's words when it refuses."""
    return _request(urllib.request.Request(url), token)


def _request(request: urllib.request.Request, token: str) -> Any:
    if token:
        request.add_header("Authorization", f"Bearer {token}")
    try:
        with urllib.request.urlopen(request, timeout=30) as answer:
            return json.load(answer)
    except urllib.error.HTTPError as error:
        raise AssertionError(f"{request.full_url}: {error.code} {error.read().decode()}") from error
