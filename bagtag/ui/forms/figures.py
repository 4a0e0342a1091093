"""Figures as a person types them: a comma is a decimal point, an inch may be a fraction."""

from bagtag.domain.figures import figure, length, with_unit
from bagtag.domain.torque import Length

__all__ = ["count", "degrees", "figure", "length", "length_words", "with_unit", "written"]


def count(text: str) -> int | None:
    """A whole number from 1 to 9999; None where it is none."""
    typed = text.strip()
    return int(typed) if typed.isdecimal() and 1 <= len(typed) <= 4 and int(typed) else None


def written(value: float | None) -> str:
    """A figure as it is typed, none of its digits lost; nothing for none."""
    if value is None:
        return ""
    short = f"{value:.10g}"
    return short if float(short) == value else repr(value)


def degrees(text: str, most: float, *, zero: bool = False) -> float | None:
    """`90` or `90°` as an angle up to `most`; 0 only where there may be none."""
    typed = text.strip().removesuffix("°").strip()
    is_none = bool(typed) and not typed.strip("0.,")
    value = 0.0 if zero and is_none else figure(typed)
    return value if value is not None and value <= most else None


def length_words(long: Length | None) -> str:
    return f"{written(long.value)} {long.unit}" if long is not None else ""
