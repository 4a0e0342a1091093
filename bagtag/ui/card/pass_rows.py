"""The passes of a joint, each with its box to tick."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QRect, QSize, Qt, Signal
from PySide6.QtGui import QColor, QFontMetrics, QPainter
from PySide6.QtWidgets import QSizePolicy, QVBoxLayout, QWidget

from bagtag.domain.phrases import whole
from bagtag.ui.entry.toggles import Toggle
from bagtag.ui.forms.basics import TOUCH, clear_layout, tight
from bagtag.ui.forms.choices import Option
from bagtag.ui.forms.inks import inks, sized

if TYPE_CHECKING:
    from bagtag.domain.joint import Joint

DUE = "now"
WRAP = Qt.TextFlag.TextWordWrap


class PassRow(Toggle):
    """A box, the pass in words, and at the right who did it; the one now due is marked."""

    def __init__(self, place: int, words: str, parent: QWidget) -> None:
        super().__init__(Option(place, words), parent)
        self.aside = ""
        self.is_due = False
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def show_state(self, *, ticked_by: str | None, is_due: bool) -> None:
        """`ticked_by` is None where it is not ticked."""
        self.setChecked(ticked_by is not None)
        self.aside = DUE if is_due else (ticked_by or "")
        self.is_due = is_due
        self.setAccessibleDescription(self.aside)
        self.updateGeometry()
        self.update()

    def look(self) -> tuple[QColor, QColor, float]:
        ground, colours = super().look()[0], inks()
        strong = self.underMouse() or self.isDown()
        return ground, colours.accent if self.is_due else colours.edge(strong), 5

    def sizeHint(self) -> QSize:
        return QSize(min(super().sizeHint().width() + self._aside(), 420), TOUCH)

    def heightForWidth(self, width: int) -> int:
        """Long words go on in the next line: no figure is cut."""
        room = QRect(0, 0, width - self.left() - self.pad - self._aside(), 10_000)
        font = sized(self, 16, bold=self.is_due)
        words = QFontMetrics(font).boundingRect(room, WRAP, self.text())
        return max(TOUCH, words.height() + 14)

    def _aside(self) -> int:
        wide = QFontMetrics(sized(self, 13)).horizontalAdvance(self.aside)
        return wide + 10 if wide else 0

    def paint_text(self, painter: QPainter) -> None:
        self.paint_box(painter)
        colours = inks()
        painter.setPen(colours.ink)
        painter.setFont(sized(self, 16, bold=self.is_due))
        room = self.rect().adjusted(self.left(), 0, -self.pad - self._aside(), 0)
        painter.drawText(room, WRAP | Qt.AlignmentFlag.AlignVCenter, self.text())
        painter.setFont(sized(self, 13))
        painter.setPen(colours.accent if self.is_due else colours.muted)
        right = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        painter.drawText(self.rect().adjusted(0, 0, -self.pad, 0), right, self.aside)


class PassRows(QWidget):
    """One row for each pass, in turn."""

    ticked = Signal(int, bool)
    """The row of a pass was pressed: whether it is to be ticked now."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAccessibleName("Passes")
        self.rows: list[PassRow] = []
        self._column = QVBoxLayout(self)
        tight(self._column, 2)
        self.hide()

    def show_joint(self, joint: Joint | None) -> None:
        """The passes of this joint, ticked as far as they are done."""
        rounds = joint.rounds if joint is not None else ()
        words = [f"{n}  {whole(one.words)}" for n, one in enumerate(rounds, 1)]
        if [row.text() for row in self.rows] != words:
            self._remake(words)
        names = {tick.place: tick.who for tick in joint.ticks} if joint is not None else {}
        for place, row in enumerate(self.rows):
            is_due = joint is not None and place == joint.due
            row.show_state(ticked_by=names.get(place), is_due=is_due)
        self.setVisible(bool(self.rows))

    def _remake(self, words: list[str]) -> None:
        clear_layout(self._column)
        self.rows = [PassRow(place, said, self) for place, said in enumerate(words)]
        for row in self.rows:
            row.clicked.connect(self._pressed)
            self._column.addWidget(row)
            row.show()

    def _pressed(self) -> None:
        row = self.sender()
        assert isinstance(row, PassRow)
        self.ticked.emit(row.option.value, row.isChecked())
