"""The servers that tests talk to, each started once a run, when the first test asks for it."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.servers.synapse import Synapse


@pytest.fixture(scope="session")
def synapse(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Synapse]:
    """A homeserver without rate limits."""
    yield from _running(tmp_path_factory.mktemp("synapse") / "hs")


@pytest.fixture(scope="session")
def strict_synapse(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Synapse]:
    """A homeserver that lets a user send one message a second, after the first three."""
    yield from _running(tmp_path_factory.mktemp("strict") / "hs", "{per_second: 1, burst_count: 3}")


def _running(folder: Path, *limit: str) -> Iterator[Synapse]:
    server = Synapse(folder, *limit)
    server.start()
    try:
        yield server
    finally:
        server.stop()
