"""Configuration from the environment, read once at the start; all that is wrong is said in one message.

A secret NAME may be given as NAME_FILE, the path of a file that holds it. Secrets are in no repr.
Never here: opening or calling anything.
"""

import os
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from ipaddress import ip_address
from pathlib import Path
from typing import TypeVar
from urllib.parse import urlsplit

from bot.post.allow import Allow

T = TypeVar("T")
MONITOR = "127.0.0.1:9464"
LEVELS = ("debug", "info", "warning", "error")


class ConfigProblem(Exception):
    """What is wrong with the configuration: one line for each thing, no secret in any."""


class Secret:
    """A text that shows itself only when asked."""

    __slots__ = ("_text",)

    def __init__(self, text: str) -> None:
        self._text = text

    def reveal(self) -> str:
        return self._text

    def __repr__(self) -> str:
        return "Secret(…)"


@dataclass(frozen=True, slots=True)
class Common:
    """What every platform shares. monitor: host and port of /healthz and /metrics, None for neither."""

    allow: Allow
    monitor: tuple[str, int] | None
    log_level: str
    database: Secret | None


@dataclass(frozen=True, slots=True)
class Webhook:
    """Where Telegram delivers, and where we listen for it. certificate and key: TLS without a proxy before us."""

    url: str
    host: str
    port: int
    secret: Secret
    certificate: Path | None = None
    key: Path | None = None

    @property
    def path(self) -> str:
        """The only path that answers."""
        return urlsplit(self.url).path or "/"


@dataclass(frozen=True, slots=True)
class Telegram:
    """How to serve Telegram. webhook None: by long polling."""

    common: Common
    token: Secret
    api: str
    timeout_s: float
    webhook: Webhook | None


@dataclass(frozen=True, slots=True)
class Matrix:
    """How to serve Matrix. store: the folder that keeps the device and its keys."""

    common: Common
    homeserver: str
    user: str
    password: Secret
    store: Path


class _Reader:
    """Reads variables and gathers what is wrong with them."""

    def __init__(self, environment: Mapping[str, str]) -> None:
        self._environment = environment
        self.problems: list[str] = []

    def text(self, name: str, default: str = "", needed: str = "") -> str:
        text = self._environment.get(name, "").strip() or default
        if needed and not text:
            self.problems.append(f"{name} is not set: {needed}")
        return text

    def secret(self, name: str, needed: str = "") -> Secret:
        path = self.text(name + "_FILE")
        if path:
            try:
                return Secret(Path(path).read_text(encoding="utf-8").strip())
            except (OSError, UnicodeError):
                self.problems.append(f"{name}_FILE names a file that cannot be read")
                return Secret("")
        return Secret(self.text(name, needed=needed))

    def checked(self, name: str, read: Callable[[str], T], default: str, wanted: str) -> T | None:
        try:
            return read(self.text(name, default))
        except ValueError:
            self.problems.append(f"{name} must be {wanted}")
            return None

    def file(self, name: str) -> Path | None:
        text = self.text(name)
        if not text:
            return None
        path = Path(text)
        if not os.access(path, os.R_OK):
            self.problems.append(f"{name} names a file that cannot be read")
        return path

    def url(self, name: str, default: str = "", needed: str = "") -> str:
        text = self.text(name, default, needed)
        parts = urlsplit(text)
        if text and (parts.scheme not in ("http", "https") or not parts.hostname or parts.query or parts.fragment):
            self.problems.append(f"{name} must be an http or https address without a query")
        return text.rstrip("/") if parts.path == "/" else text

    def done(self) -> None:
        if self.problems:
            raise ConfigProblem("\n".join(self.problems))


def _address(text: str) -> tuple[str, int]:
    host, _, port = text.rpartition(":")
    if not host or not 0 < int(port) < 65536:
        raise ValueError(text)
    return host.strip("[]"), int(port)


def _loopback(text: str) -> tuple[str, int] | None:
    if text == "off":
        return None
    host, port = _address(text)
    if host != "localhost" and not ip_address(host).is_loopback:
        raise ValueError(text)
    return host, port


