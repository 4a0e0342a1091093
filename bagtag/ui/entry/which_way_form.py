"""Which way a part sat: what was noted so far, drawn and said, and a key for each further fact."""

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from bagtag.domain.contradictions import within
from bagtag.domain.datum import Datum, Side
from bagtag.domain.entry import Entry
from bagtag.domain.resolve import part_side, told
from bagtag.domain.sentence import sentence, short
from bagtag.domain.which_way import (
    Clocking,
    Faces,
    Fact,
    Hand,
    MatchMark,
    Place,
    SameWay,
    Seat,
    Without,
)
from bagtag.ui.desk import Desk
from bagtag.ui.entry.fact_clocking import ClockingEditor
from bagtag.ui.entry.fact_editor import FactEditor
from bagtag.ui.entry.fact_faces import FacesEditor
from bagtag.ui.entry.fact_other import SameWayEditor, WithoutEditor
from bagtag.ui.entry.fact_place import PlaceEditor
from bagtag.ui.entry.fact_small import HandEditor, MatchMarkEditor, SeatEditor
from bagtag.ui.entry.which_way_view import WhichWayView
from bagtag.ui.forms.basics import ENTER, button, is_inside, panel, tight
from bagtag.ui.forms.flow import FlowBox
from bagtag.ui.forms.plain import KeyButton
from bagtag.ui.forms.rows import Rows

_KINDS: dict[str, tuple[str, type[FactEditor]]] = {
    "F": ("Faces", FacesEditor),
    "H": ("Hand", HandEditor),
    "P": ("Place", PlaceEditor),
    "C": ("Clocking", ClockingEditor),
    "S": ("Seat", SeatEditor),
    "M": ("Match mark", MatchMarkEditor),
    "W": ("Same way as", SameWayEditor),
    "N": ("There is none", WithoutEditor),
}
_KEYS: dict[type, str] = {
    Faces: "F", Hand: "H", Place: "P", Clocking: "C", Seat: "S", MatchMark: "M",
    SameWay: "W", Without: "N",
}  # fmt: skip


