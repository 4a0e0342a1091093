"""What the lengths of a wrench and its adapter are: seen from above, with L, A and the angle."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise
from math import cos, dist, pi, radians, sin

from bagtag.domain.hardware import Adapter
from bagtag.domain.shapes import Anchor, Box, Circle, Ink, Item, Line, Picture, Text
from bagtag.domain.torque import Length

ASPECT = 600 / 220
SHORTEST, LONGEST, UNKNOWN = 0.32, 0.8, 0.4
"""An adapter is drawn at its share of the wrench's length, within these; UNKNOWN without one."""

_BODY, _BAR, _THIN = 0.022, 0.036, 0.008
_HEAD, _NUT = 0.075, 0.06
_LETTER, _WORD = 0.095, 0.072
_EDGE, _GAP = 0.05, 0.17
_ARC = 0.13
_BACK = radians(165)
_STEEP = radians(70)
"""From here on A is measured on the side of the angle: on the other stands the wrench."""
_ANY = Adapter(Length(50), 30)
Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class _Plan:
    """Where the middle of the grip, the square and the fastener lie; `angle` is in radians."""

    grip: Point
    square: Point
    nut: Point
    angle: float

    def along(self, way: float, side: float) -> Point:
        """The point that far along the adapter and that far off it, clockwise from its way."""
        c, s = cos(self.angle), sin(self.angle)
        return (self.square[0] + way * c + side * s, self.square[1] - way * s + side * c)

    @property
    def reach(self) -> float:
        return dist(self.square, self.nut)


def draw(grip: Length | None, adapter: Adapter | None, *, aspect: float = ASPECT) -> Picture:
    """The picture of an adapter on a wrench, `aspect` times as wide as it is high, from 2.5 up: the
    drawing, and beside it what each letter is. `grip` is None while it is not known, `adapter`
    while there is none: then only what would be measured is drawn."""
    told = list(_told(grip, adapter))
    widest = max(text.width for text in told)
    words = [replace(text, x=aspect - _EDGE - widest) for text in told]
    plan = _plan(grip, adapter or _ANY, aspect - widest - 2 * _EDGE - _GAP)
    items = [*_wrench(plan), *_adapter(plan), *_lengths(plan), *_turn(plan), *words]
    return Picture(tuple(items), aspect)


def _plan(grip: Length | None, adapter: Adapter, room: float) -> _Plan:
    """As large as the room allows, in the middle of the height."""
    share = adapter.length.millimetres() / grip.millimetres() if grip else UNKNOWN
    share = min(max(share, SHORTEST), LONGEST)
    angle = radians(adapter.angle)
    wide, high = max(1.0, 1 + share * cos(angle)), share * sin(angle)
    left, right, above, below = _GAP, _GAP, _GAP + 0.03, 0.3
    if angle > pi / 2:
        above += 0.2
    if angle > _STEEP:
        right += 0.15
    scale = min((room - left - right) / wide, (1 - above - below) / high if high > 1e-6 else 9.0)
    scale = min(scale, 1.6)
    x = _EDGE + left + (room - left - right - wide * scale) / 2
    y = above + high * scale + (1 - above - below - high * scale) / 2
    square = (x + scale, y)
    nut = (square[0] + share * scale * cos(angle), y - share * scale * sin(angle))
    return _Plan((x, y), square, nut, angle)


def _wrench(plan: _Plan) -> Iterator[Item]:
    (x, y), (sx, sy) = plan.grip, plan.square
    yield Line(x + 0.12, y, sx - _HEAD - _BODY, sy, _BODY)
    yield Box(x - 0.12, y - 0.05, 0.24, 0.1, _BODY / 2, radius=0.05)
    yield Circle(x, y, 0.014, filled=True)
    yield Circle(sx, sy, _HEAD, _BODY)
    yield Box(sx - 0.028, sy - 0.028, 0.056, 0.056, filled=True)


