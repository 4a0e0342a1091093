"""Sizes of fasteners: which are the same, which are near, and the order they are listed in.

Threads are written as ISO 965-1 (M10x1.25) and ASME B1.1 (3/8-16, 10-24) write them.
"""

import re
from dataclasses import dataclass

from bagtag.domain.hardware import HeldBy

INCH = 25.4
_METRIC = re.compile(r"m(\d+(?:\.\d+)?)(?:x(\d+(?:\.\d+)?))?")
_FRACTION = re.compile(r"[gr]?[pc]?(?:(\d+)[- ])?(\d+)/([1-9]\d*)")
_BY = re.compile(r"\s*[x×*]\s*")
_NUMBERED = re.compile(r"#?(\d{1,2})-(\d+)")
_FINE = 24
"""Numbered sizes have at least so many threads to the inch, sizes of an inch and more fewer
(ASME B1.1, from memory): 1-64 is number 1, 1-8 one inch."""


@dataclass(frozen=True, slots=True)
class Size:
    """Thread, length in mm and kind of a fastener, told apart by what it is and not how it is
    written."""

    thread: str
    length: float | None
    kind: str

    def is_near(self, other: "Size") -> bool:
        """Whether one goes into the other's hole by mistake: the same thread, another length."""
        measured = self.length is not None and other.length is not None
        same_thread = bool(self.thread) and self.thread == other.thread
        return same_thread and measured and self.length != other.length

    def distance(self, other: "Size") -> tuple[bool, float]:
        """How far two of one thread are from each other: another kind, then the length in mm."""
        return self.kind != other.kind, abs((self.length or 0.0) - (other.length or 0.0))

    def rank(self) -> tuple[int, float, float, float, str, str]:
        """Metric threads by diameter, pitch and length, then inches, then the rest by name."""
        group, diameter, pitch = _thread_rank(self.thread)
        if not self.thread and self.length is None:
            group = 4
        return group, diameter, pitch, self.length or 0.0, self.thread, self.kind


def size_of(line: HeldBy) -> Size:
    length = line.length
    if length is not None:
        length = round(length if line.length_unit == "mm" else length * INCH, 3)
    thread = _BY.sub("x", " ".join(line.thread.casefold().split())).replace(",", ".")
    kind = " ".join(line.kind.casefold().split()) or "fastener"
    return Size(thread, length, kind.removesuffix("s"))


def _thread_rank(thread: str) -> tuple[int, float, float]:
    """Group, diameter in mm, pitch in mm where it is written."""
    if match := _METRIC.match(thread):
        return 0, float(match[1]), float(match[2] or 0)
    if match := _FRACTION.match(thread):
        whole, above, below = (int(figure or 0) for figure in match.groups())
        return 1, (whole + above / below) * INCH, 0.0
    if match := _NUMBERED.match(thread):
        number, threads = int(match[1]), int(match[2])
        # Diameter of a numbered size: 0.060 + 0.013 n inches (ASME B1.1, from memory).
        inches = 0.060 + 0.013 * number if threads >= _FINE else float(number)
        return 1, inches * INCH, 0.0
    return (2 if thread else 3), 0.0, 0.0


def pieces_of(count: int, line: HeldBy) -> str:
    """ "1 M8x45 bolt", "2 M8x45 bolts"."""
    kind = line.kind or "fastener"
    plural = kind if count == 1 or kind.endswith("s") else f"{kind}s"
    return " ".join(filter(None, (str(count), line.size(), plural)))


def natural(text: str) -> list[tuple[int, int, str]]:
    """A key that puts "bag 2" before "bag 12"."""
    return [
        (0, int(word), "") if word.isdecimal() else (1, 0, word)
        for word in re.split(r"(\d+)", text.casefold())
        if word
    ]
