"""The drawing of a measuring sheet: where each reading is taken, by the numbers of its places.

A place that is read already is a filled disc, one still to read an empty one, the one that is
being read in the accent.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from bagtag.domain import lettering
from bagtag.domain.measuring import picture_engine as engine
from bagtag.domain.measuring import picture_faces as faces
from bagtag.domain.measuring import picture_play as play
from bagtag.domain.measuring import picture_round as round_parts
from bagtag.domain.measuring.form import Place, SheetForm, by_column
from bagtag.domain.measuring.forms import form
from bagtag.domain.measuring.picture_parts import (
    BODY,
    LEAST,
    TAG,
    WIDE,
    WORD,
    Drawn,
    Point,
    narrowed,
    word,
)
from bagtag.domain.measuring.sheet import MeasureSheet, SheetKind
from bagtag.domain.shapes import Anchor, Cell, Circle, Ink, Item, Picture, Text

_HOW: dict[SheetKind, Callable[[SheetForm], Drawn]] = {
    SheetKind.SIZE: faces.size,
    SheetKind.BORE: round_parts.bore,
    SheetKind.JOURNAL: round_parts.journal,
    SheetKind.BEARING: round_parts.bearing,
    SheetKind.PLASTIC_GAUGE: engine.plastic_gauge,
    SheetKind.PISTON: round_parts.piston,
    SheetKind.RING_GAP: round_parts.ring_gap,
    SheetKind.END_FLOAT: play.end_float,
    SheetKind.BACKLASH: play.backlash,
    SheetKind.RUN_OUT: play.run_out,
    SheetKind.FLATNESS: faces.flatness,
    SheetKind.SPRING: faces.spring,
    SheetKind.VALVES: engine.valves,
    SheetKind.STACK: play.stack,
    SheetKind.DECK: faces.deck,
    SheetKind.COMPRESSION: engine.compression,
}
_LIST, _LISTS = 0.44, 0.74
"""How wide one list of places is at least, and two beside each other."""
_LINE = 0.125
_BESIDE = 0.047
"""What a name leaves free beside its number, before and after."""
_MOST = 9
"""Lines of a list before it goes into a second column."""


@dataclass(frozen=True, slots=True)
class _Tags:
    """How the number of a place is drawn, by how far the reading is."""

    read: frozenset[str]
    at: str

    def __call__(self, place: Place, spot: Point, radius: float = TAG) -> list[Item]:
        x, y = spot
        is_at, is_read = place.key == self.at, place.key in self.read
        ink = Ink.ACCENT if is_at else Ink.INK
        filled = is_at or is_read
        disc = Circle(x, y, radius, filled=True, ink=ink if filled else Ink.PAPER)
        edge = Circle(x, y, radius, min(BODY, radius / 5), ink=ink)
        said = str(place.number)
        size = radius * (1.25 if len(said) == 1 else 1.1)
        colour = Ink.PAPER if filled else Ink.INK
        return [disc, edge, Text(x, y + 0.355 * size, said, size, bold=True, ink=colour)]


def draw(sheet: MeasureSheet, *, at: str = "") -> Picture:
    """The drawing of the sheet, 1.5 times as wide as it is high; `at` is the key of the place that
    is being read now, if one is."""
    asked = form(sheet)
    drawn = _HOW[sheet.kind](asked)
    tags = _Tags(frozenset(one.key for one in sheet.readings), at)
    listed = [place for place in asked.places if place.key not in drawn.spots]
    items = list(drawn.items)
    for place in asked.places:
        if place.key in drawn.spots:
            items += tags(place, drawn.spots[place.key])
    if not listed:
        return Picture(tuple(items), WIDE)
    left = min(drawn.width, WIDE - (_LIST if len(_lists(listed)) == 1 else _LISTS))
    share = left / drawn.width
    told = _told(listed, Cell(left + 0.04, 0.04, WIDE - left - 0.07, 0.92), tags)
    return Picture((*narrowed(items, share, (1 - share) / 2), *told), WIDE)


def _told(places: Sequence[Place], room: Cell, tags: _Tags) -> Iterator[Item]:
    """The places in lines beside the drawing, a column for each of theirs."""
    lists = _lists(places)
    wide = room.w / len(lists)
    line = min(_LINE, room.h / (1 + max(len(one) for _, one in lists)))
    top = room.cy - line * (1 + max(len(one) for _, one in lists)) / 2
    size = _size(places, line, wide)
    for n, (head, one) in enumerate(lists):
        x = room.x + n * wide
        yield from word(x, top + line * 0.6, head, wide - 0.02, Anchor.START)
        for row, place in enumerate(one, start=1):
            yield from _entry(place, Cell(x, top + row * line, wide, line), tags, size)


def _size(places: Sequence[Place], line: float, wide: float) -> float:
    """One size of lettering at which the name of every place fits, if there is one."""
    wished = max(min(WORD, line * 0.6), LEAST)
    room = wide - 2 * _radius(line) - _BESIDE
    return min(lettering.fit(place.row, room, wished, LEAST)[1] for place in places)


def _radius(line: float) -> float:
    return min(TAG, line * 0.42)


def _entry(place: Place, cell: Cell, tags: _Tags, size: float) -> Iterator[Item]:
    radius = _radius(cell.h)
    yield from tags(place, (cell.x + radius + 0.006, cell.cy), radius)
    x = cell.x + 2 * radius + 0.025
    room = cell.w - 2 * radius - _BESIDE
    yield from word(x, cell.cy + 0.33 * size, place.row, room, Anchor.START, size)


def _lists(places: Sequence[Place]) -> list[tuple[str, list[Place]]]:
    found = list(by_column(places).items())
    if len(found) > 1 or len(places) <= _MOST:
        return found
    half = (len(places) + 1) // 2
    head = found[0][0]
    return [(head, list(places[:half])), ("", list(places[half:]))]
