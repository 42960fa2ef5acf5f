"""Told to rows and back: reading what a chat told us, and writing only what changed.

Plain functions on one SQLAlchemy connection, inside a transaction that keeps other writers of the chat out.
Never here: opening, committing, threads, clocks.
"""

import secrets
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from typing import Any, Protocol

from sqlalchemy import Connection, Table, bindparam, delete, insert, select, update
from sqlalchemy.dialects import postgresql, sqlite

from bot.memory.statement import Statement
from bot.memory.tables import CHATS, HANDLED, SHELF, SPECS
from bot.told import FRESH, LONGEST_NAME, HouseSpec, Last, Settings, ShelfBottle, Told

LAST_KEPT = timedelta(hours=12)
HANDLED_KEPT = timedelta(days=7)
EPOCH = datetime(1970, 1, 1, tzinfo=UTC)
MICROSECOND = timedelta(microseconds=1)


@dataclass(frozen=True, slots=True)
class Kept:
    """What the database holds of one chat, and where in their lists the bottles and specs stand.

    stamp: changes whenever anything but told.last does; None when the chat has no row.
    """

    stamp: int | None = None
    told: Told = FRESH
    shelf_places: Mapping[str, int] = field(default_factory=dict)
    spec_places: Mapping[str, int] = field(default_factory=dict)


NOTHING = Kept()

_CHAT = Statement(select(CHATS).where(CHATS.c.chat == bindparam("chat")))
_LISTS = {
    table: select(table).where(table.c.chat == bindparam("chat")).order_by(table.c.place)
    for table in (SHELF, SPECS)
}
_SET_LAST = Statement(
    update(CHATS).where(CHATS.c.chat == bindparam("of")).values(last_at=bindparam("last_at"), last_body=bindparam("last_body"))
)
_SET_ALL = update(CHATS).where(CHATS.c.chat == bindparam("of"))
_NEW_CHAT = insert(CHATS)
_FORGET_CHAT = delete(CHATS).where(CHATS.c.chat == bindparam("of"))  # takes its shelf and specs with it
_CLAIM = Statement(
    sqlite.insert(HANDLED).on_conflict_do_nothing(), postgresql.insert(HANDLED).on_conflict_do_nothing()
)


def recall(connection: Connection, chat: str, known: Kept = NOTHING) -> Kept:
    """What the chat told us. known: what was read or written before, used where the stamp says it still holds."""
    row = _CHAT.first(connection, {"chat": chat})
    if row is None:
        return NOTHING
    last = None if row.last_at is None else Last(EPOCH + row.last_at * MICROSECOND, row.last_body)
    if row.stamp == known.stamp:
        return Kept(row.stamp, _with_last(known.told, last), known.shelf_places, known.spec_places)
    settings = Settings(
        row.ounce, row.first, row.freezer_c, row.serve_ml, row.dash_ml, row.currency, row.country
    )
    shelf = connection.execute(_LISTS[SHELF], {"chat": chat}).all()
    specs = connection.execute(_LISTS[SPECS], {"chat": chat}).all()
    told = Told(
        settings,
        tuple(ShelfBottle(r.name, r.abv, r.sugar_g_per_l, r.size_ml, r.price) for r in shelf),
        tuple(HouseSpec(r.name, r.text, r.body, r.previous, r.previous_text) for r in specs),
        last,
    )
    return Kept(row.stamp, told, {r.name: r.place for r in shelf}, {r.name: r.place for r in specs})


def _with_last(told: Told, last: Last | None) -> Told:
    return told if told.last == last else Told(told.settings, told.shelf, told.specs, last)


def lasting(told: Told) -> tuple[Settings, tuple[ShelfBottle, ...], tuple[HouseSpec, ...]]:
    """What a chat asked us to keep: all but the last answer."""
    return told.settings, told.shelf, told.specs


