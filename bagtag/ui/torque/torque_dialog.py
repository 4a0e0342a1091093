"""The torque bench: a torque in all units, whether it can be right, what the wrench is set to."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QDialog, QHBoxLayout, QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.cautions import TORQUE_CAUTIONS
from bagtag.domain.change import Change
from bagtag.domain.hardware import HeldBy
from bagtag.domain.model import Removal
from bagtag.domain.wrench import Wrench
from bagtag.ui.desk import Desk
from bagtag.ui.forms.acts import Act
from bagtag.ui.forms.basics import ENTER, label, tight
from bagtag.ui.forms.sight import InSight, scrolling
from bagtag.ui.torque.torque_given import TorqueGiven
from bagtag.ui.torque.torque_lines import LineChoices
from bagtag.ui.torque.torque_setting import TorqueSetting
from bagtag.ui.torque.wrench_dialog import open_wrenches

_WIDE, _HIGH = 1080, 764
_AIR = 24


def open_torque(desk: Desk, parent: QWidget | None, removal_id: int | None = None) -> TorqueDialog:
    """Open the torque bench, with the lines of hardware of a part."""
    dialog = TorqueDialog(desk, parent, removal_id)
    dialog.open()
    return dialog


class TorqueDialog(QDialog):
    """Nothing that is typed here is kept: it is there to convert, to check and to set a wrench."""

    def __init__(self, desk: Desk, parent: QWidget | None, removal_id: int | None = None) -> None:
        super().__init__(parent)
        self.desk = desk
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.head = label("Torque", self, scale="head")
        self.inner = QWidget(self)
        self.lines = LineChoices(self.inner)
        self.given = TorqueGiven(self.inner)
        self.setting = TorqueSetting(self.inner)
        self.wrenches = Act("Torque wrenches", "Ctrl+L", self)
        self.put_away = Act("Close", "Esc", self, role="quiet")
        self.setWindowTitle("Torque")
        self._lay()
        self._connect()
        self._fit()
        self.given.torque.setFocus()
        self._ask(removal_id)

    def _lay(self) -> None:
        across = QHBoxLayout()
        tight(across, 28)
        across.addWidget(self.given, 1)
        across.addWidget(self.setting, 1)
        inside = QVBoxLayout(self.inner)
        inside.setContentsMargins(2, 2, 14, 2)
        inside.setSpacing(14)
        inside.addWidget(self.lines)
        inside.addLayout(across, 1)
        sight = scrolling(self.inner, self)
        InSight(sight, ())
        above = QHBoxLayout()
        above.setContentsMargins(0, 0, 14, 0)
        above.addWidget(self.head, 1)
        above.addWidget(self.wrenches)
        above.addWidget(self.put_away)
        column = QVBoxLayout(self)
        column.setContentsMargins(_AIR, 14, _AIR - 14, 12)
        column.setSpacing(10)
        column.addLayout(above)
        column.addWidget(sight, 1)
        column.addWidget(label(" ".join(TORQUE_CAUTIONS), self, scale="small", tone="muted"))

    def _connect(self) -> None:
        self.lines.picked.connect(self._load)
        self.given.edited.connect(self._follow)
        self.wrenches.clicked.connect(self._open_wrenches)
        self.put_away.clicked.connect(self.reject)
        self.desk.changed.connect(self._heard)

    def _fit(self) -> None:
        """As large as it wants, as far as the window has room for it."""
        above = self.parentWidget()
        room = above.window().size() if above is not None else self.size()
        wide = min(_WIDE, room.width() - 24) if above is not None else _WIDE
        high = min(_HIGH, room.height() - 24) if above is not None else _HIGH
        self.resize(max(wide, 640), max(high, 420))

    def _ask(self, removal_id: int | None) -> None:
        if removal_id is not None:
            self.desk.ask(services.strip.get_removal, removal_id, then=self._removal_known)
        self._ask_wrenches()

    def _ask_wrenches(self) -> None:
        self.desk.ask(services.wrenches.all_wrenches, then=self._wrenches_known)

    def _wrenches_known(self, wrenches: Sequence[Wrench]) -> None:
        self.setting.show_wrenches(wrenches)

    def _heard(self, change: Change) -> None:
        if change.touches("wrench"):
            self._ask_wrenches()

    def _removal_known(self, removal: Removal) -> None:
        self.head.setText(f"Torque: {removal.number} {removal.name}")
        self.lines.show_lines(removal.held_by)

    def _load(self, line: HeldBy) -> None:
        self.setting.load(line)
        self.given.load(line)

    def _follow(self) -> None:
        self.setting.follow(self.given.line, self.given.unit.value)

    def _open_wrenches(self) -> None:
        open_wrenches(self.desk, self)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() not in ENTER:  # Enter after a figure closes nothing
            super().keyPressEvent(event)
