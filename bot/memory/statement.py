"""Statements of SQLAlchemy's, compiled once; on SQLite they go straight to the driver.

SQLite does a row's work in a tenth of the time that SQLAlchemy's own execute takes round it, and every message needs
nine statements. PostgreSQL's go the usual way. Values are text, numbers and None, as the columns hold them: a truth
value comes back from SQLite as 0 or 1.
"""

import sqlite3
from collections import namedtuple
from collections.abc import Callable, Iterable, Mapping
from typing import Any

from sqlalchemy import Connection, Executable, Insert, Select
from sqlalchemy.dialects import sqlite

Values = Mapping[str, object]
_DIALECT = sqlite.dialect(paramstyle="named")


class Statement:
    """One statement. postgresql: in its place there. An insert is given the same columns every time."""

    def __init__(self, statement: Any, postgresql: Executable | None = None) -> None:
        self._statement = statement
        self._postgresql: Any = statement if postgresql is None else postgresql
        self._text = ""
        self._fixed: dict[str, object] = {}
        self._row: Callable[[Iterable[Any]], Any] = tuple

    def execute(self, connection: Connection, values: Values) -> int:
        """Do it; returns how many rows it changed."""
        return int(self._cursor(connection, values).rowcount)

    def insert(self, connection: Connection, values: Values) -> int:
        """Insert a row; returns the number the database gave it."""
        cursor = self._cursor(connection, values)
        if isinstance(cursor, sqlite3.Cursor):
            assert cursor.lastrowid is not None  # of one row there always is one
            return cursor.lastrowid
        return int(cursor.inserted_primary_key[0])

    def rows(self, connection: Connection, values: Values) -> list[Any]:
        """The rows it finds, their fields named as the columns are."""
        return list(self._named(self._cursor(connection, values)))

    def first(self, connection: Connection, values: Values) -> Any | None:
        """The first row it finds, or None."""
        return next(iter(self.rows(connection, values)), None)

    def _cursor(self, connection: Connection, values: Values) -> Any:
        if connection.dialect.name != "sqlite":
            return connection.execute(self._postgresql, dict(values))
        if not self._text:
            self._compile(values)
        driver: Any = connection.connection.dbapi_connection
        return driver.execute(self._text, {**self._fixed, **values} if self._fixed else values)

    def _compile(self, values: Values) -> None:
        columns = list(values) if isinstance(self._statement, Insert) else None
        compiled = self._statement.compile(dialect=_DIALECT, column_keys=columns)
        self._fixed = {name: value for name, value in compiled.params.items() if value is not None}
        if isinstance(self._statement, Select):
            self._row = _row_of(list(self._statement.selected_columns.keys()))
        self._text = str(compiled)

    def _named(self, cursor: Any) -> Iterable[Any]:
        return map(self._row, cursor) if isinstance(cursor, sqlite3.Cursor) else cursor


def _row_of(columns: list[str]) -> Callable[[Iterable[Any]], Any]:
    made: Any = namedtuple  # mypy wants to know the fields beforehand
    row: Any = made("Row", columns)
    return lambda values: row._make(values)
