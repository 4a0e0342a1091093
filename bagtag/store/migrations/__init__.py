"""Alembic's migrations of the store, run by `bagtag.store.migrate`."""
