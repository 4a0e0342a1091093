"""Figures as a person types them: a comma is a decimal point, an inch may be a fraction."""

import re
from math import isfinite

from bagtag.domain.torque import Length

_UNIT = re.compile(r"""(.*?)\s*(mm|cm|ft|in(?:ch(?:es)?)?\.?|["″])?""", re.IGNORECASE | re.DOTALL)
_LARGE = {"cm": (10, "mm"), "ft": (12, "in")}
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


def with_unit(text: str) -> tuple[str, str]:
    """What is typed before a unit of length, and the unit: mm, cm, in, ft, or nothing."""
    match = _UNIT.fullmatch(text.strip())
    assert match is not None
    said = (match[2] or "").casefold()
    return match[1], said if said in ("", "mm", *_LARGE) else "in"


def length(text: str, unit: str = "mm") -> Length | None:
    """`50`, `50 mm`, `5 cm`, `1 ft`, `1 1/4 in` or `2"`; what names no unit is in `unit`."""
    before, said = with_unit(text)
    value = figure(before)
    if value is None:
        return None
    times, small = _LARGE.get(said, (1, said or unit))
    return Length(round(value * times, 9), small) if times != 1 else Length(value, small)
