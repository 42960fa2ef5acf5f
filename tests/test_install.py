"""What an installed copy holds: an editable install hides a data file that was left out of the wheel."""

import shutil
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
SOURCES = ("*.py", "*.lark", "*.txt", "*.toml", "*.mako", "*.sql")


@pytest.fixture(scope="module")
def packed(tmp_path_factory: pytest.TempPathFactory) -> set[str]:
    """Names inside a wheel built from a copy of the checkout by the project's own build backend."""
    copy = tmp_path_factory.mktemp("checkout")
    shutil.copy(ROOT / "pyproject.toml", copy)
    for top in ("bot", "grammar"):
        shutil.copytree(ROOT / top, copy / top, ignore=shutil.ignore_patterns("__pycache__"))
    build = "import sys; from setuptools import build_meta; print(build_meta.build_wheel(sys.argv[1]))"
    command = [sys.executable, "-c", build, str(copy / "dist")]
    done = subprocess.run(command, cwd=copy, capture_output=True, text=True, timeout=60)
    assert done.returncode == 0, done.stderr
    (wheel,) = (copy / "dist").glob("*.whl")
    return set(zipfile.ZipFile(wheel).namelist())


def test_every_source_and_data_file_is_packed(packed: set[str]) -> None:
    ours = {
        path.relative_to(ROOT).as_posix()
        for top in ("bot", "grammar")
        for pattern in SOURCES
        for path in (ROOT / top).rglob(pattern)
    }
    assert {"bot/core/units.txt", "grammar/phrases.lark"} <= ours
    assert ours - packed == set()


def test_nothing_else_is_packed(packed: set[str]) -> None:
    strays = {name for name in packed if not name.startswith(("bot/", "grammar/", "shiftmaths-"))}
    assert strays == set()