def _adapter(plan: _Plan) -> Iterator[Item]:
    start = plan.along(_HEAD + _BODY / 2 + _BAR / 2, 0)
    end = plan.along(plan.reach - _NUT - _BAR / 2, 0)
    yield Line(*start, *end, _BAR, Ink.ACCENT)
    corners = [
        (plan.nut[0] + _NUT * cos(step * pi / 3), plan.nut[1] - _NUT * sin(step * pi / 3))
        for step in range(7)
    ]
    yield Circle(*plan.nut, _NUT, filled=True, ink=Ink.PAPER)
    for one, other in pairwise(corners):
        yield Line(*one, *other, _BODY, Ink.ACCENT)


def _lengths(plan: _Plan) -> Iterator[Item]:
    """Both lengths with their ends and letters: L under the wrench, A beside the adapter."""
    (x, y), (sx, _) = plan.grip, plan.square
    low = y + 0.16
    yield from _length((x, low), (sx, low), ((x, y + 0.07), (sx, y + 0.11)), "L", (0, 0.065))
    if plan.angle == 0:
        ends = ((sx, low), (plan.nut[0], low))
        yield from _length(*ends, ((plan.nut[0], y + 0.09),), "A", (0, 0.065))
        return
    side = -0.15 if plan.angle <= _STEEP else 0.25
    near = side * 0.65
    first, last = plan.along(0, side), plan.along(plan.reach, side)
    c, s = cos(plan.angle), sin(plan.angle)
    off = 0.065 if side > 0 else -0.065
    marks = (plan.along(0, near), plan.along(plan.reach, near))
    yield from _length(first, last, marks, "A", (off * s, off * c))


def _length(
    one: Point, other: Point, marks: tuple[Point, ...], letter: str, off: Point
) -> Iterator[Item]:
    """A measured length between its ends, with thin lines from what it is measured at."""
    yield Line(*one, *other, _THIN)
    for end in (one, other):
        yield Circle(*end, 0.014, filled=True)
    for mark in marks:
        end = one if dist(one, mark) < dist(other, mark) else other
        yield Line(*mark, *end, _THIN, Ink.FAINT)
    x, y = (one[0] + other[0]) / 2 + off[0], (one[1] + other[1]) / 2 + off[1]
    yield Text(x, y + 0.355 * _LETTER, letter, _LETTER, bold=True)


def _turn(plan: _Plan) -> Iterator[Item]:
    """The wrench's own line carried on, and the angle from it to the adapter."""
    if plan.angle == 0:
        return
    x, y = plan.square
    yield Line(x + _HEAD + 0.03, y, x + 0.2, y, _THIN, Ink.FAINT)
    steps = 24
    points = [
        (x + _ARC * cos(plan.angle * i / steps), y - _ARC * sin(plan.angle * i / steps))
        for i in range(steps + 1)
    ]
    for one, other in pairwise(points):
        yield Line(*one, *other, _THIN)
    at = min(plan.angle / 2, pi / 4)
    if _STEEP < plan.angle < _BACK:
        at = plan.angle - pi / 4  # between the adapter and the end of its measured length
    px, py = x + (_ARC + 0.06) * cos(at), y - (_ARC + 0.06) * sin(at)
    if plan.angle < pi / 4:
        px, py = x + _ARC + 0.04, y + 0.105
    yield Text(px, py + 0.26 * _WORD, "a", _WORD, bold=True)


def _told(grip: Length | None, adapter: Adapter | None) -> Iterator[Text]:
    """What each letter is, a line each, and what the wrench is set to."""
    known = adapter is not None
    lines = [
        (f"L  {grip or ('not known' if known else '')}", "middle of the grip to the square"),
        (f"A  {adapter.length if adapter else ''}", "square to the fastener"),
    ]
    angle = adapter.angle if adapter else _ANY.angle
    if angle:
        lines.append((f"a  {f'{angle:g}°' if known else ''}", "from the wrench's own line"))
    lines.append(("Set the wrench to", f"T × L ÷ (L + A{' cos a' if angle else ''})"))
    y = 0.5 - (len(lines) * 0.2 - 0.05) / 2 + _WORD
    for bold, plain in lines:
        yield Text(0, y, bold, _WORD, Anchor.START, bold=True)
        yield Text(0, y + 0.085, plain, _WORD * 0.9, Anchor.START)
        y += 0.2
