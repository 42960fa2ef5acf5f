"""sh deploy/chat "…" warm, beside a bare python -c "import pint, lark" in the same run.

python -m tests.bench.startup   prints the medians and their ratio. Goal: at most 1.5 times. Run sh deploy/chat once before,
so that its environment and byte code are there.
"""

import os
import statistics
import subprocess
import sys
import time
from pathlib import Path

ROOT = Path(__file__).parent.parent.parent
RUNS = 15


def seconds(command: list[str], environment: dict[str, str]) -> float:
    """How long a command takes."""
    start = time.perf_counter()
    subprocess.run(command, check=False, capture_output=True, cwd=ROOT, env=environment)
    return time.perf_counter() - start


def main() -> None:
    """Print the ratio."""
    environment = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
    chat = ["sh", "deploy/chat", "8 serves of 1:1 gin vermouth with 25% water"]
    bare = [sys.executable, "-c", "import pint, lark"]
    for command in (chat, bare):
        seconds(command, environment)
    pairs = [(seconds(bare, environment), seconds(chat, environment)) for _ in range(RUNS)]
    base = statistics.median(b for b, _ in pairs)
    ours = statistics.median(c for _, c in pairs)
    print(f"one message from the shell: {ours * 1000:.0f} ms = {ours / base:.2f} × import pint, lark ({base * 1000:.0f} ms)")


if __name__ == "__main__":
    main()
