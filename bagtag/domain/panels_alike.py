"""Panels for a part that sits as another one does, and for what is not there."""

from bagtag.domain.panel_parts import (
    Caption,
    Style,
    Words,
    arrow,
    beside,
    captioned,
    is_low,
    part,
    written,
)
from bagtag.domain.sentence import tidy
from bagtag.domain.shapes import Anchor, Arrow, Box, Cell, Ink, Item
from bagtag.domain.which_way import SameWay, Without


def same_way(fact: SameWay, cell: Cell, style: Style) -> list[Item]:
    """Two equal pieces side by side, the own one solid, each with an arrow on it: the two arrows
    are alike or opposite. They lie on the pieces, in ink, and so point to no side."""
    if is_low(cell, style):
        items, room = beside(cell, style, min(cell.h * 1.3, cell.w), [_other_words(fact, style)])
    else:
        over = Caption((_joined(fact),), style.name)
        under = _other_words(fact, style)
        items, room = captioned(cell, style, over=over if style.wide else None, under=under)
    return items + _pieces(room.middle(room.h * 1.5, room.w * 0.7), style, fact.opposite)


def without(fact: Without, cell: Cell, style: Style) -> list[Item]:
    """A plain piece and what it has none of, or the words alone where there is no room for both;
    no match mark is two plain pieces at their joint. One that goes either way has an arrow each
    way."""
    feature = tidy(fact.feature)
    if not feature:
        return _either_way(cell, style)
    caption = Caption(_none_words(feature), style.name)
    if is_low(cell, style):
        return written(cell, caption, style, Anchor.MIDDLE)
    items, room = captioned(cell, style, under=caption)
    count = 2 if "match" in feature.casefold() else 1
    return items + _plain(room.middle(room.h * 0.7 * count, room.w * 0.6), style, count)


def _none_words(feature: str) -> Words:
    return tuple(dict.fromkeys((f"no {feature}", f"no {feature.rsplit(maxsplit=1)[-1]}")))


def _joined(fact: SameWay) -> str:
    return "opposite to" if fact.opposite else "same way as"


def _other_words(fact: SameWay, style: Style) -> Caption:
    """Whom it sits as; a small picture says how as well, and has the number where the name is too
    long."""
    name, number = tidy(fact.other.name), fact.other.number
    whole = f"{name} ({number})" if number else name
    if style.wide:
        return Caption((whole, *_number(number)), style.name, bold=True)
    how = "opposite to" if fact.opposite else "as"
    ways = (f"{how} {whole}", f"{how} {name}", name)
    return Caption(
        tuple(dict.fromkeys((*ways[:2], f"{how} {number}") if number else ways)), style.name
    )


def _number(number: str) -> tuple[str, ...]:
    return (f"no. {number}",) if number else ()


def _pieces(cell: Cell, style: Style, opposite: bool) -> list[Item]:
    air = style.gap
    wide = min((cell.w - air) / 2, cell.h)
    other = Cell(cell.cx - air / 2 - wide, cell.y, wide, cell.h)
    own = Cell(cell.cx + air / 2, cell.y, wide, cell.h)
    edge = min(style.thin, wide * 0.15)
    room = other.inset(edge / 2)
    radius = style.stroke * 0.5
    return [
        Box(room.x, room.y, room.w, room.h, edge, radius),
        _on_piece(other, style, True, Ink.INK),
        Box(own.x, own.y, own.w, own.h, radius=radius, filled=True),
        _on_piece(own, style, not opposite, Ink.PAPER),
    ]


def _on_piece(cell: Cell, style: Style, up: bool, ink: Ink) -> Arrow:
    top, foot = cell.y + cell.h * 0.18, cell.bottom - cell.h * 0.18
    ends = (foot, top) if up else (top, foot)
    head = min(style.head, cell.w * 0.6, (foot - top) * 0.66)
    weight = min(style.stroke, cell.w * 0.2)
    return Arrow(cell.cx, ends[0], cell.cx, ends[1], weight, head, ink)


def _either_way(cell: Cell, style: Style) -> list[Item]:
    caption = Caption(("either way round", "either way"), style.name, bold=True)
    if is_low(cell, style):
        items, room = beside(cell, style, min(cell.h * 2, cell.w * 0.6), [caption])
    else:
        items, room = captioned(cell, style, under=caption)
    room = (room if items else cell).middle(room.h * 2.4, room.w * 0.4)
    bar = part(room, style)
    left, right = bar.x - style.gap, bar.x + bar.width + style.gap
    return [
        *items,
        bar,
        arrow(left, room.cy, room.x, room.cy, style=style),
        arrow(right, room.cy, room.right, room.cy, style=style),
    ]


def _plain(cell: Cell, style: Style, count: int) -> list[Item]:
    wide, edge = cell.w / count, min(style.thin, cell.w * 0.1)
    return [
        Box(cell.x + i * wide + edge / 2, cell.y + edge / 2, wide - edge, cell.h - edge, edge,
            style.stroke * 0.5)
        for i in range(count)
    ]  # fmt: skip
