"""Labels as a PDF: one page a label on a roll, a grid of them on a sheet."""

from collections.abc import Iterable, Iterator, Sequence
from io import BytesIO
from itertools import repeat, starmap
from math import ceil
from typing import TYPE_CHECKING

from bagtag.domain.errors import BadInput
from bagtag.paper import qr
from bagtag.paper.label_layout import layout
from bagtag.paper.label_text import Bar, LabelText, Laid, Report
from bagtag.paper.pdf import MM, open_canvas
from bagtag.paper.stock import Cell, Stock, cells
from bagtag.paper.whole_file import Target, write

if TYPE_CHECKING:
    from bagtag.paper.quick_canvas import QuickCanvas

__all__ = ["LabelText", "Laid", "Report", "label_pdf", "layout"]


def label_pdf(
    target: Target,
    labels: Sequence[LabelText],
    stock: Stock,
    *,
    start: int = 1,
    copies: int = 1,
    nudge: tuple[float, float] = (0.0, 0.0),
    dpi: int = 300,
) -> Report:
    """Print labels into a PDF file or an open binary stream.

    `start` is the first free position of a part-used sheet, counted from 1; `copies` of a label
    lie side by side; `nudge` moves everything right and down, in mm; `dpi` is the printer's, so
    that every module is whole dots. The page is the stock's, to the nearest dot. BadInput for a
    start, a number of copies or a stock that cannot be printed.
    """
    _check(labels, copies)
    places = cells(stock, len(labels) * copies, start=start, nudge=nudge)
    page = _whole_dots(stock.page_width, dpi), _whole_dots(stock.page_height, dpi)
    into = BytesIO()
    canvas = open_canvas(into, "Labels", page)
    left_out: dict[str, list[int]] = {}
    laid = _copies(labels, stock, dpi, copies, left_out)
    pages = _print(canvas, zip(places, laid, strict=True), stock, page[1])
    canvas.save()
    write(into.getvalue(), target)
    return Report(pages, len(labels) * copies, tuple(starmap(_warning, left_out.items())))


def _check(labels: Sequence[LabelText], copies: int) -> None:
    if not labels:
        raise BadInput("There is no label to print; choose at least one.", field="labels")
    if not 1 <= copies <= 100:
        raise BadInput(
            f"{copies} copies of a label cannot be printed; say 1 to 100.", field="copies"
        )


def _copies(
    labels: Iterable[LabelText], stock: Stock, dpi: int, copies: int, left_out: dict[str, list[int]]
) -> Iterator[Laid]:
    """Each label laid out once, as often as it is to be printed; what it leaves out is noted."""
    for number, label in enumerate(labels, start=1):
        laid = layout(label, stock, dpi)
        for sentence in laid.left_out:
            left_out.setdefault(sentence, []).append(number)
        yield from repeat(laid, copies)


def _warning(sentence: str, numbers: list[int]) -> str:
    """`Label 12: the area did not fit.`, `Labels 1, 3 to 7 and 9: the job was cut.`"""
    said = sentence if sentence.startswith("Roboto") else sentence[0].lower() + sentence[1:]
    *first, last = _ranges(numbers)
    which = f"{', '.join(first)} and {last}" if first else last
    return f"Label{'s' if len(numbers) > 1 else ''} {which}: {said}"


def _ranges(numbers: list[int]) -> list[str]:
    """Rising numbers, three or more in a row as one stretch: 1, 3 to 7, 9."""
    stretches: list[list[int]] = []
    for number in numbers:
        if stretches and number == stretches[-1][-1] + 1:
            stretches[-1].append(number)
        else:
            stretches.append([number])
    return [
        part for s in stretches for part in ([f"{s[0]} to {s[-1]}"] if len(s) > 2 else map(str, s))
    ]


def _print(
    canvas: "QuickCanvas", placed: Iterable[tuple[Cell, Laid]], stock: Stock, height: float
) -> int:
    page = 0
    for cell, laid in placed:
        if cell.page != page:
            canvas.showPage()
            page = cell.page
        dot = 72 / laid.dpi
        left, top = round(cell.x * MM / dot) * dot, height - round(cell.y * MM / dot) * dot
        draw(canvas, laid, left, top)
        _punch_mark(canvas, stock, left, top)
    return page + 1


def draw(canvas: "QuickCanvas", laid: Laid, left: float, top: float) -> None:
    """Paint one label with its top left corner at (left, top) in points; black and white only."""
    dot = 72 / laid.dpi
    for bar in laid.bars:
        _draw_bar(canvas, bar, laid.dpi, left, top)
    _draw_words(canvas, laid, left, top)
    for placed in laid.pictures:
        from bagtag.paper.picture import paint

        x, y = left + placed.x * MM, top - (placed.y + placed.height) * MM
        paint(canvas, placed.picture, x, y, placed.width * MM, placed.height * MM, black=True)
    qr.draw(canvas, laid.code, left + laid.qr_x * dot, top - laid.qr_y * dot, laid.module * dot)


def _draw_bar(canvas: "QuickCanvas", bar: Bar, dpi: int, left: float, top: float) -> None:
    """A bar with its edges on printer dots, so that it is as crisp as the symbol."""
    dot = 72 / dpi
    x, y = round(bar.x * MM / dot), round(bar.y * MM / dot)
    right, foot = round((bar.x + bar.width) * MM / dot), round((bar.y + bar.height) * MM / dot)
    wide, high = max(1, right - x) * dot, max(1, foot - y) * dot
    radius = min(0.4 * MM, high / 4)
    canvas.roundRect(left + x * dot, top - y * dot - high, wide, high, radius, stroke=0, fill=1)


def _draw_words(canvas: "QuickCanvas", laid: Laid, left: float, top: float) -> None:
    parts, white = ["q BT 0 g"], False
    for x, y, text, font, size, is_white in laid.words:
        if is_white != white:
            white = is_white
            parts.append("1 g" if white else "0 g")
        parts.append(canvas.words(left + x * MM, top - y * MM, text, font, size * MM))
    canvas.addLiteral(" ".join([*parts, "ET Q"]))


def _punch_mark(canvas: "QuickCanvas", stock: Stock, left: float, top: float) -> None:
    """A fine ring where the hole of a tie-on tag is, or is to be punched."""
    if stock.hole is not None:
        hole = stock.hole
        canvas.setLineWidth(0.25 * MM)
        canvas.circle(left + hole.x * MM, top - hole.y * MM, hole.diameter / 2 * MM, fill=0)


def _whole_dots(length_mm: float, dpi: int) -> float:
    """A page side in points: whole dots, less a thousandth of a point, as renderers round up."""
    points = round(length_mm / qr.INCH_MM * dpi) * qr.INCH_POINTS / dpi
    return ceil(points * 1000) / 1000 - 0.001
