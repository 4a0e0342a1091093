"""Which store versions this program knows, oldest first, without importing Alembic.

A test holds this list against the migration scripts.
"""

KNOWN = ("0001", "0002", "0003", "0004", "0005")
HEAD = KNOWN[-1]
