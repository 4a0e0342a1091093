"""The entry card as a form: what stands in it, what is said beside its fields, what is dropped."""

from dataclasses import fields, replace
from itertools import pairwise
from typing import TYPE_CHECKING

from PySide6.QtCore import QSettings
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QFrame, QVBoxLayout, QWidget

from bagtag.domain.errors import Trouble
from bagtag.ui.desk import Desk
from bagtag.ui.entry.entry_acts import EntryActs
from bagtag.ui.entry.entry_bench import Bench
from bagtag.ui.entry.entry_draft import Draft, Names, of_entry
from bagtag.ui.entry.entry_fields import EntryFields
from bagtag.ui.entry.entry_head import EntryHead
from bagtag.ui.forms.sight import InSight, scrolling
from bagtag.ui.photos.photo_sources import pictures_in

if TYPE_CHECKING:
    from bagtag.scan.tape import Tape


class EntryForm(QFrame):
    """The name above, the acts below, and between them a middle that scrolls."""

    def __init__(self, desk: Desk, parent: QWidget | None, settings: QSettings | None) -> None:
        super().__init__(parent)
        self.desk = desk
        self.names = Names({}, {})
        self._tape = Draft()
        self._waiting_tape: Tape | None = None
        self.setProperty("surface", "card")
        self.setAcceptDrops(True)
        self.head = EntryHead(self)
        self.fields = EntryFields(desk, self, settings)
        self.acts = EntryActs(desk, self)
        self.head.changed.connect(self._named)
        self.head.changed.connect(self._changed)
        self.fields.changed.connect(self._changed)
        self._build()

    def _build(self) -> None:
        self.area = scrolling(self.fields, self)
        asks = self.fields.asks
        InSight(self.area, (asks.panel, self.fields.which_way.frame, self.fields.hardware.frame))
        self._order_stops(
            self.head.name, asks.panel, asks.panel.skip, asks.panel.back, self.head.quantity
        )
        # The kind is seldom another, and leaving comes last.
        self._order_stops(self.acts.theirs, asks.line.other, asks.again, self.head.shut)
        column = QVBoxLayout(self)
        column.setContentsMargins(24, 14, 24, 16)
        column.setSpacing(10)
        column.addWidget(self.head)
        column.addWidget(self.area, 1)
        column.addWidget(self.acts)

    @staticmethod
    def _order_stops(*stops: QWidget) -> None:
        for before, after in pairwise(stops):
            QWidget.setTabOrder(before, after)

    @property
    def draft(self) -> Draft:
        """What stands in the card now."""
        return self.fields.draft(self.head.name.text(), self.head.quantity.text())

    def set_bench(self, bench: Bench) -> None:
        """The job's names and its reader are known; a tape line that waited for them goes in."""
        self.names = bench.names
        self.fields.set_bench(bench)
        if self._waiting_tape is not None:
            self._apply_tape(self._waiting_tape)

    def take_tape(self, tape: "Tape") -> None:
        """Fill in what a masking-tape line says; what was typed by hand elsewhere stays."""
        self._waiting_tape = tape
        if self.names.areas or self.names.containers or not _needs_names(tape):
            self._apply_tape(tape)

    @property
    def has_waiting_tape(self) -> bool:
        return self._waiting_tape is not None

    def forget_tape(self) -> None:
        """What a tape line says next is for another entry."""
        self._tape, self._waiting_tape = Draft(), None

    def _apply_tape(self, tape: "Tape") -> None:
        """Only what the line says otherwise than before is put in."""
        self._waiting_tape = None
        said = of_entry(tape.entry, self.names, tape.container_wanted or "")
        names = [
            f.name for f in fields(Draft) if getattr(said, f.name) != getattr(self._tape, f.name)
        ]
        self._tape = said
        if any(chip.kind == "fate" for chip in tape.chips):
            self.fields.fate_is_chosen = True
        self.fill(replace(self.draft, **{name: getattr(said, name) for name in names}))

    def fill(self, draft: Draft) -> None:
        now = self.draft
        same = [f.name for f in fields(Draft) if getattr(now, f.name) == getattr(draft, f.name)]
        if "name" not in same:
            self.head.name.setText(draft.name)
        if "quantity" not in same:
            self.head.quantity.setText(draft.quantity)
        self.fields.fill(draft, same)

    def _named(self) -> None:
        self.fields.asks.set_name(self.head.name.text())

    def _changed(self) -> None:
        self.acts.say("")

    def say(self, trouble: Trouble) -> None:
        said = self.head.say(trouble.field, trouble.sentence)
        if not (said or self.fields.say(trouble.field, trouble.sentence)):
            self.acts.say(trouble.sentence, trouble=True)

    def say_nothing(self) -> None:
        self.head.say_nothing()
        self.fields.say_nothing()
        self.acts.say("")

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if pictures_in(event.mimeData()):
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        self.fields.photos.dropEvent(event)


def _needs_names(tape: "Tape") -> bool:
    return bool(tape.entry.area_id or tape.entry.container_id)
