"""One calm sentence under the field, where the eyes are, and Undo for the act just done."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QTimer, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QWidget

from bagtag.ui import theme

if TYPE_CHECKING:
    from bagtag.domain.change import Change

CALM_MS = 12_000
"""How long good news stays. Trouble stays until it is put away or something else is done."""


class MessageBar(QWidget):
    """Says what was done, or what is wrong."""

    undo_wanted = Signal()
    spoke = Signal()
    """There is another sentence now, or none."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setFixedHeight(theme.TOUCH)
        self.setAccessibleName("Message")
        self._row = QHBoxLayout(self)
        self._row.setContentsMargins(12, 0, 0, 0)
        self._made = False
        self._clock = QTimer(self)
        self._clock.setSingleShot(True)
        self._clock.setInterval(CALM_MS)
        self._clock.timeout.connect(self.clear)
        self.is_trouble = False

    @property
    def text(self) -> str:
        return self.sentence.text() if self._made else ""

    @property
    def offers_undo(self) -> bool:
        return self._made and not self.undo.isHidden()

    def hear(self, change: Change) -> None:
        """An act is done: say it, and offer to undo it."""
        act = change.act
        undone = act.startswith("undo: ")
        self._show(f"Undone: {act[6:]}." if undone else f"Done: {act}.", trouble=False)
        # What belongs to no job is undone where it was done: Ctrl+Z is this job's.
        self.undo.setVisible(bool(change.journal_id and change.job_id) and not undone)

    def say(self, sentence: str, trouble: bool = False) -> None:
        """A sentence; an Undo that stands there stays, unless this is trouble."""
        self._show(sentence, trouble=trouble)
        if trouble:
            self.undo.hide()

    def clear(self) -> None:
        if self._made:
            self._show("", trouble=False)
            self.undo.hide()

    def stop(self) -> None:
        self._clock.stop()

    def _show(self, sentence: str, *, trouble: bool) -> None:
        self._make()
        self.is_trouble = trouble
        self.sentence.setText(sentence)
        self.sentence.setAccessibleName(sentence)
        theme.mark(self.sentence, tone="accent" if trouble else "ink")
        self.dismiss.setVisible(trouble)
        self._clock.stop()
        if sentence and not trouble:
            self._clock.start()
        self.spoke.emit()

    def _make(self) -> None:
        """Its parts are made when there is first something to say."""
        if self._made:
            return
        from PySide6.QtCore import Qt

        self._made = True
        self.sentence = QLabel(self)
        self.sentence.setTextFormat(Qt.TextFormat.PlainText)
        self.sentence.setWordWrap(True)
        self.undo = self._button("Undo", "Undo what was just done (Ctrl+Z)")
        self.dismiss = self._button("Put away", "Put this message away")
        self.undo.clicked.connect(self.undo_wanted)
        self.dismiss.clicked.connect(self.clear)
        self._row.addWidget(self.sentence, 1)
        self._row.addWidget(self.undo)
        self._row.addWidget(self.dismiss)

    def _button(self, word: str, tip: str) -> QPushButton:
        made = QPushButton(word, self)
        made.setProperty("role", "quiet")
        made.setAccessibleName(word)
        made.setToolTip(tip)
        made.setAutoDefault(False)
        made.hide()
        return made
