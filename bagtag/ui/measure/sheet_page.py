"""A measuring sheet as one page: the drawing and the readings, what they say, what is decided."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QKeyEvent, QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from bagtag.domain.cautions import MANUAL
from bagtag.domain.measuring import amounts, valves
from bagtag.domain.measuring.picture import draw
from bagtag.domain.measuring.sheet import SheetKind
from bagtag.domain.phrases import whole
from bagtag.ui.forms.acts import Act
from bagtag.ui.forms.basics import button, is_inside, label, tight
from bagtag.ui.forms.inks import inks_of
from bagtag.ui.forms.scroll import Scroll
from bagtag.ui.forms.sight import InSight
from bagtag.ui.forms.signed import Signed
from bagtag.ui.forms.turn import in_turn
from bagtag.ui.measure.decision_panel import DecisionPanel
from bagtag.ui.measure.given_form import GivenForm
from bagtag.ui.measure.limits_form import LimitsForm
from bagtag.ui.measure.measure_row import OF_NONE
from bagtag.ui.measure.measure_with import MeasureWith
from bagtag.ui.measure.reading_table import ReadingTable
from bagtag.ui.measure.sheet_more import SheetMore
from bagtag.ui.measure.sheet_slip import sheet_name
from bagtag.ui.measure.shim_view import ShimView
from bagtag.ui.measure.verdict_card import VerdictCard
from bagtag.ui.picture import PictureWidget

if TYPE_CHECKING:
    from bagtag.services.measuring import SheetView

DRAWING, LEAST = 230, 180
"""The height of the drawing, in pixels: where the page has room for it, and at least, so that its
lettering can be read."""
_SHARE = 0.36
"""Of the page's height."""
LOW = 480
"""On a page lower than this the drawing stands beside the fields, not above them."""


