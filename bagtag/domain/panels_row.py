"""Panels for a place in a row, with the marks that face along it."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from itertools import pairwise

from bagtag.domain import lettering
from bagtag.domain.datum import Datum, Side
from bagtag.domain.panel_parts import Caption, Style, Words, arrow, mark, shorter, written
from bagtag.domain.panels_facing import block
from bagtag.domain.sentence import tidy
from bagtag.domain.shapes import Anchor, Box, Cell, Circle, Ink, Item, Line
from bagtag.domain.which_way import Hand, Place

MOST = 7
"""A row of more places than this is drawn with gaps."""
_FROM_THE_FAR_END = {Side.RIGHT, Side.REAR, Side.BOTTOM}
LOW = 0.7
"""A cell lower than this has no line to spare for the names of the sides."""
_REACH = 0.7
"""The longest arrow along a row."""


@dataclass(frozen=True, slots=True)
class Along:
    """What is drawn on one left-right line: a place in a row, the marks that face left or right,
    and the hand of the part itself."""

    place: Place | None = None
    marks: Mapping[Side, str] = field(default_factory=dict)
    hand: Hand | None = None


@dataclass(frozen=True, slots=True)
class _Row:
    """The places from left to right (None is a gap), their centres and how wide each is drawn."""

    numbers: list[int | None]
    centres: list[float]
    wide: float
    own: int

    def stretches(self, cell: Cell, gap: float) -> list[tuple[float, float]]:
        """The line left free before, between and after the places: stretch i ends at place i."""
        air = self.wide / 2 + gap
        ends = [cell.x - air, *self.centres, cell.right + air]
        return [(start + air, stop - air) for start, stop in pairwise(ends)]


def row_marks(place: Place) -> list[int | None]:
    """The numbers of a row as they are drawn, from its counted end; None is a gap."""
    last = max(place.of or 0, place.index, 1)
    shown = range(1, last + 1) if last <= MOST else _near(place.index, last)
    numbers: list[int | None] = []
    for number in shown:
        if numbers and numbers[-1] != number - 1:
            numbers.append(None)
        numbers.append(number)
    return [*numbers, None] if place.of is None else numbers


def left_to_right(place: Place) -> list[int | None]:
    """The same as they stand in the drawing: counted from the right, 1 stands at the right."""
    numbers = row_marks(place)
    return numbers[::-1] if place.counted_from in _FROM_THE_FAR_END else numbers


def along(scene: Along, datum: Datum, cell: Cell, style: Style) -> list[Item]:
    """The wide drawing: the side names at the ends, the places between them, the part on its
    place, solid or with its letter, and arrows from it."""
    style = replace(style, mark=0.115, name=0.1) if cell.h < LOW else style
    names, room = _end_names(datum, cell, style)
    if scene.place is None:
        row = _spread([1], 1, room, thin=scene.hand is None)
        return names + _standing(row, scene, room, style)
    row = _spread(left_to_right(scene.place), scene.place.index, room)
    line = style.name * 1.2 + style.gap
    if room.h < 2 * line:
        return names + _standing(row, scene, room, style)
    below = _numbers(row, scene.place, room, style)
    room = room.trimmed(bottom=line)
    return names + _standing(row, scene, room, style) + below


def _near(index: int, last: int) -> list[int]:
    wanted = {1, 2, index - 1, index, index + 1, last - 1, last}
    return sorted(number for number in wanted if 1 <= number <= last)


def _spread(numbers: list[int | None], index: int, cell: Cell, *, thin: bool = False) -> _Row:
    step = min(cell.w / (len(numbers) + 0.5), cell.h * 1.25)
    left = cell.cx - step * (len(numbers) - 1) / 2
    centres = [left + step * i for i in range(len(numbers))]
    own = numbers.index(index) if index in numbers else -1
    return _Row(numbers, centres, min(step * 0.36, 0.14 if thin else 0.26), own)


def _end_names(datum: Datum, cell: Cell, style: Style) -> tuple[list[Item], Cell]:
    """Both names alike, in the upper corners; in a low cell at the ends of the line."""
    low = cell.h < LOW
    line = style.name * 1.2
    half = min(cell.w * 0.24, 0.75) if low else (cell.w - style.gap) / 2
    y = cell.cy - line / 2 if low else cell.y
    left = Cell(cell.x, y, half, line)
    right = Cell(cell.right - half, y, half, line)
    words = [shorter(datum.call(side)) for side in (Side.LEFT, Side.RIGHT)]
    said = _alike(words, half, style)
    items = written(left, said[0], style, Anchor.START) + written(right, said[1], style, Anchor.END)
    if low:
        side = half + style.gap
        return items, cell.trimmed(left=side, right=side)
    return items, cell.trimmed(top=line + style.gap)


def _alike(words: list[Words], room: float, style: Style) -> list[Caption]:
    """Both in full, or both without the word "side"; in one size."""
    full = all(lettering.fits(ways[0], room, style.least) for ways in words)
    chosen = [ways[0] if full else ways[-1] for ways in words]
    size = min(lettering.fit(said, room, style.name, style.least)[1] for said in chosen)
    return [Caption((said,), size) for said in chosen]


def _numbers(row: _Row, place: Place, cell: Cell, style: Style) -> list[Item]:
    line = style.name * 1.2
    step = row.centres[1] - row.centres[0] if len(row.centres) > 1 else cell.w
    items: list[Item] = []
    for number, x in zip(row.numbers, row.centres, strict=True):
        own = number is not None and number == place.index
        words = (tidy(f"{place.what} {number}"),) if own else ()
        caption = Caption((*words, str(number)), style.name, bold=own)
        room = Cell(x - step * 0.47, cell.bottom - line, step * 0.94, line)
        items += written(room, caption, style, Anchor.MIDDLE) if number is not None else []
    return items


def _standing(row: _Row, scene: Along, cell: Cell, style: Style) -> list[Item]:
    stretches = row.stretches(cell, style.gap)
    arrows = {side: _span(row, side, stretches) for side in scene.marks}
    labels, cell = _labels(row, scene.marks, arrows, cell, style)
    line = [
        _on_line(start, stop, cell, style)
        for i, (start, stop) in enumerate(stretches)
        if not _taken(row, i, scene.marks) and stop - start > style.thin
    ]
    shafts = [arrow(a, cell.cy, b, cell.cy, style=style) for a, b in arrows.values()]
    return [*line, *_places(row, scene.hand, cell, style), *shafts, *labels]


def _span(row: _Row, side: Side, stretches: list[tuple[float, float]]) -> tuple[float, float]:
    """Where the arrow to that side starts and where its tip is."""
    if side is Side.LEFT:
        start, stop = stretches[row.own]
        return stop, max(start, stop - _REACH)
    start, stop = stretches[row.own + 1]
    return start, min(stop, start + _REACH)


def _taken(row: _Row, stretch: int, marks: Mapping[Side, str]) -> bool:
    before = stretch == row.own and Side.LEFT in marks
    return before or (stretch == row.own + 1 and Side.RIGHT in marks)


def _on_line(start: float, stop: float, cell: Cell, style: Style) -> Item:
    half = style.thin / 2
    return Line(start + half, cell.cy, stop - half, cell.cy, style.thin, Ink.FAINT)


def _labels(
    row: _Row,
    marks: Mapping[Side, str],
    arrows: Mapping[Side, tuple[float, float]],
    cell: Cell,
    style: Style,
) -> tuple[list[Item], Cell]:
    """Each mark right over its arrow, or all in a line of their own over the row."""
    if not marks:
        return [], cell
    free = cell.h / 2 - style.head / 2
    high = min(free, style.mark * 1.05)
    over = high >= style.mark * 0.75 and all(
        lettering.fits(tidy(words), abs(arrows[side][1] - arrows[side][0]), style.mark * 0.7)
        for side, words in marks.items()
    )
    if not over:
        return _in_a_line(row, marks, cell, style)
    items: list[Item] = []
    for side, words in marks.items():
        a, b = arrows[side]
        room = Cell(min(a, b), cell.y + free - high, abs(b - a), high)
        items += written(room, mark(words, style), style, Anchor.MIDDLE)
    return items, cell


def _in_a_line(
    row: _Row, marks: Mapping[Side, str], cell: Cell, style: Style
) -> tuple[list[Item], Cell]:
    line, half = style.mark * 1.1, style.gap / 2
    if cell.h < 2 * line + style.gap:
        return [], cell
    x = cell.x + cell.w * _share(row, marks, cell)
    rooms = {
        Side.LEFT: (Cell(cell.x, cell.y, x - half - cell.x, line), Anchor.END),
        Side.RIGHT: (Cell(x + half, cell.y, cell.right - x - half, line), Anchor.START),
    }
    items: list[Item] = []
    for side, words in marks.items():
        room, anchor = rooms[side]
        items += written(room, mark(words, style), style, anchor)
    return items, cell.trimmed(top=line + style.gap)


def _share(row: _Row, marks: Mapping[Side, str], cell: Cell) -> float:
    """How much of the line the left mark may have: up to the part, or by the marks' lengths."""
    said = [shorter(marks.get(side, ""))[-1] for side in (Side.LEFT, Side.RIGHT)]
    lengths = [lettering.width(words) for words in said]
    if all(lengths):
        return lengths[0] / sum(lengths)
    return min(max((row.centres[row.own] - cell.x) / cell.w, 0.3), 0.7)


def _places(row: _Row, hand: Hand | None, cell: Cell, style: Style) -> list[Item]:
    items: list[Item] = []
    for i, (number, x) in enumerate(zip(row.numbers, row.centres, strict=True)):
        slot = Cell(x - row.wide / 2, cell.y, row.wide, cell.h)
        if number is None:
            items += gap_dots(slot, style)
        elif i == row.own:
            items += block(hand, slot, style) if hand else [_solid(slot, style)]
        else:
            items.append(_open(slot, style))
    return items


def _solid(cell: Cell, style: Style) -> Item:
    return Box(cell.x, cell.y, cell.w, cell.h, radius=style.stroke * 0.6, filled=True)


def _open(cell: Cell, style: Style) -> Item:
    room = cell.inset(style.thin / 2)
    return Box(room.x, room.y, room.w, room.h, style.thin, style.stroke * 0.6, ink=Ink.FAINT)


def gap_dots(cell: Cell, style: Style) -> list[Item]:
    """Three dots for the places that are not drawn."""
    step, radius = cell.w * 0.36, min(style.thin, cell.w * 0.12)
    places = (cell.cx - step, cell.cx, cell.cx + step)
    return [Circle(x, cell.cy, radius, filled=True, ink=Ink.FAINT) for x in places]
