"""Labels: which stock, where on the sheet, how many; the printed page as it will be."""

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QSettings
from PySide6.QtWidgets import QComboBox, QGridLayout, QWidget

from bagtag import services
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import TOUCH, Field, label
from bagtag.ui.sheets.sheet_dialog import Call, PaperDialog
from bagtag.ui.sheets.sheet_preview import LittleSheet
from bagtag.ui.sheets.sheet_stepper import Stepper

if TYPE_CHECKING:
    from bagtag.services.labels import LabelOrder, Preview

DPI = (203, 300, 600)
PAGES = 3
"""How many pages the preview shows."""


def open_labels(desk: Desk, order: "LabelOrder", parent: QWidget | None = None) -> "LabelDialog":
    """Open the dialog over its window; it goes away by itself."""
    dialog = LabelDialog(desk, order, parent)
    dialog.open()
    return dialog


class LabelDialog(PaperDialog):
    def __init__(self, desk: Desk, order: "LabelOrder", parent: QWidget | None = None) -> None:
        super().__init__(desk, "Print labels", parent)
        self._wanted = order
        self.stocks = services.labels.stocks()
        self._make()
        self._remembered()
        self._lay_controls()
        self._stock_chosen()
        self._listen()
        self.refresh()

    def _make(self) -> None:
        self.stock = QComboBox(self)
        self.stock.addItems([stock.title for stock in self.stocks])
        self.feed = label("", self, scale="small", tone="muted")
        self.sheet = LittleSheet(self)
        self.start = Field("First free place", self.sheet, self)
        self.copies = Stepper("Copies of each", self, least=1, most=99)
        self.right = Stepper("Nudge right, in mm", self, least=-20, most=20, step=0.5)
        self.down = Stepper("Nudge down, in mm", self, least=-20, most=20, step=0.5)
        self.dots = QComboBox(self)
        self.dots.addItems([f"{dpi} dpi" for dpi in DPI])
        for box in (self.stock, self.dots):
            box.setMinimumHeight(TOUCH)

    def _lay_controls(self) -> None:
        self.controls.addWidget(Field("Label stock", self.stock, self))
        self.controls.addWidget(self.feed)
        grid = QGridLayout()
        grid.setHorizontalSpacing(16)
        grid.addWidget(self.start, 0, 0, 3, 1)
        grid.addWidget(Field("Copies of each", self.copies, self), 0, 1)
        grid.addWidget(Field("Printer", self.dots, self), 0, 2)
        grid.addWidget(Field("Nudge right, mm", self.right, self), 1, 1)
        grid.addWidget(Field("Nudge down, mm", self.down, self), 1, 2)
        grid.setRowStretch(2, 1)
        grid.setColumnStretch(1, 1)
        grid.setColumnStretch(2, 1)
        self.controls.addLayout(grid)

    def _listen(self) -> None:
        self.stock.currentIndexChanged.connect(self._stock_chosen)
        self.sheet.chosen.connect(self.later)
        self.copies.changed.connect(self.later)
        self.right.changed.connect(self.later)
        self.down.changed.connect(self.later)
        self.dots.currentIndexChanged.connect(self.later)

    def _stock_chosen(self) -> None:
        stock = self.stocks[self.stock.currentIndex()]
        self.feed.setText(stock.feed)
        self.sheet.set_sheet(stock.columns, stock.rows)
        self.start.setVisible(stock.per_page > 1)
        self.later()

    # What is remembered of the printer, from one time to the next

    def _remembered(self) -> None:
        settings = QSettings()
        names = [stock.name for stock in self.stocks]
        name = str(settings.value("labels/stock", self._wanted.stock))
        self.stock.setCurrentIndex(names.index(name) if name in names else 0)
        dpi = int(str(settings.value("labels/dpi", self._wanted.dpi)))
        self.dots.setCurrentIndex(DPI.index(dpi) if dpi in DPI else 1)
        self.right.set_value(float(str(settings.value("labels/right", self._wanted.nudge[0]))))
        self.down.set_value(float(str(settings.value("labels/down", self._wanted.nudge[1]))))
        self.copies.set_value(self._wanted.copies)

    def remember(self) -> None:
        settings, order = QSettings(), self.order()
        settings.setValue("labels/stock", order.stock)
        settings.setValue("labels/dpi", order.dpi)
        settings.setValue("labels/right", order.nudge[0])
        settings.setValue("labels/down", order.nudge[1])

    def order(self) -> "LabelOrder":
        """The order as the controls say it."""
        stock = self.stocks[self.stock.currentIndex()]
        return replace(
            self._wanted,
            stock=stock.name,
            start=self.sheet.start if stock.per_page > 1 else 1,
            copies=round(self.copies.value),
            nudge=(self.right.value, self.down.value),
            dpi=self.dpi(),
        )

    # What the paper is asked for

    def dpi(self) -> int:
        return DPI[self.dots.currentIndex()]

    def preview_call(self, width_px: int) -> Call:
        return services.labels.preview, (self.order(), width_px, PAGES)

    def file_call(self, path: Path) -> Call:
        self.remember()
        return services.labels.write, (self.order(), path)

    def printer_call(self) -> Call:
        self.remember()
        return services.labels.printed_pages, (self.order(),)

    def made(self) -> None:
        """The tags exist now, and the audit asks for them no more."""
        self.desk.act(services.labels.mark_printed, self.order())

    def file_name(self) -> str:
        return "labels.pdf"

    def show_preview(self, preview: "Preview") -> None:
        self.pages.show_pages(preview.pages)
        self.said.setText(counted(preview.report, len(preview.pages)))
        self.say_wrong("\n".join(preview.report.warnings[:4]) + more(preview.report.warnings))


def counted(report: Any, shown: int) -> str:
    """`21 labels on 1 page.`"""
    labels, pages = report.labels, report.pages
    said = f"{labels} label{'s' * (labels != 1)} on {pages} page{'s' * (pages != 1)}."
    return said if shown == pages else f"{said} The first {shown} are shown."


def more(warnings: tuple[str, ...]) -> str:
    rest = len(warnings) - 4
    return f"\nand {rest} more." if rest > 0 else ""
