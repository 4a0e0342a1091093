"""The strip audit in the window: what is still missing, and one key to where it is mended."""
