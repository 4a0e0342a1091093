"""Where round parts are measured: bores, journals, bearings, pistons and rings."""

from bagtag.domain.measuring.form import SheetForm, by_column, by_row
from bagtag.domain.measuring.picture_parts import (
    BODY,
    FAINT,
    THIN,
    WIDE,
    Drawn,
    Point,
    along,
    arc,
    cut,
    measured,
    middle_line,
    path,
    solid,
    spread,
    squeezed,
    word,
)
from bagtag.domain.shapes import Anchor, Box, Cell, Circle, Ink, Item, Line

_TOP, _FOOT = 0.05, 0.7
_ICON, _NAME = 0.815, 0.97


def bore(form: SheetForm) -> Drawn:
    """The bore cut through once for each direction, an arrow at each height."""
    names, ways = by_row(form.places), by_column(form.places)
    heights = dict(zip(names, spread(len(names), _TOP, _FOOT), strict=True))
    items: list[Item] = []
    spots: dict[str, Point] = {}
    cells = along(len(ways), Cell(0.24, 0, WIDE - 0.27, 1), 0.12)
    for way, ((column, places), cell) in enumerate(zip(ways.items(), cells, strict=True)):
        items += [*_walls(cell), *_direction(cell, way, column)]
        for place in places:
            y = heights[place.row]
            items += measured(cell.x + 0.1, y, cell.right - 0.1, y)
            spots[place.key] = (cell.cx, y)
    for name, y in heights.items():
        items += word(0.21, y + 0.018, name, 0.19, Anchor.END)
    return Drawn(items, spots)


def _walls(cell: Cell) -> list[Item]:
    high = _FOOT - _TOP
    left = cut(cell.x, _TOP, 0.1, high)
    right = cut(cell.right - 0.1, _TOP, 0.1, high)
    return [*left, *right, *middle_line(cell.cx, _TOP, cell.cx, _FOOT)]


def _direction(cell: Cell, way: int, name: str) -> list[Item]:
    """The part seen along its axis, with the direction that is measured."""
    x, y, r = cell.cx, _ICON, 0.075
    line = measured(x, y - r, x, y + r) if _is_upright(name, way) else measured(x - r, y, x + r, y)
    return [Circle(x, y, r, BODY), *line, *word(x, _NAME, name, cell.w)]


def _is_upright(name: str, way: int) -> bool:
    """Whether that direction runs up the page, seen along the axis; of two without a word that
    says so, the second does."""
    if "up" in name.split() or "along" in name.split():
        return True
    return way > 0 and "across" not in name


def journal(form: SheetForm) -> Drawn:
    """The journal from the side once for each direction, an arrow at each section."""
    items: list[Item] = []
    spots: dict[str, Point] = {}
    ways = by_column(form.places)
    cells = along(len(ways), Cell(0.04, 0, WIDE - 0.08, 1), 0.14)
    for way, ((column, places), cell) in enumerate(zip(ways.items(), cells, strict=True)):
        items += [*_shaft(cell), *_direction(cell, way, column)]
        wide = (cell.w - 0.2) / len(places)
        for place, x in zip(
            places, spread(len(places), cell.x + 0.1, cell.right - 0.1), strict=True
        ):
            items += measured(x, 0.22, x, 0.6)
            items += word(x, 0.17, place.row, wide - 0.02)
            spots[place.key] = (x, 0.41)
    return Drawn(items, spots)


def _shaft(cell: Cell) -> list[Item]:
    body = solid(cell.x + 0.1, 0.22, cell.w - 0.2, 0.38)
    webs = [solid(x, _TOP, 0.1, _FOOT - _TOP, 0.02) for x in (cell.x, cell.right - 0.1)]
    return [body, *webs, *middle_line(cell.x, 0.41, cell.right, 0.41)]


def bearing(form: SheetForm) -> Drawn:
    """The bearing and the journal, each seen along the axis, with the directions measured."""
    items: list[Item] = []
    spots: dict[str, Point] = {}
    found = by_row(form.places)
    cells = along(len(found), Cell(0.04, 0, WIDE - 0.08, 1), 0.1)
    for (name, places), cell in zip(found.items(), cells, strict=True):
        is_shaft = "journal" in name
        items += _pin(cell.cx) if is_shaft else _shells(cell.cx)
        for way, place in enumerate(places):
            ends, spot = _through(cell.cx, _is_upright(place.column, way), 0 if is_shaft else 0.06)
            items += measured(*ends)
            spots[place.key] = spot
        items += word(cell.cx, 0.93, name, cell.w)
    return Drawn(items, spots)


