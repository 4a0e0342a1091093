"""Panels for how a part is turned, how deep it sits and what it is matched to."""

from dataclasses import replace
from math import cos, isfinite, radians, sin

from bagtag.domain.datum import Datum
from bagtag.domain.panel_parts import (
    Caption,
    Style,
    arrow,
    beside,
    captioned,
    is_low,
    lettered,
    mark,
)
from bagtag.domain.sentence import digits, hour_words, seat_words, tidy
from bagtag.domain.shapes import Arrow, Box, Cell, Circle, Ink, Item, Line
from bagtag.domain.which_way import Clocking, MatchMark, Seat, SeatKind

_COUNTS = {"one": 1, "two": 2, "three": 3, "four": 4, "1": 1, "2": 2, "3": 3, "4": 4}


def clocking(fact: Clocking, datum: Datum, cell: Cell, style: Style) -> list[Item]:
    """A clock face with a hand at the hour; without an hour, two marks meeting at a joint."""
    if fact.hour is None:
        return _meeting(fact, cell, style)
    items, room = lettered(cell, style, min(cell.h, cell.w * 0.6), _clock_words(fact, datum, style))
    room = room if items else cell
    return items + _clock(room, fact.hour, style)


def seat(fact: Seat, cell: Cell, style: Style) -> list[Item]:
    """The part in its bore, cut through: its top against the face line, or what stops it."""
    caption = Caption(_seat_captions(fact), style.name, bold=True)
    if is_low(cell, style):
        items, room = beside(cell, style, min(cell.h, cell.w), [caption])
    else:
        items, room = captioned(cell, style, under=caption)
    room = room.middle(room.h * 1.6, room.w)
    if fact.kind in _LEVELS:
        return items + _bore(room, _LEVELS[fact.kind], style)
    return items + _stopped(room, style, shoulder=fact.kind is SeatKind.SHOULDER)


def match_mark(fact: MatchMark, cell: Cell, style: Style) -> list[Item]:
    """Two parts at their joint, and the mark that runs over both."""
    partner = Caption((tidy(fact.partner),), style.name)
    if is_low(cell, style):
        said = [_mark_words(fact, style), partner] if style.wide else [_mark_words(fact, style)]
        items, room = beside(cell, style, min(cell.h * 1.3, cell.w), said)
    else:
        items, room = captioned(
            cell, style, over=_mark_words(fact, style), under=partner if fact.partner else None
        )
    return items + _joint(room.middle(room.h * 1.5, room.w), fact.mark, style)


def _mark_words(fact: MatchMark, style: Style) -> Caption:
    """ "two punch dots", or "punch dots" where there is less room: the drawing has the number."""
    words = tidy(fact.mark)
    count, _, rest = words.partition(" ")
    counted = (words, rest) if rest and count.casefold() in _COUNTS else (words,)
    return replace(mark("", style), words=counted)


def _clock_words(fact: Clocking, datum: Datum, style: Style) -> list[Caption]:
    hour = 0.0 if fact.hour is None else fact.hour
    said = (hour_words(hour), digits(hour))
    captions = [mark(tidy(fact.feature), style), Caption(said, style.name, bold=style.wide)]
    if style.wide and tidy(fact.target):
        captions.append(Caption((tidy(fact.target),), style.name))
    if style.wide and fact.seen_from is not None:
        side = datum.call(fact.seen_from)
        captions.append(Caption((f"seen from {side}", f"from {side}"), style.name))
    return captions


def _clock(cell: Cell, hour: float, style: Style) -> list[Item]:
    radius = min(cell.w, cell.h) / 2 - style.thin / 2
    face: list[Item] = [Circle(cell.cx, cell.cy, radius, style.thin)]
    face += [_tick(cell, radius, number, style) for number in range(0, 12, 1 if style.wide else 3)]
    if not isfinite(hour):
        return face
    x1, y1 = _on_face(cell, radius * 0.25, hour + 6)
    x2, y2 = _on_face(cell, radius * 0.84, hour)
    return [*face, Arrow(x1, y1, x2, y2, style.stroke, min(style.head, radius * 0.5))]


def _tick(cell: Cell, radius: float, number: int, style: Style) -> Item:
    length = 0.8 if number % 3 == 0 else 0.88
    x1, y1 = _on_face(cell, radius * length, number)
    x2, y2 = _on_face(cell, radius * 0.94, number)
    return Line(x1, y1, x2, y2, style.thin)


def _on_face(cell: Cell, radius: float, hour: float) -> tuple[float, float]:
    turn = radians(hour % 12 * 30)
    return cell.cx + radius * sin(turn), cell.cy - radius * cos(turn)


