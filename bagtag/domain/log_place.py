"""Places in the strip log: room between any two, and the number that stands on the label."""

from collections.abc import Collection

STEP = 1 << 20


def after(last: int | None) -> int:
    """The position of a new last line."""
    return STEP if last is None else last + STEP


def between(before: int | None, following: int) -> int | None:
    """A position between two lines, or None when there is no room and the log must be spread."""
    low = before if before is not None else following - 2 * STEP
    middle = (low + following) // 2
    return middle if low < middle < following else None


def inserted_number(previous: str, taken: Collection[str]) -> str:
    """The number of a line put in after `previous`: 27a, then 27b. Printed numbers never change."""
    stem = previous.rstrip("abcdefghijklmnopqrstuvwxyz") or "0"
    for length in range(1, 4):
        for suffix in _suffixes(length):
            if stem + suffix not in taken:
                return stem + suffix
    raise ValueError(f"more than 18,000 lines put in after {stem}")


def _suffixes(length: int) -> list[str]:
    letters = "abcdefghijklmnopqrstuvwxyz"
    found = [""]
    for _ in range(length):
        found = [start + letter for start in found for letter in letters]
    return found
