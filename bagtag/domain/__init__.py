"""What a mechanic knows: pure functions and frozen dataclasses, the standard library only."""
