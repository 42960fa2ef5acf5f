"""The homeserver of the tests is one: it registers users, logs them in, limits them when told to, and comes back."""

import pytest

from tests.servers.synapse import Synapse, log_in, post


@pytest.mark.servers
def test_users_and_a_restart(synapse: Synapse) -> None:
    assert synapse.register("harbour") == "@harbour:test.local"
    assert log_in(synapse, "harbour")
    synapse.stop()
    synapse.start()
    assert log_in(synapse, "harbour")


@pytest.mark.servers
def test_a_strict_one_limits(strict_synapse: Synapse) -> None:
    strict_synapse.register("harbour")
    token = log_in(strict_synapse, "harbour")

    def make_rooms() -> None:
        for _ in range(20):
            post(f"{strict_synapse.url}/_matrix/client/v3/createRoom", {}, token)

    with pytest.raises(AssertionError, match=r"429.*retry_after_ms"):
        make_rooms()
