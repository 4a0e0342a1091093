"""The areas of a machine as a tree, and for each the removal that opens it."""

from collections.abc import Mapping, Sequence
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain import areas as tree
from bagtag.domain.errors import Trouble
from bagtag.domain.model import Area
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import ENTER, Field, Line, clear_layout, label, tight
from bagtag.ui.job.area_form import AreaForm
from bagtag.ui.job.area_slip import AreaSlip

EMPTY = "No areas yet. Begin with the largest: engine, gearbox."
HELP = (
    "Enter changes it, Delete takes it out, Alt+Right puts it inside the one above, Alt+Left out."
)


class AreaTree(QWidget):
    """Up and Down go through the tree; everything is done from the keyboard."""

    opened = Signal()
    """The form of an area came up, and should be in sight."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.desk = desk
        self.job_id = 0
        self._areas: Sequence[Area] = ()
        self._openers: Mapping[int, str] = {}
        self._slips: list[AreaSlip] = []
        self._here: int | None = None
        self._wanted: int | None = None
        self.empty = label(EMPTY, self, tone="muted")
        self.help = label(HELP, self, scale="small", tone="muted")
        self._list = QWidget(self)
        self._column = QVBoxLayout(self._list)
        tight(self._column, 0)
        self.form = AreaForm(desk, self._list)
        self.new = Line(self, "Add an area", hint="for example: gearbox")
        self.new_field = Field("Add an area", self.new, self)
        self.form.done.connect(self._done)
        self.form.left.connect(self._left)
        self.form.deleted.connect(self._delete)
        column = QVBoxLayout(self)
        tight(column, 8)
        for part in (self.empty, self._list, self.help, self.new_field):
            column.addWidget(part)
        self.form.hide()
        self._show()

    @property
    def slips(self) -> list[AreaSlip]:
        return list(self._slips)

    def set_areas(self, job_id: int, areas: Sequence[Area], openers: Mapping[int, str]) -> None:
        """Show a job's areas; `openers` names removals by id."""
        if job_id != self.job_id:
            self._here, self._wanted = None, None
            self.form.hide()
        self.job_id, self._areas, self._openers = job_id, areas, openers
        had_focus = any(slip.hasFocus() for slip in self._slips)
        self._show()
        wanted = self._wanted if self._wanted is not None else (self._here if had_focus else None)
        self._wanted = None
        if wanted is not None and self._slip(wanted) is not None:
            self.go_to(wanted)

    def go_to(self, area_id: int) -> None:
        slip = self._slip(area_id)
        if slip is not None:
            self._set_here(area_id)
            slip.setFocus(Qt.FocusReason.OtherFocusReason)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        on = self.focusWidget()
        place = self._slips.index(on) if isinstance(on, AreaSlip) and on in self._slips else None
        if event.key() in ENTER and on is self.new:
            self._add()
        elif event.key() == Qt.Key.Key_Escape and on is self.new and self._here is not None:
            self._set_here(None)
        elif place is None or not self._slip_key(event, place):
            super().keyPressEvent(event)

    def _slip_key(self, event: QKeyEvent, place: int) -> bool:
        key, area = event.key(), self._slips[place].area
        alt = bool(event.modifiers() & Qt.KeyboardModifier.AltModifier)
        if key in (Qt.Key.Key_Down, Qt.Key.Key_Up):
            step = 1 if key == Qt.Key.Key_Down else -1
            self.go_to(self._slips[min(max(place + step, 0), len(self._slips) - 1)].area.id)
        elif key in (*ENTER, Qt.Key.Key_F2, Qt.Key.Key_Space):
            self.edit(area.id)
        elif key == Qt.Key.Key_Delete:
            self._delete(area.id)
        elif key == Qt.Key.Key_Insert:
            self.new.setFocus()
        elif alt and key == Qt.Key.Key_Right:
            self._put_inside_above(place)
        elif alt and key == Qt.Key.Key_Left:
            self._put_out(area)
        else:
            return False
        return True

    def edit(self, area_id: int) -> None:
        """Open the form of an area."""
        area = tree.by_id(self._areas)[area_id]
        self._set_here(area_id)
        self.form.open(area, self._areas, self._openers.get(area.opener_id or 0, ""))
        self._place_form()
        self.opened.emit()

    def _place_form(self) -> None:
        """The form stands just below the area it is about."""
        self._column.removeWidget(self.form)
        slip = self._slip(self._here or 0)
        below = self._slips.index(slip) + 1 if slip else len(self._slips)
        self._column.insertWidget(below, self.form)

    def _clicked(self) -> None:
        slip = self.sender()
        if isinstance(slip, AreaSlip):
            self.edit(slip.area.id)

    def _add(self) -> None:
        self.new_field.say("")
        self.desk.act(
            services.jobs.add_area, self.job_id, self.new.text(),
            parent_id=self._here, then=self._added, failed=self._not_added,
        )  # fmt: skip

    def _added(self, _: object) -> None:
        self.new.clear()

    def _not_added(self, error: BaseException) -> None:
        if not isinstance(error, Trouble):
            raise error
        self.new_field.say(error.sentence)

    def _put_inside_above(self, place: int) -> None:
        """Into the last area before it that lies as deep."""
        slip = self._slips[place]
        above = [s for s in self._slips[:place] if s.level <= slip.level]
        if above and above[-1].level == slip.level:
            self._move(slip.area, above[-1].area.id)

    def _put_out(self, area: Area) -> None:
        around = tree.by_id(self._areas).get(area.parent_id or 0)
        if around is not None:
            self._move(area, around.parent_id)

    def _move(self, area: Area, parent_id: int | None) -> None:
        self._wanted = area.id
        self.desk.act(services.jobs.edit_area, area.id, name=area.name, parent_id=parent_id)

    def _delete(self, area_id: int) -> None:
        place = next(n for n, slip in enumerate(self._slips) if slip.area.id == area_id)
        near = self._slips[place - 1] if place else None
        self._wanted = near.area.id if near else None
        self._set_here(self._wanted)
        self.form.hide()
        if near is None:
            self.new.setFocus()
        self.desk.act(services.jobs.delete_area, area_id)

    def _done(self, area_id: int) -> None:
        self.form.hide()
        self.go_to(area_id)

    def _left(self) -> None:
        self.form.hide()
        if self._here is not None:
            self.go_to(self._here)

    def _slip(self, area_id: int) -> AreaSlip | None:
        return next((slip for slip in self._slips if slip.area.id == area_id), None)

    def _set_here(self, area_id: int | None) -> None:
        """New areas go inside this one; it is the tree's one stop for Tab."""
        self._here = area_id
        area = tree.by_id(self._areas).get(area_id or 0)
        where = f" inside {area.name}; Esc: at the top" if area else ""
        self.new_field.caption.setText(f"Add an area{where}")
        self.new.setAccessibleName(f"Add an area{where}")
        first = self._slips[0].area.id if self._slips else None
        for slip in self._slips:
            stop = slip.area.id == (area_id or first)
            policy: Any = Qt.FocusPolicy.StrongFocus if stop else Qt.FocusPolicy.ClickFocus
            slip.setFocusPolicy(policy)

    def _show(self) -> None:
        self._column.removeWidget(self.form)
        clear_layout(self._column)
        self._slips = [
            AreaSlip(area, depth, self._openers.get(area.opener_id or 0, ""), self._list)
            for depth, area in tree.in_tree_order(self._areas)
        ]
        for slip in self._slips:
            slip.clicked.connect(self._clicked)
            self._column.addWidget(slip)
            slip.show()
        self._place_form()
        self.empty.setVisible(not self._slips)
        self.help.setVisible(bool(self._slips))
        self._list.setVisible(bool(self._slips))
        known = self._here if self._here and self._slip(self._here) else None
        self._set_here(known)
