"""The post room is tried on the databases of the memory's tests."""

from tests.memory.conftest import address, server

__all__ = ["address", "server"]
