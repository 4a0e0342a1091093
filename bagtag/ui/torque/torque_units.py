"""One torque in all its units, large enough to be read from the bench."""

from PySide6.QtWidgets import QGridLayout, QVBoxLayout, QWidget

from bagtag.domain.torque import Torque
from bagtag.domain.torque_words import said, together
from bagtag.ui.forms.basics import clear_layout, label, tight

_COLUMNS = 3


class UnitsTogether(QWidget):
    """The torque as it was given, and below it in each other unit."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.given = label("", self, scale="big")
        self._grid = QGridLayout()
        tight(self._grid, 6)
        column = QVBoxLayout(self)
        tight(column, 6)
        column.addWidget(self.given)
        column.addLayout(self._grid)
        for at in range(_COLUMNS):
            self._grid.setColumnStretch(at, 1)
        self.show_torque(None)

    @property
    def texts(self) -> tuple[str, ...]:
        """What is said, the given one first."""
        return self._texts

    def show_torque(self, torque: Torque | None) -> None:
        self._texts = tuple(said(one) for one in together(torque)) if torque is not None else ()
        clear_layout(self._grid)
        self.given.setText(self._texts[0] if self._texts else "–")
        for place, text in enumerate(self._texts[1:]):
            self._grid.addWidget(label(text, self, scale="head"), *divmod(place, _COLUMNS))
        self.setAccessibleName("In all units")
        self.setAccessibleDescription(" = ".join(self._texts))
