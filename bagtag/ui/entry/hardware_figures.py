"""What a line of hardware says of stretch, adapter and washers, as it is typed."""

import re

from bagtag.domain.hardware import Adapter, Stretch
from bagtag.domain.hardware_check import WASHERS
from bagtag.ui.forms.figures import degrees, figure, length, with_unit, written

_SPAN = re.compile(r"\s*(?:\bto\b|–|(?<=[\d\s])-(?=[\d\s.,]))\s*")


def stretch(text: str) -> Stretch | None:
    """`0.13 to 0.15 mm`, `0.14`; without a unit in mm. A span that runs downwards is none."""
    before, unit = with_unit(text)
    ends = [figure(end) for end in _SPAN.split(before)]
    low, high = ends[0], ends[-1]
    if low is None or high is None or len(ends) > 2 or low > high or unit not in ("", "mm", "in"):
        return None
    return Stretch(low, high, unit or "mm")


def stretch_words(span: Stretch | None) -> str:
    if span is None:
        return ""
    ends = dict.fromkeys((written(span.low), written(span.high)))
    return f"{' to '.join(ends)} {span.unit}"


def adapter(text: str, angle: str) -> Adapter | None:
    """An adapter of this length, turned by this angle; none where one of them cannot be read."""
    long, turned = length(text), degrees(angle or "0", 180, zero=True)
    return Adapter(long, turned) if long is not None and turned is not None else None


def washers(text: str) -> int | None:
    """How many washers lie under each: 0 where nothing is typed."""
    typed = text.strip() or "0"
    return int(typed) if typed.isdecimal() and int(typed) <= WASHERS else None
