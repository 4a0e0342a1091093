"""The legend of a hole map: which line of hardware each shape stands for."""

from collections.abc import Sequence
from dataclasses import dataclass

from bagtag.domain import lettering
from bagtag.domain.hardware import HeldBy
from bagtag.domain.hole_counts import holes_named, numbers_of
from bagtag.domain.hole_glyphs import glyph
from bagtag.domain.holes import HoleMap
from bagtag.domain.shapes import Anchor, Cell, Item, Text

LEADING = 1.45
"""From one line of lettering to the next, in font sizes."""

_LETTER, _GLYPH, _GAP = 0.95, 1.1, 0.4
"""Room for a mark's letter, its shape, and the space after it, in font sizes."""


@dataclass(frozen=True, slots=True)
class Row:
    """A row of the legend; `mark` is None where the row is words alone."""

    mark: str | None
    text: str


def rows(hole_map: HoleMap, lines: Sequence[HeldBy]) -> list[Row]:
    """A row for each line that has a hole or could have one, for holes without a line, and for
    where the part is seen from. `lines` have their marks."""
    drawn = {hole.mark for hole in hole_map.holes}
    found = [Row(line.mark, _line(hole_map, line)) for line in lines] if drawn - {""} else []
    if found and "" in drawn:
        found.append(Row("", f"no fastener · {_holes(hole_map, '')}"))
    lost = sorted(drawn - {line.mark for line in lines} - {""})
    found += [Row(mark, f"not among the hardware · {_holes(hole_map, mark)}") for mark in lost]
    if hole_map.seen_from:
        found.append(Row(None, f"Seen from: {hole_map.seen_from}"))
    return found


def _line(hole_map: HoleMap, line: HeldBy) -> str:
    return " · ".join(part for part in (line.called(), _holes(hole_map, line.mark)) if part)


def _holes(hole_map: HoleMap, mark: str) -> str:
    return holes_named(numbers_of(hole_map, mark)) or "no hole"


def height(found: Sequence[Row], room: float, size: float) -> float:
    """How high the legend is in a room that wide."""
    return sum(len(_broken(row, room, size)) for row in found) * LEADING * size


def width(found: Sequence[Row], size: float) -> float:
    """How wide it would like to be."""
    return max((_indent(row, size) + lettering.width(row.text) * size for row in found), default=0)


def drawn(found: Sequence[Row], cell: Cell, size: float) -> list[Item]:
    """The rows from the top of the cell, each with its letter and shape."""
    items: list[Item] = []
    y = cell.y
    for row in found:
        base = y + (LEADING + lettering.CAP) / 2 * size
        if row.mark is not None:
            items += _sign(row.mark, cell.x, base, size)
        for i, words in enumerate(_broken(row, cell.w, size)):
            left, down = cell.x + _indent(row, size), base + i * LEADING * size
            items.append(Text(left, down, words, size, Anchor.START))
            y += LEADING * size
    return items


def _sign(mark: str, x: float, base: float, size: float) -> list[Item]:
    middle = (x + (_letter(mark) + _GLYPH / 2) * size, base - size * lettering.CAP / 2)
    shape = glyph(mark, middle, size * 0.38, size * 0.07)
    letter: list[Item] = [Text(x, base, mark, size, Anchor.START, bold=True)]
    return [*(letter if mark else []), *shape]


def _letter(mark: str) -> float:
    """Room for the letter of a mark, in font sizes."""
    return max(_LETTER, lettering.width(mark) + 0.25)


def _indent(row: Row, size: float) -> float:
    return 0.0 if row.mark is None else (_letter(row.mark) + _GLYPH + _GAP) * size


def _broken(row: Row, room: float, size: float) -> list[str]:
    """The text in lines that fit, broken at spaces, and in a word that is wider than the room."""
    most = (room - _indent(row, size)) / size
    lines = [""]
    for piece in (piece for word in row.text.split() for piece in _pieces(word, most)):
        longer = f"{lines[-1]} {piece}".strip()
        if lines[-1] and lettering.width(longer) > most:
            lines.append(piece)
        else:
            lines[-1] = longer
    return lines


def _pieces(word: str, most: float) -> list[str]:
    """A word in pieces that are no wider than `most`, of one letter at least."""
    pieces = [""]
    for letter in word:
        if pieces[-1] and lettering.width(pieces[-1] + letter) > most:
            pieces.append("")
        pieces[-1] += letter
    return pieces
