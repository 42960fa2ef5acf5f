"""python -m bot serve PLATFORM: configuration, logs, memory and monitor round the adapter, until SIGTERM.

What every platform needs round it, once. Adapters are imported here when they are wanted, never before.
"""

import asyncio
import gc
import signal
import sys
from collections.abc import Awaitable, Callable
from contextlib import suppress

import uvloop

from bot import logs
from bot.config import Common, ConfigProblem, Matrix, Secret, Telegram, read_matrix, read_telegram
from bot.memory.problem import MemoryProblem
from bot.memory.store import Memory, open_memory
from bot.monitor import Figures, monitor
from bot.post.letters import CannotServe

Serve = Callable[[Memory, Figures], Awaitable[None]]


def serve(platform: str) -> int:
    """Serve a platform until told to stop. Returns the exit code; what is wrong is said in lines on standard error."""
    try:
        config = read_telegram() if platform == "telegram" else read_matrix()
    except ConfigProblem as problem:
        print(problem, file=sys.stderr)
        return 2
    logs.set_up(config.common.log_level, secrets_of(config))
    try:
        with asyncio.Runner(loop_factory=uvloop.new_event_loop) as runner:  # a fifth less time a message than asyncio's
            runner.run(_until_told(config.common, _adapter(config)))
    except (CannotServe, MemoryProblem) as problem:
        logs.logger(__name__).error("cannot serve", why=str(problem))
        return 1
    except OSError as problem:
        logs.logger(__name__).error("cannot serve", why=f"a port or file cannot be had: {problem.strerror}")
        return 1
    return 0


def secrets_of(config: Telegram | Matrix) -> list[str]:
    """What must be in no log."""
    found: list[Secret | None] = [config.common.database]
    match config:
        case Telegram(token=token, webhook=webhook):
            found += [token, webhook.secret if webhook else None]
        case Matrix(password=password):
            found.append(password)
    return [secret.reveal() for secret in found if secret is not None]


def _adapter(config: Telegram | Matrix) -> Serve:
    if isinstance(config, Telegram):
        from bot.adapters import telegram_serve

        telegram = config
        return lambda memory, figures: telegram_serve.serve(memory, telegram, figures)
    from bot.adapters import matrix_serve

    matrix = config
    return lambda memory, figures: matrix_serve.serve(
        memory,
        homeserver=matrix.homeserver,
        user=matrix.user,
        password=matrix.password.reveal(),
        folder=matrix.store,
        allow=matrix.common.allow,
        counts=figures,
    )


async def _until_told(common: Common, adapter: Serve) -> None:
    """Run the adapter; SIGTERM or SIGINT cancels it, and it finishes what is in hand."""
    serving = asyncio.current_task()
    assert serving is not None
    for number in (signal.SIGTERM, signal.SIGINT):
        asyncio.get_running_loop().add_signal_handler(number, serving.cancel)
    figures = Figures()
    async with open_memory(common.database.reveal() if common.database else None) as memory:

        async def healthy() -> bool:
            try:
                async with asyncio.timeout(2.0):
                    await memory.run("", lambda connection: None)
            except (MemoryProblem, TimeoutError):
                return False
            return True

        gc.collect()
        gc.freeze()  # what is loaded by now stays; looking through it again and again costs a tenth of each message
        gc.set_threshold(10_000, 20, 50)
        async with monitor(common.monitor, figures, healthy):
            with suppress(asyncio.CancelledError):
                await adapter(memory, figures)
    logs.logger(__name__).info("stopped")
