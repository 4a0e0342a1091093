"""The QR symbol of a tag code: version 1, level H, one fixed mask, on the printer's dots.

One code has exactly one pattern, so that a worn label can be matched against the tags there are.
Version 1 at level H holds ten alphanumeric characters (ISO/IEC 18004); a code has six.
"""

from collections.abc import Iterator
from functools import cache
from typing import TYPE_CHECKING

from bagtag.domain.codes import LENGTH

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

SIZE = 21
QUIET = 4
MASK = 3
LARGEST_MM = 20.0
"""A symbol of 20 mm without its quiet zone reads best; a larger one gains nothing."""

INCH_MM = 25.4
INCH_POINTS = 72.0

Matrix = tuple[tuple[bool, ...], ...]
Run = tuple[int, int, int]


def matrix(code: str) -> Matrix:
    """The 21 x 21 modules of a bare six-character code, True for black, top row first."""
    from qrcode.constants import ERROR_CORRECT_H
    from qrcode.main import QRCode
    from qrcode.util import MODE_ALPHA_NUM, QRData

    assert len(code) == LENGTH, f"a bare code is wanted, not {code!r}"
    symbol = QRCode(version=1, error_correction=ERROR_CORRECT_H, mask_pattern=MASK)
    symbol.add_data(QRData(code, mode=MODE_ALPHA_NUM))
    symbol.make(fit=False)
    return tuple(tuple(map(bool, row)) for row in symbol.modules)


def runs(modules: Matrix) -> Iterator[Run]:
    """The black stretches as (column, row, length), row by row from the top."""
    for y, row in enumerate(modules):
        x = 0
        while x < len(row):
            length = _stretch(row, x)
            if row[x]:
                yield x, y, length
            x += length


def _stretch(row: tuple[bool, ...], start: int) -> int:
    """How many modules from `start` on have its colour."""
    end = start + 1
    while end < len(row) and row[end] == row[start]:
        end += 1
    return end - start


def module_mm(dpi: int, room_mm: float) -> float:
    """The largest module of whole printer dots: the symbol at most 20 mm, and with its quiet zone
    inside `room_mm`. 0.0 when not even one dot a module fits."""
    return module_dots(dpi, room_mm) * INCH_MM / dpi


def module_dots(dpi: int, room_mm: float) -> int:
    """The same module in printer dots."""
    largest = min(LARGEST_MM / SIZE, room_mm / (SIZE + 2 * QUIET))
    return int(largest * dpi / INCH_MM + 1e-6)


def draw(canvas: "Canvas", code: str, x: float, y: float, module_pt: float) -> None:
    """Paint the symbol with its top left corner at (x, y) in points, `y` upwards.

    One path of whole stretches in module units under one transform: a rectangle for each module
    would be fattened by the renderer, and figures in points would cost more than the matrix.
    """
    frame = f"q {module_pt:.6f} 0 0 {-module_pt:.6f} {x:.5f} {y:.5f} cm"
    canvas.addLiteral(f"{frame} {_path(code)} f* Q")


def _path(code: str) -> str:
    rectangles = _rectangles()
    return " ".join([rectangles[run] for run in runs(matrix(code))])


@cache
def _rectangles() -> dict[Run, str]:
    """PDF's words for every stretch there can be, written once."""
    places = [(x, y) for x in range(SIZE) for y in range(SIZE)]
    return {
        (x, y, length): f"{x} {y} {length} 1 re"
        for x, y in places
        for length in range(1, SIZE - x + 1)
    }
