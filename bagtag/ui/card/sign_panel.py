"""Sign-off in place: at once where nothing is asked, else what is asked, closing up first."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QStackedLayout, QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.change import Change
from bagtag.domain.errors import Trouble
from bagtag.domain.fitting import Ref
from bagtag.ui.card.closing_up import ClosingUp
from bagtag.ui.card.sign_fields import REASON, SignFields
from bagtag.ui.desk import Desk
from bagtag.ui.forms.acts import Act
from bagtag.ui.forms.basics import ENTER, button, label, tight

if TYPE_CHECKING:
    from bagtag.services.signing import SignSheet

SIGN = "F6"


class SignPanel(QWidget):
    """Signs one step. What is typed stays while it is wrong, and also while another step is looked
    at; Esc drops it."""

    shut = Signal(bool)
    """Whether it has just been put away; False when it has been opened."""

    def __init__(self, desk: Desk, word: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.desk = desk
        self.ref: Ref | None = None
        self.sheet: SignSheet | None = None
        self._kept: dict[Ref, dict[str, str]] = {}
        self._trouble: Trouble | None = None
        self._is_busy = False
        self.closing = ClosingUp(desk, self)
        self.page = QWidget(self)
        self.fields = SignFields(self.page)
        self.wrong = label("", self.page, tone="accent")
        self.sign = Act(word, SIGN, self.page, role="primary")
        self.leave = button("Leave it\u2002Esc", self.page, name="Leave it")
        self._lay()
        self.sign.clicked.connect(self.answer)
        self.leave.clicked.connect(self.drop)
        self.closing.left.connect(self.drop)
        self.closing.closed.connect(self._close_up)
        self.fields.passes.ticked.connect(self._tick)
        self.fields.tools.back.connect(self._count_back)
        self.fields.tools.one_back.connect(self._count_one_back)
        desk.changed.connect(self._heard)
        self.hide()

    def _lay(self) -> None:
        column = QVBoxLayout(self.page)
        tight(column, 8)
        column.addWidget(self.fields, 1)
        column.addWidget(self.wrong)
        row = QHBoxLayout()
        row.setSpacing(12)
        row.addWidget(self.sign)
        row.addWidget(self.leave)
        row.addStretch(1)
        column.addLayout(row)
        self._stack = QStackedLayout(self)
        tight(self._stack, 0)
        self._stack.addWidget(self.page)
        self._stack.addWidget(self.closing)

    # Begun, and put away

    def begin(self, ref: Ref) -> None:
        """Sign this step: at once where nothing is asked and nothing speaks against it."""
        if not self._is_busy:
            self.ref, self._is_busy = ref, True
            self.desk.ask(services.signing.sheet, ref, then=self._read, failed=self._failed)

    def set_aside(self, ref: Ref | None) -> None:
        """Another step is looked at, or the same; what was typed for this one is kept."""
        if self.ref is not None and ref != self.ref:
            if not self.isHidden():
                self._keep()
            self._put_away()

    def drop(self) -> None:
        """Leave it unsigned, and forget what was typed."""
        if self.ref is not None:
            self._kept.pop(self.ref, None)
        self._put_away()

    def _put_away(self) -> None:
        was_open = not self.isHidden()
        self.ref, self.sheet, self._is_busy = None, None, False
        self.hide()
        if was_open:
            self.shut.emit(True)

    def _keep(self) -> None:
        if self.ref is not None and self.sheet is not None:
            closing = {REASON: self.closing.line.text()} if self._is_closing else {}
            self._kept[self.ref] = self.fields.texts() | closing

    @property
    def _is_closing(self) -> bool:
        return self._stack.currentWidget() is self.closing

    # The sheet

    def _read(self, sheet: SignSheet) -> None:
        if sheet.ref != self.ref:
            return
        self._is_busy = False
        if sheet.asks_nothing and self.desk.who and self._trouble is None and self.isHidden():
            self.sheet = sheet
            self._sign(services.signing.SignForm(), self.desk.who)
        elif sheet != self.sheet or self.isHidden():
            self._open(sheet)

    def _open(self, sheet: SignSheet) -> None:
        """Show what a sheet asks, with all that was typed before and the keys where they were."""
        was_open, was_closing = not self.isHidden(), self._is_closing
        had = self.fields.typed_in()
        if was_open:
            self._keep()
        self.sheet = sheet
        kept = self._kept.get(sheet.ref, {})
        self.fields.show_sheet(sheet, kept, self.desk.who)
        self.wrong.hide()
        self.closing.show_sheet(sheet, kept.get(REASON, ""))
        asked_already = was_open and not was_closing
        wanted = self.closing if sheet.missing and not asked_already else self.page
        self._stack.setCurrentWidget(wanted)
        self.show()
        self.shut.emit(False)
        if wanted is self.closing and not (was_open and was_closing):
            self.closing.leave.setFocus()
        elif wanted is self.page and not self._say_trouble():
            self.fields.focus_on(had)

    def _say_trouble(self) -> bool:
        """Say what kept it from being signed at once."""
        trouble, self._trouble = self._trouble, None
        return trouble is not None and self._say(trouble)

    def _close_up(self) -> None:
        """It is closed over what is missing; what else is asked comes next."""
        assert self.sheet is not None
        reason = self.closing.line.text()
        if self.sheet.asks_more or not self.desk.who:
            self._keep()
            self.fields.show_sheet(self.sheet, self._kept[self.sheet.ref], self.desk.who)
            self._stack.setCurrentWidget(self.page)
            self.fields.focus_on("")
        else:
            self._sign(services.signing.SignForm(reason=reason), self.desk.who)

    def _heard(self, _: Change) -> None:
        """The job is different: what is asked may be too."""
        if self.ref is not None and not self.isHidden() and not self._is_busy:
            self.desk.ask(services.signing.sheet, self.ref, then=self._read, failed=self._failed)

    def _tick(self, place: int, is_done: bool) -> None:
        act = services.tightening.tick if is_done else services.tightening.untick
        self.desk.act(act, self.ref, place, failed=self._not_ticked)

    def _count_back(self, tool_ids: list[int]) -> None:
        self.desk.act(services.tools.count_back, tool_ids, failed=self._not_ticked)

    def _count_one_back(self, tool_id: int) -> None:
        self.desk.act(services.tools.count_one_back, tool_id, failed=self._not_ticked)

    def _not_ticked(self, error: Exception) -> None:
        """Say why, and show again what stands."""
        self.desk.tell_error(error)
        if self.sheet is not None:
            self.fields.passes.show_joint(self.sheet.joint)

    # Signed

    def answer(self) -> None:
        """Sign with what was filled in."""
        try:
            form = self.fields.form()
        except Trouble as trouble:
            self._say(trouble)
            return
        self._sign(form, self.fields.signer())

    def _sign(self, form: services.signing.SignForm, who: str) -> None:
        if self._is_busy or self.ref is None:
            return
        self._is_busy = True
        self.desk.act(
            services.signing.sign,
            self.ref,
            form,
            who=who,
            then=self._signed,
            failed=self._failed,
        )

    def _signed(self, _: Change) -> None:
        self.drop()

    def _failed(self, error: Exception) -> None:
        self._is_busy = False
        if not isinstance(error, Trouble):
            self._put_away()
            self.desk.tell_error(error)
        elif self.isHidden() and error.field and self.ref is not None:
            self._trouble = error
            self.begin(self.ref)
        elif self.isHidden():
            self._put_away()
            self.desk.tell_error(error)
        else:
            self._say(error)

    def _say(self, error: Trouble) -> bool:
        """Say what is wrong at its field, else above the buttons."""
        if self._is_closing and error.field == REASON:
            self.closing.reason.say(error.sentence)
            return True
        self._stack.setCurrentWidget(self.page)
        at_field = self.fields.say_wrong(error)
        self.wrong.setText(error.sentence)
        self.wrong.setVisible(not at_field)
        return at_field

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in ENTER:
            (self.closing.answer if self._is_closing else self.answer)()
        elif event.key() == Qt.Key.Key_Escape:
            self.drop()
        else:
            super().keyPressEvent(event)
