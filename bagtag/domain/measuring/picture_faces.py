"""Where faces and lengths are measured: any one size, flatness, springs, deck height."""

from math import pi, sin

from bagtag.domain.measuring.form import Place, SheetForm
from bagtag.domain.measuring.picture_parts import (
    BODY,
    FAINT,
    HEAD,
    THIN,
    Drawn,
    Point,
    cut,
    hatching,
    measured,
    middle_line,
    path,
    solid,
    spread,
    squeezed,
    word,
)
from bagtag.domain.shapes import Anchor, Arrow, Box, Circle, Ink, Item, Line


def size(form: SheetForm) -> Drawn:
    """A part between the jaws of a caliper."""
    items = [*hatching(0.42, 0.44, 0.6, 0.42), Box(0.42, 0.44, 0.6, 0.42, BODY, radius=0.03)]
    items += _caliper()
    few = form.places if len(form.places) <= _FEW else ()
    spots = dict(zip((one.key for one in few), spread(len(few), 0.44, 0.86), strict=True))
    for y in spots.values() or (0.65,):
        items += measured(0.42, y, 1.02, y)
    return Drawn(items, {key: (0.72, y) for key, y in spots.items()})


_FEW = 3
"""Places that are shown in the part itself."""


def _caliper() -> list[Item]:
    beam = [solid(0.12, 0.12, 1.26, 0.11), *(_mark(0.46 + n * 0.055, n) for n in range(17))]
    fixed = path([(0.26, 0.23), (0.26, 0.3), (0.415, 0.82), (0.415, 0.23)])
    slide = path([(1.025, 0.23), (1.025, 0.82), (1.18, 0.3), (1.18, 0.23)])
    carriage = [Box(0.99, 0.08, 0.26, 0.19, BODY, radius=0.02)]
    return [
        *beam,
        *fixed,
        *slide,
        Box(0.99, 0.08, 0.26, 0.19, filled=True, ink=Ink.PAPER),
        *carriage,
    ]


def _mark(x: float, n: int) -> Item:
    return Line(x, 0.23, x, 0.17 if n % 5 == 0 else 0.195, FAINT)


def flatness(form: SheetForm) -> Drawn:
    """A face seen from above, and where the straight edge is laid on it."""
    items: list[Item] = [solid(0.3, 0.12, 0.9, 0.54, 0.05)]
    items += [Circle(x, 0.38, 0.13, FAINT, ink=Ink.FAINT) for x in (0.55, 0.95)]
    spots: dict[str, Point] = {}
    for place, (start, end) in _edges(form):
        items.append(Line(*start, *end, THIN, Ink.ACCENT))
        spots[place.key] = start
    return Drawn([*items, *_straight_edge()], spots)


def _edges(form: SheetForm) -> list[tuple[Place, tuple[Point, Point]]]:
    """Each place with the line its straight edge lies on."""
    groups: dict[str, list[Place]] = {"diagonal": [], "across": [], "along": []}
    for place in form.places:
        way = next((way for way in groups if way in place.name or way in place.key), "along")
        groups[way].append(place)
    lines = [((0.24, 0.06), (1.24, 0.7)), ((0.24, 0.7), (1.24, 0.06))]
    found = list(zip(groups["diagonal"], lines, strict=False))
    for place, x in zip(groups["across"], _clear(len(groups["across"])), strict=True):
        found.append((place, ((x, 0.058), (x, 0.7))))
    spots = spread(len(groups["along"]), 0.14, 0.62)
    for place, y in zip(groups["along"], spots, strict=True):
        found.append((place, ((0.17, y), (1.26, y))))
    return found


def _clear(count: int) -> list[float]:
    return [0.75] if count == 1 else spread(count, 0.36, 1.14)


