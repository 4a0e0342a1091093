"""Roboto on paper: registered once, measured quickly, and its missing letters named."""

import unicodedata
from functools import cache, lru_cache
from pathlib import Path

REGULAR, MEDIUM, BOLD = "Roboto", "Roboto-Medium", "Roboto-Bold"
_FILES = {REGULAR: "Roboto-Regular.ttf", MEDIUM: "Roboto-Medium.ttf", BOLD: "Roboto-Bold.ttf"}

CAP = 1456 / 2048
"""Height of a capital as a share of the font size: sCapHeight over unitsPerEm in Roboto's files."""

DESCENT = 0.22
"""How far g, p and y reach under the line, as a share of the font size."""


@cache
def register() -> None:
    """Make Roboto known to reportlab under the three names above; a second call does nothing."""
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    for name, file in _FILES.items():
        pdfmetrics.registerFont(TTFont(name, str(_folder() / file)))


def width(text: str, font: str, size: float) -> float:
    """How wide `text` runs, in the unit of `size`."""
    return ems(text, font) * size


@lru_cache(maxsize=20_000)
def ems(text: str, font: str) -> float:
    """How wide `text` runs, in font sizes."""
    widths, missing = _widths(font)
    get = widths.get
    return sum([get(letter, missing) for letter in text])


def missing_glyphs(text: str) -> str:
    """The letters of `text` that Roboto cannot print, each once, in the order they come."""
    known = _widths(REGULAR)[0]
    return "".join(dict.fromkeys(c for c in tidy(text) if c not in known))


def tidy(text: str) -> str:
    """One line, single spaces, composed letters: "é" typed as two signs prints as one."""
    line = " ".join(text.split())
    return line if line.isascii() else unicodedata.normalize("NFC", line)


def _folder() -> Path:
    import font_roboto

    return Path(font_roboto.font_directory)


@cache
def _widths(font: str) -> tuple[dict[str, float], float]:
    """Advance of each letter in ems, and that of the box drawn for a missing one."""
    from reportlab.pdfbase import pdfmetrics

    register()
    face = pdfmetrics.getFont(font).face
    table = {chr(code): wide / 1000 for code, wide in face.charWidths.items()}
    return table, face.defaultWidth / 1000
