"""What is drawn inside a template's window: holes with cross-hairs, the outline, where sheets
meet. Lengths in mm; places are the template's own."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from bagtag.domain.hole_shapes import corners, shape_of
from bagtag.domain.holes import Point
from bagtag.paper import ink
from bagtag.paper.fonts import BOLD, CAP, MEDIUM, REGULAR
from bagtag.paper.ink import INK, SOFT
from bagtag.paper.pdf import MM
from bagtag.paper.template_labels import NUMBER, SHAPE, SIZE, Label, arm, said
from bagtag.paper.template_sheets import MARK, OVERLAP, AlignMark, Layout, Sheet, seams
from bagtag.paper.template_text import TemplateHole

if TYPE_CHECKING:
    from bagtag.paper.quick_canvas import QuickCanvas

_HAIR, _RING = 0.15, 0.3
_CENTRE = 0.6
"""Radius of the ring round the middle of a hole, to set a punch on."""


class Window:
    """Draws on one sheet; a place of the template is turned into one of the page."""

    def __init__(self, canvas: "QuickCanvas", layout: Layout, sheet: Sheet) -> None:
        self.canvas, self._layout, self._sheet = canvas, layout, sheet

    def place(self, x: float, y: float) -> tuple[float, float]:
        """In points from the page's bottom left corner."""
        right, down = self._layout.on_page(self._sheet, x, y)
        return right * MM, (self._layout.page[1] - down) * MM

    def clip(self) -> None:
        """Nothing is drawn outside the window from now on."""
        wide, high = self._layout.window
        left, bottom = self.place(self._sheet.x, self._sheet.y + high)
        path = self.canvas.beginPath()
        path.rect(left, bottom, wide * MM, high * MM)
        self.canvas.clipPath(path, stroke=0, fill=0)

    def outline(self, points: Sequence[Point]) -> None:
        if not points:
            return
        path = self.canvas.beginPath()
        path.moveTo(*self.place(*points[0]))
        for point in points[1:]:
            path.lineTo(*self.place(*point))
        path.close()
        self._pen(0.35, SOFT)
        self.canvas.drawPath(path, stroke=1, fill=0)

    def hole(self, hole: TemplateHole) -> None:
        """Cross-hairs, a small ring round the middle, and the fastener's own at true size."""
        x, y = self.place(hole.x, hole.y)
        self._cross(x, y, arm(hole))
        self.canvas.circle(x, y, _CENTRE * MM, fill=0)
        if hole.diameter is not None:
            self._pen(_RING)
            self.canvas.circle(x, y, hole.diameter / 2 * MM, fill=0)

    def label(self, label: Label) -> None:
        """The letter's shape with the number beside it; letter and size below."""
        hole, (x, y) = label.hole, self.place(label.x, label.y)
        if hole.mark:
            shape(self.canvas, hole.mark, x, y, SHAPE)
            x += (SHAPE + 1) * MM
        base = y - (SHAPE * MM + NUMBER * CAP) / 2
        ink.text(self.canvas, x, base, str(hole.number), font=BOLD, size=NUMBER)
        left, base = self.place(label.x, label.y + label.height)
        ink.text(self.canvas, left, base + 0.6 * MM, said(hole), font=REGULAR, size=SIZE)

    def align(self, mark: AlignMark) -> None:
        """A ring with a cross and its letter."""
        x, y = self.place(mark.x, mark.y)
        self._cross(x, y, MARK)
        self.canvas.circle(x, y, MARK / 2 * MM, fill=0)
        right = (MARK / 2 + 0.6) * MM
        ink.text(self.canvas, x + right, y + 0.8 * MM, mark.name, font=MEDIUM, size=8)

    def seams(self) -> None:
        """A dashed line where sheets are cut and laid together, on both of them."""
        sheet, (wide, high) = self._sheet, self._layout.window
        right, below = seams(self._layout, sheet)
        across = [right] if right is not None else []
        across += [sheet.x + OVERLAP / 2] if sheet.column else []
        down = [below] if below is not None else []
        down += [sheet.y + OVERLAP / 2] if sheet.row else []
        self._pen(0.2, SOFT)
        self.canvas.setDash(2 * MM, 1.5 * MM)
        for x in across:
            self._line(x, sheet.y, x, sheet.y + high)
        for y in down:
            self._line(sheet.x, y, sheet.x + wide, y)
        self.canvas.setDash()

    def _line(self, x1: float, y1: float, x2: float, y2: float) -> None:
        self.canvas.line(*self.place(x1, y1), *self.place(x2, y2))

    def _cross(self, x: float, y: float, reach: float) -> None:
        self._pen(_HAIR)
        self.canvas.line(x - reach * MM, y, x + reach * MM, y)
        self.canvas.line(x, y - reach * MM, x, y + reach * MM)

    def _pen(self, weight: float, colour: ink.RGB = INK) -> None:
        self.canvas.setLineWidth(weight * MM)
        self.canvas.setStrokeColorRGB(*colour)


def shape(canvas: "QuickCanvas", mark: str, left: float, top: float, side: float) -> None:
    """The shape of a line's letter in a square whose top left corner is there, in points; `side`
    in mm."""
    found, radius = shape_of(mark), side * MM / 2.6
    canvas.setLineWidth(_RING * MM)
    canvas.setStrokeColorRGB(*INK)
    for reach in (radius, radius * 0.55) if found.is_double else (radius,):
        _shape(canvas, corners(found), left + side * MM / 2, top - side * MM / 2, reach)


def _shape(
    canvas: "QuickCanvas", points: Sequence[Point], x: float, y: float, radius: float
) -> None:
    if not points:
        canvas.circle(x, y, radius, fill=0)
        return
    path = canvas.beginPath()
    path.moveTo(x + points[0][0] * radius, y - points[0][1] * radius)
    for right, down in points[1:]:
        path.lineTo(x + right * radius, y - down * radius)
    path.close()
    canvas.drawPath(path, stroke=1, fill=0)
