"""The panel beside the list of Renew: the chosen line, its form, ordering several at once."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame, QStackedWidget, QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.change import Change
from bagtag.domain.errors import Trouble
from bagtag.domain.new_part import NewPart
from bagtag.domain.renewal_merge import supplier_key
from bagtag.ui.desk import Desk
from bagtag.ui.renew.filled import Filled
from bagtag.ui.renew.line_form import LineForm
from bagtag.ui.renew.order_form import OrderForm
from bagtag.ui.renew.renew_about import AboutLine
from bagtag.ui.renew.renew_acts import Do, acts_for
from bagtag.ui.renew.renew_lines import pieces, suppliers

if TYPE_CHECKING:
    from bagtag.domain.renewals import RenewLine


class RenewSide(QFrame):
    """`left` gives the keys back to the list; `shown` asks for the part of a line."""

    left = Signal()
    shown = Signal(int)

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self.desk = desk
        self.lines: Sequence[RenewLine] = ()
        self._is_busy = False
        self.setProperty("surface", "card")
        self.about = AboutLine(desk, self)
        self.line_form, self.order_form = LineForm(self), OrderForm(self)
        self.edit = Filled(self.line_form, "Keep it", self)
        self.order = Filled(self.order_form, "Ordered", self)
        self.pages = QStackedWidget(self)
        for page in (self.about, self.edit, self.order):
            self.pages.addWidget(page)
        column = QVBoxLayout(self)
        column.setContentsMargins(16, 14, 16, 14)
        column.addWidget(self.pages)
        self._connect()

    def _connect(self) -> None:
        about = self.about
        about.pressed.connect(self.do)
        about.arrived.answered.connect(self._arrived)
        about.wrong.answered.connect(self._wrong)
        about.compare.answered.connect(self._same)
        about.compare.differs.clicked.connect(self._differs)
        for ask in about.asks:
            ask.no.clicked.connect(self.left)
            ask.shut.connect(self._asked)
        self.edit.kept.connect(self.save)
        self.order.kept.connect(self.keep_order)
        for page in (self.edit, self.order):
            page.left.connect(self.go_back)

    # What is shown

    @property
    def line(self) -> RenewLine | None:
        return self.about.line

    @property
    def is_open(self) -> bool:
        """Whether a form is filled in, which the list must not take away."""
        return self.pages.currentWidget() is not self.about or self.about.is_asking

    def show_line(self, line: RenewLine | None) -> None:
        self.about.show_line(line)

    def go_back(self) -> None:
        """Leave a form; what was filled in there is not kept."""
        self.pages.setCurrentWidget(self.about)
        self.left.emit()

    def _asked(self, is_shut: bool) -> None:
        if is_shut and self.isVisible():
            self.left.emit()

    # What is asked for

    def do(self, do: Do) -> None:
        """Do with the chosen line what makes sense now; nothing where it does not."""
        line = self.line
        if line is None or do not in acts_for(line) or self.is_open:
            return
        match do:
            case Do.ORDER:
                self.begin_order(line)
            case Do.CHANGE:
                self.begin_edit(line.new_part, pieces(line.new_part))
            case Do.SHOW if line.removal is not None:
                self.shown.emit(line.removal.id)
            case Do.ARRIVED:
                self.about.arrived.open_line(line)
            case Do.WRONG:
                self.about.wrong.open_line(line)
            case Do.COMPARE:
                self.about.compare.open_line(line)
            case Do.ACCEPT:
                self._act(services.renewals.accept, line)
            case Do.REMOVE:
                self._act(services.renewals.remove, line.new_part)

    def begin_edit(self, part: NewPart, head: str) -> None:
        self.line_form.load(part, suppliers(self.lines), last_currency(self.lines))
        self._open(self.edit, head)
        self.line_form.begin()

    def begin_order(self, line: RenewLine) -> None:
        """Order a line, and others that come from its supplier where they are ticked too."""
        mine = supplier_key(line.new_part)
        beside = [one for one in self.lines if one.is_open and supplier_key(one.new_part) == mine]
        parts = [line.new_part, *(one.new_part for one in beside if one != line)]
        self.order_form.load(parts, suppliers(self.lines))
        name = line.new_part.supplier.strip()
        self._open(self.order, f"Order from {name}" if name else "Order")
        self.order_form.begin()

    def _open(self, page: Filled, head: str) -> None:
        page.head.setText(head)
        page.say("")
        self.pages.setCurrentWidget(page)

    # What is done

    def save(self) -> None:
        part = self.line_form.part()
        if part is not None:
            self._act(services.renewals.save, part, arrived=self.line_form.counted)
        elif (wrong := self.line_form.first_wrong()) is not None:
            wrong.setFocus()

    def keep_order(self) -> None:
        if (answer := self.order_form.answer()) is not None:
            self._act(services.renewals.order, *answer)

    def _arrived(self) -> None:
        answer = self.about.arrived.answer()
        if answer is not None and self.line is not None:
            self._act(services.renewals.arrive, self.line.new_part, *answer)

    def _wrong(self) -> None:
        answer = self.about.wrong.answer()
        if answer is not None and self.line is not None:
            why, on, many = answer
            self._act(services.renewals.wrong, self.line.new_part, why, on, count=many)

    def _same(self) -> None:
        self._compared(is_same=True)

    def _differs(self) -> None:
        self._compared(is_same=False)

    def _compared(self, *, is_same: bool) -> None:
        note = self.about.compare.answer(is_same=is_same)
        if note is not None and self.line is not None:
            self._act(services.renewals.compare, self.line.new_part, is_same, note)

    def _act(self, service: Callable[..., Any], *args: object, **more: object) -> None:
        if not self._is_busy:
            self._is_busy = True
            self.desk.act(service, *args, then=self._done, failed=self._failed, **more)

    def _done(self, _: Change) -> None:
        self._is_busy = False
        for ask in self.about.asks:
            ask.hide()
        self.go_back()

    def _failed(self, error: Exception) -> None:
        self._is_busy = False
        page = self.pages.currentWidget()
        ask = next((one for one in self.about.asks if not one.isHidden()), None)
        if not isinstance(error, Trouble):
            self.desk.tell_error(error)
        elif isinstance(page, Filled):
            if not page.form.say(error.field, error.sentence):
                page.say(error.sentence)
        elif ask is not None:
            ask.say(error.field, error.sentence)
        else:
            self.desk.tell_error(error)


def last_currency(lines: Sequence[RenewLine]) -> str:
    """The currency that was written last; empty for none."""
    priced = [line.new_part for line in lines if line.new_part.currency]
    return max(priced, key=lambda part: part.id).currency if priced else ""
