"""Bringing a database to the tables of today, at every start, in one transaction.

A database that is up to date costs one look; Alembic is loaded only when there is something to do.
"""

from sqlalchemy import Connection, inspect, text

from bot.memory.problem import MemoryProblem

HEAD = "0003"  # the last step under migrations/versions


def bring_up_to_date(connection: Connection, to: str = HEAD) -> None:
    """Run the steps that are missing, inside the caller's transaction, which must keep other starters out.

    MemoryProblem if the database was written by a newer version than this one.
    """
    if _version(connection) == to:
        return
    from alembic import command
    from alembic.config import Config
    from alembic.util import CommandError

    config = Config()
    config.set_main_option("script_location", "bot.memory:migrations")
    config.attributes["connection"] = connection
    try:
        command.upgrade(config, to)
    except CommandError as error:  # Alembic cannot find the step the database says it is at
        raise MemoryProblem(
            "the memory was written by a newer version of this program; use that version or another database"
        ) from error


def _version(connection: Connection) -> str | None:
    if not inspect(connection).has_table("alembic_version"):
        return None
    return connection.execute(text("SELECT version_num FROM alembic_version")).scalar()
