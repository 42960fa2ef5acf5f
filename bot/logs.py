"""Logs: one event a line, JSON when nobody watches, nothing anyone typed, and no secret whatever happens.

Until set_up is called nothing is printed, so that a test or a console chat is quiet.
"""

import logging
import sys
from collections.abc import Iterable, MutableMapping
from typing import Any

import structlog

Event = MutableMapping[str, Any]
NOISY = ("httpx", "httpcore", "tornado.access", "nio", "aiohttp.access", "asyncio", "alembic")
HIDDEN = "[hidden]"


def logger(name: str) -> Any:
    """A logger with keyword arguments. Any: structlog's own loggers are typed no closer."""
    return structlog.stdlib.get_logger(name)


class Hide:
    """Takes secrets out of everything that is logged, tracebacks too."""

    def __init__(self, secrets: Iterable[str]) -> None:
        self._secrets = sorted({secret for secret in secrets if secret}, key=len, reverse=True)

    def text(self, text: str) -> str:
        for secret in self._secrets:
            text = text.replace(secret, HIDDEN)
        return text

    def __call__(self, logger: Any, method: str, event: Event) -> Event:
        for key, value in event.items():
            event[key] = self.text(value) if isinstance(value, str) else self._other(value)
        return event

    def _other(self, value: object) -> object:
        shown = str(value)
        return self.text(shown) if any(secret in shown for secret in self._secrets) else value


def set_up(level: str = "info", secrets: Iterable[str] = (), json: bool | None = None) -> None:
    """Send all logs to standard error. json None: unless that is a terminal. What libraries log goes the same way."""
    hide = Hide(secrets)
    as_json = not sys.stderr.isatty() if json is None else json
    shared: list[Any] = [
        structlog.contextvars.merge_contextvars,
        structlog.stdlib.add_log_level,
        structlog.stdlib.add_logger_name,
        structlog.processors.TimeStamper(fmt="iso", utc=True),
        structlog.processors.format_exc_info,
        hide,
    ]
    last = structlog.processors.JSONRenderer() if as_json else structlog.dev.ConsoleRenderer(colors=False)
    handler = logging.StreamHandler(sys.stderr)
    handler.setFormatter(
        structlog.stdlib.ProcessorFormatter(
            foreign_pre_chain=[*shared[:2], structlog.stdlib.ExtraAdder(), *shared[2:]],
            processors=[structlog.stdlib.ProcessorFormatter.remove_processors_meta, hide, last],
        )
    )
    root = logging.getLogger()
    root.handlers[:] = [handler]
    root.setLevel(level.upper())
    for name in NOISY:  # they name addresses with tokens in them, and what was typed, at their lower levels
        logging.getLogger(name).setLevel(logging.WARNING)
    logging.getLogger("telegram").setLevel(logging.CRITICAL)  # its errors repeat what came over the wire
    structlog.configure(
        processors=[structlog.stdlib.filter_by_level, *shared, structlog.stdlib.ProcessorFormatter.wrap_for_formatter],
        wrapper_class=structlog.stdlib.BoundLogger,
        logger_factory=structlog.stdlib.LoggerFactory(),
        cache_logger_on_first_use=False,
    )
    sys.excepthook = lambda kind, error, trace: logging.getLogger("bot").critical(
        "stopped by an error", exc_info=(kind, error, trace)
    )


def _quiet() -> None:
    """Before set_up: through the standard library's logging, which prints warnings only."""
    structlog.configure(
        processors=[structlog.stdlib.filter_by_level, structlog.stdlib.render_to_log_kwargs],
        wrapper_class=structlog.stdlib.BoundLogger,
        logger_factory=structlog.stdlib.LoggerFactory(),
    )


_quiet()
