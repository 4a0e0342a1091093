"""Alembic's entry: runs on the connection that `bagtag.store.migrate` hands over."""

from alembic import context

from bagtag.store.tables import SEARCH, metadata


def include_name(name: str | None, type_: str, _parents: object) -> bool:
    """The full-text index keeps its own tables; Alembic leaves them alone."""
    return not (type_ == "table" and name is not None and name.startswith(SEARCH))


context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=metadata,
    include_name=include_name,
    render_as_batch=True,
)
with context.begin_transaction():
    context.run_migrations()
