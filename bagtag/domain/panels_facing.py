"""Panels for what faces where, and for the hand."""

from bagtag.domain import lettering
from bagtag.domain.datum import Datum, Side
from bagtag.domain.panel_parts import (
    ROOMY,
    Caption,
    Style,
    across,
    arrow,
    captioned,
    lettered,
    mark,
    name,
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
        return _through_wall(fact.feature, fact.toward, cell, style)
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
    items, room = lettered(cell, style, min(cell.h * 0.9, cell.w), captions)
    near = Side.REAR if datum.looks_forward else Side.FRONT
    return items + _through_page(room, style, toward_viewer=side is near)


def _sideways(feature: str, called: str, cell: Cell, style: Style, *, right: bool) -> list[Item]:
    if cell.h < ROOMY and not style.wide:
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
    rest = cell.w * (1 - share)
    room = cell.trimmed(right=rest) if right else cell.trimmed(left=rest)
    items = written(room, mark(feature, style), style, anchor)
    if not items:
        return [], cell
    bounds = items[0].bounds
    taken = bounds[2] - bounds[0] + style.gap * 1.5
    if cell.w - taken < style.stroke * 1.7 + style.gap + style.head * 1.05:
        return [], cell
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


def _through_wall(feature: str, toward: Outness, cell: Cell, style: Style) -> list[Item]:
    """A case open to the left, seen cut through: outward leaves it, inward stays in it."""
    if cell.h < ROOMY and not style.wide:
        items, room = _inline(feature, cell, style, right=toward is Outness.OUTWARD)
    else:
        over, under = mark(feature, style), name(toward.value, style)
        items, room = captioned(cell, style, over=over, under=under)
    room = room.middle(room.h * 2.2, room.w * 0.7)
    return items + _case(room, style, outward=toward is Outness.OUTWARD)


def _case(cell: Cell, style: Style, *, outward: bool) -> list[Item]:
    edge = style.stroke / 2
    wall = cell.x + cell.w * 0.34 if outward else cell.right - edge
    top, bottom, inner = cell.y + edge, cell.bottom - edge, cell.x + edge
    case: list[Item] = [
        Line(inner, top, wall, top, style.stroke),
        Line(wall, top, wall, bottom, style.stroke),
        Line(wall, bottom, inner, bottom, style.stroke),
    ]
    if outward:
        return [*case, arrow(wall + edge + style.gap, cell.cy, cell.right, cell.cy, style=style)]
    return [*case, arrow(wall - edge - style.gap, cell.cy, cell.x, cell.cy, style=style)]


def _to_part(feature: str, other: OtherPart, cell: Cell, style: Style) -> list[Item]:
    """The part, an arrow, and the other part as an open box: its name in it or under it."""
    if cell.h < ROOMY and not style.wide:
        items, room = _inline(feature, cell, style, right=True, share=0.3)
    else:
        items, room = captioned(
            cell, style, over=mark(feature, style), under=name(other.name, style)
        )
    room = room.middle(room.h * 3, room.h)
    box = min(room.w * 0.3, room.h)
    edge = style.stroke if style.wide else style.thin
    target = room.trimmed(left=room.w - box).middle(box, room.h).inset(edge / 2)
    reach = room.trimmed(right=box + style.gap)
    outline = Box(target.x, target.y, target.w, target.h, edge, style.stroke * 0.8)
    return [*items, *across(reach, style, True), outline]
