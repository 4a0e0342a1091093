"""Pages of paper on screen: the printed page itself, as a picture; and a little sheet to click."""

from collections.abc import Sequence

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QImage,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QPixmap,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from bagtag.ui.forms.basics import clear_layout
from bagtag.ui.forms.inks import inks_of
from bagtag.ui.forms.scroll import Scroll

PAPER = QColor(255, 255, 255)


class Page(QWidget):
    """One page, as wide as there is room for, with a fine edge."""

    def __init__(self, png: bytes, number: int, of: int, parent: QWidget) -> None:
        super().__init__(parent)
        self._pixmap = QPixmap.fromImage(QImage.fromData(png))
        self.setAccessibleName(f"Page {number} of {of}")
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def _shown_width(self, room: int) -> int:
        """Never larger than the picture is sharp."""
        return min(room - 8, round(self._pixmap.width() / self.devicePixelRatio()))

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        shown = self._shown_width(width)
        return round(shown * self._pixmap.height() / max(self._pixmap.width(), 1)) + 8

    def sizeHint(self) -> QSize:
        return QSize(420, self.heightForWidth(420))

    def minimumSizeHint(self) -> QSize:
        return QSize(160, 40)

    def paintEvent(self, _: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        wide = self._shown_width(self.width())
        high = self.heightForWidth(self.width()) - 8
        place = QRectF((self.width() - wide) / 2, 4, wide, high)
        painter.drawPixmap(place, self._pixmap, QRectF(self._pixmap.rect()))
        painter.setPen(QPen(inks_of(self)[2], 1))
        painter.drawRect(place)
        painter.end()


class Pages(Scroll):
    """The pages of a preview, one below the other."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent, "Preview: the printed pages")
        self.pages: list[Page] = []

    def show_pages(self, pngs: Sequence[bytes]) -> None:
        clear_layout(self.column)
        count = len(pngs)
        self.pages = [Page(png, n, count, self.body) for n, png in enumerate(pngs, 1)]
        for page in self.pages:
            self.column.addWidget(page)
        self.column.addStretch(1)


class LittleSheet(QWidget):
    """A label sheet to click: the first place still free. Arrows move it too."""

    chosen = Signal(int)

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._columns, self._rows, self._start = 1, 1, 1
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self._tell()

    @property
    def start(self) -> int:
        return self._start

    def set_sheet(self, columns: int, rows: int) -> None:
        """Another stock: its places, and the first one chosen when the old one is not on it."""
        self._columns, self._rows = columns, rows
        if self._start > columns * rows:
            self._start = 1
        self._tell()
        self.updateGeometry()

    def choose(self, start: int) -> None:
        if 1 <= start <= self._columns * self._rows and start != self._start:
            self._start = start
            self._tell()
            self.chosen.emit(start)

    def _tell(self) -> None:
        of = self._columns * self._rows
        self.setAccessibleName(f"First free place on the sheet: {self._start} of {of}")
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(150, 200)

    def _cell(self, place: int) -> QRectF:
        row, column = divmod(place - 1, self._columns)
        wide, high = (self.width() - 12) / self._columns, (self.height() - 12) / self._rows
        return QRectF(6 + column * wide, 6 + row * high, wide, high).adjusted(2, 2, -2, -2)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        spot = QPointF(event.position())
        for place in range(1, self._columns * self._rows + 1):
            if self._cell(place).adjusted(-2, -2, 2, 2).contains(spot):
                self.choose(place)
                return

    def keyPressEvent(self, event: QKeyEvent) -> None:
        steps = {
            Qt.Key.Key_Left: -1,
            Qt.Key.Key_Right: 1,
            Qt.Key.Key_Up: -self._columns,
            Qt.Key.Key_Down: self._columns,
        }
        step = steps.get(Qt.Key(event.key()))
        if step is None:
            super().keyPressEvent(event)
        else:
            self.choose(self._start + step)

    def paintEvent(self, _: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        ink, accent, faint = inks_of(self)
        painter.setPen(QPen(accent if self.hasFocus() else faint, 2 if self.hasFocus() else 1))
        painter.setBrush(PAPER)
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(1, 1, -1, -1), 4, 4)
        for place in range(1, self._columns * self._rows + 1):
            self._paint_cell(painter, place, (ink, accent, faint))
        painter.end()

    def _paint_cell(
        self, painter: QPainter, place: int, inks: tuple[QColor, QColor, QColor]
    ) -> None:
        _ink, accent, _faint = inks
        used = QColor(222, 219, 212)
        painter.setPen(QPen(QColor(170, 166, 158), 1) if place != self._start else QPen(accent, 2))
        painter.setBrush(used if place < self._start else PAPER)
        painter.drawRoundedRect(self._cell(place), 2, 2)
        if place == self._start:
            painter.setPen(QColor(34, 37, 42))
            painter.drawText(self._cell(place), Qt.AlignmentFlag.AlignCenter, str(place))
