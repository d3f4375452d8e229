"""How Alembic meets the schema. The connection is handed in; its transaction is the caller's."""

from alembic import context

from cupwright.store.schema import metadata

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=metadata,
    render_as_batch=True,
)
context.run_migrations()
