"""The strip: the removals as pieces of tape in the order they came off."""
