"""How the migration library reaches the records: the program hands it a connection that is in a transaction."""

from alembic import context

from bot.store.tables import Base

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=Base.metadata,
    render_as_batch=True,
    transactional_ddl=True,
    transaction_per_migration=False,
)
context.run_migrations()
