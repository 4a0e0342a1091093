"""A figure with a large minus and plus beside it, for hands in gloves; it can be typed as well."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QWidget

from bagtag.ui.forms.basics import Line, button, tight


class Stepper(QWidget):
    """A figure between `least` and `most`, in steps; what is typed is held to them on leaving."""

    changed = Signal()

    def __init__(
        self, name: str, parent: QWidget, *, least: float, most: float, step: float = 1.0
    ) -> None:
        super().__init__(parent)
        self._least, self._most, self._step = least, most, step
        self._value = max(least, 0.0)
        self.line = Line(self, name)
        self.line.setAlignment(Qt.AlignmentFlag.AlignHCenter)
        self.line.setMinimumWidth(56)
        self.less = button("−", self, name=f"{name}: less")
        self.more = button("+", self, name=f"{name}: more")
        row = QHBoxLayout(self)
        tight(row, 4)
        for widget in (self.less, self.line, self.more):
            row.addWidget(widget, 1 if widget is self.line else 0)
        for press in (self.less, self.more):
            press.setStyleSheet("padding: 0; font-weight: bold;")
            press.setFixedWidth(44)
            press.setFocusPolicy(Qt.FocusPolicy.NoFocus)  # the arrow keys do it in the line
        self.less.clicked.connect(self._step_down)
        self.more.clicked.connect(self._step_up)
        self.line.editingFinished.connect(self._typed)
        self.setFocusProxy(self.line)
        self.setAccessibleName(name)
        self._show()

    @property
    def value(self) -> float:
        return self._value

    def set_value(self, value: float) -> None:
        held = min(max(value, self._least), self._most)
        if held != self._value:
            self._value = held
            self.changed.emit()
        self._show()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        steps = {Qt.Key.Key_Up: self._step, Qt.Key.Key_Down: -self._step}
        if (step := steps.get(Qt.Key(event.key()))) is None:
            super().keyPressEvent(event)
        else:
            self.set_value(self._value + step)

    def _step_up(self) -> None:
        self.set_value(self._value + self._step)

    def _step_down(self) -> None:
        self.set_value(self._value - self._step)

    def _typed(self) -> None:
        try:
            typed = float(self.line.text().replace(",", ".").removesuffix("mm"))
        except ValueError:
            self._show()
            return
        self.set_value(round(typed / self._step) * self._step)

    def _show(self) -> None:
        self.line.setText(f"{self._value:g}")
