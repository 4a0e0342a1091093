"""reportlab's canvas with the strokes that our pages are made of written in one go each.

reportlab formats every figure by itself in Python, which is most of the time a page of labels
takes. Three decimals of a point are 0.35 µm. Imported when something is printed.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from reportlab.pdfbase.pdfmetrics import getFont
from reportlab.pdfgen.canvas import Canvas

ROUND = 0.5522847498
"""Control points of the four Bézier curves of a circle, in radii (4/3 · (√2 - 1))."""

_PAINT = {(0, 0): "n", (1, 0): "S", (0, 1): "f", (1, 1): "B"}


class QuickCanvas(Canvas):  # type: ignore[misc]  # reportlab has no types
    """Draws what its parent draws; state is kept by saveState and restoreState as ever."""

    _code: list[str]

    def setLineWidth(self, width: float) -> None:
        self._lineWidth = width
        self._code.append(f"{width:.3f} w")

    def setStrokeColorRGB(self, r: float, g: float, b: float, alpha: Any = None) -> None:
        self._code.append(f"{r:.3f} {g:.3f} {b:.3f} RG")

    def setFillColorRGB(self, r: float, g: float, b: float, alpha: Any = None) -> None:
        self._code.append(f"{r:.3f} {g:.3f} {b:.3f} rg")

    def line(self, x1: float, y1: float, x2: float, y2: float) -> None:
        self._code.append(f"n {x1:.3f} {y1:.3f} m {x2:.3f} {y2:.3f} l S")

    def circle(self, x_cen: float, y_cen: float, r: float, stroke: int = 1, fill: int = 0) -> None:
        self.roundRect(x_cen - r, y_cen - r, 2 * r, 2 * r, r, stroke, fill)

    def roundRect(  # noqa: PLR0917  # the parent's own order of arguments
        self,
        x: float,
        y: float,
        width: float,
        height: float,
        radius: float,
        stroke: int = 1,
        fill: int = 0,
    ) -> None:
        right, top, k = x + width, y + height, radius * (1 - ROUND)
        a, b, c, d = x + radius, right - radius, y + radius, top - radius
        self._code.append(
            f"n {a:.3f} {y:.3f} m {b:.3f} {y:.3f} l "
            f"{right - k:.3f} {y:.3f} {right:.3f} {y + k:.3f} {right:.3f} {c:.3f} c "
            f"{right:.3f} {d:.3f} l "
            f"{right:.3f} {top - k:.3f} {right - k:.3f} {top:.3f} {b:.3f} {top:.3f} c "
            f"{a:.3f} {top:.3f} l "
            f"{x + k:.3f} {top:.3f} {x:.3f} {top - k:.3f} {x:.3f} {d:.3f} c "
            f"{x:.3f} {c:.3f} l "
            f"{x:.3f} {y + k:.3f} {x + k:.3f} {y:.3f} {a:.3f} {y:.3f} c h {_PAINT[stroke, fill]}"
        )

    def drawString(self, x: float, y: float, text: str, *_: Any, **__: Any) -> None:
        self._code.append(f"BT {self.words(x, y, text, self._fontname, self._fontsize)} ET")

    def words(self, x: float, y: float, text: str, font: str, size: float) -> str:
        """PDF's words for a text in one of our fonts, to stand between BT and ET; its letters are
        embedded as with the parent's own text."""
        return f"1 0 0 1 {x:.3f} {y:.3f} Tm {self.letters(text, font, size)}"

    def letters(self, text: str, font: str, size: float) -> str:
        """The same without its place; good for the whole document."""
        face, document = getFont(font), self._doc
        return " ".join(
            [
                f"{face.getSubsetInternalName(subset, document)} {size:.3f} Tf <{part.hex()}> Tj"
                for subset, part in face.splitString(text, document)
            ]
        )

    @contextmanager
    def aside(self) -> Iterator[list[str]]:
        """What is drawn meanwhile comes into the list given instead of on the page."""
        page, strokes = self._code, list[str]()
        self._code = strokes
        try:
            yield strokes
        finally:
            self._code = page