def _meeting(fact: Clocking, cell: Cell, style: Style) -> list[Item]:
    over, under = mark(tidy(fact.feature), style), Caption((tidy(fact.target),), style.name)
    if is_low(cell, style):
        said = [over, under] if style.wide else [over]
        items, room = beside(cell, style, min(cell.h, cell.w), said)
    else:
        items, room = captioned(cell, style, over=over, under=under)
    room = room.middle(room.h * 1.4, room.h)
    air = style.thin / 2 + style.gap * 0.5
    half = style.thin / 2
    head = min(style.head, (room.h / 2 - air) * 0.9)
    return [
        *items,
        Line(room.x + half, room.cy, room.right - half, room.cy, style.thin),
        Arrow(room.cx, room.y, room.cx, room.cy - air, style.stroke, head),
        Arrow(room.cx, room.bottom, room.cx, room.cy + air, style.stroke, head),
    ]


_LEVELS = {SeatKind.FLUSH: 0.0, SeatKind.PROUD: -1.0, SeatKind.BELOW: 1.0}


def _seat_captions(fact: Seat) -> tuple[str, ...]:
    if fact.kind is SeatKind.SHOULDER:
        return (seat_words(fact), "on the shoulder", "shoulder")
    if fact.depth is None:
        return (seat_words(fact),)
    return (seat_words(fact), f"{fact.depth:g} mm", f"{fact.depth:g}")


def _bore(cell: Cell, level: float, style: Style) -> list[Item]:
    """A face line on both sides of a bore, and the part's top level with it, over or under it."""
    w = min(style.stroke, cell.w * 0.08)
    half = w / 2
    face = cell.y + cell.h * 0.4
    left, right, foot = cell.x + cell.w * 0.24, cell.right - cell.w * 0.24, cell.bottom - half
    body: list[Item] = [
        Line(cell.x + half, face, left, face, w),
        Line(left, face, left, foot, w),
        Line(right, face, right, foot, w),
        Line(right, face, cell.right - half, face, w),
    ]
    top = face - half + level * cell.h * 0.3
    inner = half + style.gap * 0.6
    part = Box(left + inner, top, right - left - 2 * inner, cell.bottom - cell.h * 0.1 - top,
               radius=half, filled=True, ink=Ink.ACCENT)  # fmt: skip
    return [*body, part]


def _stopped(cell: Cell, style: Style, *, shoulder: bool) -> list[Item]:
    """The part driven down to the bottom of its bore, or on to a step in it."""
    w = min(style.stroke, cell.w * 0.08)
    half = w / 2
    left, right = cell.x + cell.w * 0.18, cell.right - cell.w * 0.18
    stop = cell.y + cell.h * 0.76 if shoulder else cell.bottom - half
    step = (right - left) * 0.24 if shoulder else (right - left) / 2
    lines = [(left, cell.y + half, left, stop), (left, stop, left + step, stop)]
    lines += [(right, cell.y + half, right, stop), (right, stop, right - step, stop)]
    if shoulder:
        lines += [(x, stop, x, cell.bottom - half) for x in (left + step, right - step)]
    inner = half + style.gap * 0.6
    top, foot = cell.y + cell.h * 0.48, stop - half
    wide = right - left - 2 * inner
    part = Box(left + inner, top, wide, foot - top, radius=half, filled=True, ink=Ink.ACCENT)
    down = arrow(cell.cx, cell.y, cell.cx, top - style.gap * 0.6, style=style)
    push = replace(down, ink=Ink.INK)
    return [*(Line(*ends, w) for ends in lines), part, push]


def _joint(cell: Cell, words: str, style: Style) -> list[Item]:
    """Two parts side by side; as many dots on each as the mark has, else a line over both."""
    half, air = style.thin / 2, style.gap * 0.4
    wide = cell.w / 2 - air / 2 - style.thin
    parts: list[Item] = [
        Box(x, cell.y + half, wide, cell.h - style.thin, style.thin, style.stroke * 0.5)
        for x in (cell.x + half, cell.right - half - wide)
    ]
    dots = _dots(words)
    if not dots:
        reach = wide * 0.6
        return [*parts, Line(cell.cx - reach, cell.cy, cell.cx + reach, cell.cy, style.stroke,
                             Ink.ACCENT)]  # fmt: skip
    radius = min(style.stroke, (cell.h - 2 * style.thin) / (dots * 3), wide * 0.25)
    off = air / 2 + style.thin + radius * 1.6
    rows = [cell.cy + (i - (dots - 1) / 2) * radius * 2.7 for i in range(dots)]
    return parts + [
        Circle(cell.cx + side * off, y, radius, filled=True, ink=Ink.ACCENT)
        for y in rows
        for side in (-1, 1)
    ]


def _dots(words: str) -> int:
    """How many dots a mark has by its words: "two punch dots" 2, "punch mark" 1, "paint line" 0."""
    said = words.casefold().split()
    if not any(word.startswith(("dot", "punch", "pop")) for word in said):
        return 0
    counted = [_COUNTS[word] for word in said if word in _COUNTS]
    return counted[0] if counted else 1
