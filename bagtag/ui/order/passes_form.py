"""The passes a part is tightened by: one of the usual ways, or the manual's own, pass by pass."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.cautions import TORQUE_CAUTIONS
from bagtag.domain.errors import Trouble
from bagtag.domain.hole_check import marked
from bagtag.domain.schedule import PRESETS, Preset, said
from bagtag.domain.tightening import Pass
from bagtag.domain.torque import TorqueUnit
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import ENTER, Field, button, label, panel, tight
from bagtag.ui.forms.choices import Option
from bagtag.ui.forms.form_dialog import FormDialog
from bagtag.ui.forms.lone_choices import LoneChoices
from bagtag.ui.forms.rows import Rows
from bagtag.ui.order.pass_editor import PassEditor
from bagtag.ui.order.passes_read import PassesRead

if TYPE_CHECKING:
    from bagtag.services.holes import MapView

USUAL = Preset("as usual", ())
_UNDER = "Take one of the usual ways, or write the maker's steps down one by one."


def open_passes(desk: Desk, parent: QWidget | None, removal_id: int) -> PassesDialog:
    """Open the form of how this part is tightened."""
    dialog = PassesDialog(desk, parent, removal_id)
    dialog.open()
    return dialog


class PassesDialog(FormDialog):
    """Slips for the passes, the open one's fields below them, and how all of it will read."""

    def __init__(self, desk: Desk, parent: QWidget | None, removal_id: int) -> None:
        super().__init__(desk, "Passes", parent, keep="Keep it")
        self._removal_id = removal_id
        self.view: MapView | None = None
        self.passes: list[Pass] = []
        self._open: int | None = None
        self._make()
        self._lay_out()
        self._connect()
        self.keep.setEnabled(False)
        self.desk.ask(services.holes.map_view, removal_id, then=self._known)
        self.fit(760)

    def _make(self) -> None:
        ways = [
            Option(one, one.name, _meant(one), str(n)) for n, one in enumerate((USUAL, *PRESETS), 1)
        ]
        self.ways = LoneChoices("Usual ways", ways, self.inner, columns=2)
        self.rows = Rows("pass", self.inner)
        self.frame = panel(self.inner, "tape")
        self.editor = PassEditor(self.frame)
        self.earlier = button("Earlier", self.frame, role="quiet", name="Put this pass earlier")
        self.later = button("Later", self.frame, role="quiet", name="Put this pass later")
        self.out = button("Take it out", self.frame, role="quiet", name="Take this pass out")
        self.shut = button("Done with it", self.frame, name="Done with this pass")
        self.more = button("Add a pass", self.inner)
        self.reading = PassesRead(self.inner)
        cautions = " ".join(TORQUE_CAUTIONS)
        self.cautions = label(cautions, self.inner, scale="small", tone="muted")
        self.fields = {"passes": self.reading.field, "amount": self.editor.amount_field}

    def _lay_out(self) -> None:
        acts = QHBoxLayout()
        tight(acts, 8)
        for press in (self.shut, self.earlier, self.later, self.out):
            acts.addWidget(press)
        acts.addStretch(1)
        inside = QVBoxLayout(self.frame)
        inside.setContentsMargins(14, 12, 14, 12)
        inside.addWidget(self.editor)
        inside.addLayout(acts)
        add = QHBoxLayout()
        add.addWidget(self.more)
        add.addStretch(1)
        self.usual = Field("Usual ways", self.ways, self.inner)
        self.column.addWidget(self.usual)
        self.column.addWidget(self.rows)
        self.column.addWidget(self.frame)
        self.column.addLayout(add)
        self.column.addWidget(self.reading)
        self.column.addWidget(self.cautions)
        self.column.addStretch(1)
        self.frame.hide()

    def _connect(self) -> None:
        self.ways.chosen.connect(self._take_way)
        self.rows.opened.connect(self.edit)
        self.rows.removed.connect(self.take_out)
        self.more.clicked.connect(self.add)
        self.editor.edited.connect(self._edited)
        self.shut.clicked.connect(self._done_with_it)
        self.out.clicked.connect(self._take_open_out)
        self.earlier.clicked.connect(self._move_earlier)
        self.later.clicked.connect(self._move_later)

    # What is known of the part

    def _known(self, view: MapView) -> None:
        self.view = view
        removal = view.removal
        self.say_title(f"Passes: {removal.number} {removal.name}", _UNDER)
        torque = next((line.torque for line in removal.held_by if line.torque), None)
        unit = torque.unit if torque is not None else TorqueUnit.NEWTON_METRE
        self.editor.offer(self._groups(view), unit)
        self.passes = list(removal.passes)
        self.keep.setEnabled(True)
        self._show()
        if self.passes and self.ways.value is None:
            self.rows.slip(0).setFocus()  # a key on the usual ways would wipe the manual's own
        else:
            self.ways.choice(self.ways.value or USUAL).setFocus()

    @staticmethod
    def _groups(view: MapView) -> list[str]:
        holes = view.hole_map.holes if view.hole_map is not None else ()
        groups = dict.fromkeys(hole.group for hole in holes if hole.group)
        return [*(line.mark for line in marked(view.held_by)), *groups]

    # Writing them down

    def _take_way(self) -> None:
        self.passes = list(self.ways.value.passes)
        self._close()

    def add(self) -> None:
        """One more pass at the end, as much as the one before it."""
        last = self.passes[-1] if self.passes else Pass(share=1.0)
        self.passes.append(Pass(last.kind, last.torque, last.share, last.angle))
        self.edit(len(self.passes) - 1)

    def edit(self, place: int) -> None:
        """Open the fields of a pass."""
        if not self._is_whole():
            return
        self._open = place
        self.editor.load(self.passes[place])
        self._show()
        self.editor.begin()

    def take_out(self, place: int) -> None:
        del self.passes[place]
        self._open = None
        self._show()
        self.more.setFocus()

    def _take_open_out(self) -> None:
        if self._open is not None:
            self.take_out(self._open)

    def _move_earlier(self) -> None:
        self._move(-1)

    def _move_later(self) -> None:
        self._move(1)

    def _move(self, step: int) -> None:
        place = self._open
        if place is None or not self._is_whole() or not 0 <= place + step < len(self.passes):
            return
        self.passes.insert(place + step, self.passes.pop(place))
        self._open = place + step
        self._show()

    def _edited(self) -> None:
        """Take the open pass in as it is typed; what cannot be read is said when it is left."""
        if self._open is None:
            return
        try:
            self.passes[self._open] = self.editor.one()
        except Trouble:
            return
        self.editor.say("")
        self._show()

    def _is_whole(self) -> bool:
        """Whether the open pass can be read; else it is said at its field."""
        if self._open is None:
            return True
        try:
            self.passes[self._open] = self.editor.one()
        except Trouble as trouble:
            self.editor.say(trouble.sentence)
            self.editor.begin()
            return False
        return True

    def _done_with_it(self) -> None:
        if self._is_whole():
            self._close()
            self.more.setFocus()

    def _close(self) -> None:
        self._open = None
        self.editor.say("")
        self._show()

    # How it reads

    def _show(self) -> None:
        slips = [f"{n}. {said(one)}" for n, one in enumerate(self.passes, 1)]
        self.rows.set_rows(slips, self._open)
        for part in (self.usual, self.more):
            part.setVisible(self._open is None)
        self.frame.setVisible(self._open is not None)
        self.earlier.setEnabled(bool(self._open))
        self.later.setEnabled(self._open is not None and self._open < len(self.passes) - 1)
        chosen = (one for one in (USUAL, *PRESETS) if one.passes == tuple(self.passes))
        self.ways.set_value(next(chosen, None))
        if self.view is not None:
            self.reading.show_passes(self.view, self.passes)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """A scanner's own end key keeps nothing."""
        if event.key() not in ENTER or not self.ways.keys.end():
            super().keyPressEvent(event)

    def save(self) -> None:
        if not self.keep.isEnabled() or not self._is_whole():
            return
        self._show()
        self.act(services.tightening.set_passes, self._removal_id, tuple(self.passes))

    def say_wrong(self, sentence: str, field: str = "") -> None:
        super().say_wrong(sentence, field)
        if field == "passes":
            self.more.setFocus()


def _meant(one: Preset) -> str:
    if one is USUAL:
        return "by what the hardware says"
    return f"from {one.fasteners_from} bolts up" if one.fasteners_from > 2 else "for any joint"
