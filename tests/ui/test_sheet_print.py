"""Pages to a system printer: the right sheet, upright or lying, and true to size on it."""

import io

import numpy as np
import pypdfium2
import pytest
from PIL import Image, ImageDraw
from PySide6.QtGui import QPageLayout, QPageSize
from PySide6.QtPrintSupport import QPrinter

from bagtag.ui.sheets.sheet_print import paper_of, print_pages, set_page

DPI = 200


def page(width_mm, height_mm, *marks_mm):
    """A white page with a small black square round each of these places."""
    dots = DPI / 25.4
    image = Image.new("L", (round(width_mm * dots), round(height_mm * dots)), 255)
    pen = ImageDraw.Draw(image)
    for x, y in marks_mm:
        pen.rectangle(((x - 1) * dots, (y - 1) * dots, (x + 1) * dots, (y + 1) * dots), fill=0)
    out = io.BytesIO()
    image.save(out, "PNG")
    return out.getvalue()


@pytest.mark.parametrize(
    ("size", "sheet", "lies"),
    [
        ((210, 297), QPageSize.PageSizeId.A4, QPageLayout.Orientation.Portrait),
        ((297, 210), QPageSize.PageSizeId.A4, QPageLayout.Orientation.Landscape),
        ((420, 297), QPageSize.PageSizeId.A3, QPageLayout.Orientation.Landscape),
        ((279.4, 215.9), QPageSize.PageSizeId.Letter, QPageLayout.Orientation.Landscape),
        ((100, 50), QPageSize.PageSizeId.Custom, QPageLayout.Orientation.Portrait),
    ],
)
def test_a_millimetre_stays_one_however_the_sheet_lies(qapp, tmp_path, size, sheet, lies):
    """Two marks as far apart as the sheet allows, found again on what the printer was given."""
    wide, high = size
    places = [(10.0, 10.0), (wide - 10.0, high - 15.0)]
    png = page(wide, high, *places)
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(tmp_path / "printed.pdf"))
    set_page(printer, paper_of(png, DPI), DPI)
    assert printer.pageLayout().pageSize().id() is sheet
    assert printer.pageLayout().orientation() is lies
    print_pages(printer, [png], DPI)
    with pypdfium2.PdfDocument(tmp_path / "printed.pdf") as document:
        assert len(document) == 1
        printed = document[0].render(scale=DPI / 72, grayscale=True).to_pil()
    ink = np.asarray(printed) < 128
    for x, y in places:
        column, row = round(x * DPI / 25.4), round(y * DPI / 25.4)
        rows, columns = np.nonzero(ink[row - 20 : row + 20, column - 20 : column + 20])
        assert (columns.mean() - 20) * 25.4 / DPI == pytest.approx(0, abs=0.2)
        assert (rows.mean() - 20) * 25.4 / DPI == pytest.approx(0, abs=0.2)
