"""One part at check-in: ticked when it is here, then looked at and measured."""

from __future__ import annotations

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout, QWidget

from bagtag.domain.asked import figure
from bagtag.domain.codes import show
from bagtag.domain.errors import BadInput
from bagtag.domain.send_out import BackCheck
from bagtag.domain.sending import Back, Item
from bagtag.domain.sending_back import against, is_wrong
from bagtag.ui import theme
from bagtag.ui.away.away_acts import SurePress
from bagtag.ui.away.away_words import part_name
from bagtag.ui.away.looks import LookBox, Looks
from bagtag.ui.card.sign_fields import ROWS
from bagtag.ui.card.sign_rows import FigureRow
from bagtag.ui.entry.toggles import Toggles
from bagtag.ui.forms.basics import Field, Line, label, tight
from bagtag.ui.forms.choices import Option

DECIDE = "Leave it to be decided"
HERE, THERE = "It is here", "It is still there"
INDENT = 34
"""How far in stands what the shop took off, below what it came off, in pixels."""


class BackRow(QFrame):
    """What is asked of it comes into sight once it is ticked."""

    changed = Signal()

    def __init__(self, item: Item, looks: Looks, parent: QWidget) -> None:
        super().__init__(parent)
        self.item = item
        self.setProperty("surface", "card")
        called = item.called
        self.here = Toggles(called, [Option(True, HERE)], self)
        self.look = LookBox(looks, item.removal, item.thumb, self)
        self.asked = QWidget(self)
        seen = [one for one in item.to_check if one is not BackCheck.MEASURED]
        self.checks = Toggles(
            f"Looked at, {called}", [Option(one, one.value) for one in seen], self.asked
        )
        self.all_right = SurePress("All looked at", self.asked)
        self.all_right.setProperty("role", "quiet")
        self.all_right.setAccessibleName(f"All looked at and right: {called}")
        self.checks.flow.addWidget(self.all_right)
        self.figures = [FigureRow(one, self.asked) for one in item.away.asks]
        self.against = label("", self.asked, tone="accent")
        self.decide = Toggles(f"Decide, {called}", [Option(True, DECIDE)], self.asked)
        self.note = Line(self.asked, f"Note on {called}", hint="for example: waiting for the jets")
        self.note_field = Field("Note, or why it is taken all the same", self.note, self.asked)
        self._lay()
        self._connect()
        self._weigh()

    def _lay(self) -> None:
        words = QVBoxLayout()
        tight(words, 0)
        words.addStretch(1)
        words.addWidget(label(part_name(self.item), self, scale="head"))
        said = [f"tag {show(self.item.code)}"] if self.item.code else []
        said += [self.item.away.work.replace("\n", ", ")] if self.item.away.work else []
        if said:
            words.addWidget(label(", ".join(said), self, tone="muted"))
        words.addStretch(1)
        top = QHBoxLayout()
        tight(top, 14)
        top.addWidget(self.look)
        top.addLayout(words, 1)
        top.addWidget(self.here, 0, Qt.AlignmentFlag.AlignVCenter)
        self.here.setFixedWidth(self.here.chips[0].sizeHint().width())
        column = QVBoxLayout(self)
        is_part_of = self.item.by_shop_of is not None
        column.setContentsMargins(14 + INDENT * is_part_of, 8, 14, 8)
        column.setSpacing(8)
        column.addLayout(top)
        column.addWidget(self.asked)
        self._lay_asked()

    def _lay_asked(self) -> None:
        column = QVBoxLayout(self.asked)
        tight(column, 8)
        column.addWidget(self.checks)
        for row in self.figures:
            row.setMaximumWidth(ROWS)
            beside = QHBoxLayout()  # it asks the height of what it says at that width
            beside.addWidget(row, ROWS)
            beside.addStretch(1)
            column.addLayout(beside)
        for widget in (self.against, self.decide, self.note_field):
            column.addWidget(widget)

    def _connect(self) -> None:
        self.here.changed.connect(self._weigh)
        self.checks.changed.connect(self._weigh)
        self.decide.changed.connect(self._weigh)
        self.all_right.clicked.connect(self._all_right)
        self.note.textChanged.connect(self._weigh)
        for row in self.figures:
            row.edited.connect(self._weigh)

    # Ticked or not

    @property
    def is_here(self) -> bool:
        return bool(self.here.values)

    def tick(self, here: bool = True) -> None:
        self.here.set_values([True] if here else [])
        self._weigh()

    def begin(self) -> None:
        """Put the keys on the first thing that is wanted."""
        empty = (row.line for row in self.figures if not row.line.text())
        first = next(empty, None)
        (first or self.all_right).setFocus(Qt.FocusReason.TabFocusReason)

    def _all_right(self) -> None:
        self.checks.set_values([chip.option.value for chip in self.checks.chips])
        self._weigh()
        missing = next((row.line for row in self.figures if not row.line.text()), self.note)
        missing.setFocus()

    # What was said

    def back(self) -> Back:
        """As filled in; BadInput for what is no figure. It is measured when each figure is."""
        values = [(row.asked, row.value()) for row in self.figures]
        given = tuple(figure(asked, value) for asked, value in values if value is not None)
        is_measured = bool(values) and len(given) == len(values)
        checks = (*self.checks.values, *([BackCheck.MEASURED] if is_measured else []))
        wanted = bool(self.decide.values) and not self.decide.isHidden()
        return Back(self.item.away.id, checks, given, self.note.text().strip(), wanted)

    def speaks_against(self) -> tuple[str, ...]:
        """What speaks against it as it is filled in now; nothing while it is not ticked, nor while
        what is no figure is said at its field."""
        try:
            return against(self.back(), self.item) if self.is_here else ()
        except BadInput:
            return ()

    @property
    def needs_why(self) -> bool:
        """Whether something speaks against it and nothing is said to that."""
        is_answered = bool(self.note.text().strip()) or bool(self.decide.values)
        return bool(self.speaks_against()) and not is_answered

    def say_wrong(self, sentence: str, field: str) -> None:
        """Say it at its figure where it is one, else at the note."""
        row = next((one for one in self.figures if one.asked.name == field), None)
        if row is not None:
            row.say(sentence)
            row.line.setFocus()
        else:
            self.note_field.say(sentence)
            self.note.setFocus()

    def _weigh(self) -> None:
        self.asked.setVisible(self.is_here)
        theme.mark(self, surface="tape" if self.is_here else "card")
        said = self.speaks_against()
        self.against.setText("\n".join(said))
        self.against.setVisible(bool(said))
        self.decide.setVisible(self.is_here and self._is_wrong())
        self.changed.emit()

    def _is_wrong(self) -> bool:
        """Whether it is not as wanted, or was said to be left to be decided."""
        try:
            return bool(self.decide.values) or is_wrong(self.back(), self.item)
        except BadInput:
            return False

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange:
            self.update()
