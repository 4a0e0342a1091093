"""Several of a few: each a chip that is ticked or not."""

from collections.abc import Sequence
from typing import Any

from PySide6.QtCore import QPointF, QRectF, Qt, Signal
from PySide6.QtGui import QColor, QKeyEvent, QPainter, QPen
from PySide6.QtWidgets import QWidget

from bagtag.ui.forms.choices import Option
from bagtag.ui.forms.flow import FlowBox
from bagtag.ui.forms.inks import inks
from bagtag.ui.forms.plain import Plain

_TICK = 18


class Toggle(Plain):
    """A word with a box that is ticked; Space ticks it, Enter is the form's."""

    air = 3

    def __init__(self, option: Option, parent: QWidget) -> None:
        self.option = option
        super().__init__(option.title, parent)
        self.setCheckable(True)
        self.setAccessibleName(f"{parent.accessibleName()}: {option.title}")
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)

    def left(self) -> int:
        return self.pad + _TICK + 8

    def look(self) -> tuple[QColor, QColor, float]:
        strong = self.underMouse() or self.isDown()
        ground = inks().tape if self.isChecked() else inks().card
        return ground, inks().accent if self.isChecked() else inks().edge(strong), 17

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Space:
            self.click()
        else:
            event.ignore()

    def paint_text(self, painter: QPainter) -> None:
        self.paint_box(painter)
        super().paint_text(painter)

    def paint_box(self, painter: QPainter) -> None:
        """The box, with its tick where it is ticked."""
        box = QRectF(self.pad, (self.height() - _TICK) / 2, _TICK, _TICK)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(inks().muted, 1.5))
        painter.drawRoundedRect(box, 3, 3)
        if self.isChecked():
            self._paint_tick(painter, box)

    def _paint_tick(self, painter: QPainter, box: QRectF) -> None:
        painter.setPen(QPen(inks().accent, 3, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap))
        foot = QPointF(box.x() + 0.4 * _TICK, box.bottom() - 4)
        painter.drawLine(QPointF(box.x() + 4, box.center().y() + 1), foot)
        painter.drawLine(foot, QPointF(box.right() - 3, box.y() + 4))


class Toggles(FlowBox):
    """Chips side by side, in the order given."""

    changed = Signal()

    def __init__(self, name: str, options: Sequence[Option], parent: QWidget) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        self.chips = [Toggle(option, self) for option in options]
        for chip in self.chips:
            chip.clicked.connect(self._tell)
            self.flow.addWidget(chip)
        self.setFocusProxy(self.chips[0])

    @property
    def values(self) -> tuple[Any, ...]:
        return tuple(chip.option.value for chip in self.chips if chip.isChecked())

    def set_values(self, values: Sequence[Any]) -> None:
        for chip in self.chips:
            chip.setChecked(chip.option.value in values)

    def _tell(self) -> None:
        self.changed.emit()