def write(connection: Connection, chat: str, kept: Kept, told: Told) -> Kept:
    """Write the differences between what the database holds and told; returns what it then holds.

    ValueError if a bottle or a spec has no name or one that is too long.
    """
    if told == kept.told:
        return kept
    if told == FRESH:
        connection.execute(_FORGET_CHAT, {"of": chat})
        return NOTHING
    last = {
        "last_at": None if told.last is None else (told.last.at - EPOCH) // MICROSECOND,
        "last_body": None if told.last is None else storable(told.last.body),
    }
    if kept.stamp is not None and lasting(told) == lasting(kept.told):
        _SET_LAST.execute(connection, {"of": chat, **last})
        return Kept(kept.stamp, told, kept.shelf_places, kept.spec_places)

    stamp = secrets.randbits(62)
    settings = told.settings
    row = {
        "stamp": stamp,
        "ounce": settings.ounce,
        "first": settings.first,
        "freezer_c": settings.freezer_c,
        "serve_ml": settings.serve_ml,
        "dash_ml": settings.dash_ml,
        "currency": storable(settings.currency),
        "country": storable(settings.country),
        **last,
    }
    if kept.stamp is None:
        connection.execute(_NEW_CHAT, {"chat": chat, **row})
    else:
        connection.execute(_SET_ALL.values(row), {"of": chat})
    return Kept(
        stamp,
        told,
        _write_list(connection, SHELF, chat, kept.told.shelf, kept.shelf_places, told.shelf),
        _write_list(connection, SPECS, chat, kept.told.specs, kept.spec_places, told.specs),
    )


class Named(Protocol):
    """A bottle or a spec: frozen, told apart by name, its fields named as the columns are."""

    @property
    def name(self) -> str: ...


def _write_list(
    connection: Connection,
    table: Table,
    chat: str,
    before: Iterable[Named],
    places: Mapping[str, int],
    after: Iterable[Named],
) -> Mapping[str, int]:
    """Delete, change and insert what differs. What stays in order stays where it is; returns the places."""
    if before == after:
        return places
    old = {item.name: item for item in before}
    now: dict[str, int] = {}
    place = -1
    new_rows = []
    for item in after:
        was = places.get(item.name)
        place = was if was is not None and was > place else place + 1
        now[item.name] = place
        if old.get(item.name) != item or was != place:
            new_rows.append({"chat": chat, "place": place, **_row(table, item)})
    gone = [name for name in old if name not in now]
    replaced = [row["name"] for row in new_rows if row["name"] in old]
    if gone or replaced:
        connection.execute(
            delete(table).where(table.c.chat == bindparam("of"), table.c.name == bindparam("named")),
            [{"of": chat, "named": name} for name in gone + replaced],
        )
    if new_rows:
        connection.execute(insert(table), new_rows)
    return now


def _row(table: Table, item: Named) -> dict[str, Any]:
    if not 0 < len(item.name) <= LONGEST_NAME:
        raise ValueError(f"a name must have 1 to {LONGEST_NAME} characters, not {len(item.name)}")
    names = {column.name for column in table.columns} - {"chat", "place"}
    row = {name: getattr(item, name) for name in names}
    return {name: storable(value) if isinstance(value, str) else value for name, value in row.items()}


def storable(text: str) -> str:
    """The text with what no UTF-8 database can hold (NUL, halves of surrogate pairs) replaced."""
    if "\0" in text:
        text = text.replace("\0", "\ufffd")
    return text if text.isascii() else text.encode("utf-8", "replace").decode()


def claim(connection: Connection, platform: str, chat: str, message: str, now: datetime) -> bool:
    """Note that the message is being answered; False if that was noted before."""
    row = {"platform": platform, "chat": chat, "message": message, "at": (now - EPOCH) // MICROSECOND}
    return _CLAIM.execute(connection, row) == 1


def forget_handled(connection: Connection, chat: str, now: datetime) -> None:
    """Delete the chat's message ids, but for those noted at this very moment."""
    at = (now - EPOCH) // MICROSECOND
    connection.execute(delete(HANDLED).where(HANDLED.c.chat == chat, HANDLED.c.at != at))


def sweep(connection: Connection, now: datetime) -> None:
    """Delete last answers and message ids, of any chat, that are past their time."""
    connection.execute(
        update(CHATS)
        .where(CHATS.c.last_at < (now - LAST_KEPT - EPOCH) // MICROSECOND)
        .values(last_at=None, last_body=None)
    )
    connection.execute(delete(HANDLED).where(HANDLED.c.at < (now - HANDLED_KEPT - EPOCH) // MICROSECOND))
