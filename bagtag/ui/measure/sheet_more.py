"""What a sheet is called and what else was seen, folded away."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from bagtag.ui.forms.basics import Field, button, tight
from bagtag.ui.forms.fold import Fold
from bagtag.ui.measure.reading_cell import ReadingLine


class SheetMore(Fold):
    """The title and the note, folded away; `changed` says that one of them is another."""

    changed = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__("title, note, take it out", parent)
        self.title = ReadingLine(self.fold, "Title", hint="cylinder 1, inlet side")
        self.note = ReadingLine(self.fold, "Note", hint="what else was seen")
        self.out = button("Take this sheet out", self.fold, role="quiet")
        self.fields = {
            "title": Field("Title", self.title, self.fold),
            "note": Field("Note", self.note, self.fold),
        }
        column = QVBoxLayout(self.fold)
        tight(column, 8)
        for field in self.fields.values():
            column.addWidget(field)
        column.addWidget(self.out, 0, Qt.AlignmentFlag.AlignLeft)
        for line in (self.title, self.note):
            line.entered_figure.connect(self._edited)
            line.left_figure.connect(self._edited)

    def begin(self) -> None:
        self.title.setFocus()

    def show_texts(self, title: str, note: str) -> None:
        for line, text in ((self.title, title), (self.note, note)):
            line.show_kept(text)

    def _edited(self) -> None:
        for line in (self.title, self.note):
            line.settle()
        self.changed.emit()
