"""Words side by side that go on in the next line where there is no room: for suggestions."""

from collections.abc import Sequence

from PySide6.QtCore import QPoint, QRect, QSize, Qt, Signal
from PySide6.QtWidgets import QLayout, QLayoutItem, QSizePolicy, QWidget

from bagtag.ui.forms.basics import clear_layout
from bagtag.ui.forms.plain import Chip


class Flow(QLayout):
    """Items from left to right, line by line."""

    def __init__(self, parent: QWidget, spacing: int = 6, lines: int | None = None) -> None:
        """`spacing` between the items of a line, `lines` between the lines, in pixels."""
        super().__init__(parent)
        self._between = spacing if lines is None else lines
        self._items: list[QLayoutItem] = []
        self.setContentsMargins(0, 0, 0, 0)
        self.setSpacing(spacing)

    def addItem(self, item: QLayoutItem) -> None:
        self._items.append(item)

    def count(self) -> int:
        return len(self._items)

    def itemAt(self, index: int) -> QLayoutItem | None:
        return self._items[index] if 0 <= index < len(self._items) else None

    def takeAt(self, index: int) -> QLayoutItem | None:
        return self._items.pop(index) if 0 <= index < len(self._items) else None

    def expandingDirections(self) -> Qt.Orientation:
        return Qt.Orientation(0)

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        return self._lay(QRect(0, 0, width, 0), move=False)

    def setGeometry(self, rect: QRect) -> None:
        super().setGeometry(rect)
        self._lay(rect, move=True)

    def sizeHint(self) -> QSize:
        return self.minimumSize()

    def minimumSize(self) -> QSize:
        size = QSize()
        for item in self._items:
            widget = item.widget()
            size = size.expandedTo(widget.minimumSizeHint() if widget else item.minimumSize())
        return size

    def _lay(self, rect: QRect, *, move: bool) -> int:
        """Lay the items out; the height they need."""
        x, y, line = rect.x(), rect.y(), 0
        for item in self._items:
            if item.isEmpty():  # hidden: it takes no room
                continue
            size = _within(item, rect.width())
            if x > rect.x() and x + size.width() > rect.right() + 1:
                x, y, line = rect.x(), y + line + self._between, 0
            if move:
                item.setGeometry(QRect(QPoint(x, y), size))
            x += size.width() + self.spacing()
            line = max(line, size.height())
        return y + line - rect.y()


def _within(item: QLayoutItem, width: int) -> QSize:
    """The size of an item: no wider than its line, and as high as it then needs."""
    size = item.sizeHint()
    if 0 < width < size.width():
        high = item.heightForWidth(width) if item.hasHeightForWidth() else size.height()
        return QSize(width, high)
    return size


class FlowBox(QWidget):
    """A widget laid out by a `Flow`, as high as its lines need.

    The hints are those of one line: taken from the layout they would be those of the narrowest
    column, one word a line, and leave room below for ever.
    """

    def __init__(self, parent: QWidget, spacing: int = 6, lines: int | None = None) -> None:
        super().__init__(parent)
        self.flow = Flow(self, spacing, lines)
        policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Preferred)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def sizeHint(self) -> QSize:
        return self.flow.minimumSize()

    def minimumSizeHint(self) -> QSize:
        return self.flow.minimumSize()


class Words(FlowBox):
    """Words to click instead of typing; by keyboard the field beside them offers the same."""

    chosen = Signal(str)

    def __init__(self, words: Sequence[str], parent: QWidget) -> None:
        super().__init__(parent, lines=0)
        self._words: tuple[str, ...] = ()
        self.set_words(words)

    def set_words(self, words: Sequence[str]) -> None:
        if tuple(words) == self._words:
            return
        self._words = tuple(words)
        clear_layout(self.flow)
        for word in words:
            press = Chip(word, self)
            press.clicked.connect(self._tell)
            self.flow.addWidget(press)
            press.show()
        self.updateGeometry()

    def _tell(self) -> None:
        press = self.sender()
        if isinstance(press, Chip):
            self.chosen.emit(press.text())
