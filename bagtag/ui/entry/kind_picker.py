"""Finding a kind of part by typing any of its names."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from bagtag.domain.kinds import NO_KIND, Kinds, PartKind, fold
from bagtag.ui.forms.basics import ENTER, Field, Line, clear_layout, tight
from bagtag.ui.forms.flow import FlowBox
from bagtag.ui.forms.plain import Slip

MOST = 8
NONE = "No kind"


class KindPicker(QWidget):
    """A line to type in and what it finds below it: Enter takes the first, Down goes there."""

    picked = Signal(str)
    """The name of a kind, or `NO_KIND`."""
    left = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._kinds = Kinds()
        self.slips: list[Slip] = []
        self.line = Line(self, "Kind of part", hint="oil seal, circlip, shift fork")
        self.field = Field("What kind of part is it?", self.line, self)
        self._list = FlowBox(self)
        column = QVBoxLayout(self)
        tight(column, 6)
        column.addWidget(self.field)
        column.addWidget(self._list)
        self.line.textEdited.connect(self._typed)
        self.setFocusProxy(self.line)

    def set_kinds(self, kinds: Kinds) -> None:
        self._kinds = kinds
        if self.isVisible():
            self._typed()

    def begin(self) -> None:
        """Open it, empty."""
        self.line.clear()
        self._typed()
        self.show()
        self.line.setFocus()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        at = self.focusWidget()
        place = self.slips.index(at) if isinstance(at, Slip) and at in self.slips else -1
        if event.key() in (Qt.Key.Key_Down, Qt.Key.Key_Right) and place + 1 < len(self.slips):
            self.slips[place + 1].setFocus()
        elif event.key() in (Qt.Key.Key_Up, Qt.Key.Key_Left) and place >= 0:
            (self.slips[place - 1] if place else self.line).setFocus()
        elif event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        elif event.key() in ENTER and place < 0:
            self.slips[0].click()
        else:
            super().keyPressEvent(event)

    def _typed(self) -> None:
        found = matching(self._kinds, self.line.text())[:MOST]
        self.field.say("" if found else 'No kind has this name; there is "No kind" for it.')
        clear_layout(self._list.flow)
        self.slips = [Slip(text, self._list) for text in (*(k.name for k in found), NONE)]
        for slip in self.slips:
            slip.clicked.connect(self._clicked)
            self._list.flow.addWidget(slip)
            slip.show()
        self._list.updateGeometry()

    def _clicked(self) -> None:
        slip = self.sender()
        if isinstance(slip, Slip):
            self.picked.emit(NO_KIND if slip is self.slips[-1] else slip.text())


def matching(kinds: Kinds, typed: str) -> list[PartKind]:
    """Kinds with a name in which this is: those that begin with it first, then by the alphabet."""
    wanted = fold(typed)
    ranked = [(_rank(kind, wanted), fold(kind.name), kind) for kind in kinds.all()]
    found = [entry for entry in ranked if entry[0] is not None]
    return [kind for _, _, kind in sorted(found, key=lambda entry: entry[:2])]


def _rank(kind: PartKind, wanted: str) -> int | None:
    names = [fold(name) for name in (kind.name, *kind.also)]
    places = [name.find(wanted) for name in names if wanted in name]
    return None if not places else 0 if names[0].startswith(wanted) else 1 + min(places)
