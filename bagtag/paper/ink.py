"""The few colours on a checklist: ink, a lighter ink, hairlines, and one accent that is dark
enough to stand out in black and white too."""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

RGB = tuple[float, float, float]

INK: RGB = (0.11, 0.12, 0.14)
SOFT: RGB = (0.36, 0.37, 0.39)
HAIR: RGB = (0.72, 0.71, 0.69)
ACCENT: RGB = (0xB0 / 255, 0x39 / 255, 0x1E / 255)
WHITE: RGB = (1.0, 1.0, 1.0)


def bar(canvas: "Canvas", x: float, y: float, *, width: float, height: float, colour: RGB) -> None:
    canvas.setFillColorRGB(*colour)
    canvas.rect(x, y, width, height, stroke=0, fill=1)


def square(canvas: "Canvas", x: float, y: float, side: float) -> None:
    """An empty box in ink."""
    canvas.setStrokeColorRGB(*INK)
    canvas.setLineWidth(1.1)
    canvas.rect(x, y, side, side, stroke=1, fill=0)


def rule(
    canvas: "Canvas", x: float, y: float, width: float, *, colour: RGB = HAIR, weight: float = 0.5
) -> None:
    canvas.setStrokeColorRGB(*colour)
    canvas.setLineWidth(weight)
    canvas.line(x, y, x + width, y)


def text(
    canvas: "Canvas",
    x: float,
    y: float,
    words: str,
    *,
    font: str,
    size: float,
    colour: RGB = INK,
) -> None:
    canvas.setFillColorRGB(*colour)
    canvas.setFont(font, size)
    canvas.drawString(x, y, words)
