"""The pieces of a strip audit on paper: each a block of known height that is never divided."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from bagtag.domain.audit_finding import Lack
from bagtag.domain.phrases import whole
from bagtag.paper.block_pages import PAD, SIZE, Block, Words
from bagtag.paper.checklist_page import WIDTH
from bagtag.paper.fonts import BOLD, MEDIUM, REGULAR, tidy, width
from bagtag.paper.ink import INK, RGB, SOFT
from bagtag.paper.pdf import MM
from bagtag.paper.typeset import cut

if TYPE_CHECKING:
    pass

_LEAD = 13.0
_NUMBER, _NAME, _SAID = 7 * MM, 19 * MM, 72 * MM
_AIR = 4 * MM
_COLUMNS = 3
_MOST = 24
"""Lines that one sentence may take."""


@dataclass(frozen=True, slots=True)
class AuditLine:
    """One finding as it is printed; `number` is empty for an area or a container."""

    lack: Lack
    sentence: str
    number: str = ""
    name: str = ""
    container: str = ""


def heading(lack: Lack, count: int, said: str = "", *, again: bool = False) -> Block:
    """What a group lacks, how many there are, and the sentence that all of them share."""
    title = f"{lack.heading} (continued)" if again else lack.heading
    top = 0.0 if again else 6 * MM
    words = [Words(0, top + 12, title, BOLD, 12)]
    if not again:
        words.append(_at_right(top + 12, f"{count}"))
    y = top + 12 + 2.4 * MM
    if said:
        shared = _set(said, 0, y + 8, WIDTH, colour=SOFT)
        words, y = [*words, *shared], y + len(shared) * _LEAD
    return Block(y, tuple(words), heading=True)


def _at_right(y: float, text: str) -> Words:
    return Words(WIDTH - width(text, MEDIUM, SIZE), y, text, MEDIUM, SIZE, SOFT)


def row(line: AuditLine) -> Block:
    """A box, the number, the name with its container below, and what to do."""
    first = PAD + SIZE * 0.86
    name = _set(line.name, _NAME if line.number else _NUMBER, first, _SAID - _AIR, font=MEDIUM)
    below = first + len(name) * _LEAD
    held = line.container if line.number else ""
    where = _set(held and f"in {held}", _NAME, below, _SAID - _AIR, colour=SOFT)
    said = _set(line.sentence, _SAID, first, WIDTH)
    number = _set(line.number, _NUMBER, first, _NAME, font=BOLD)
    deep = max(len(name) + len(where), len(said), len(number), 1)
    height = 2 * PAD + SIZE + (deep - 1) * _LEAD
    return Block(height, (*number, *name, *where, *said), (0.0,), rule=True)


def cells(lines: Sequence[AuditLine]) -> list[Block]:
    """Boxes with number and name only, three beside each other, read across."""
    rows = [lines[start : start + _COLUMNS] for start in range(0, len(lines), _COLUMNS)]
    return [_cells(some) for some in rows]


def _cells(lines: Sequence[AuditLine]) -> Block:
    first, wide = PAD + SIZE * 0.86, WIDTH / _COLUMNS
    words: list[Words] = []
    deep = 1
    for place, line in enumerate(lines):
        left = place * wide
        number = _set(line.number, _NUMBER, first, _NAME, font=BOLD)
        name = _set(line.name, _NAME, first, wide - _AIR, font=MEDIUM)
        words += [replace(word, x=word.x + left) for word in (*number, *name)]
        deep = max(deep, len(number), len(name))
    height = 2 * PAD + SIZE + (deep - 1) * _LEAD
    boxes = tuple(place * wide for place in range(len(lines)))
    return Block(height, tuple(words), boxes, rule=True)


def _set(
    text: str, x: float, y: float, right: float, *, font: str = REGULAR, colour: RGB = INK
) -> list[Words]:
    """Text from `x` to `right`, its first baseline at `y`; nothing for no text."""
    lines = cut(whole(tidy(text)), font, SIZE, right - x, _MOST)[0] if text else []
    return [Words(x, y + n * _LEAD, t, font, SIZE, colour) for n, t in enumerate(lines)]
