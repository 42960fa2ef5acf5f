"""Every phrase of tests/cases/*.toml through the whole house: one test a phrase, judged by the JSON answer.

A row: say (phrasings of one meaning), after (earlier messages of the chat), kind, and any of the keys below. Lines,
totals and the like are within 1 % or inside the [low, high] given. A row with `fails` says why it must fail today.
"""

import tomllib
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from bot.answer.turn import turn
from bot.desk import said
from bot.told import FRESH

CASES = Path(__file__).parent / "cases"
NOW = datetime(2030, 1, 1, 20, 0, tzinfo=UTC)
TOTALS = (
    "serves", "undiluted_ml", "measured_ml", "finished_ml", "per_serve_ml", "proof_us", "sugar_g", "sugar_g_per_l", "brix",
    "water_percent", "abv",
)  # fmt: skip
KEYS = frozenset(
    [*TOTALS, "say", "after", "kind", "problem", "lines", "grams", "counts", "freezer", "cost", "bottles", "short", "left",
     "results", "standard_drinks", "text_has", "text_lacks", "why", "fails"]
)  # fmt: skip


def rows() -> list[tuple[str, dict[str, Any]]]:
    """Every row with the name of its file."""
    return [
        (path.stem, row)
        for path in sorted(CASES.glob("*.toml"))
        for row in tomllib.loads(path.read_text("utf-8"))["case"]
    ]


def phrases() -> list[Any]:
    """One parameter a phrase."""
    found = []
    for name, row in rows():
        for n, say in enumerate(row["say"]):
            # the row's own "fails" says why
            marks = [pytest.mark.xfail(reason=row["fails"], strict=True)] if row.get("fails") else []
            found.append(pytest.param(say, row, id=f"{name}-{say[:40]!r}-{n}", marks=marks))
    return found


def answer_of(say: str, after: list[str]) -> dict[str, Any]:
    """The JSON answer to a message after the earlier ones of its chat."""
    told = FRESH
    for earlier in after:
        told = turn(earlier, told, NOW).told
    return said(turn(say, told, NOW)).json()


def near(found: float | None, wanted: Any) -> bool:
    """Whether a figure is inside [low, high], or within 1 % of a number."""
    if found is None:
        return False
    if isinstance(wanted, list):
        return bool(wanted[0] - 1e-9 <= found <= wanted[1] + 1e-9)
    return bool(abs(found - wanted) <= max(abs(wanted) * 0.01, 1e-6))


def misses(row: dict[str, Any], got: dict[str, Any]) -> list[str]:
    """What of a row the answer does not hold."""
    out: list[str] = []
    kinds = row["kind"] if isinstance(row["kind"], list) else [row["kind"]]
    if got["kind"] not in kinds:
        return [f"kind is {got['kind']}, not {row['kind']}"]
    if row.get("problem") and got["kind"] == "question":
        codes = row["problem"] if isinstance(row["problem"], list) else [row["problem"]]
        if got["problem"]["code"] not in codes:
            out.append(f"problem is {got['problem']['code']}, not {row['problem']}")
    lines = {line["name"]: line for line in got.get("lines", [])}
    for key, field in (("lines", "ml"), ("grams", "g"), ("counts", "count")):
        for name, wanted in row.get(key, {}).items():
            if not near(lines.get(name, {}).get(field), wanted):
                out.append(f"{name} is {lines.get(name)}, not {wanted}")
    for key in TOTALS:
        if key in row and not near(got.get(key), row[key]):
            out.append(f"{key} is {got.get(key)}, not {row[key]}")
    for key, wanted in row.get("freezer", {}).items():
        found = got.get("freezer", {}).get(key)
        held = (
            found in wanted
            if key == "state" and isinstance(wanted, list)
            else found == wanted
            if key == "state"
            else near(found, wanted)
        )
        if not held:
            out.append(f"freezer.{key} is {found}, not {wanted}")
    for group in ("cost", "standard_drinks"):
        for key, wanted in row.get(group, {}).items():
            if not near(got.get(group, {}).get(key), wanted):
                out.append(f"{group}.{key} is {got.get(group, {}).get(key)}, not {wanted}")
    bottles = {b["name"]: b for b in got.get("bottles", [])}
    for key, field in (("bottles", "count"), ("short", "short_ml"), ("left", "left_ml")):
        for name, wanted in row.get(key, {}).items():
            if not near(bottles.get(name, {}).get(field), wanted):
                out.append(f"{key} of {name} is {bottles.get(name)}, not {wanted}")
    results = got.get("results", [])
    for n, wanted in enumerate(row.get("results", [])):
        same_unit = [r for r in results if unit(r["unit"]) == unit(wanted["unit"])]
        if (
            n < len(results)
            and unit(results[n]["unit"]) == unit(wanted["unit"])
            and near(results[n]["value"], wanted["value"])
        ):
            continue
        if not any(near(r["value"], wanted["value"]) for r in same_unit):
            out.append(f"result {n} is {results}, not {wanted}")
    for text in row.get("text_has", []):
        if text.lower() not in got["text"].lower():
            out.append(f"the reply lacks {text!r}")
    for text in row.get("text_lacks", []):
        if text.lower() in got["text"].lower():
            out.append(f"the reply has {text!r}")
    return out


def unit(name: str) -> str:
    """Serves and pours count the same thing."""
    return "pours" if name == "serves" else name


@pytest.mark.parametrize(("say", "row"), phrases())
def test_phrase(say: str, row: dict[str, Any]) -> None:
    got = answer_of(say, row.get("after", []))
    assert not misses(row, got), got["text"]


def test_no_phrase_stands_twice() -> None:
    seen: set[tuple[str, tuple[str, ...]]] = set()
    for name, row in rows():
        for say in row["say"]:
            key = (say, tuple(row.get("after", [])))
            assert key not in seen, f"{name}: {say!r}"
            seen.add(key)


def test_rows_hold_only_known_keys() -> None:
    for name, row in rows():
        assert set(row) <= KEYS, f"{name}: {set(row) - KEYS}"
