"""The QR symbol of a tag code: version 1, level H, one fixed mask, on the printer's dots.

One code has exactly one pattern, so that a worn label can be matched against the tags there are.
Version 1 at level H holds ten alphanumeric characters (ISO/IEC 18004); a code has six.
"""

import re
from collections.abc import Iterable, Iterator
from functools import cache, lru_cache
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

ALPHANUMERIC = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:"
"""The characters of QR's alphanumeric mode, by value (ISO/IEC 18004, table 5)."""

_BLACK = re.compile("1+")

Matrix = tuple[tuple[bool, ...], ...]
Run = tuple[int, int, int]


def matrix(code: str) -> Matrix:
    """The 21 x 21 modules of a bare six-character code, True for black, top row first."""
    return tuple(tuple(module == "1" for module in row) for row in _rows(code))


def runs(modules: Iterable[Iterable[bool]]) -> Iterator[Run]:
    """The black stretches as (column, row, length), row by row from the top."""
    for y, row in enumerate(modules):
        for found in _BLACK.finditer("".join("1" if module else "0" for module in row)):
            yield found.start(), y, found.end() - found.start()


def _rows(code: str) -> list[str]:
    """The modules as 21 texts of 0 and 1.

    With version, level, mode and mask fixed, every module is a sum over GF(2) of the data bits
    (Reed-Solomon and masking are linear): the library draws the symbols of no bit and of each bit
    once, and a code is the sum of those it sets. That is fifty times quicker than drawing it anew.
    """
    blank, pairs = _symbols()
    total = blank
    for place in range(0, LENGTH, 2):
        value = 45 * ALPHANUMERIC.index(code[place]) + ALPHANUMERIC.index(code[place + 1])
        for bit, symbol in enumerate(pairs[place // 2]):
            if value >> bit & 1:
                total ^= symbol
    modules = format(total, f"0{SIZE * SIZE}b")
    return [modules[start : start + SIZE] for start in range(0, SIZE * SIZE, SIZE)]


@cache
def _symbols() -> tuple[int, tuple[tuple[int, ...], ...]]:
    """The symbol of "000000", and what each of the eleven bits of each pair of characters adds."""
    blank = _library("0" * LENGTH)
    return blank, tuple(
        tuple(_library(_with_bit(place, bit)) ^ blank for bit in range(11))
        for place in range(0, LENGTH, 2)
    )


def _with_bit(place: int, bit: int) -> str:
    """Six characters of which only the pair at `place` has a value: one bit of it."""
    first, second = divmod(1 << bit, 45)
    pair = ALPHANUMERIC[first] + ALPHANUMERIC[second]
    return pair.rjust(place + 2, "0").ljust(LENGTH, "0")


def _library(text: str) -> int:
    """The symbol of six characters as `qrcode` draws it, row by row, top left first."""
    from qrcode.constants import ERROR_CORRECT_H
    from qrcode.main import QRCode
    from qrcode.util import MODE_ALPHA_NUM, QRData

    symbol = QRCode(version=1, error_correction=ERROR_CORRECT_H, mask_pattern=MASK)
    symbol.add_data(QRData(text, mode=MODE_ALPHA_NUM))
    symbol.make(fit=False)
    return int("".join("1" if module else "0" for row in symbol.modules for module in row), 2)


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
    """Every stretch as a PDF rectangle. A row is written in three parts that end where the finder
    patterns end, so that few stretches are cut and every part has been written before."""
    return " ".join(
        [
            words
            for y, row in enumerate(_rows(code))
            for x in (0, 7, 14)
            if (words := _part(x, y, row[x : x + 7]))
        ]
    )


@lru_cache(maxsize=3 * SIZE * 2**7)
def _part(x: int, y: int, modules: str) -> str:
    """Seven modules of row `y` from column `x` on, in PDF's words."""
    stretches = runs([[module == "1" for module in modules]])
    return " ".join(f"{x + start} {y} {length} 1 re" for start, _, length in stretches)