def _level(text: str) -> str:
    if text.lower() not in LEVELS:
        raise ValueError(text)
    return text.lower()


def _seconds(text: str) -> float:
    seconds = float(text)
    if not 0.0 < seconds <= 300.0:
        raise ValueError(text)
    return seconds


def _common(read: _Reader) -> Common:
    database = read.secret("SHIFTMATHS_DATABASE")
    monitor = read.checked("SHIFTMATHS_MONITOR", _loopback, MONITOR, f"a loopback address and port like {MONITOR}, or off")
    level = read.checked("SHIFTMATHS_LOG", _level, "info", "one of " + ", ".join(LEVELS))
    return Common(
        Allow.read(read.text("SHIFTMATHS_ALLOW")), monitor, level or "info", database if database.reveal() else None
    )


def read_common(environment: Mapping[str, str] = os.environ) -> Common:
    """What does not depend on a platform. ConfigProblem names all that is wrong."""
    read = _Reader(environment)
    common = _common(read)
    read.done()
    return common


def read_telegram(environment: Mapping[str, str] = os.environ) -> Telegram:
    """How to serve Telegram. ConfigProblem names all that is wrong."""
    read = _Reader(environment)
    common = _common(read)
    token = read.secret("TELEGRAM_TOKEN", "the token that BotFather gave")
    if token.reveal() and not _is_token(token.reveal()):
        read.problems.append("TELEGRAM_TOKEN does not look like a token (digits, a colon, letters)")
    api = read.url("TELEGRAM_API", "https://api.telegram.org")
    timeout = read.checked("TELEGRAM_TIMEOUT_S", _seconds, "10", "seconds, up to 300")
    hook = _webhook(read) if read.text("TELEGRAM_WEBHOOK_URL") else None
    read.done()
    return Telegram(common, token, api.rstrip("/"), timeout or 10.0, hook)


def _is_token(text: str) -> bool:
    number, colon, rest = text.partition(":")
    return number.isdecimal() and bool(colon) and rest.replace("-", "a").replace("_", "a").isalnum() and rest.isascii()


def _webhook(read: _Reader) -> Webhook:
    url = read.url("TELEGRAM_WEBHOOK_URL")
    listen = read.checked("TELEGRAM_WEBHOOK_LISTEN", _address, "127.0.0.1:8443", "an address and port like 127.0.0.1:8443")
    secret = read.secret("TELEGRAM_WEBHOOK_SECRET", "any 16 or more letters and digits, the same in every process")
    shown = secret.reveal()
    if shown and not (16 <= len(shown) <= 256 and shown.isascii() and shown.replace("-", "a").replace("_", "a").isalnum()):
        read.problems.append("TELEGRAM_WEBHOOK_SECRET must be 16 to 256 letters, digits, - or _")
    certificate, key = read.file("TELEGRAM_WEBHOOK_CERTIFICATE"), read.file("TELEGRAM_WEBHOOK_KEY")
    if (certificate is None) != (key is None):
        read.problems.append("TELEGRAM_WEBHOOK_CERTIFICATE and TELEGRAM_WEBHOOK_KEY go together")
    host, port = listen or ("", 0)
    return Webhook(url, host, port, secret, certificate, key)


def read_matrix(environment: Mapping[str, str] = os.environ) -> Matrix:
    """How to serve Matrix. ConfigProblem names all that is wrong."""
    read = _Reader(environment)
    common = _common(read)
    homeserver = read.url("MATRIX_HOMESERVER", needed="the homeserver's address, like https://matrix.example.org")
    user = read.text("MATRIX_USER", needed="the bot's user id, like @bar:example.org")
    password = read.secret("MATRIX_PASSWORD", "the password of MATRIX_USER")
    data = read.text("XDG_DATA_HOME") or str(Path.home() / ".local" / "share")
    store = Path(read.text("SHIFTMATHS_MATRIX_STORE") or Path(data) / "shiftmaths" / "matrix")
    read.done()
    return Matrix(common, homeserver, user, password, store)
