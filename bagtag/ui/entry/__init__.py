"""The card of an entry: name, which way, hardware, fate, and all that is logged of a part."""
