"""What is filled in at sign-off: the figures asked for, the fasteners, why, a note, who signs."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from itertools import pairwise
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.cautions import TORQUE_CAUTIONS, has_torque
from bagtag.domain.errors import Trouble
from bagtag.domain.sign_off import is_same_person
from bagtag.ui.card.card_block import Block
from bagtag.ui.card.sign_passes import SignPasses, ToolsBack
from bagtag.ui.card.sign_rows import AskRow, CountRow, FigureRow
from bagtag.ui.card.sign_words import hold_words, waits_words
from bagtag.ui.forms.basics import Field, Line, clear_layout, label, tight
from bagtag.ui.forms.scroll import Scroll
from bagtag.ui.forms.sight import InSight

if TYPE_CHECKING:
    from bagtag.services.signing import SignForm, SignSheet

REASON, NOTE, WHO = "reason", "note", "who"
WHY_NOW, WHY_DONE, WHY_SO = (
    "Why it goes in now",
    "Why it is done now",
    "Why it is signed all the same",
)
ROWS = 540
"""How far what is typed stands from its name at most, in pixels."""


class Typed(Field):
    """A field of one line, by the name that the service calls it."""

    def __init__(self, name: str, caption: str, parent: QWidget, *, hint: str = "") -> None:
        self.line = Line(parent, caption, hint=hint)
        super().__init__(caption, self.line, parent)
        self.setObjectName(name)


class SignFields(Scroll):
    """The fields for one sheet. What is typed is handed out by name, so that none of it is lost
    when the sheet is read again."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent, "What is asked for at sign-off")
        self.sheet: SignSheet | None = None
        self.bench = ""
        self.figures: list[FigureRow] = []
        self.counts: list[CountRow] = []
        self.asked: tuple[FigureRow | CountRow, ...] = ()
        self.waits, self.hold = Block(self.body), Block(self.body)
        self.later = label("", self.body)
        self.tools, self.passes = ToolsBack(self.body), SignPasses(self.body)
        self.rows = QWidget(self.body)
        self._rows = QVBoxLayout(self.rows)
        tight(self._rows, 8)
        cautions = " ".join(TORQUE_CAUTIONS)
        self.override = label(cautions, self.body, scale="small", tone="muted")
        self.reason = Typed(REASON, WHY_SO, self.body, hint="for example: a trial fit")
        self.note = Typed(NOTE, "Note", self.body)
        self.who = Typed(WHO, "Who signs", self.body, hint="name or initials")
        self.rows.setMaximumWidth(ROWS)
        self.column.setContentsMargins(0, 0, 6, 0)
        self.column.setSpacing(8)
        self.column.addStretch(1)
        self.reason.line.textChanged.connect(self._weigh)
        self.who.line.textEdited.connect(self._who_typed)
        InSight(self, (self.waits, self.hold))

    # What is shown

    def show_sheet(self, sheet: SignSheet, kept: Mapping[str, str], bench: str) -> None:
        """Ask for what a sheet asks for. `kept` is what was typed before, `bench` the name at the
        bench, which stays what it is whoever signs here."""
        self.sheet, self.bench = sheet, bench
        self._make_rows(sheet)
        self.waits.say("It waits", waits_words(sheet))
        self.hold.say("A second pair of eyes signs this", hold_words(sheet.not_by))
        self.tools.show_tools(sheet.tools_out)
        self.passes.show_joint(sheet.joint)
        self.later.setText(f"Run in by hand now. Final torque after {sheet.torque_later}.")
        self.later.setVisible(bool(sheet.torque_later))
        passes = sheet.joint.passes if sheet.joint is not None else ()
        self.override.setVisible(bool(sheet.may_ask) or has_torque(sheet.held, passes))
        self.note.caption.setText("Note, or why a figure is left out" if sheet.asks else "Note")
        self._place(sheet)
        self._fill(kept)
        self._weigh()

    def _make_rows(self, sheet: SignSheet) -> None:
        """The figures that must be given, the counts, then the torques that may be."""
        clear_layout(self._rows)
        asks = [FigureRow(one, self.rows) for one in sheet.asks]
        torques = [FigureRow(one, self.rows) for one in sheet.may_ask]
        counted = ((n, line) for n, line in enumerate(sheet.held) if line.count != 0)
        self.figures = [*asks, *torques]
        self.counts = [CountRow(place, line, self.rows) for place, line in counted]
        self.asked = (*asks, *self.counts, *torques)
        for row in self.asked:
            row.edited.connect(self._weigh)
            self._rows.addWidget(row)
        self.rows.setVisible(bool(self.figures or self.counts))

    def _place(self, sheet: SignSheet) -> None:
        """The reason stands under what it is for where that is known at once; so does the name."""
        above = self._reason_above(sheet)
        second = [self.who] if sheet.not_by else []
        top: list[QWidget] = []
        for widget in (self.waits, self.tools, self.hold, *second, self.later, self.passes):
            top += [widget, self.reason] if widget is above else [widget]
        late = [self.reason] if above is None else []
        late += [self.note, *([] if second else [self.who])]
        for place, widget in enumerate((*top, self.rows, self.override, *late)):
            self.column.removeWidget(widget)
            self.column.insertWidget(place, widget)
        self._chain((*top, *self.asked, *late))

    def _reason_above(self, sheet: SignSheet) -> QWidget | None:
        """What the reason stands under, where that is known at once."""
        if sheet.hindrances:
            return self.waits
        if sheet.tools_out:
            return self.tools
        return self.passes if sheet.unticked else None

    def _chain(self, widgets: Iterable[QWidget]) -> None:
        """Tab goes down the page."""
        stops: list[QWidget] = []
        for widget in widgets:
            if isinstance(widget, (Typed, AskRow)):
                stops.append(widget.line)
            elif isinstance(widget, (ToolsBack, SignPasses)):
                stops += widget.stops
        for one, other in pairwise(stops):
            QWidget.setTabOrder(one, other)

    def _fill(self, kept: Mapping[str, str]) -> None:
        for name, line in self._lines():
            line.setText(kept.get(name, ""))
        if WHO not in kept:
            self.who.line.setText("" if self._same(self.bench) else self.bench)
        for field in (self.reason, self.note, self.who):
            field.say("")
        self.who.setVisible(bool(self.sheet and self.sheet.not_by) or not self.bench)

    def _lines(self) -> Iterator[tuple[str, Line]]:
        """Every line one can type in, by a name of its own that another sheet has for it too."""
        names: Counter[str] = Counter()
        for row in self.asked:
            name = row.name.text()
            names[name] += 1
            yield f"{name} {names[name]}", row.line
        for field in (self.reason, self.note, self.who):
            yield field.objectName(), field.line

    def typed_in(self) -> str:
        """The name of the line that has the keys; nothing for none."""
        return next((name for name, line in self._lines() if line.hasFocus()), "")

    def focus_on(self, name: str) -> None:
        """Put the keys on this line; where there is none, where the first thing is wanted."""
        line = dict(self._lines()).get(name)
        if line is not None:
            line.setFocus()
        else:
            self._focus_first()

    def _focus_first(self) -> None:
        waits = bool(self.sheet and (self.sheet.hindrances or self.sheet.tools_out))
        wanted = [self.reason.line] if waits else []
        wanted += [self.who.line] if not self.who.isHidden() else []
        wanted += [row.line for row in self.asked]
        empty = (line for line in (*wanted, self.note.line) if not line.text())
        due = None if waits else self.passes.first()
        (due or next(empty, self.note.line)).setFocus()

    # What speaks against it

    def _weigh(self) -> None:
        """The reason is asked for as soon as something speaks against signing, and no longer."""
        outside = any(row.outside() for row in self.figures)
        against = outside or any(row.miscounted() for row in self.counts)
        waits = bool(self.sheet and self.sheet.hindrances)
        against = against or bool(self.sheet and (self.sheet.tools_out or self.sheet.unticked))
        self.reason.setVisible(waits or against)
        now = WHY_DONE if self.sheet and self.sheet.ref.task_id is not None else WHY_NOW
        caption = now if waits else WHY_SO
        self.reason.caption.setText(caption)
        self.reason.line.setAccessibleName(caption)

    def _who_typed(self, typed: str) -> None:
        same = self._same(typed)
        self.who.say(f"{same} did the work it looks at; another must sign it." if same else "")

    def _same(self, name: str) -> str:
        """The name among those who must not sign that is the same person's."""
        not_by = self.sheet.not_by if self.sheet else ()
        return next((one for one in not_by if name and is_same_person(name, one)), "")

    # What was said

    def texts(self) -> dict[str, str]:
        """What is typed now, by name."""
        return {name: line.text() for name, line in self._lines()}

    def signer(self) -> str:
        return self.bench if self.who.isHidden() else self.who.line.text().strip()

    def form(self) -> SignForm:
        """What goes to the service; BadInput for what is no figure or no count."""
        assert self.sheet is not None
        asks = (*self.sheet.asks, *self.sheet.may_ask)
        counts = (row.counted() for row in self.counts)
        return services.signing.SignForm(
            note=self.note.line.text(),
            reason="" if self.reason.isHidden() else self.reason.line.text(),
            figures=services.signing.figures_of(asks, [row.value() for row in self.figures]),
            counts=tuple(one for one in counts if one is not None),
        )

    def say_wrong(self, error: Trouble) -> bool:
        """Say it at the field it is about, and go there; False where there is no such field."""
        for row in (*self.figures, *self.counts):
            if row.name.text() == error.field:
                row.say(error.sentence)
                row.line.setFocus()
                return True
        fields = {field.objectName(): field for field in (self.reason, self.note, self.who)}
        field = fields.get(error.field)
        if field is not None:
            field.show()
            field.say(error.sentence)
            field.line.setFocus()
        return field is not None
