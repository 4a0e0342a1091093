"""The use cases: one function, one transaction, one change record."""
