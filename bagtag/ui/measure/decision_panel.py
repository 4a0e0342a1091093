"""What becomes of the part that a sheet measures: decided by name and date, and taken back."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFrame, QVBoxLayout, QWidget

from bagtag.domain.measuring.sheet import Decision
from bagtag.domain.measuring.work_wanted import work_wanted
from bagtag.domain.model import Fate
from bagtag.domain.phrases import capital, day
from bagtag.ui.forms.basics import ENTER, Field, Line, Note, Press, button, label
from bagtag.ui.forms.flow import FlowBox

if TYPE_CHECKING:
    from bagtag.services.measuring import SheetView

WORDS = ((Fate.REFIT, "Refit"), (Fate.RENEW, "Renew"), (Fate.SCRAP, "Scrap"))
WORK = "To be worked"
_UNDER = {
    Fate.DECIDE: "It waits here until the work is done. Pack it in Away.",
    Fate.RENEW: "It is on the list of what to renew.",
}


class FatePress(Press):
    """A fate to press; deciding is none that the keys of a scan reach."""

    def __init__(self, fate: Fate, word: str, parent: QWidget) -> None:
        super().__init__(word, parent)
        self.fate = fate
        self.setAccessibleName(f"Decide: {word.casefold()}")


class DecisionPanel(QFrame):
    """`decided` gives the fate, why, the work and the name; `taken_back` undoes it."""

    decided = Signal(object, str, str, str)
    taken_back = Signal()

    def __init__(self, bench: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.setProperty("surface", "card")
        self._bench, self._sheet_id, self._advice = bench, 0, ""
        self.head = label("", self, scale="head")
        self.about = label("", self, tone="muted")
        self.fates = FlowBox(self, 8, 8)
        self.presses = [FatePress(fate, word, self.fates) for fate, word in WORDS]
        self.presses.append(FatePress(Fate.DECIDE, WORK, self.fates))
        self.work = Note(self, "Work wanted", lines=2)
        self.why = Line(self, "Why", hint="where the figures do not say it")
        self.who = Line(self, "Who decides", hint="name or initials")
        self.fields = {
            name: Field(editor.accessibleName(), editor, self)
            for name, editor in (("work", self.work), ("why", self.why), ("who", self.who))
        }
        self.back = button("Take it back", self, role="quiet", name="Take the decision back")
        self._lay()
        for press in self.presses:
            self.fates.flow.addWidget(press)
            press.clicked.connect(self._pressed)
        self.back.clicked.connect(self.taken_back)

    def _lay(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(16, 12, 16, 14)
        column.setSpacing(8)
        column.addWidget(self.head)
        column.addWidget(self.about)
        for name in ("work", "why", "who"):
            column.addWidget(self.fields[name])
        column.addWidget(self.fates)
        column.addWidget(self.back, 0, Qt.AlignmentFlag.AlignLeft)

    # What is shown

    def show_sheet(self, view: SheetView) -> None:
        """`view` is of a sheet with a part; what is typed stays while it is the same sheet."""
        if view.sheet.id != self._sheet_id:
            self._sheet_id = view.sheet.id
            self._begin()
        self._show_advice(view)
        made = view.sheet.decision
        self.head.setText(capital(made.called) if made else "What becomes of it")
        self.about.setText(_about(made) if made else "")
        self.about.setVisible(made is not None)
        self.back.setVisible(made is not None)
        for widget in (self.fates, self.fields["work"], self.fields["why"], self.fields["who"]):
            widget.setVisible(made is None)
        if self._bench:
            self.fields["who"].hide()

    def _begin(self) -> None:
        self._advice = ""
        for editor in (self.work, self.why, self.who):
            editor.clear()
        for field in self.fields.values():
            field.say("")

    def _show_advice(self, view: SheetView) -> None:
        """The work the figures ask for stands ready, unless other work was written."""
        advice = work_wanted(view.sheet, view.results)
        if self.work.toPlainText() == self._advice:
            self.work.setPlainText(advice)
        self._advice = advice

    def say(self, field: str, sentence: str) -> None:
        """Say below its field why it cannot be decided so, and put the keys there."""
        found = self.fields.get(field, self.fields["why"])
        found.show()
        found.say(sentence)
        found.editor.setFocus()

    def begin(self) -> None:
        """Put the keys on the first word."""
        self.presses[0].setFocus()

    # What is done

    def _pressed(self) -> None:
        press = self.sender()
        if not isinstance(press, FatePress):
            return
        for field in self.fields.values():
            field.say("")
        work = self.work.toPlainText() if press.fate is Fate.DECIDE else ""
        who = self._bench or self.who.text()
        self.decided.emit(press.fate, self.why.text(), work, who)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter in a field decides nothing: one of the words has to be pressed."""
        if event.key() in ENTER:
            self.focusNextChild()
        else:
            super().keyPressEvent(event)


def _about(made: Decision) -> str:
    on = made.at.astimezone()
    said = [f"Decided by {made.who}, {day(on)} {on.year}."]
    said += [f"Work wanted: {made.work}"] if made.work else []
    said += [f"Why: {made.why}"] if made.why else []
    said += [f"The sheet said: {made.said}."] if made.said else []
    said += [_UNDER[made.fate]] if made.fate in _UNDER else []
    return "\n".join(said)
