"""What is not run is counted and said, with the option that runs it."""

import re
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
COLLECT = (sys.executable, "-m", "pytest", "-p", "no:cacheprovider", "tests/servers/test_synapse.py")


def test_a_skip_is_counted_and_printed_with_its_reason() -> None:
    done = subprocess.run(COLLECT, cwd=ROOT, capture_output=True, text=True, check=True)
    assert re.search(r"^skipped 2: starts real servers and clients; run with --servers$", done.stdout, re.MULTILINE)


@pytest.mark.parametrize("marker", ["servers", "slow"])
def test_every_marker_has_an_option(marker: str) -> None:
    done = subprocess.run([*COLLECT[:3], "--help"], cwd=ROOT, capture_output=True, text=True, check=True)
    assert f"--{marker}" in done.stdout
