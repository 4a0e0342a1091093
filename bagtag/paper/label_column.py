"""A label's text column: pieces are taken as long as they fit, and what never fitted is named.

The column is asked for one piece after the other, by importance. A piece that fits is taken, and a
better version of it may replace it later.
"""

from collections.abc import Iterable, Iterator

from bagtag.paper.blocks import Block
from bagtag.paper.label_text import LabelText

BENCH_CAP = 3.0
"""Capitals that are read at the bench: 600 mm away, at 1/200 of the distance."""

SMALL_CAP = 1.8
"""The smallest capitals on a label."""

TIGHT_CAP = 2.2
"""Bench text that fits no other way, and is then reported as small."""

ORDER = (
    *("banner", "code", "twin", "name", "picture", "sentence"),
    *("fate", "area", "job", "hardware", "lines"),
)
_MISSING = {
    "name": "The name did not fit.",
    "twin": "The twin's code did not fit.",
    "picture": "The which-way picture did not fit.",
    "sentence": "The which-way sentence did not fit.",
    "fate": "What becomes of the part did not fit.",
    "area": "The area did not fit.",
    "job": "The job did not fit.",
    "hardware": "The hardware did not fit.",
    "lines": "The further lines did not fit.",
}


class Column:
    """One column of a label: its width and height in mm, and `unit`, the size of bench text."""

    def __init__(
        self, label: LabelText, width: float, height: float, unit: float, *, centred: bool = False
    ) -> None:
        self.label, self.width, self.height, self.unit = label, width, height, unit
        self.centred = centred
        self.badge = ""
        self.small = max(SMALL_CAP, unit * SMALL_CAP / BENCH_CAP)
        self.gap = 0.27 * unit
        self.blocks: dict[str, Block] = {}
        self.used = 0.0
        self.wanted: list[str] = []

    def take(self, key: str, versions: Iterable[Block]) -> bool:
        """Put in the first version that fits, in place of an earlier one."""
        if key not in self.wanted:
            self.wanted.append(key)
        old = self.blocks.get(key)
        base = self.used - (old.height if old else 0) + (0 if old or not self.blocks else self.gap)
        for block in versions:
            if base + block.height <= self.height + 1e-6:
                self.blocks[key] = block
                self.used = base + block.height
                return True
        return False

    def complaints(self) -> list[str]:
        """A sentence for each piece that was cut or is missing."""
        missing = [_MISSING[key] for key in self.wanted if key not in self.blocks]
        cut = [block.complaint for block in self.blocks.values() if block.complaint]
        return missing + cut

    def placed(self) -> Iterator[tuple[float, Block]]:
        """The blocks from top to bottom with their tops; spare height opens the gaps a little."""
        keys = [key for key in ORDER if key in self.blocks]
        spare = self.height - self.used
        stretch = min(spare / (len(keys) + 1), self.unit * 0.6)
        top = (spare - stretch * (len(keys) - 1)) / 2 if self.centred else 0.0
        for key in keys:
            yield top, self.blocks[key]
            top += self.blocks[key].height + self.gap + stretch


def whole_only(versions: Iterable[Block]) -> Iterator[Block]:
    """The versions that leave nothing out."""
    return (block for block in versions if not block.complaint)
