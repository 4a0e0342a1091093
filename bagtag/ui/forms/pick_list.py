"""The list below a line that narrows it. The keys stay in the line; the list only shows."""

from PySide6.QtCore import (
    QModelIndex,
    QPointF,
    QRectF,
    Qt,
    QTimer,
    Signal,
)
from PySide6.QtGui import QFontMetricsF, QPainter, QPen, QPolygonF
from PySide6.QtWidgets import (
    QAbstractItemView,
    QListView,
    QScrollArea,
    QWidget,
)

from bagtag.ui import fonts, theme
from bagtag.ui.forms.pick_model import PickModel, PickRow
from bagtag.ui.forms.tape_table import RowPainter

ROW = 40
SHOWN = 5
"""How many rows are in sight at once."""
_LEFT, _BOX = 14.0, 34.0
_CENTRE = Qt.AlignmentFlag.AlignVCenter
_TICK = ((0.2, 0.55), (0.42, 0.76), (0.8, 0.26))


class PickList(QListView):
    """`ticks` shows a box before each row, for several to be chosen."""

    pressed_at = Signal(int)

    def __init__(self, name: str, parent: QWidget, *, ticks: bool = False) -> None:
        super().__init__(parent)
        self.rows = PickModel(self)
        self._near = 0
        self._bring = QTimer(self)  # a list that just came up has its place only a moment later
        self._bring.setSingleShot(True)
        self._bring.timeout.connect(self._come_into_sight)
        self.setAccessibleName(name)
        self.setModel(self.rows)
        self.setItemDelegate(PickDelegate(self, ticks=ticks))
        self.setUniformItemSizes(True)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.verticalScrollBar().setSingleStep(ROW)
        self.setFixedHeight(SHOWN * ROW + 2)
        self.clicked.connect(self._clicked)

    @property
    def here(self) -> PickRow | None:
        """The row that Enter is for."""
        return self.rows.row_at(self.currentIndex().row())

    def show_some(self, wanted: bool = True) -> None:
        """Show the list where there is something in it."""
        self.setVisible(wanted and self.rows.rowCount() > 0)
        self._bring.start(0)

    def _come_into_sight(self) -> None:
        """Of a form that scrolls, the list with its line comes into sight while it is used."""
        area, around = self._area(), self.parentWidget()
        line = around.focusWidget() if around is not None else None
        if area is not None and line is not None and line.hasFocus() and self.isVisible():
            area.ensureWidgetVisible(self, 0, 12)
            area.ensureWidgetVisible(line, 0, 12)

    def _area(self) -> QScrollArea | None:
        above: QWidget | None = self.parentWidget()
        while above is not None and not isinstance(above, QScrollArea):
            above = above.parentWidget()
        return above

    def go_to(self, at: int) -> None:
        """Choose a row and bring it into sight, those around it too; none for -1."""
        self.setCurrentIndex(self.rows.index(at))
        middle = QAbstractItemView.ScrollHint.PositionAtCenter
        self.scrollTo(self.rows.index(max(at, 0)), middle)

    def look_at(self, at: int) -> None:
        """Bring a row into sight, at the top, without choosing it; the arrows begin there."""
        self._near = max(at, 0)
        self.setCurrentIndex(self.rows.index(-1))
        top = QAbstractItemView.ScrollHint.PositionAtTop
        self.scrollTo(self.rows.index(self._near), top)

    def step(self, by: int) -> None:
        count, here = self.rows.rowCount(), self.currentIndex().row()
        if count:
            at = min(max(here + by, 0), count - 1) if here >= 0 else min(self._near, count - 1)
            self.setCurrentIndex(self.rows.index(at))

    def _clicked(self, index: QModelIndex) -> None:
        self.pressed_at.emit(index.row())


class PickDelegate(RowPainter):
    def __init__(self, view: PickList, *, ticks: bool) -> None:
        super().__init__(view, ROW)
        self._rows, self._ticks = view.rows, ticks

    def paint_row(self, painter: QPainter, rect: QRectF, place: int) -> None:
        row, here = self._rows.row_at(place), self.is_here(place)
        if row is None:
            return
        _ground(painter, rect, here=here)
        left = rect.left() + _LEFT
        if self._ticks:
            _box(painter, left, rect.center().y(), ticked=row.value in self._rows.ticked)
            left += _BOX
        _words(painter, QRectF(left, rect.top(), rect.right() - _LEFT - left, ROW), row, bold=here)


def _ground(painter: QPainter, rect: QRectF, *, here: bool) -> None:
    if here:
        painter.setBrush(theme.current().tape)
        painter.setPen(QPen(theme.current().accent, 2))
        painter.drawRoundedRect(rect.adjusted(2, 1, -2, -1), 4, 4)


def _box(painter: QPainter, x: float, y: float, *, ticked: bool) -> None:
    colours = theme.current()
    box = QRectF(x, y - 9, 18, 18)
    painter.setBrush(colours.card)
    painter.setPen(QPen(colours.ink if ticked else colours.muted, 2))
    painter.drawRoundedRect(box, 3, 3)
    if ticked:
        painter.setPen(QPen(colours.accent, 2.5))
        points = [QPointF(box.x() + 18 * x, box.y() + 18 * y) for x, y in _TICK]
        painter.drawPolyline(QPolygonF(points))


def _words(painter: QPainter, room: QRectF, row: PickRow, *, bold: bool) -> None:
    """What it is called, and at the right, in the room that is left, what else is known of it."""
    colours, dots = theme.current(), Qt.TextElideMode.ElideRight
    font, small = fonts.font(theme.BODY, bold=bold), fonts.font(theme.SMALL)
    wide = min(QFontMetricsF(font).horizontalAdvance(row.text) + 1, room.width())
    painter.setFont(font)
    painter.setPen(QPen(colours.muted if row.is_quiet else colours.ink))
    painter.drawText(room, _CENTRE, QFontMetricsF(font).elidedText(row.text, dots, wide))
    rest = room.adjusted(wide + 16, 0, 0, 0)
    left = Qt.TextElideMode.ElideLeft  # of a path its end says most
    detail = QFontMetricsF(small).elidedText(row.detail, left, max(rest.width(), 0))
    if rest.width() > 30:
        painter.setFont(small)
        painter.setPen(QPen(colours.muted))
        painter.drawText(rest, _CENTRE | Qt.AlignmentFlag.AlignRight, detail)
