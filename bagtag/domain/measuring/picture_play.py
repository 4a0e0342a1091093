"""Where play is measured: end float, backlash, run-out, shims that set a float."""

from math import cos, pi, sin

from bagtag.domain.measuring.form import SheetForm
from bagtag.domain.measuring.picture_parts import (
    BODY,
    FAINT,
    HEAD,
    THIN,
    Drawn,
    Point,
    arc,
    cut,
    dial,
    measured,
    middle_line,
    path,
    solid,
    spread,
    squeezed,
    word,
)
from bagtag.domain.shapes import Anchor, Arrow, Box, Circle, Ink, Item, Line


def end_float(form: SheetForm) -> Drawn:
    """A shaft between its shoulders, pushed to and fro, a dial gauge at its end."""
    items = [*_housing(), *_collared(), *dial(1.12, 0.55, 1, 0)]
    items += [*measured(0.3, 0.2, 0.62, 0.2), *word(0.46, 0.14, "push and pull", 0.5)]
    return Drawn(items, _beside_dial(form, 1.37, 0.37))


def _housing() -> list[Item]:
    parts: list[Item] = []
    for x in (0.22, 0.72):
        parts += [*cut(x, 0.28, 0.13, 0.19), *cut(x, 0.63, 0.13, 0.19)]
    return [*parts, *cut(0.22, 0.82, 0.63, 0.11)]


def _collared() -> list[Item]:
    """The shaft with a collar that stands against the right shoulder, the play at the left."""
    shaft = [
        solid(0.1, 0.47, 1.02, 0.16, 0.02),
        Box(0.4, 0.33, 0.32, 0.44, filled=True, ink=Ink.PAPER),
    ]
    return [*shaft, solid(0.4, 0.33, 0.32, 0.44), *middle_line(0.06, 0.55, 1.1, 0.55)]


def _beside_dial(form: SheetForm, x: float, y: float) -> dict[str, Point]:
    """The one place that is read at the dial gauge; further ones are told beside the drawing."""
    return {form.places[0].key: (x, y)} if form.places else {}


def backlash(form: SheetForm) -> Drawn:
    """Two wheels in mesh, one held; the dial gauge stands on a tooth of the other."""
    x, y, apart = 0.8, 0.58, 0.505
    at = (x + apart * cos(_MESH), y + apart * sin(_MESH))
    items = [*_wheel(x, y, 0.34, 26, _MESH), *_wheel(*at, 0.21, 16, _MESH + pi + pi / 16)]
    items += [Circle(x, y, 0.05, BODY), Circle(*at, 0.04, BODY)]
    items += [*word(at[0] - 0.06, at[1] + 0.3, "held fast", 0.3), *dial(1.15, y - 0.01, 0.2, -0.98)]
    turn = arc(x, y, 0.12, 0.1, 0.62, 20)
    items += [*path(turn, THIN, Ink.ACCENT), _tip(turn)]
    spots = _round(x, y, 0.225, min(len(form.places), 6))
    return Drawn(items, {one.key: at for one, at in zip(form.places, spots, strict=False)})


_MESH = pi * 7 / 6
"""The way from the wheel that is turned to the one that is held: up and to the left."""


def _wheel(x: float, y: float, radius: float, teeth: int, tooth_at: float) -> list[Item]:
    """A toothed wheel, one of its teeth at the angle said."""
    low, points = radius - 0.045, []
    for tooth in range(teeth):
        for share, reach in ((-0.28, low), (-0.13, radius), (0.13, radius), (0.28, low)):
            way = tooth_at + 2 * pi * (tooth + share) / teeth
            points.append((x + reach * cos(way), y + reach * sin(way)))
    return path([*points, points[0]], THIN)


def _round(x: float, y: float, radius: float, count: int) -> list[Point]:
    """So many spots round a middle, from 12 o'clock, clockwise."""
    return arc(x, y, radius, -0.25, 0.75, count)[:count] if count else []


def _tip(points: list[Point], ink: Ink = Ink.ACCENT) -> Item:
    return Arrow(*points[-3], *points[-1], THIN, HEAD, ink)


def run_out(form: SheetForm) -> Drawn:
    """A shaft turned on two blocks, and what the dial gauge on it shows."""
    y = 0.62
    items: list[Item] = [solid(0.1, y - 0.08, 1.18, 0.16, 0.02), *_blocks(y + 0.08)]
    items += [*middle_line(0.04, y, 1.34, y), *dial(0.6, y - 0.09, 0, -1)]
    turn = arc(1.36, y, 0.065, -0.32, 0.3, 14)
    items += [*path(turn, THIN, Ink.ACCENT), _tip(turn)]
    spots: dict[str, Point] = {}
    for place, high in zip(form.places, spread(min(len(form.places), 3), 0.1, 0.42), strict=False):
        items += word(0.87, high + 0.018, place.row, 0.55, Anchor.START)
        spots[place.key] = (0.8, high)
    return Drawn(items, spots)


def _blocks(top: float) -> list[Item]:
    items: list[Item] = []
    for x in (0.25, 1.13):
        items += path([(x - 0.09, 0.92), (x - 0.09, top), (x, top + 0.08), (x + 0.09, top)])
        items += path([(x + 0.09, top), (x + 0.09, 0.92)])
    return [*items, Line(0.06, 0.92, 1.32, 0.92, BODY)]


def stack(form: SheetForm) -> Drawn:
    """A wheel on its shaft with shims against the shoulder, and the float that is left."""
    items = [*_bare_housing(), *_shimmed(), *dial(1.02, 0.6, 1, 0)]
    items += [*squeezed(0.36, 0.21, 0.4, 0.21), *word(0.55, 0.225, "float", 0.2, Anchor.START)]
    items += [Line(0.675, 0.42, 0.675, 0.17, FAINT), *word(0.675, 0.14, "shims", 0.3)]
    items += [*measured(0.36, 0.945, 0.72, 0.945), *measured(0.4, 0.79, 0.635, 0.79)]
    items += [Line(x, 0.9, x, 0.96, FAINT) for x in (0.36, 0.72)]
    keys = {place.key for place in form.places}
    return Drawn(items, {key: at for key, at in _STACK_SPOTS.items() if key in keys})


def _bare_housing() -> list[Item]:
    walls = [*cut(0.2, 0.25, 0.16, 0.27), *cut(0.2, 0.68, 0.16, 0.2)]
    return [*walls, *cut(0.72, 0.25, 0.14, 0.27), *cut(0.72, 0.68, 0.14, 0.2)]


def _shimmed() -> list[Item]:
    where = (0.648, 0.673, 0.698)
    shims: list[Item] = [Box(x, 0.42, 0.018, 0.36, filled=True, ink=Ink.PAPER) for x in where]
    shims += [Box(x, 0.42, 0.018, 0.36, THIN) for x in where]
    wheel = [Box(0.4, 0.32, 0.235, 0.56, filled=True, ink=Ink.PAPER), solid(0.4, 0.32, 0.235, 0.56)]
    ends = [Line(0.36, 0.25, 0.36, 0.17, FAINT), Line(0.4, 0.32, 0.4, 0.17, FAINT)]
    return [solid(0.1, 0.52, 0.92, 0.16, 0.02), *wheel, *shims, *ends]


_STACK_SPOTS = {"end float": (1.27, 0.42), "depth": (0.54, 0.945), "height": (0.5175, 0.79)}
