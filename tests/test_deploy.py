"""The set-up scripts: they parse in the shells at hand, pass words through, and fail in one plain line.

Nothing is installed here; a full set-up is seen by running the two commands in a fresh clone.
"""

import os
import re
import shutil
import signal
import socket
import subprocess
import sys
import time
import tomllib
from pathlib import Path

import pytest
from packaging.requirements import Requirement

ROOT = Path(__file__).parents[1]
SHELLS = [shell for shell in ("sh", "dash", "bash") if shutil.which(shell)]
LOCKS = {
    "requirements.lock": (),
    "serve-requirements.lock": ("telegram", "matrix"),
    "test-requirements.lock": ("telegram", "matrix", "test"),
}


@pytest.fixture
def checkout(tmp_path: Path) -> Path:
    """A checkout without an environment, in a folder whose name has a space."""
    root = tmp_path / "a checkout"
    shutil.copytree(ROOT / "deploy", root / "deploy")
    return root


def environment(**more: str) -> dict[str, str]:
    """The caller's environment, so that pip finds only what the test says."""
    kept = {name: value for name, value in os.environ.items() if not name.startswith("PIP_")}
    return kept | {"PIP_CONFIG_FILE": os.devnull, "PIP_NO_CACHE_DIR": "1", "PYTHON": sys.executable} | more


def python_that(folder: Path, module: str, code: str) -> str:
    """A python3 that runs code when it imports the module: a stand-in for one that lacks something."""
    (folder / "lacking").mkdir()
    (folder / "lacking" / f"{module}.py").write_text(code)
    python = folder / "python3"
    python.write_text(f'#!/bin/sh\nPYTHONPATH="{folder}/lacking" exec "{sys.executable}" "$@"\n')
    python.chmod(0o755)
    return str(python)


def left_behind(checkout: Path) -> list[str]:
    return [path.name for path in checkout.iterdir() if path.name.startswith(".venv")]


@pytest.mark.parametrize("shell", SHELLS)
@pytest.mark.parametrize("script", ["chat", "serve", "test", "setup.sh", "lock"])
def test_scripts_parse(script: str, shell: str) -> None:
    subprocess.run([shell, "-n", ROOT / "deploy" / script], check=True)


def test_what_ci_runs_parses() -> None:
    subprocess.run(["bash", "-n", ROOT / ".ci" / "run"], check=True)


@pytest.mark.parametrize("shell", SHELLS)
@pytest.mark.parametrize(
    ("module", "code", "says"),
    [
        ("ensurepip", "raise ImportError", r"has no venv or pip; install them"),
        ("sitecustomize", "import sys; sys.version_info = (3, 9, 2)", r"install Python 3\.11 or newer"),
        ("sitecustomize", "import os; os._exit(3)", r"does not run; install Python 3\.11 or newer with venv"),
    ],
    ids=["no venv", "too old", "broken"],
)
def test_python_that_will_not_do(
    checkout: Path, tmp_path: Path, shell: str, module: str, code: str, says: str
) -> None:
    killed_earlier = checkout / f".venv-new-{dead_process()}"
    (killed_earlier / "bin").mkdir(parents=True)
    python = python_that(tmp_path, module, code)
    done = subprocess.run(
        [shell, "deploy/chat", "2 oz to ml"],
        cwd=checkout,
        env=environment(PYTHON=python),
        capture_output=True,
        text=True,
        timeout=30,
    )
    assert (done.returncode, done.stdout, done.stderr.count("\n")) == (1, "", 1)
    assert re.search(says, done.stderr)
    assert left_behind(checkout) == []


def dead_process() -> int:
    process = subprocess.Popen(["true"])
    process.wait()
    return process.pid


def test_index_that_cannot_be_reached(checkout: Path) -> None:
    with socket.socket() as closed:  # bound and not listening: every connection is refused
        closed.bind(("127.0.0.1", 0))
        index = f"http://127.0.0.1:{closed.getsockname()[1]}/simple"
        done = subprocess.run(
            ["sh", checkout / "deploy" / "chat", "2 oz to ml"],
            env=environment(PIP_INDEX_URL=index, PIP_RETRIES="0"),
            capture_output=True,
            text=True,
            timeout=60,
        )
    assert (done.returncode, done.stdout, done.stderr.count("\n")) == (1, "", 1)
    assert "the package index cannot be reached; connect to the network" in done.stderr
    assert left_behind(checkout) == []


@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM], ids=lambda number: number.name)
def test_interrupted_set_up_leaves_nothing(checkout: Path, number: signal.Signals) -> None:
    setting_up = subprocess.Popen(
        ["sh", "deploy/chat"],
        cwd=checkout,
        env=environment(),
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,  # a group of its own, as a terminal gives
    )
    give_up = time.monotonic() + 20
    while not list(checkout.glob(".venv-new-*/lib/*/site-packages/pip")):  # well into making it
        assert time.monotonic() < give_up
        time.sleep(0.01)
    os.killpg(setting_up.pid, number)
    said, complained = setting_up.communicate(timeout=20)
    assert (setting_up.returncode, said, complained.count("\n")) == (1, "", 1)
    assert "interrupted" in complained
    assert left_behind(checkout) == []


@pytest.mark.parametrize("shell", SHELLS)
def test_warm_start_passes_every_word_through(checkout: Path, tmp_path: Path, shell: str) -> None:
    """A stand-in environment that is up to date: used as it is, from any folder, the words untouched."""
    python = checkout / ".venv" / "bin" / "python"
    python.parent.mkdir(parents=True)
    shown = '"$@" "${PYTHONDONTWRITEBYTECODE-unset}" "$PYTHONPYCACHEPREFIX"'
    python.write_text(f'#!/bin/sh\nprintf "[%s]" {shown}\n')
    python.chmod(0o755)
    lock = (checkout / "deploy" / "requirements.lock").read_bytes()
    stamp = subprocess.run(["cksum"], input=lock, capture_output=True, check=True).stdout
    (checkout / ".venv" / "ready-chat").write_bytes(stamp)
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    done = subprocess.run(
        [shell, checkout / "deploy" / "chat", "8 of  these:", "60 gin\n10 'dry' \"vermouth\"", "$HOME *", ""],
        cwd=elsewhere,
        env=environment(PYTHON="no-such-python", PYTHONDONTWRITEBYTECODE="1"),
        capture_output=True,
        text=True,
        timeout=20,
    )
    words = "[-P][-m][bot][ask][8 of  these:][60 gin\n10 'dry' \"vermouth\"][$HOME *][]"
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout == f"{words}[unset][{checkout / '.venv' / 'bytecode'}]"


@pytest.mark.parametrize(("lock", "extras"), LOCKS.items(), ids=list(LOCKS))
def test_lock_holds_what_the_project_asks_for(lock: str, extras: tuple[str, ...]) -> None:
    text = (ROOT / "deploy" / lock).read_text()
    assert "://" not in text  # no index address: whoever sets up chooses where packages come from
    pinned: dict[str, list[str]] = {}
    for entry in re.findall(r"^[^\s#].*(?:\n .*)*", text, re.MULTILINE):
        assert "--hash=sha256:" in entry, entry
        name, _, version = entry.split()[0].partition("==")
        pinned.setdefault(name.partition("[")[0], []).append(version)
    project = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]
    asked = list(project["dependencies"])
    for extra in extras:
        asked += project["optional-dependencies"][extra]
    for requirement in map(Requirement, asked):
        assert all(map(requirement.specifier.contains, pinned[requirement.name.lower()])), requirement
