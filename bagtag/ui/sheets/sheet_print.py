"""Pages to a system printer, at their true size."""

from collections.abc import Sequence

from PySide6.QtCore import QMarginsF, QRectF, QSizeF
from PySide6.QtGui import QImage, QPageLayout, QPageSize, QPainter
from PySide6.QtPrintSupport import QPrinter, QPrinterInfo

from bagtag.domain.errors import StoreTrouble

MM_PER_INCH = 25.4
NO_PRINTER = (
    "No printer is set up on this machine. Save the pages as PDF and print them where there is one."
)


def has_printer() -> bool:
    return bool(QPrinterInfo.availablePrinterNames())


def paper_of(png: bytes, dpi: int) -> QSizeF:
    """The size of a rendered page in mm."""
    image = QImage.fromData(png)
    return QSizeF(image.width() * MM_PER_INCH / dpi, image.height() * MM_PER_INCH / dpi)


def set_page(printer: QPrinter, paper: QSizeF, dpi: int) -> None:
    """No margins and no fitting to the page: a millimetre stays a millimetre."""
    printer.setResolution(dpi)
    printer.setFullPage(True)
    layout = QPageLayout(*_as_it_lies(paper), QMarginsF(0, 0, 0, 0))
    layout.setMode(QPageLayout.Mode.FullPageMode)
    printer.setPageLayout(layout)


def _as_it_lies(paper: QSizeF) -> tuple[QPageSize, QPageLayout.Orientation]:
    """A sheet of a known size that lies on its side is that sheet turned, not one of its own size,
    which a printer would not have in its tray."""
    turned = _page_size(paper.transposed())
    if paper.width() > paper.height() and turned.id() is not QPageSize.PageSizeId.Custom:
        return turned, QPageLayout.Orientation.Landscape
    return _page_size(paper), QPageLayout.Orientation.Portrait


def _page_size(paper: QSizeF) -> QPageSize:
    return QPageSize(paper, QPageSize.Unit.Millimeter, "", QPageSize.SizeMatchPolicy.FuzzyMatch)


def print_pages(printer: QPrinter, pngs: Sequence[bytes], dpi: int) -> None:
    """Draw each page, rendered at `dpi`, at its true size; StoreTrouble when it cannot be begun."""
    painter = QPainter()
    if not painter.begin(printer):
        raise StoreTrouble("The printer does not take the pages. Look at it, or save them as PDF.")
    scale = printer.resolution() / dpi
    for index, png in enumerate(pngs):
        if index:
            printer.newPage()
        image = QImage.fromData(png)
        place = QRectF(0, 0, image.width() * scale, image.height() * scale)
        painter.drawImage(place, image)
    painter.end()
