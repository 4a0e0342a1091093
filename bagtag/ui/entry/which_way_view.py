"""Which way, drawn and said side by side, and below what cannot be true."""

from collections.abc import Sequence

from PySide6.QtCore import QEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from bagtag.domain.datum import Datum
from bagtag.domain.picture import draw
from bagtag.domain.sentence import sentence
from bagtag.domain.which_way import Fact
from bagtag.ui.forms.basics import label, panel, tight
from bagtag.ui.forms.inks import inks
from bagtag.ui.picture import PictureWidget
from bagtag.ui.theme import mark

EMPTY = "Nothing noted yet. Which way did it sit?"
HIGH, ASPECT = 132, 2.7


class WhichWayView(QWidget):
    """The live picture with its sentence; without facts one muted line."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.picture = PictureWidget(self)
        self.words = label("", self, scale="head")
        self.wrong = label("", self, tone="accent")
        self.wrong.hide()
        self._frame = panel(self, "card")
        self._frame.setFixedHeight(HIGH)
        inner = QVBoxLayout(self._frame)
        inner.setContentsMargins(10, 6, 10, 6)
        inner.addWidget(self.picture)
        row = QHBoxLayout()
        tight(row, 16)
        row.addWidget(self._frame, 5)
        row.addWidget(self.words, 4)
        column = QVBoxLayout(self)
        tight(column, 6)
        column.addLayout(row)
        column.addWidget(self.wrong)
        self._dress()
        self.show_facts((), Datum())

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange:
            self._dress()

    def _dress(self) -> None:
        colours = inks()
        self.picture.set_inks(colours.ink, colours.accent, colours.muted)

    def show_facts(self, facts: Sequence[Fact], datum: Datum) -> None:
        said = sentence(facts, datum)
        self.picture.set_picture(draw(facts, datum, wide=True, aspect=ASPECT))
        self.picture.set_sentence(said)
        self._frame.setVisible(bool(facts))
        self.words.setText(said or EMPTY)
        long = len(said) > 90
        mark(
            self.words,
            scale="head" if said and not long else "body",
            tone="ink" if said else "muted",
        )

    def say(self, wrong: Sequence[str]) -> None:
        self.wrong.setText("\n".join(wrong))
        self.wrong.setVisible(bool(wrong))
