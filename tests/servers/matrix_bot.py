"""The bot as its service starts it: a process of its own, told everything by its environment, ended by signals."""

import os
import signal
import subprocess
import sys
from pathlib import Path

from tests.servers.install import ROOT
from tests.servers.synapse import Synapse, password_of

OURS = ("bot", "serve", "matrix")


class Bot:
    """The bot on a homeserver. folder: its memory, its device and its log. module: another bot, to compare with."""

    def __init__(
        self, server: Synapse, name: str, folder: Path, module: tuple[str, ...] = OURS, **more: str
    ) -> None:
        self._module = module
        self.user_id = server.register(name)
        self.folder = folder
        folder.mkdir(parents=True, exist_ok=True)
        self._environment = {
            **os.environ,
            "MATRIX_HOMESERVER": server.url,
            "MATRIX_USER": self.user_id,
            "MATRIX_PASSWORD": password_of(name),
            "SHIFTMATHS_DATABASE": f"sqlite:///{folder}/memory.db",
            "XDG_DATA_HOME": str(folder / "data"),
            "SHIFTMATHS_MONITOR": "off",  # several bots may be at work
            **more,
        }
        self._process: subprocess.Popen[bytes] | None = None

    def start(self, **more: str) -> None:
        """Start it. more: what is different in its environment this time."""
        with (self.folder / "log").open("ab") as log:
            self._process = subprocess.Popen(
                [sys.executable, "-m", *self._module], cwd=ROOT, env=self._environment | more, stdout=log, stderr=log
            )

    def end(self, how: signal.Signals = signal.SIGKILL) -> int:
        """Send a signal and wait for the end; returns the exit code."""
        assert self._process is not None
        self._process.send_signal(how)
        code = self._process.wait(30)
        self._process = None
        return code

    def device(self) -> str:
        """The file in which the device is kept, as it is."""
        return (self.folder / "data" / "shiftmaths" / "matrix" / "device.json").read_text()

    @property
    def running(self) -> bool:
        return self._process is not None and self._process.poll() is None

    @property
    def log(self) -> str:
        return (self.folder / "log").read_text()