class SheetPage(QWidget):
    """Shows a `SheetView`; what is typed is told by the signals of its parts."""

    left = Signal()
    """Back to the parts."""

    def __init__(self, bench: str, parent: QWidget) -> None:
        super().__init__(parent)
        self._view: SheetView | None = None
        self._at = ""
        self._in_turn: tuple[object, ...] = (None, None, None)
        self._make(bench)
        self._lay()
        self.back.clicked.connect(self.left)
        self.table.reached.connect(self._reached)
        self.table.finished.connect(self._finished)

    def _make(self, bench: str) -> None:
        self.head = label("", self, scale="head")
        self.under = label("", self, tone="muted")
        self.print = Act("Print", "Ctrl+P", self)
        self.again = Act("New sheet", "Ctrl+N", self)
        self.back = button("All parts\u2002Esc", self, name="All parts")
        self.work_side = Scroll(self, "Readings, limits")
        self.said_side = Scroll(self, "What the sheet says")
        body = self.work_side.body
        self.drawing = PictureWidget(self)
        self.drawing.setAccessibleName("Where to measure")
        self.drawing.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.with_ = MeasureWith(body)
        self.table = ReadingTable(body)
        self.how = label("", body, scale="small", tone="muted")
        self.given_head = label("Known beforehand", body, tone="muted")
        self.given = GivenForm(body)
        self.limits_head = label("Limits by the maker's manual", body, tone="muted")
        self.limits = LimitsForm(body)
        self.more = SheetMore(body)
        self.verdict = VerdictCard(self.said_side.body)
        self.questions = Signed("?", self.said_side.body, name="What looks like a slip")
        self.shims = ShimView(self.said_side.body)
        self.decision = DecisionPanel(bench, self.said_side.body)
        self.caution = label(MANUAL, self.said_side.body, scale="small", tone="muted")

    def _lay(self) -> None:
        words = QVBoxLayout()
        tight(words, 0)
        words.addWidget(self.head)
        words.addWidget(self.under)
        top = QHBoxLayout()
        tight(top, 10)
        top.addLayout(words, 1)
        for act in (self.print, self.again, self.back):
            top.addWidget(act, 0, Qt.AlignmentFlag.AlignTop)
        self._column(self.work_side, (
            self.with_, self.table, self.how,
            self.given_head, self.given, self.limits_head, self.limits, self.more,
        ))  # fmt: skip
        self._column(
            self.said_side,
            (self.verdict, self.questions, self.shims, self.decision, self.caution),
        )
        across = QHBoxLayout()
        tight(across, 18)
        self._sides = tuple(self._side(side) for side in (self.work_side, self.said_side))
        for side, share in zip(self._sides, (11, 9), strict=True):
            across.addLayout(side, share)
        column = QVBoxLayout(self)
        tight(column, 10)
        column.addLayout(top)
        column.addLayout(across, 1)
        self._sight = InSight(self.work_side, ())
        InSight(self.said_side, ())

    @staticmethod
    def _side(scroll: Scroll) -> QVBoxLayout:
        """What scrolls, and above it room for the drawing, which is always in sight."""
        side = QVBoxLayout()
        tight(side, 10)
        side.addWidget(scroll, 1)
        return side

    @staticmethod
    def _column(side: Scroll, widgets: tuple[QWidget, ...]) -> None:
        side.column.setContentsMargins(0, 0, 10, 8)
        for widget in widgets:
            side.column.addWidget(widget)
        side.column.addStretch(1)

    # What is shown

    def show_view(self, view: SheetView) -> None:
        is_other = self._view is None or self._view.sheet.id != view.sheet.id
        self._view = view
        self._name()
        self._show_readings()
        self.more.show_texts(view.sheet.title, view.sheet.note)
        self._show_said()
        self.decision.setVisible(view.removal is not None)
        if view.removal is not None:
            self._show_decision(view)
        self.caution.setVisible(bool(view.form.figures))
        if is_other:
            self.begin()

    def _show_decision(self, view: SheetView) -> None:
        """A second Enter after deciding takes nothing back: it goes back to the parts."""
        was_deciding = is_inside(self.window().focusWidget(), self.decision.fates)
        self.decision.show_sheet(view)
        if was_deciding and view.sheet.decision is not None:
            self.back.setFocus()

    def _name(self) -> None:
        assert self._view is not None
        part, sheet = self._view.removal, sheet_name(self._view.sheet)
        self.head.setText(f"{part.number} {part.name}" if part else sheet)
        self.under.setText(sheet if part else OF_NONE)

    def _show_readings(self) -> None:
        assert self._view is not None
        form, sheet = self._view.form, self._view.sheet
        units = [place.unit or sheet.unit for place in form.places]
        self.with_.show_sheet(sheet, units)
        self.table.show_sheet(form, sheet)
        self.questions.say([whole(one) for one in self._view.questions])
        self.how.setText(form.how)
        self.how.setVisible(bool(form.how))
        self.given.show_sheet(form, sheet)
        self.limits.show_sheet(form, sheet)
        for part, slots in (
            (self.given_head, form.given),
            (self.given, form.given),
            (self.limits_head, form.figures),
            (self.limits, form.figures),
        ):
            part.setVisible(bool(slots))
        self._put_in_turn()
        self._draw()

    def _put_in_turn(self) -> None:
        """Tab goes down the page, whenever its fields came up."""
        made = (self.table.cells, self.given.given, self.limits.rows)
        if all(one is other for one, other in zip(made, self._in_turn, strict=True)):
            return
        self._in_turn = made
        said = (self.verdict, self.decision.work, self.decision.why, self.decision.who)
        read = (self.with_, self.table, self.given, self.limits, self.more)
        in_turn(self, (*read, *said, self.decision, self.print, self.again, self.back))

    def _show_said(self) -> None:
        """What the picture of the shims shows is not said a second time in words."""
        assert self._view is not None
        sheet, results = self._view.sheet, self._view.results
        is_valves = sheet.kind is SheetKind.VALVES
        plan = valves.plan_of(sheet) if is_valves else None
        self.shims.show_plan(plan, amounts.exact_unit(sheet))
        rest = tuple(one for one in results.advice if one not in results.moves)
        self.verdict.show_results(replace(results, advice=rest))

    def _draw(self) -> None:
        """The place that is being read stands out in the drawing."""
        if self._view is None:
            return
        self.drawing.set_inks(*inks_of(self))
        self.drawing.set_picture(draw(self._view.sheet, at=self._at))
        self.drawing.set_sentence(self._view.form.how)

    def begin(self) -> None:
        """Put the keys where the first thing is wanted."""
        wanted = self.given.wanted
        if wanted is not None:
            wanted.line.setFocus()
        elif not self.table.begin():
            self.back.setFocus()
        self.work_side.verticalScrollBar().setValue(0)
        self.said_side.verticalScrollBar().setValue(0)
        self._sight.bring_later()

    def _reached(self, key: str) -> None:
        cell = self.table.cell(key)
        if cell is not None and self._view is not None and key != self._at:
            self._at = key
            self.with_.follow(cell.place.unit or self._view.sheet.unit)
            self._draw()

    def _finished(self) -> None:
        """After the last reading: one more figure and Enter from a caliper decides nothing."""
        self.verdict.setFocus(Qt.FocusReason.TabFocusReason)

    # What is wrong

    def say(self, what: str, field: str, sentence: str) -> None:
        """Say it where it was typed: `what` is a place, `limits size`, `given stroke`,
        `more`, or `decision`."""
        sort, _, key = what.partition(" ")
        cell = self.table.cell(what)
        if cell is not None:
            cell.say(sentence)
        elif what == "decision":
            self.decision.say(field, sentence)
        elif sort == "limits":
            self.limits.say(key, sentence)
        elif sort == "given":
            self.given.say(key, sentence)
        elif field in self.more.fields:
            self.more.fields[field].say(sentence)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        high = int(self.height() * _SHARE)
        self.drawing.setFixedHeight(max(LEAST, min(DRAWING, high)))
        side = self._sides[self.height() < LOW]
        if side.indexOf(self.drawing) < 0:
            side.insertWidget(0, self.drawing)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange:
            self._draw()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        else:
            super().keyPressEvent(event)
