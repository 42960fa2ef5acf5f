"""What every test may use: which tests run, a line for each reason why one does not, and tests that are coroutines.

Without options, what needs only python3 and pip runs. --servers runs everything: it also starts real servers and
clients, and installs them first; --slow adds only the slow tests that need none of them.
"""

import asyncio
import inspect
from collections import Counter

import pytest

pytest_plugins = ("tests.servers.fixtures",)

NEEDS = {
    "servers": "starts real servers and clients; run with --servers",
    "slow": "takes minutes; run with --slow or --servers",
}


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--servers", action="store_true", help="run everything, with real servers (installs them)")
    parser.addoption("--slow", action="store_true", help="also run what takes minutes and needs no server")


def pytest_configure(config: pytest.Config) -> None:
    for name, reason in NEEDS.items():
        config.addinivalue_line("markers", f"{name}: {reason}")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    given = {name for name in NEEDS if config.getoption(f"--{name}")}
    if "servers" in given:
        return
    for item in items:
        for name, reason in NEEDS.items():
            if name not in given and item.get_closest_marker(name) is not None:
                # left out because it starts real servers or takes minutes: NEEDS says which, and how to run it
                item.add_marker(pytest.mark.skip(reason=reason))
                break


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Every skip is counted and printed with its reason."""
    reasons = Counter(
        report.longrepr[2].removeprefix("Skipped: ")
        for report in terminalreporter.stats.get("skipped", [])
        if isinstance(report.longrepr, tuple)
    )
    for reason, count in reasons.items():
        terminalreporter.write_line(f"skipped {count}: {reason}")


@pytest.hookimpl(tryfirst=True)
def pytest_pyfunc_call(pyfuncitem: pytest.Function) -> bool | None:
    """A test that is a coroutine runs in an event loop of its own."""
    if not inspect.iscoroutinefunction(pyfuncitem.obj):
        return None
    wanted = inspect.signature(pyfuncitem.obj).parameters
    asyncio.run(pyfuncitem.obj(**{name: pyfuncitem.funcargs[name] for name in wanted}))
    return True
