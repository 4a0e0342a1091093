"""Panels for what faces where, and for the hand."""

from dataclasses import dataclass
from itertools import pairwise

from bagtag.domain import lettering
from bagtag.domain.datum import Datum, Side
from bagtag.domain.panel_parts import (
    Caption,
    Style,
    Words,
    across,
    arrow,
    beside,
    captioned,
    is_low,
    lettered,
    mark,
    name,
    shorter,
    upward,
    written,
)
from bagtag.domain.shapes import Anchor, Box, Cell, Circle, Ink, Item, Line, Text
from bagtag.domain.which_way import Faces, Hand, OtherPart, Outness


def hand(fact: Hand, cell: Cell, style: Style) -> list[Item]:
    """A large L or R: reversed out of a solid block when stamped, outlined by position."""
    said = "stamped" if fact.stamped else "by position"
    under = Caption((said,), style.name) if style.wide else None
    items, room = captioned(cell, style, under=under)
    return items + block(fact, room.middle(room.h * 0.8, room.w / 0.62), style)


def block(fact: Hand, cell: Cell, style: Style) -> list[Item]:
    """The letter in its block, filling the cell."""
    edge = 0.0 if fact.stamped else style.stroke
    room = cell.inset(edge / 2)
    box = Box(room.x, room.y, room.w, room.h, edge, min(room.w, room.h) * 0.08, filled=fact.stamped)
    ink = Ink.PAPER if fact.stamped else Ink.INK
    letter, size = lettering.fit(fact.which.upper(), room.w * 0.8, room.h * 0.95, room.h * 0.2)
    if not letter or size < 0.05:
        return [box]
    line = room.cy + lettering.CAP * size / 2
    return [box, Text(room.cx, line, letter, size, Anchor.MIDDLE, bold=True, ink=ink)]


def faces(fact: Faces, datum: Datum, cell: Cell, style: Style) -> list[Item]:
    """An arrow from the part: along the page to a side, out of a case wall, or to another part."""
    if isinstance(fact.toward, OtherPart):
        return _to_part(fact.feature, fact.toward, cell, style)
    if isinstance(fact.toward, Outness):
        return _through_wall(fact, datum, cell, style)
    return _to_side(fact.feature, fact.toward, datum, cell, style=style)


def _to_side(feature: str, side: Side, datum: Datum, cell: Cell, *, style: Style) -> list[Item]:
    """Left, right, top and bottom lie in the page; the near side comes out of it, the far side
    goes in."""
    called = datum.call(side)
    captions = [mark(feature, style), name(called, style)]
    if side in {Side.LEFT, Side.RIGHT}:
        return _sideways(feature, called, cell, style, right=side is Side.RIGHT)
    if side in {Side.TOP, Side.BOTTOM}:
        items, room = lettered(cell, style, min(cell.h * 0.5, cell.w), captions)
        return items + upward(room.middle(room.h * 0.6, room.h), style, side is Side.TOP)
    return _in_depth(side, datum, captions, cell, style)


def _in_depth(
    side: Side, datum: Datum, captions: list[Caption], cell: Cell, style: Style
) -> list[Item]:
    items, room = lettered(cell, style, min(cell.h * 0.9, cell.w), captions)
    near = Side.REAR if datum.looks_forward else Side.FRONT
    return items + _through_page(room, style, toward_viewer=side is near)


def _sideways(feature: str, called: str, cell: Cell, style: Style, *, right: bool) -> list[Item]:
    if is_low(cell, style) and not style.wide:
        items, room = _inline(feature, cell, style, right=right)
        return items + across(room, style, right)
    over, under = mark(feature, style), name(called, style)
    items, room = captioned(cell, style, over=over, under=under, symbol=style.head)
    return items + across(room.middle(room.h * 3, room.h), style, right)


def _inline(
    feature: str, cell: Cell, style: Style, *, right: bool, share: float = 0.5
) -> tuple[list[Item], Cell]:
    """A low panel: the mark at the tail of the arrow, in its share of the width at most."""
    anchor = Anchor.START if right else Anchor.END
    shortest = style.stroke * 1.7 + style.gap + style.head * 1.05
    air = style.gap * 1.5
    rest = max(cell.w * (1 - share), shortest + air)
    room = cell.trimmed(right=rest) if right else cell.trimmed(left=rest)
    items = written(room, mark(feature, style), style, anchor)
    if not items:
        return [], cell
    bounds = items[0].bounds
    taken = bounds[2] - bounds[0] + air
    return items, cell.trimmed(left=taken) if right else cell.trimmed(right=taken)


def _through_page(cell: Cell, style: Style, *, toward_viewer: bool) -> list[Item]:
    """A vector out of the page is a circle with a dot, into the page a circle with a cross: the
    point and the feathers of an arrow, as engineering drawings have them."""
    w = min(style.stroke, min(cell.w, cell.h) * 0.12)
    radius = min(cell.w, cell.h) / 2 - w / 2
    ring = Circle(cell.cx, cell.cy, radius, w, ink=Ink.ACCENT)
    if toward_viewer:
        return [ring, Circle(cell.cx, cell.cy, radius * 0.34, filled=True, ink=Ink.ACCENT)]
    d = (radius - w) * 0.7
    x, y = cell.cx, cell.cy
    return [
        ring,
        Line(x - d, y - d, x + d, y + d, w, Ink.ACCENT),
        Line(x - d, y + d, x + d, y - d, w, Ink.ACCENT),
    ]


