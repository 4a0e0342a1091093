"""One file a store version."""
