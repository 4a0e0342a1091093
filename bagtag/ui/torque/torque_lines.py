"""The lines of hardware of a part, to choose whose torque is on the bench."""

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from bagtag.domain.hardware import HeldBy
from bagtag.ui.forms.basics import tight
from bagtag.ui.forms.choices import Option
from bagtag.ui.forms.lone_choices import LoneChoices
from bagtag.ui.forms.sight import InSight, scrolling

_KEYS = "123456789"
MOST = 156
"""So high is the list at most, in pixels; what it is for must stay in sight below it."""


class LineChoices(QWidget):
    """Hidden while there is no line; the first with a torque is chosen."""

    picked = Signal(object)

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._lines: tuple[HeldBy, ...] = ()
        self.choices = LoneChoices("Line of hardware", (), self)
        self._area = scrolling(self.choices, self)
        InSight(self._area, ())
        column = QVBoxLayout(self)
        tight(column)
        column.addWidget(self._area)
        self.choices.chosen.connect(self._tell)
        self.hide()

    def show_lines(self, lines: Sequence[HeldBy]) -> None:
        self._lines = tuple(lines)
        keys = _KEYS + " " * len(lines)
        self.choices.set_options(
            [
                Option(place, _called(line), line.tightened() or "no torque noted", key.strip())
                for place, (line, key) in enumerate(zip(lines, keys, strict=False))
            ]
        )
        self._area.setFixedHeight(min(self.choices.sizeHint().height(), MOST))
        self.setVisible(bool(lines))
        if lines:
            with_torque = (n for n, line in enumerate(lines) if line.torque is not None)
            self.choices.choose(next(with_torque, 0))

    def _tell(self) -> None:
        self.picked.emit(self._lines[self.choices.value])


def _called(line: HeldBy) -> str:
    return f"{line.mark}: {line.called()}" if line.mark else line.called()
