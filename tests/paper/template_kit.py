"""Templates printed, and holes found again on the rendered paper by their cross-hairs alone."""

import io
from datetime import date

import numpy as np

from bagtag.domain.hardware import HeldBy
from bagtag.domain.holes import Hole, HoleMap
from bagtag.paper.template import template_of, template_pdf
from bagtag.paper.template_sheets import layout_of

DIAMETERS = {"M6": 6.0, "M8": 8.0, "M10": 10.0}
LINES = (
    HeldBy(10, "bolt", "M10", 90, grade="10.9", mark="A"),
    HeldBy(4, "screw", "M6", 25, mark="B"),
)
OUTLINE = ((10.0, 20.0), (290.0, 20.0), (290.0, 140.0), (10.0, 140.0))
DPI = 600
MM_PER_DOT = 25.4 / DPI


def head(**changes):
    """Two rows of five bolts, 250 mm from the first to the last, and four screws between them."""
    bolts = [Hole(i + 1, 25 + i % 5 * 62.5, 40 + i // 5 * 80, "A") for i in range(10)]
    screws = [Hole(11 + i, 57 + i * 62, 80, "B") for i in range(4)]
    given = {"outline": OUTLINE, "width": 300.0, "height": 160.0, "seen_from": "above"}
    return HoleMap((*bolts, *screws), **(given | changes))


def template(hole_map=None, held_by=LINES):
    return template_of(
        head() if hole_map is None else hole_map,
        held_by,
        DIAMETERS.get,
        title="Walking tractor, gearbox noisy in second",
        part="42 cylinder head",
        printed=date(2026, 11, 25),
    )


def printed(one, page="A4"):
    """The PDF, the report, and how it is laid out."""
    into = io.BytesIO()
    report = template_pdf(into, one, page)
    return into.getvalue(), report, layout_of(one, page)


def middle(picture, x, y, reach=2.6):
    """Where two lines cross near a place, in mm from the paper's left and top edge: the darkest
    column and the darkest row of a square that reaches so far, weighed to parts of a dot."""
    column, row = round(x / MM_PER_DOT), round(y / MM_PER_DOT)
    half = round(reach / MM_PER_DOT)
    square = 255.0 - picture[row - half : row + half + 1, column - half : column + half + 1]
    return (
        (column - half + _line(square.sum(axis=0)) + 0.5) * MM_PER_DOT,
        (row - half + _line(square.sum(axis=1)) + 0.5) * MM_PER_DOT,
    )


def _line(ink):
    """The middle of the darkest line, in dots."""
    at = int(ink.argmax())
    near = np.arange(max(at - 4, 0), min(at + 5, len(ink)))
    weight = ink[near] - np.median(ink)
    weight = np.clip(weight, 0, None)
    return float((near * weight).sum() / weight.sum())
