"""Installs the real servers and clients that tests talk to, once, into .servers at the checkout's root.

Everything is third-party software at fixed versions; git ignores the folder. A part that is there costs one look.
Never here: starting anything (synapse.py, browser.py), or anything the bot itself imports.
"""

import fcntl
import json
import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

ROOT = Path(__file__).parents[2]
SERVERS = ROOT / ".servers"

# A virtual environment of its own for each, so that none can touch what the bot runs with.
VENVS = {
    "hs-venv": ("matrix-synapse==1.163.2",),
    "tm-venv": ("telemelya==0.2.2", "fakeredis==2.40.0"),
}
NODE = {
    "hydrogen-view-sdk": "0.3.1",
    "esbuild": "0.28.2",
    "playwright-core": "1.65.1",
    "telegram-test-api": "4.2.1",
}
BROWSER = ("chromium", "fonts-noto-color-emoji", "fonts-dejavu-core")
NODE_FROM_DEBIAN = ("nodejs", "npm")
NGINX = ("nginx-light", "openssl")


class CannotInstall(Exception):
    """A part cannot be installed here; str() says what a person has to do."""


def python_of(name: str) -> Path:
    """The Python of the virtual environment of that name, which is made if need be. CannotInstall."""
    folder = SERVERS / name
    with _once(name, " ".join(VENVS[name])) as missing:
        if missing:
            shutil.rmtree(folder, ignore_errors=True)
            _run(sys.executable, "-m", "venv", folder)
            pip = (folder / "bin" / "python", "-m", "pip", "install", "-q", "--disable-pip-version-check")
            _run(*pip, *VENVS[name])
    return folder / "bin" / "python"


def node_folder() -> Path:
    """The folder whose node_modules holds the packages of NODE. CannotInstall."""
    folder = SERVERS / "node"
    with _once("node", json.dumps(NODE)) as missing:
        if missing:
            if shutil.which("npm") is None:
                _from_debian(*NODE_FROM_DEBIAN)
            shutil.rmtree(folder, ignore_errors=True)
            folder.mkdir()
            (folder / "package.json").write_text(json.dumps({"private": True, "dependencies": NODE}))
            _run("npm", "install", "--no-audit", "--no-fund", "--loglevel=error", at=folder)
    return folder


def chromium() -> Path:
    """The Chromium of the machine. CannotInstall."""
    return _of_the_machine("chromium", BROWSER)


def nginx() -> Path:
    """The nginx of the machine. CannotInstall."""
    return _of_the_machine("nginx", NGINX)


def _of_the_machine(name: str, packages: tuple[str, ...]) -> Path:
    places = os.environ.get("PATH", os.defpath) + ":/usr/sbin"
    with _once(name, "") as missing:
        if missing and shutil.which(name, path=places) is None:
            _from_debian(*packages)
    found = shutil.which(name, path=places)
    if found is None:
        (SERVERS / f"{name}.ready").unlink()
        raise CannotInstall(f"{name} was here and is gone; run again")
    return Path(found)


def _from_debian(*packages: str) -> None:
    if os.geteuid() != 0 or shutil.which("apt-get") is None:
        raise CannotInstall(f"install {' '.join(packages)} first (Debian, Ubuntu: apt install {' '.join(packages)})")
    _run("apt-get", "update", "-qq")
    _run("apt-get", "install", "-y", "-qq", "--no-install-recommends", *packages)


@contextmanager
def _once(name: str, version: str) -> Iterator[bool]:
    """Whether the part is missing in this version; what the block then does is noted. One process at a time."""
    SERVERS.mkdir(exist_ok=True)
    stamp = SERVERS / f"{name}.ready"
    with (SERVERS / f"{name}.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        missing = not stamp.exists() or stamp.read_text() != version
        if missing:
            stamp.unlink(missing_ok=True)
        yield missing
        if missing:
            stamp.write_text(version)


def _run(*command: str | Path, at: Path = SERVERS) -> None:
    quiet = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    done = subprocess.run(command, cwd=at, env=quiet, stdin=subprocess.DEVNULL, capture_output=True, text=True)
    if done.returncode != 0:
        said = (done.stderr.strip() or done.stdout.strip()).splitlines()
        raise CannotInstall(f"{' '.join(map(str, command))} failed: {' / '.join(said[-5:])}")


def main() -> int:
    """Install everything: python -m tests.servers.install."""
    try:
        for name in VENVS:
            print(python_of(name), flush=True)
        print(node_folder(), flush=True)
        print(chromium(), nginx(), flush=True)
    except CannotInstall as problem:
        print(problem, file=sys.stderr)
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
