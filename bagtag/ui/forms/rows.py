"""What was entered, as slips of tape: each to be opened again or taken out."""

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QWidget

from bagtag.ui.forms.basics import clear_layout
from bagtag.ui.forms.flow import FlowBox
from bagtag.ui.forms.plain import Slip


class Rows(FlowBox):
    """Enter or a click opens a slip, Delete takes it out. The open one is marked."""

    opened = Signal(int)
    removed = Signal(int)

    def __init__(self, name: str, parent: QWidget) -> None:
        super().__init__(parent)
        self._name = name
        self._slips: list[Slip] = []
        self.hide()

    def set_rows(self, texts: Sequence[str], opened: int | None = None) -> None:
        """Show these lines; `opened` is the one whose editor is open."""
        if [slip.text() for slip in self._slips] != list(texts):
            self._remake(texts)
        for place, slip in enumerate(self._slips):
            slip.set_open(place == opened)
        self.setVisible(bool(self._slips))

    def slip(self, place: int) -> Slip:
        return self._slips[place]

    def __len__(self) -> int:
        return len(self._slips)

    def _remake(self, texts: Sequence[str]) -> None:
        clear_layout(self.flow)
        self._slips = [Slip(text, self) for text in texts]
        for slip in self._slips:
            slip.setAccessibleName(f"{self._name}: {slip.text()}")
            slip.setToolTip("Enter changes it, Delete takes it out")
            slip.clicked.connect(self._open)
            slip.removed.connect(self._remove)
            self.flow.addWidget(slip)
            slip.show()
        self._put_in_turn()
        self.updateGeometry()

    def _put_in_turn(self) -> None:
        """Tab comes to the slips where they stand; made late, they would be at the very end.

        Qt puts nothing after a widget that takes no focus, so this one does for a moment.
        """
        self.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
        before: QWidget = self
        for slip in self._slips:
            self.setTabOrder(before, slip)
            before = slip
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)

    def _open(self) -> None:
        self.opened.emit(self._place())

    def _remove(self) -> None:
        self.removed.emit(self._place())

    def _place(self) -> int:
        slip = self.sender()
        return next(place for place, known in enumerate(self._slips) if known is slip)
