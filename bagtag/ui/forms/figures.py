"""Figures as a person types them: a comma is a decimal point, an inch may be a fraction."""

import re
from math import isfinite

_FRACTION = re.compile(r"(?:(\d+)[\s-]+)?(\d+)/(\d+)")


def figure(text: str) -> float | None:
    """`0.5`, `0,5`, `1/2` or `1 1/4` as a number above zero; None where it is none."""
    typed = text.strip().replace(",", ".")
    match = _FRACTION.fullmatch(typed)
    if match is not None:
        whole, above, below = (int(group or 0) for group in match.groups())
        return whole + above / below if below and whole + above else None
    try:
        value = float(typed)
    except ValueError:
        return None
    return value if isfinite(value) and value > 0 else None


def count(text: str) -> int | None:
    """A whole number from 1 to 9999; None where it is none."""
    typed = text.strip()
    return int(typed) if typed.isdecimal() and 1 <= len(typed) <= 4 and int(typed) else None
