"""Which side is which: the machine as a box seen from the viewpoint, a name on each side."""

from PySide6.QtCore import QPointF, QRect, QRectF, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QPolygonF, QResizeEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from bagtag.domain.datum import Datum, Side
from bagtag.ui.forms.basics import Field, Line, tight
from bagtag.ui.forms.inks import inks

HEIGHT = 322
FIELD_HIGH = 92
_HINTS = {Side.LEFT: "flywheel side", Side.RIGHT: "clutch side", Side.FRONT: "axle side"}


class SideField(Field):
    """The machine's own name of one side."""

    def __init__(self, side: Side, parent: QWidget) -> None:
        self.side = side
        hint = _HINTS.get(side, "")
        line = Line(parent, f"Own name for {side.value}", hint=hint and f"e.g. {hint}")
        super().__init__(side.value.capitalize(), line, parent)
        self.line = line
        column = self.layout()
        assert isinstance(column, QVBoxLayout)
        column.addStretch(1)


class BoxPicture(QWidget):
    """The box with its six fields. The near side is the front, or the rear where the viewpoint
    looks the machine's own way."""

    changed = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setFixedHeight(HEIGHT)
        self.setMinimumWidth(500)
        order = (Side.TOP, Side.REAR, Side.LEFT, Side.FRONT, Side.RIGHT, Side.BOTTOM)
        self.fields = {side: SideField(side, self) for side in order}
        self.near, self.far = Side.FRONT, Side.REAR
        for field in self.fields.values():
            field.line.textChanged.connect(self._tell)

    def look_forward(self, forward: bool) -> None:
        """Whether one looks the machine's own way, so that its rear is the near side."""
        self.near, self.far = (Side.REAR, Side.FRONT) if forward else (Side.FRONT, Side.REAR)
        for side, where in ((self.near, "the near side"), (self.far, "the far side")):
            self.fields[side].caption.setText(f"{side.value.capitalize()}, {where}")
        self._put_fields()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._put_fields()

    def _put_fields(self) -> None:
        for side, field in self.fields.items():
            field.setGeometry(self._place(side))
        self.update()

    def _face(self) -> QRectF:
        """The near face: it takes the middle third."""
        wide = self._column()
        return QRectF((self.width() - wide - self._depth().x()) / 2, 108, wide, 112)

    def _column(self) -> float:
        return min((self.width() - self._depth().x() - 24) / 3, 280)

    def _depth(self) -> QPointF:
        return QPointF(34, -26)

    def _place(self, side: Side) -> QRect:
        face, depth, wide = self._face(), self._depth(), self._column()
        high, gap = FIELD_HIGH, 12
        middle = face.center().y() - 33
        spot = {
            self.near: QRectF(face.x() + 12, middle, face.width() - 24, high),
            Side.LEFT: QRectF(face.x() - gap - wide, middle, wide, high),
            Side.RIGHT: QRectF(face.right() + depth.x() + gap, middle, wide, high),
            Side.TOP: QRectF(face.x(), 0, wide, high),
            self.far: QRectF(face.right() + depth.x() + gap, 0, wide, high),
            Side.BOTTOM: QRectF(face.x(), face.bottom() + gap - 2, wide, high),
        }[side]
        room = QRectF(self.rect())
        return spot.intersected(room).toRect()

    def paintEvent(self, _: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        colours, face, depth = inks(), self._face(), self._depth()
        painter.setPen(QPen(colours.ink, 2, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap))
        painter.setBrush(colours.tape)
        corners = (face.topLeft(), face.topRight(), face.bottomRight())
        top = QPolygonF([corners[0], corners[0] + depth, corners[1] + depth, corners[1]])
        side = QPolygonF([corners[1], corners[1] + depth, corners[2] + depth, corners[2]])
        painter.drawPolygon(top)
        painter.drawPolygon(side)
        painter.setBrush(colours.card)
        painter.drawRect(face)
        self._paint_leader(painter)
        painter.end()

    def _paint_leader(self, painter: QPainter) -> None:
        """From the field of the far side to the edge behind which it lies."""
        field = self._place(self.far)
        edge = self._face().topRight() + self._depth()
        start = QPointF(field.left() - 6, field.top() + 46)
        painter.setPen(QPen(inks().muted, 1.5, Qt.PenStyle.DashLine))
        painter.drawLine(start, edge + QPointF(-6, 2))

    def _tell(self) -> None:
        self.changed.emit()


class DatumForm(QWidget):
    """Where the machine is looked at from, and its own names for its sides."""

    changed = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        hint = "for example: standing behind the handlebars, looking forward"
        self.viewpoint = Line(self, "Looked at from", hint=hint)
        self.box = BoxPicture(self)
        column = QVBoxLayout(self)
        tight(column, 12)
        column.addWidget(Field("Looked at from", self.viewpoint, self))
        column.addWidget(self.box)
        self.viewpoint.textChanged.connect(self._turn)
        self._turn()
        self.box.changed.connect(self._tell)

    @property
    def datum(self) -> Datum:
        names = {side: field.line.text().strip() for side, field in self.box.fields.items()}
        named = {side: name for side, name in names.items() if name}
        return Datum(self.viewpoint.text().strip(), named)

    def set_datum(self, datum: Datum) -> None:
        self.viewpoint.setText(datum.viewpoint)
        for side, field in self.box.fields.items():
            field.line.setText(datum.names.get(side, ""))

    def say(self, field: str, sentence: str) -> bool:
        """Say what is wrong with the name of a side; False for any other field."""
        if field not in {side.value for side in Side}:
            return False
        self.box.fields[Side(field)].say(sentence)
        self.box.fields[Side(field)].line.setFocus()
        return True

    def say_nothing(self) -> None:
        for field in self.box.fields.values():
            field.say("")

    def _turn(self) -> None:
        self.box.look_forward(Datum(self.viewpoint.text()).looks_forward)
        self.changed.emit()

    def _tell(self) -> None:
        self.changed.emit()