def _through_wall(fact: Faces, datum: Datum, cell: Cell, style: Style) -> list[Item]:
    """A case seen cut through: outward leaves it, inward stays in it. It is open to the left, or,
    where the side is told, away from the side of its wall."""
    assert isinstance(fact.toward, Outness)
    to = fact.resolved
    under = Caption(_outward_words(fact.toward, to, datum, style), style.name)
    if to in {Side.FRONT, Side.REAR}:
        return _in_depth(to, datum, [mark(fact.feature, style), under], cell, style)
    outward = fact.toward is Outness.OUTWARD
    right = to is Side.RIGHT or (to is not Side.LEFT and outward)
    over, upright = mark(fact.feature, style), to in {Side.TOP, Side.BOTTOM}
    if upright:
        items, room = lettered(cell, style, min(cell.h * 0.7, cell.w), [over, under])
    elif is_low(cell, style) and not style.wide:
        items, room = _inline(fact.feature, cell, style, right=right)
    else:
        items, room = _said(cell, style, over, under)
    room = room.middle(room.h, room.w) if upright else room.middle(room.h * 2.2, room.w * 0.7)
    return items + _case(room, style, _Case(outward, to or (Side.RIGHT if right else Side.LEFT)))


def _said(cell: Cell, style: Style, over: Caption, under: Caption) -> tuple[list[Item], Cell]:
    """Lettering over and under the drawing, or beside it where the cell is low."""
    if not is_low(cell, style):
        return captioned(cell, style, over=over, under=under, symbol=style.head)
    items, room = beside(cell, style, min(cell.h * 1.8, cell.w * 0.5), [over, under])
    return items, room if items else cell


def _other_name(other: OtherPart, style: Style) -> Caption:
    """A part's name, with the number on its label where there is room for it."""
    plain = name(other.name, style)
    if not other.number:
        return plain
    return Caption((f"{plain.words[0]} ({other.number})", *plain.words), style.name)


def _outward_words(toward: Outness, to: Side | None, datum: Datum, style: Style) -> Words:
    """Said with its side where that is known; a small picture has room for the side alone."""
    if to is None:
        return (toward.value,)
    sides = shorter(datum.call(to))
    both = tuple(f"{toward.value}, {said}" for said in sides)
    return (*both, *sides) if style.wide else (both[0], *sides)


@dataclass(frozen=True, slots=True)
class _Case:
    """An arrow to a side, out of a case through its wall or from the wall into it."""

    outward: bool
    to: Side

    def at(self, cell: Cell, along: float, across: float) -> tuple[float, float]:
        """The point `along` from where the arrow may start to where it ends, and `across` it from
        the cell's middle, both in the picture's units."""
        match self.to:
            case Side.LEFT:
                return cell.right - along, cell.cy + across
            case Side.TOP:
                return cell.cx + across, cell.bottom - along
            case Side.BOTTOM:
                return cell.cx + across, cell.y + along
        return cell.x + along, cell.cy + across


def _case(cell: Cell, style: Style, case: _Case) -> list[Item]:
    upright = case.to in {Side.TOP, Side.BOTTOM}
    long, half = (cell.h, cell.w / 2) if upright else (cell.w, cell.h / 2)
    edge = style.stroke / 2
    wall, rim = (long * 0.34, edge) if case.outward else (edge, long - edge)
    corners = [(rim, edge - half), (wall, edge - half), (wall, half - edge), (rim, half - edge)]
    points = [case.at(cell, *corner) for corner in corners]
    lines = [Line(*one, *two, style.stroke) for one, two in pairwise(points)]
    start, tip = case.at(cell, wall + edge + style.gap, 0), case.at(cell, long, 0)
    return [*lines, arrow(*start, *tip, style=style)]


def _to_part(feature: str, other: OtherPart, cell: Cell, style: Style) -> list[Item]:
    """The part, an arrow, and the other part as an open box: its name in it or under it."""
    if is_low(cell, style) and not style.wide:
        items, room = _inline(feature, cell, style, right=True, share=0.3)
    else:
        items, room = _said(cell, style, mark(feature, style), _other_name(other, style))
    room = room.middle(room.h * 3, room.h)
    box = min(room.w * 0.3, room.h)
    edge = style.stroke if style.wide else style.thin
    target = room.trimmed(left=room.w - box).middle(box, room.h).inset(edge / 2)
    reach = room.trimmed(right=box + style.gap)
    outline = Box(target.x, target.y, target.w, target.h, edge, style.stroke * 0.8)
    number = [] if style.wide else _number(other, target.inset(edge), style)
    return [*items, *across(reach, style, True), outline, *number]


def _number(other: OtherPart, cell: Cell, style: Style) -> list[Item]:
    """The number on the other part's label, where it can be read in full."""
    if not other.number or not lettering.fits(other.number, cell.w, style.least):
        return []
    return written(cell, Caption((other.number,), style.name, bold=True), style, Anchor.MIDDLE)