_ROUND, _Y = 0.29, 0.44


def _through(
    x: float, upright: bool, tilt: float
) -> tuple[tuple[float, float, float, float], Point]:
    """A diameter and the spot on it; one that is not upright is tilted, in turns: in a bearing it
    keeps clear of the parting line."""
    turn = -0.25 if upright else 0.5 + tilt
    (one, other) = arc(x, _Y, _ROUND, turn, turn + 0.5, 1)
    (spot, _) = arc(x, _Y, _ROUND * 0.52, turn, turn + 0.5, 1)
    return (*one, *other), spot


def _shells(x: float) -> list[Item]:
    outer = _ROUND + 0.055
    joint = [Line(x + s * _ROUND, _Y, x + s * outer, _Y, THIN) for s in (-1, 1)]
    return [Circle(x, _Y, _ROUND, BODY), Circle(x, _Y, outer, BODY), *joint]


def _pin(x: float) -> list[Item]:
    return [*_cross(x, _Y, _ROUND), Circle(x, _Y, _ROUND, BODY)]


def _cross(x: float, y: float, r: float) -> list[Item]:
    return [*middle_line(x - r, y, x + r, y), *middle_line(x, y - r, x, y + r)]


def piston(form: SheetForm) -> Drawn:
    """The piston in its bore, its pin seen end on, for the skirt is measured square to the pin; and
    the bore seen along its axis."""
    items: list[Item] = [*_cylinder(), *_piston(), Circle(1.27, 0.4, 0.19, BODY)]
    spots: dict[str, Point] = {}
    in_bore = [place for place in form.places if place.row == "bore"]
    for way, place in enumerate(in_bore):
        (x1, y1, x2, y2), spot = _across_bore(_is_upright(place.column, way))
        items += measured(x1, y1, x2, y2)
        spots[place.key] = spot
    skirt = [place for place in form.places if place.row != "bore"]
    for place, y in zip(skirt, spread(len(skirt), 0.5, 0.78), strict=True):
        items += measured(0.48, y, 0.94, y)
        items += word(0.34, y + 0.018, place.column, 0.33, Anchor.END)
        spots[place.key] = (0.71, y)
    names = [*word(1.27, 0.7, "bore", 0.4), *word(0.71, 0.985, "skirt", 0.4)]
    return Drawn([*items, *names], spots)


def _across_bore(upright: bool) -> tuple[tuple[float, float, float, float], Point]:
    x, y, r = 1.27, 0.4, 0.19
    if upright:
        return (x, y - r, x, y + r), (x, y - r * 0.5)
    return (x - r, y, x + r, y), (x - r * 0.5, y)


def _cylinder() -> list[Item]:
    walls = [*cut(0.38, 0.05, 0.08, 0.86), *cut(0.96, 0.05, 0.08, 0.86)]
    return [*walls, *middle_line(0.71, 0.05, 0.71, 0.91)]


def _piston() -> list[Item]:
    grooves = [Box(0.48, y, 0.46, 0.018, filled=True) for y in (0.17, 0.22, 0.27)]
    pin = [Circle(0.71, 0.39, 0.06, filled=True, ink=Ink.PAPER), Circle(0.71, 0.39, 0.06, BODY)]
    return [solid(0.48, 0.12, 0.46, 0.7), *grooves, *pin]


def ring_gap(_: SheetForm) -> Drawn:
    """A ring in its bore, seen from above, the gap at 12 o'clock."""
    x, y, r, half = 0.44, 0.54, 0.36, 0.02
    outer = arc(x, y, r - 0.018, -0.25 + half, 0.75 - half, 60)
    inner = arc(x, y, r - 0.075, -0.25 + half, 0.75 - half, 60)
    ring = path([*outer, *reversed(inner), outer[0]])
    left, right = inner[-1], inner[0]
    low = right[1] + 0.09
    marks = [Line(px, py + 0.015, px, low + 0.02, FAINT) for px, py in (left, right)]
    gap = squeezed(left[0], low, right[0], low)
    walls = [Circle(x, y, r, BODY), Circle(x, y, r + 0.055, BODY)]
    said = [*word(x, low + 0.1, "gap", 0.3), *word(x, y + 0.08, "ring square in", 0.46)]
    said += word(x, y + 0.15, "its bore", 0.46)
    return Drawn([*walls, *ring, *marks, *gap, *said], {}, 0.92)
