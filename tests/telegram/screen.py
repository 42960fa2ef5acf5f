"""A conversation as a phone shows it: the exact HTML that was sent, in bubbles, 360 pixels wide; and a picture of it.

Telegram's own look is not imitated closely: what counts is what wraps, lines up or runs over at that width.
"""

import html
import re
import subprocess
from pathlib import Path

WIDTH = 360
STYLE = """
body { margin: 0; width: 360px; background: #d5e3d0; font: 15px/1.3 "DejaVu Sans", sans-serif; }
.us, .them { box-sizing: border-box; width: fit-content; max-width: 344px; margin: 6px 8px; padding: 6px 9px;
  border-radius: 10px; background: #fff; white-space: pre-wrap; overflow-wrap: anywhere; }
.them { margin-left: auto; max-width: 290px; background: #e3fecf; }
pre { margin: 4px 0; font: 13px/1.35 "DejaVu Sans Mono", monospace; white-space: pre; background: #f0f3f0; padding: 4px; }
.row { display: flex; gap: 4px; margin: 4px 8px; max-width: 344px; }
.row span { flex: 1; text-align: center; background: #9ab894; color: #fff; border-radius: 6px; padding: 6px 2px;
  font-size: 13px; }
"""
MEASURE = (
    "document.title = 'wide ' + document.documentElement.scrollWidth + ' pre ' + "
    "[...document.querySelectorAll('pre')].filter(p => p.scrollWidth > p.clientWidth).length"
)


def page(talk: list[tuple[str, str, list[list[str]]]]) -> str:
    """HTML of a conversation: (what someone typed, the HTML that was sent, rows of button labels)."""
    out = [f"<!doctype html><meta charset=utf-8><style>{STYLE}</style>"]
    for typed, sent, rows in talk:
        out.append(f"<div class=them>{html.escape(typed)}</div><div class=us>{sent}</div>")
        out += ["<div class=row>" + "".join(f"<span>{html.escape(label)}</span>" for label in row) + "</div>" for row in rows]
    return "\n".join([*out, f"<script>{MEASURE}</script>"])


def shoot(chromium: Path, source: Path, picture: Path, height: int) -> tuple[int, int]:
    """Take the picture; returns the width the page needs and how many fixed-width blocks run over their bubble."""
    profile = source.parent / "profile"
    base = [
        str(chromium), "--headless=new", "--no-sandbox", "--disable-gpu", "--hide-scrollbars", "--disable-sync",
        "--no-first-run", "--disable-background-networking", "--disable-component-update", f"--user-data-dir={profile}",
        f"--window-size={max(WIDTH, 500)},{height}", "--force-device-scale-factor=1",
    ]  # fmt: skip
    url = source.as_uri()
    subprocess.run([*base, f"--screenshot={picture}", url], check=True, capture_output=True, timeout=60)
    dom = subprocess.run([*base, "--dump-dom", url], check=True, capture_output=True, text=True, timeout=60).stdout
    found = re.search(r"<title>wide (\d+) pre (\d+)", dom)
    assert found is not None, dom[:500]
    return int(found[1]), int(found[2])
