"""Buttons that carry a person's own words: painted, so that no `&` in them is read as a key."""

from PySide6.QtCore import QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QFontMetrics,
    QKeyEvent,
    QKeySequence,
    QPainter,
    QPaintEvent,
    QPen,
    QShortcut,
)
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QWidget

from bagtag.ui.forms.basics import ENTER, TOUCH
from bagtag.ui.forms.inks import inks, sized


class Plain(QAbstractButton):
    """Text on a ground with rounded corners; `air` is kept free above and below it."""

    pad = 14
    air = 1

    def __init__(self, text: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.setText(text)
        self.setAccessibleName(text)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def look(self) -> tuple[QColor, QColor, float]:
        """Ground, edge and the radius of the corners."""
        return inks().tape, inks().line, 5

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (*ENTER, Qt.Key.Key_Space):
            self.click()
        else:
            event.ignore()

    def sizeHint(self) -> QSize:
        wide = QFontMetrics(sized(self, 16)).horizontalAdvance(self.text())
        return QSize(wide + self.left() + self.pad + 4, TOUCH)

    def minimumSizeHint(self) -> QSize:
        return QSize(min(self.sizeHint().width(), 80), TOUCH)

    def left(self) -> int:
        """Where the text begins."""
        return self.pad

    def paintEvent(self, _: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        ground, edge, radius = self.look()
        focus = self.hasFocus()
        painter.setBrush(ground)
        painter.setPen(QPen(inks().accent if focus else edge, 2 if focus else 1))
        frame = QRectF(self.rect()).adjusted(1, self.air, -1, -self.air)
        painter.drawRoundedRect(frame, radius, radius)
        self.paint_text(painter)
        painter.end()

    def paint_text(self, painter: QPainter) -> None:
        painter.setPen(inks().ink)
        painter.setFont(sized(self, 16))
        room = self.rect().adjusted(self.left(), 0, -self.pad, 0)
        dots = Qt.TextElideMode.ElideRight
        text = painter.fontMetrics().elidedText(self.text(), dots, room.width() + 3)
        painter.drawText(room.adjusted(0, 0, 3, 0), Qt.AlignmentFlag.AlignVCenter, text)


class Chip(Plain):
    """A word to take instead of typing it; by keyboard the field beside it offers the same."""

    air = 5

    def __init__(self, text: str, parent: QWidget) -> None:
        super().__init__(text, parent)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)

    def look(self) -> tuple[QColor, QColor, float]:
        ground = inks().card if self._is_on_tape() else inks().tape
        return inks().line if self.isDown() or self.underMouse() else ground, inks().line, 17

    def _is_on_tape(self) -> bool:
        """Tape on tape would not be seen."""
        above = self.parentWidget()
        while above is not None and above.property("surface") is None:
            above = above.parentWidget()
        return above is not None and above.property("surface") == "tape"


class Slip(Plain):
    """A line of what was entered, as a slip of tape. Delete takes it out. One that is longer than
    its place is wide goes on in the next line."""

    removed = Signal()

    def __init__(self, text: str, parent: QWidget) -> None:
        super().__init__(text, parent)
        self._open = False
        policy = self.sizePolicy()
        policy.setVerticalPolicy(QSizePolicy.Policy.Preferred)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def hasHeightForWidth(self) -> bool:
        return self.sizePolicy().hasHeightForWidth()

    def heightForWidth(self, width: int) -> int:
        metrics = QFontMetrics(sized(self, 16))
        room = QRect(0, 0, max(width - self.left() - self.pad, 1), 10_000)
        lines = metrics.boundingRect(room, Qt.TextFlag.TextWordWrap, self.text()).height()
        return TOUCH - metrics.height() + max(lines, metrics.height())

    def paint_text(self, painter: QPainter) -> None:
        if not self.hasHeightForWidth() or self.height() <= TOUCH:
            super().paint_text(painter)
            return
        painter.setPen(inks().ink)
        painter.setFont(sized(self, 16))
        room = self.rect().adjusted(self.left(), 0, -self.pad, 0)
        painter.drawText(
            room, Qt.AlignmentFlag.AlignVCenter | Qt.TextFlag.TextWordWrap, self.text()
        )

    def set_open(self, opened: bool) -> None:
        self._open = opened
        self.update()

    def look(self) -> tuple[QColor, QColor, float]:
        return inks().tape, inks().accent if self._open else inks().line, 5

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace):
            self.removed.emit()
        else:
            super().keyPressEvent(event)


class KeyButton(Plain):
    """A word with the key that does the same, alone or with Alt."""

    def __init__(self, key: str, text: str, parent: QWidget) -> None:
        self.key = key
        super().__init__(text, parent)
        # A button's own shortcut acts 100 ms late: what is typed next would land elsewhere.
        self._shortcut = QShortcut(QKeySequence(f"Alt+{key}"), self)
        self._shortcut.activated.connect(self.click)
        self.setAccessibleName(f"{text}, key {key}")

    def left(self) -> int:
        return self.pad + 20

    def look(self) -> tuple[QColor, QColor, float]:
        strong = self.isDown() or self.underMouse()
        return inks().tape if strong else inks().card, inks().muted, 6

    def paint_text(self, painter: QPainter) -> None:
        painter.setFont(sized(self, 16, bold=True))
        painter.setPen(inks().accent)
        room = self.rect().adjusted(self.pad, 0, 0, 0)
        painter.drawText(room, Qt.AlignmentFlag.AlignVCenter, self.key)
        super().paint_text(painter)
