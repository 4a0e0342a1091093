"""The hole map of a part: where its holes are, what goes into each, and in which order."""
