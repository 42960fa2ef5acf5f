"""Run by Alembic with the connection that bot.memory.migrate hands over, inside its transaction."""

from alembic import context

from bot.memory.tables import METADATA

context.configure(
    connection=context.config.attributes["connection"], target_metadata=METADATA, transactional_ddl=True
)
with context.begin_transaction():
    context.run_migrations()
