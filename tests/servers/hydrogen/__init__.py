"""The Hydrogen client in a headless Chromium: builds its page, serves it, and drives it with drive.js."""

import http.server
import json
import shutil
import subprocess
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from pathlib import Path
from typing import Any

from tests.servers.install import chromium, node_folder

HERE = Path(__file__).parent
PAGE = """\
<!doctype html><html><head><meta charset=utf-8><meta name=viewport content="width=device-width, initial-scale=1">
<link rel=stylesheet href="assets/theme-element-light.css"></head>
<body class="hydrogen"><script type=module src="app.js"></script></body></html>
"""
BUNDLE = (
    "--bundle", "--format=esm", "--define:global=window", "--external:crypto", "--external:fs", "--external:path",
    "--log-level=error",
)  # fmt: skip


class Quiet(http.server.SimpleHTTPRequestHandler):
    """Serves files and keeps no log."""

    def log_message(self, format: str, *args: object) -> None:
        pass


def build(folder: Path) -> None:
    """Put the whole client into a folder, as static files."""
    modules = node_folder() / "node_modules"
    (folder / "olm").mkdir(parents=True)
    entry = shutil.copy(HERE / "main.js", node_folder() / "main.js")  # beside node_modules, where imports are looked up
    subprocess.run([modules / ".bin" / "esbuild", entry, *BUNDLE, f"--outfile={folder}/app.js"], check=True)
    shutil.copytree(modules / "hydrogen-view-sdk" / "asset-build" / "assets", folder / "assets")
    shutil.copy(modules / "hydrogen-view-sdk" / "lib-build" / "sw.js", folder)
    for file in (modules / "@matrix-org" / "olm").glob("olm*"):
        shutil.copy(file, folder / "olm")
    (folder / "index.html").write_text(PAGE)


@contextmanager
def client(folder: Path) -> Iterator[str]:
    """The client on loopback; yields its address."""
    build(folder)
    with http.server.ThreadingHTTPServer(("127.0.0.1", 0), partial(Quiet, directory=str(folder))) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        try:
            yield f"http://127.0.0.1:{server.server_port}/"
        finally:
            server.shutdown()


def drive(wanted: dict[str, Any]) -> list[dict[str, Any]]:
    """What drive.js saw. AssertionError with its words when it could not."""
    script = shutil.copy(HERE / "drive.js", node_folder() / "drive.js")
    command = ["node", script, json.dumps({"chromium": str(chromium()), **wanted})]
    done = subprocess.run(command, capture_output=True, text=True, timeout=180)
    assert done.returncode == 0, done.stderr
    seen: list[dict[str, Any]] = json.loads(done.stdout)
    return seen