class WhichWayForm(QWidget):
    """The facts of one part. A fact is in force as soon as it is whole; Enter closes its editor."""

    changed = Signal()

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._datum = Datum()
        self._side: Side | None = None
        self._told: dict[Fact, Fact] = {}
        self._against: tuple[str, ...] = ()
        self._facts: list[Fact] = []
        self._open: int | None = None
        self._before: tuple[Fact, ...] = ()
        self._touched = False
        self.editor: FactEditor | None = None
        self.view = WhichWayView(self)
        self.rows = Rows("which way", self)
        self.rows.opened.connect(self.edit)
        self.rows.removed.connect(self.take_out)
        self.frame = panel(self, "tape")
        self._kinds = FlowBox(self)
        self._buttons: dict[str, KeyButton] = {}
        self._build()

    def _build(self) -> None:
        for key, (title, _) in _KINDS.items():
            press = KeyButton(key, title, self._kinds)
            press.clicked.connect(self._add_pressed)
            press.setProperty("fact", key)
            self._kinds.flow.addWidget(press)
            self._buttons[key] = press
        self._frame_column = QVBoxLayout(self.frame)
        self._frame_column.setContentsMargins(14, 12, 14, 12)
        self._frame_column.setSpacing(10)
        self.frame.hide()
        column = QVBoxLayout(self)
        tight(column, 8)
        for part in (self.view, self.rows, self.frame, self._kinds):
            column.addWidget(part)
        self._show()

    @property
    def facts(self) -> tuple[Fact, ...]:
        return tuple(self._facts)

    def set_facts(self, facts: Sequence[Fact]) -> None:
        self._facts = list(facts)
        self._close_editor()
        self._show()

    def set_datum(self, datum: Datum) -> None:
        self._datum = datum
        self._show()

    def set_side(self, side: Side | None) -> None:
        """The side of the machine the part sat on: it says which side outward is."""
        self._side = side
        self._show()

    def set_told(self, facts: Sequence[Fact], told_facts: Sequence[Fact]) -> None:
        """What the rest of the job adds to these facts: numbers, and how another part sat."""
        self._told = dict(zip(facts, told_facts, strict=True))
        self._show()

    def set_against(self, sentences: Sequence[str]) -> None:
        """What these facts say against the rest of the job."""
        self._against = tuple(sentences)
        self._show()

    @property
    def part_side(self) -> Side | None:
        """The side the part sat on, as said or as its hand says."""
        return part_side(self._part(self.facts))

    @property
    def half_done(self) -> bool:
        """Whether a fact was begun that says too little to be kept."""
        return self.editor is not None and self._touched and self.editor.next_gap() is not None

    def add(self, key: str) -> None:
        """Open the editor for a new fact of the kind with this key: F, H, P, C, S, M, W or N."""
        self.finish()
        self._before = self.facts
        self._open = len(self._facts)
        self._open_editor(_KINDS[key][1])

    def edit(self, place: int) -> None:
        self.finish()
        self._before = self.facts
        self._open = place
        fact = self._facts[place]
        self._open_editor(_KINDS[_KEYS[type(fact)]][1], self._told.get(fact, fact))

    def take_out(self, place: int) -> None:
        self.finish()
        del self._facts[place]
        self._show()
        self.setFocus()
        self.changed.emit()

    def finish(self) -> None:
        """Close the editor and keep what it says; too little is no fact."""
        self._close_editor()
        self._show()

    def leave(self) -> None:
        """Close the editor and keep what was there before."""
        self._facts = list(self._before)
        self._close_editor()
        self._show()
        self.changed.emit()

    def setFocus(self, reason: Qt.FocusReason = Qt.FocusReason.TabFocusReason) -> None:
        self._buttons["F"].setFocus(reason)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        inside = self.editor is not None and is_inside(self.focusWidget(), self.editor)
        plain = event.modifiers() in (
            Qt.KeyboardModifier.NoModifier,
            Qt.KeyboardModifier.ShiftModifier,
        )
        if inside and event.key() in ENTER and plain:
            self.go_on()
        elif inside and event.key() == Qt.Key.Key_Escape:
            self.leave()
            self.setFocus()
        elif plain and event.text().upper() in _KINDS and not inside:
            self.add(event.text().upper())
        else:
            super().keyPressEvent(event)

    def go_on(self) -> None:
        """Enter: to what is still missing, else the fact is done."""
        gap = self.editor.next_gap() if self.editor else None
        if gap is not None:
            gap.setFocus(Qt.FocusReason.TabFocusReason)
            return
        self.finish()
        self.setFocus()

    def _add_pressed(self) -> None:
        press = self.sender()
        if press is not None:
            self.add(str(press.property("fact")))

    def _open_editor(self, kind: type[FactEditor], fact: Fact | None = None) -> None:
        self._touched = False
        self.editor = kind(self._datum, self.frame, self._desk)
        if fact is not None:
            self.editor.load(fact)
        self._frame_column.addWidget(self.editor)
        self._frame_column.addLayout(self._editor_acts())
        self.editor.edited.connect(self._edited)
        self.frame.show()
        self._show()
        self.editor.begin()

    def _editor_acts(self) -> QHBoxLayout:
        row = QHBoxLayout()
        tight(row, 8)
        done = button("Done  (Enter)", self.frame, role="plain", name="Done with this fact")
        leave = button(
            "Leave it  (Esc)", self.frame, role="quiet", name="Leave this fact as it was"
        )
        out = button("Take it out", self.frame, role="quiet", name="Take this fact out")
        done.clicked.connect(self.go_on)
        leave.clicked.connect(self.leave)
        out.clicked.connect(self._take_open_out)
        self._acts = (done, leave, out)
        for press in self._acts:
            row.addWidget(press)
        row.addStretch(1)
        return row

    def _take_open_out(self) -> None:
        place = self._open
        if place is not None and place < len(self._before):
            self.take_out(place)
        else:
            self.leave()

    def _close_editor(self) -> None:
        self._open = None
        if self.editor is None:
            return
        self.frame.hide()
        for part in (self.editor, *self._acts):
            part.setParent(None)
            part.deleteLater()
        while (item := self._frame_column.takeAt(0)) is not None:
            del item
        self.editor = None

    def _edited(self) -> None:
        """What the editor says stands among the facts as soon as it is whole."""
        assert self.editor is not None
        assert self._open is not None
        fact = self.editor.fact()
        self._touched = True
        self._facts = list(self._before)
        if fact is not None:
            self._facts[self._open : self._open + 1] = [fact]
        self._show()
        self.changed.emit()

    def _show(self) -> None:
        self.view.show_facts(self._as_told(self.facts), self._datum)
        listed = self.facts if self._open is None else self._before
        rows = [self._in_short(fact) for fact in self._as_told(listed)]
        self.rows.set_rows(rows, self._open)
        own = [found.sentence for found in within(self.facts, self._datum, self.part_side)]
        self.view.say([*own, *self._against])

    def _as_told(self, facts: Sequence[Fact]) -> tuple[Fact, ...]:
        here = told(self._part(facts), {})
        return tuple(self._told.get(fact, own) for fact, own in zip(facts, here, strict=True))

    def _part(self, facts: Sequence[Fact]) -> Entry:
        return Entry("", which_way=tuple(facts), side=self._side)

    def _in_short(self, fact: Fact) -> str:
        """A fact on its slip: the sentence stands above, so a few words will do."""
        if isinstance(fact, Hand):
            return sentence((fact,), self._datum).rstrip(".")
        return short((fact,), self._datum)
