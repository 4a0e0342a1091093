"""The foot of the entry card: its acts, always in sight, and what they have to ask or say."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from bagtag.ui.desk import Desk
from bagtag.ui.entry.entry_draft import Draft
from bagtag.ui.forms.basics import button, label, tight
from bagtag.ui.forms.removal_picker import RemovalPicker
from bagtag.ui.theme import mark


class EntryActs(QWidget):
    before_chosen = Signal(int)
    """The new entry goes in before this removal."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self.clash: Draft | None = None
        self.said = label("", self)
        self.before = label("", self)
        self.picker = RemovalPicker(desk, "It came off before which one?", self)
        self.log = button("Log it  Enter", self, role="primary", name="Log it")
        self.again = button("As the last one  Ctrl+D", self, name="As the last one")
        self.forgotten = button("One forgotten", self, name="One forgotten")
        self.theirs = button("Take theirs", self, name="Take what was changed elsewhere")
        self.picker.picked.connect(self._picked)
        self.picker.left.connect(self._left)
        self._lay_out()
        self.show_new()

    def _lay_out(self) -> None:
        row = QHBoxLayout()
        tight(row, 10)
        for press in (self.log, self.again, self.forgotten, self.theirs):
            row.addWidget(press)
        row.addStretch(1)
        column = QVBoxLayout(self)
        tight(column, 8)
        for part in (self.before, self.said, self.picker):
            column.addWidget(part)
        column.addLayout(row)
        self.said.hide()

    def show_new(self) -> None:
        self.log.setText("Log it  Enter")
        self.log.setAccessibleName("Log it")
        self._show(correcting=False)
        self.before.hide()

    def show_before(self, called: str) -> None:
        """Say which removal the new entry goes in before."""
        self.before.setText(f"Goes in before {called}.")
        self.before.show()

    def show_correction(self) -> None:
        self.log.setText("Keep it  Enter")
        self.log.setAccessibleName("Keep the correction")
        self.before.hide()
        self._show(correcting=True)

    def ask_before(self, job_id: int) -> None:
        """Ask which line the forgotten one came off before."""
        self.picker.job_id = job_id
        self.picker.show_chosen("")
        self.picker.field.say("")
        self.picker.show()
        self.picker.setFocus()

    def say(self, sentence: str, *, trouble: bool = False) -> None:
        mark(self.said, tone="accent" if trouble else "muted")
        self.said.setText(sentence)
        self.said.setVisible(bool(sentence))

    def say_clash(self, words: str, theirs: Draft) -> None:
        self.clash = theirs
        self.say(
            f"This entry was changed elsewhere meanwhile: {words}. Yours is still here; Enter "
            "keeps yours, and undo has the other.",
            trouble=True,
        )
        self.theirs.show()

    def _show(self, *, correcting: bool) -> None:
        self.clash = None
        self.say("")
        self.picker.hide()
        self.theirs.hide()
        self.again.setVisible(not correcting)

    def _picked(self, removal_id: int, _: str) -> None:
        self.picker.hide()
        if removal_id:
            self.before_chosen.emit(removal_id)

    def _left(self) -> None:
        self.picker.hide()
        self.log.setFocus()