def _straight_edge() -> list[Item]:
    """The same from the side: the edge on the face, the feeler gauge in the gap."""
    dip = [(0.3 + n * 0.0225, 0.88 + 0.03 * sin(n / 40 * pi)) for n in range(41)]
    face = path([(0.3, 0.975), *dip, (1.2, 0.975)])
    feeler = [Line(0.75, 0.893, 1.34, 0.893, 0.014, Ink.ACCENT)]
    said = word(0.27, 0.93, "feeler gauge", 0.25, Anchor.END)
    return [Box(0.24, 0.8, 1.02, 0.075, BODY), *face, *feeler, *said]


def spring(form: SheetForm) -> Drawn:
    """The spring free and under its load, standing on a plate."""
    items = [*_coil(0.42, 0.16, 0.88, 0.13, 6), *_coil(1.0, 0.42, 0.88, 0.13, 6)]
    items += [Line(0.1, 0.88, 1.4, 0.88, BODY), Line(0.82, 0.42, 1.18, 0.42, BODY)]
    items += [Line(0.17, 0.16, 0.3, 0.16, FAINT), Line(1.18, 0.42, 1.34, 0.42, FAINT)]
    items += [*measured(0.2, 0.16, 0.2, 0.88), *measured(1.3, 0.42, 1.3, 0.88)]
    items += [Arrow(1.0, 0.1, 1.0, 0.405, THIN, HEAD), *_spring_words()]
    return Drawn(items, _spring_spots(form))


def _spring_words() -> list[Item]:
    return [*word(0.42, 0.96, "free", 0.4), *word(1.0, 0.96, "at its length", 0.6)]


def _coil(x: float, top: float, foot: float, half: float, turns: int) -> list[Item]:
    step = (foot - top - 0.03) / turns
    points: list[Point] = [(x - half, top + 0.015)]
    for n in range(turns):
        y = top + 0.015 + n * step
        points += [(x + half, y), (x - half, y + step)]
    return path([*points, (x + half, foot - 0.015)], 0.022)


def _spring_spots(form: SheetForm) -> dict[str, Point]:
    spots: dict[str, Point] = {}
    for place in form.places:
        name = f"{place.name} {place.key}"
        at = (1.0, 0.2) if "load" in name else (0.2, 0.52) if "free" in name else (1.3, 0.65)
        if at not in spots.values():
            spots[place.key] = at
    return spots


def deck(form: SheetForm) -> Drawn:
    """The piston at the top of its stroke, and the face of the block it is measured from."""
    items = [*cut(0.1, 0.36, 0.2, 0.58), *cut(0.86, 0.36, 0.2, 0.58), *_crown(), *_bridge()]
    items += [Line(0.3, 0.36, 0.86, 0.36, FAINT), *middle_line(0.58, 0.3, 0.58, 0.94)]
    if len(form.places) > len(_OVER_PIN):
        return Drawn(items, {}, 1.08)
    items += [Circle(1.28, 0.55, 0.18, BODY), *middle_line(1.07, 0.55, 1.49, 0.55)]
    items += word(1.28, 0.83, "over the pin", 0.4)
    spots = dict(zip(form.places, _OVER_PIN, strict=False))
    for place, (x, y) in spots.items():
        items += word(x, y + 0.1, place.column, 0.16, size=0.042)
    return Drawn(items, {place.key: at for place, at in spots.items()})


_OVER_PIN = ((1.18, 0.55), (1.38, 0.55))


def _crown() -> list[Item]:
    rings = [Box(0.32, y, 0.52, 0.018, filled=True) for y in (0.5, 0.56, 0.62)]
    return [solid(0.32, 0.43, 0.52, 0.43), *rings, Circle(0.58, 0.75, 0.06, BODY)]


def _bridge() -> list[Item]:
    """A depth gauge on the face, its rod on the piston."""
    rod = [Box(0.565, 0.08, 0.03, 0.35, BODY), *squeezed(0.42, 0.36, 0.42, 0.43)]
    return [
        Box(0.34, 0.29, 0.48, 0.07, filled=True, ink=Ink.PAPER),
        solid(0.34, 0.29, 0.48, 0.07),
        *rod,
    ]
