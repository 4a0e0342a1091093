"""What was found for the words typed, as a short list below the field."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QRect, Qt, Signal
from PySide6.QtWidgets import QListWidget, QListWidgetItem, QWidget

if TYPE_CHECKING:
    from bagtag.services.find import Hit

SHOWN = 7


class FoundList(QListWidget):
    """Hits, the newest first. The focus stays in the field, which moves the choice."""

    taken = Signal(object)

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.hits: tuple[Hit, ...] = ()
        self.setAccessibleName("Found")
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setTextElideMode(Qt.TextElideMode.ElideRight)
        self.itemClicked.connect(self._clicked)
        self.hide()

    @property
    def chosen(self) -> "Hit | None":
        row = self.currentRow()
        return self.hits[row] if 0 <= row < len(self.hits) else None

    def show_hits(self, hits: Sequence["Hit"], job_id: int, under: QRect, choose: bool) -> None:
        """Show hits below a rectangle of the parent; `choose` puts the first one forward."""
        self.hits = tuple(hits)
        self.clear()
        for hit in hits:
            QListWidgetItem(_line(hit, job_id), self)
        self.setCurrentRow(0 if choose else -1)
        height = min(len(hits), SHOWN) * max(self.sizeHintForRow(0), 0) + 4
        self.setGeometry(under.left(), under.bottom() + 4, under.width(), height)
        self.setVisible(bool(hits))
        self.raise_()

    def step(self, by: int) -> None:
        self.setCurrentRow(min(max(self.currentRow() + by, 0), self.count() - 1))

    def put_away(self) -> None:
        self.hits = ()
        self.clear()
        self.hide()

    def _clicked(self) -> None:
        if self.chosen is not None:
            self.taken.emit(self.chosen)


def _line(hit: "Hit", job_id: int) -> str:
    here = hit.job_id == job_id
    return f"{hit.number}  {hit.name}" if here else f"{hit.number}  {hit.name}, in {hit.job_title}"
