"""What every short form has: a title, fields that say what is wrong, two buttons."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QDialog, QHBoxLayout, QVBoxLayout, QWidget

from bagtag.domain.errors import Trouble
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import ENTER, Field, button, label, tight
from bagtag.ui.forms.sight import InSight, scrolling

WIDE = 660


class FormDialog(QDialog):
    """Enter does it, Esc leaves it. A subclass fills `column`, names its `fields`, and saves.

    What cannot be taken stays as it was typed, its sentence below the field it belongs to.
    """

    def __init__(
        self, desk: Desk, title: str, parent: QWidget | None, *, keep: str = "Add it"
    ) -> None:
        super().__init__(parent)
        self.desk, self.job_id = desk, desk.job_id
        self.fields: dict[str, Field] = {}
        self._is_busy = False
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.inner = QWidget(self)
        self.column = QVBoxLayout(self.inner)
        self.head = label("", self, scale="head")
        self.under = label("", self, tone="muted")
        self.wrong = label("", self, tone="accent")
        self.keep = button(f"{keep}\u2002Enter", self, role="primary", name=keep)
        self.leave = button("Leave it\u2002Esc", self, role="quiet", name="Leave it")
        self.keep.clicked.connect(self.save)
        self.leave.clicked.connect(self.reject)
        self.say_title(title)
        self._lay()

    def _lay(self) -> None:
        tight(self.column, 14)
        self.column.setContentsMargins(2, 2, 14, 2)
        acts = QHBoxLayout()
        acts.setSpacing(12)
        acts.addWidget(self.keep)
        acts.addWidget(self.leave)
        acts.addStretch(1)
        self.sight = scrolling(self.inner, self)
        InSight(self.sight, ())
        outer = QVBoxLayout(self)
        outer.setContentsMargins(24, 20, 24, 20)
        outer.setSpacing(12)
        outer.addWidget(self.head)
        outer.addWidget(self.under)
        outer.addWidget(self.sight, 1)
        outer.addWidget(self.wrong)
        outer.addLayout(acts)
        self.under.hide()
        self.wrong.hide()

    def say_title(self, title: str, under: str = "") -> None:
        self.setWindowTitle(title)
        self.head.setText(title)
        self.under.setText(under)
        self.under.setVisible(bool(under))

    def save(self) -> None:
        """Take what the form says: a subclass acts, or says what is wanting."""
        raise NotImplementedError

    def kept(self, result: Any) -> None:
        """It is done; what follows from that."""

    def act(self, service: Callable[..., Any], *args: Any, **named: Any) -> None:
        """Call a service that changes the job, once however often Enter is pressed."""
        if self._is_busy:
            return
        self.say_nothing()
        self._is_busy = True
        self.desk.act(service, *args, then=self._done, failed=self._failed, **named)

    def say_nothing(self) -> None:
        self.wrong.hide()
        for field in self.fields.values():
            field.say("")

    def say_wrong(self, sentence: str, field: str = "") -> None:
        """Say it below its field, and put the keys there; else above the buttons."""
        found = self.fields.get(field)
        if found is None:
            self.wrong.setText(sentence)
            self.wrong.show()
            return
        self.unfold(found)
        found.say(sentence)
        found.editor.setFocus()

    def unfold(self, field: Field) -> None:
        """Bring a field into sight that may be put away."""

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in ENTER:
            self.save()
        else:
            super().keyPressEvent(event)

    def fit(self, high: int) -> None:
        """As high as the form wants, as far as the window has room for it."""
        above = self.parentWidget()
        room = above.window().height() - 40 if above is not None else high
        self.resize(WIDE, min(high, max(room, 400)))

    def _done(self, result: Any) -> None:
        self._is_busy = False
        self.kept(result)
        self.accept()

    def _failed(self, error: Exception) -> None:
        self._is_busy = False
        if isinstance(error, Trouble):
            self.say_wrong(error.sentence, error.field)
        else:
            self.desk.tell_error(error)
