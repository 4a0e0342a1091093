"""Where valves, plastic gauge and the volumes over a piston are measured."""

from bagtag.domain.measuring.form import SheetForm
from bagtag.domain.measuring.picture_parts import (
    BODY,
    FAINT,
    THIN,
    Drawn,
    Point,
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
from bagtag.domain.shapes import Anchor, Box, Circle, Ink, Item, Line


def valves(_: SheetForm) -> Drawn:
    """A cam over its tappet and shim, the clearance between them; the valves are told beside it."""
    marks = [Line(0.18, y, x, y, FAINT) for y, x in ((0.38, 0.39), (0.425, 0.35))]
    items = [*_cam(), *_tappet(), *marks, *squeezed(0.21, 0.38, 0.21, 0.425)]
    items += word(0.02, 0.23, "clearance", 0.24, Anchor.START)
    items += [Line(0.49, 0.45, 0.6, 0.45, FAINT), *word(0.61, 0.465, "shim", 0.14, Anchor.START)]
    return Drawn(items, {}, 0.74)


def _cam() -> list[Item]:
    """The lobe turned away from the tappet: only its base circle is over the shim."""
    x, y, r = 0.42, 0.24, 0.14
    nose = arc(x, y - 0.17, 0.05, -0.42, -0.08, 14)
    base = arc(x, y, r, -0.04, 0.54, 30)
    return [*path([*base, *nose, base[0]]), Circle(x, y, 0.045, BODY)]


def _tappet() -> list[Item]:
    bucket = path([(0.29, 0.74), (0.29, 0.475), (0.55, 0.475), (0.55, 0.74)])
    shim = [Box(0.35, 0.425, 0.14, 0.05, filled=True, ink=Ink.FAINT)]
    coil = path([(0.34, 0.53), (0.5, 0.59), (0.34, 0.65), (0.5, 0.71), (0.34, 0.77)], THIN)
    stem = [Box(0.405, 0.475, 0.03, 0.46, filled=True, ink=Ink.PAPER)]
    guide = [*cut(0.16, 0.6, 0.115, 0.34), *cut(0.565, 0.6, 0.115, 0.34)]
    outlines = [Box(0.405, 0.475, 0.03, 0.46, BODY), Box(0.35, 0.425, 0.14, 0.05, BODY)]
    return [*bucket, *coil, *stem, *shim, *outlines, *guide]


def plastic_gauge(form: SheetForm) -> Drawn:
    """The journal with its cap off: the squeezed strip lies along it, its width is read."""
    items: list[Item] = [*_journal(), Box(0.28, 0.36, 0.94, 0.035, filled=True, ink=Ink.ACCENT)]
    spots = {}
    for place, x in zip(form.places, spread(len(form.places), 0.27, 1.23), strict=True):
        items.append(Line(x, 0.395, x, 0.47, THIN))
        spots[place.key] = (x, 0.5)
    return Drawn([*items, *_scale()], spots)


def _journal() -> list[Item]:
    webs = [solid(x, 0.06, 0.12, 0.66, 0.02) for x in (0.1, 1.28)]
    return [solid(0.22, 0.16, 1.06, 0.48), *webs, *middle_line(0.04, 0.3, 1.46, 0.3)]


def _scale() -> list[Item]:
    """The card the strip is held against, its bars each a little wider."""
    bars = [
        Box(0.5 + n * 0.13, 0.86 - 0.008 * n, 0.09, 0.016 * (n + 1), filled=True) for n in range(4)
    ]
    said = word(0.42, 0.88, "its scale", 0.35, Anchor.END)
    return [Box(0.46, 0.78, 0.6, 0.17, THIN, radius=0.015), *bars, *said]


def compression(form: SheetForm) -> Drawn:
    """Cylinder, piston and head cut through, and what each volume over the piston is."""
    items = [*_head(), *_barrel(), *_dished(), *_strokes()]
    spots: dict[str, Point] = {}
    for said, name, (x, y), high in _VOLUMES:
        items += [Line(x, y, 0.94, high, FAINT), Circle(x, y, 0.008, filled=True)]
        items += word(1.03, high + 0.018, name, 0.46, Anchor.START)
        place = next((one for one in form.places if one.key == said), None)
        if place is not None:
            spots[place.key] = (0.96, high)
    return Drawn(items, spots)


def _strokes() -> list[Item]:
    bore = [*measured(0.34, 0.8, 0.74, 0.8), *word(0.54, 0.88, "bore", 0.3)]
    stroke = [*measured(0.14, 0.43, 0.14, 0.94), *word(0.02, 0.39, "stroke", 0.18, Anchor.START)]
    return [*bore, *stroke]


def _head() -> list[Item]:
    roof = path([(0.34, 0.34), (0.4, 0.2), (0.68, 0.2), (0.74, 0.34)])
    edge = path([(0.34, 0.34), (0.2, 0.34), (0.2, 0.08), (0.88, 0.08), (0.88, 0.34), (0.74, 0.34)])
    return [
        *roof,
        *edge,
        Box(0.2, 0.355, 0.14, 0.025, filled=True),
        Box(0.74, 0.355, 0.14, 0.025, filled=True),
    ]


def _barrel() -> list[Item]:
    return [*cut(0.22, 0.395, 0.12, 0.55), *cut(0.74, 0.395, 0.12, 0.55)]


def _dished() -> list[Item]:
    crown = path(
        [(0.355, 0.7), (0.355, 0.43), (0.42, 0.43), (0.45, 0.48), (0.63, 0.48), (0.66, 0.43)]
    )
    return [*crown, *path([(0.66, 0.43), (0.725, 0.43), (0.725, 0.7), (0.355, 0.7)])]


_VOLUMES = (
    ("chamber", "chamber", (0.54, 0.25), 0.19),
    ("gasket", "gasket", (0.82, 0.368), 0.32),
    ("deck", "piston below face", (0.735, 0.412), 0.45),
    ("crown", "dish or dome", (0.6, 0.465), 0.58),
)
