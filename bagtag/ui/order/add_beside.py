"""Where a step stands that was never logged: before or after another."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QWidget

from bagtag.domain.fitting import Anchor, Beside, Ref
from bagtag.ui.forms.basics import Field, tight
from bagtag.ui.forms.choices import Choices, Option
from bagtag.ui.forms.pick_line import PickLine
from bagtag.ui.order.pick_rows import Rows

_SIDES = (Option(Beside.BEFORE, "Before"), Option(Beside.AFTER, "After"))
_ALL = "every other step"


class BesidePick(QWidget):
    """Two words and a step. Without a step it stands before all, or after all."""

    picked = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.side = Choices("It stands", _SIDES, self, columns=2)
        self.side.set_value(Beside.AFTER)
        self.side_is_chosen = False
        self.step = PickLine("Which step", "step", self, hint=_ALL)
        self._side_field = Field("It stands", self.side, self)
        row = QHBoxLayout(self)
        tight(row, 12)
        row.addWidget(self._side_field, 0, Qt.AlignmentFlag.AlignTop)
        row.addWidget(self.step, 1)
        self._side_field.setFixedWidth(230)
        self.side.chosen.connect(self._chosen)
        self.step.picked.connect(self.picked)

    @property
    def field(self) -> Field:
        return self.step.field

    @property
    def anchor(self) -> Anchor:
        return Anchor(self.side.value, self.ref)

    @property
    def ref(self) -> Ref | None:
        found = self.step.value
        return found if isinstance(found, Ref) else None

    def set_anchor(self, anchor: Anchor) -> None:
        self.side.set_value(anchor.beside)
        self.side_is_chosen = True
        self.step.set_value(anchor.of)

    def set_rows(self, rows: Rows, but: Ref | None = None) -> None:
        self.step.set_rows(rows.pick_steps([but] if but is not None else []))

    def set_parts(self, rows: Rows) -> None:
        """Only parts: what stands beside a task has no place in the log."""
        self.step.set_rows(rows.pick_parts())

    def suggest(self, side: Beside) -> None:
        """Before or after, unless a person has said which."""
        if not self.side_is_chosen:
            self.side.set_value(side)

    def only_after(self) -> None:
        """A final tightening has no other place than after its step."""
        self.side.set_value(Beside.AFTER)
        self._side_field.hide()

    def _chosen(self) -> None:
        self.side_is_chosen = True
