"""Which way, drawn and said, and below it what cannot be true."""

from collections.abc import Sequence

from PySide6.QtWidgets import QVBoxLayout, QWidget

from bagtag.domain.datum import Datum
from bagtag.domain.picture import draw
from bagtag.domain.sentence import sentence
from bagtag.domain.which_way import Fact
from bagtag.ui.forms import label, panel, tight
from bagtag.ui.forms_inks import inks
from bagtag.ui.picture import PictureWidget

EMPTY = "Nothing noted yet. Which way did it sit?"


class WhichWayView(QWidget):
    """The live picture with its sentence; without facts one muted line."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.picture = PictureWidget(self)
        self.words = label("", self, scale="head")
        self.wrong = label("", self, tone="accent")
        self.wrong.hide()
        self._frame = panel(self, "field")
        inner = QVBoxLayout(self._frame)
        inner.setContentsMargins(12, 8, 12, 8)
        inner.addWidget(self.picture)
        self._frame.setFixedHeight(150)
        column = QVBoxLayout(self)
        tight(column, 6)
        for part in (self._frame, self.words, self.wrong):
            column.addWidget(part)
        self.show_facts((), Datum())

    def show_facts(self, facts: Sequence[Fact], datum: Datum) -> None:
        said = sentence(facts, datum)
        colours = inks()
        self.picture.set_inks(colours.ink, colours.accent, colours.muted)
        self.picture.set_picture(draw(facts, datum, wide=True, aspect=4.2))
        self.picture.set_sentence(said)
        self._frame.setVisible(bool(facts))
        self.words.setText(said or EMPTY)
        self._scale("head" if said else "body", "ink" if said else "muted")

    def say(self, wrong: Sequence[str]) -> None:
        self.wrong.setText("\n".join(wrong))
        self.wrong.setVisible(bool(wrong))

    def _scale(self, scale: str, tone: str) -> None:
        if self.words.property("scale") != scale:
            self.words.setProperty("scale", scale)
            self.words.setProperty("tone", tone)
            self.words.style().unpolish(self.words)
            self.words.style().polish(self.words)
