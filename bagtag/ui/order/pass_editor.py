"""One pass of a joint, field by field: what is done, how much, to which, in what order."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QWidget

from bagtag.domain.errors import BadInput
from bagtag.domain.schedule_check import FULL_TURN, MOST_LOOSENED
from bagtag.domain.tightening import Pass, PassKind
from bagtag.domain.torque import TorqueUnit
from bagtag.ui.entry.toggles import Toggles
from bagtag.ui.forms.basics import Field, Line, tight
from bagtag.ui.forms.choices import Choices, Option
from bagtag.ui.forms.figures import degrees, figure, written
from bagtag.ui.torque.torque_typed import torque_of

SHARE = "%"
REVERSED, ROUND = "reversed", "round"
_KINDS = {
    PassKind.TORQUE: "Torque",
    PassKind.ANGLE: "Turn further",
    PassKind.LOOSEN: "Loosen",
    PassKind.VERIFY: "Check",
}
_CAPTIONS = {
    PassKind.TORQUE: ("To how much", "60, or 24"),
    PassKind.ANGLE: ("By how many degrees", "90"),
    PassKind.LOOSEN: ("By how many degrees", "until free"),
    PassKind.VERIFY: ("At least", "122"),
}
_WRONG = {
    PassKind.TORQUE: "Give a torque above zero, or a share of the full one from 1 to 100 %.",
    PassKind.ANGLE: "Give the angle in degrees, above 0 and at most 360.",
    PassKind.LOOSEN: "Give the angle in degrees, ten turns at most; leave it empty for until free.",
    PassKind.VERIFY: "Give the torque that must be reached, a figure above zero.",
}


class PassEditor(QWidget):
    """The fields of one pass."""

    edited = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        kinds = [Option(kind, word) for kind, word in _KINDS.items()]
        self.kind = Choices("What is done", kinds, self, columns=4)
        self.amount = Line(self, "How much")
        self.unit = Choices("Unit", [], self, columns=5)
        self.group = Line(self, "Which fasteners", hint="all")
        orders = [Option(REVERSED, "Backwards"), Option(ROUND, "All the way round")]
        self.order = Toggles("Order", orders, self)
        self.note = Line(self, "Note on the pass", hint="for example: wait a minute")
        self.amount_field = Field("How much", self.amount, self)
        self.unit_field = Field("Unit", self.unit, self)
        self.group_field = Field("Which, by letter or group", self.group, self)
        self._lay()
        self.kind.chosen.connect(self._kind_chosen)
        self.unit.chosen.connect(self.edited)
        self.order.changed.connect(self.edited)
        for line in (self.amount, self.group, self.note):
            line.textEdited.connect(self.edited)

    def _lay(self) -> None:
        grid = QGridLayout(self)
        tight(grid, 10)
        top = Qt.AlignmentFlag.AlignTop
        grid.addWidget(self.kind, 0, 0, 1, 6, top)
        grid.addWidget(self.amount_field, 1, 0, 1, 2, top)
        grid.addWidget(self.unit_field, 1, 2, 1, 4, top)
        grid.addWidget(self.group_field, 2, 0, 1, 2, top)
        grid.addWidget(Field("Order", self.order, self), 2, 2, 1, 4, top)
        grid.addWidget(Field("Note", self.note, self), 3, 0, 1, 6, top)
        for at in range(6):
            grid.setColumnStretch(at, 1)

    # What is shown

    def offer(self, groups: Sequence[str], unit: TorqueUnit) -> None:
        """The groups that may be named, and the unit the part's torque is given in, put first."""
        self.group.suggest(groups)
        self._units = [unit, *(one for one in TorqueUnit if one is not unit)]
        self._offer_units()

    _units: Sequence[TorqueUnit] = tuple(TorqueUnit)
    _loaded: float | None = None

    def load(self, one: Pass) -> None:
        self._loaded = one.share  # two thirds are no whole per cent
        self.kind.set_value(one.kind)
        self._offer_units()
        self.unit.set_value(one.torque.unit if one.torque else self._first_unit())
        self.amount.setText(_amount(one))
        self.group.setText(one.group)
        ticked = [REVERSED] if one.is_reversed else []
        self.order.set_values([*ticked, ROUND] if one.is_round else ticked)
        self.note.setText(one.note)
        self.say("")

    def say(self, sentence: str, field: str = "") -> None:
        """Say what is wrong, at the group or at how much."""
        self.group_field.say(sentence if field == "group" else "")
        self.amount_field.say(sentence if field != "group" else "")

    def begin(self) -> None:
        self.amount.setFocus()
        self.amount.selectAll()

    def _kind_chosen(self) -> None:
        self._offer_units()
        if self.kind.value is PassKind.LOOSEN:
            self.order.set_values([REVERSED])  # what was tightened last is loosened first
        self.say("")
        self.edited.emit()

    def _offer_units(self) -> None:
        kind = self.kind.value or PassKind.TORQUE
        caption, hint = _CAPTIONS[kind]
        self.amount_field.caption.setText(caption)
        self.amount.setPlaceholderText(hint)
        shares = [Option(SHARE, "% of full")] if kind is PassKind.TORQUE else []
        self.unit.set_options([*shares, *(Option(one, one.value) for one in self._units)])
        if self.unit.value is None:
            self.unit.set_value(self._first_unit())
        self.unit_field.setVisible(kind in (PassKind.TORQUE, PassKind.VERIFY))

    def _first_unit(self) -> str:
        return SHARE if self.kind.value is PassKind.TORQUE else self._units[0]

    # What was said

    def one(self) -> Pass:
        """The pass as filled in; BadInput for what is no figure."""
        kind, unit = self.kind.value or PassKind.TORQUE, self.unit.value
        typed = self.amount.text().strip()
        torque = share = angle = None
        if kind in (PassKind.ANGLE, PassKind.LOOSEN):
            angle = degrees(typed, MOST_LOOSENED if kind is PassKind.LOOSEN else FULL_TURN)
        elif named := torque_of(typed):  # a unit that is typed counts, whatever is chosen
            torque = named
        elif kind is PassKind.TORQUE and (typed.endswith("%") or unit == SHARE):
            share = self._loaded if typed == _percent(self._loaded) else _share(typed)
        else:
            torque = torque_of(typed, TorqueUnit(unit))
        is_free = kind is PassKind.LOOSEN and not typed
        if not (torque or share or angle or is_free):
            raise BadInput(_WRONG[kind], field="amount")
        ticked = self.order.values
        group, note = self.group.text().strip(), self.note.text().strip()
        return Pass(kind, torque, share, angle, group, REVERSED in ticked, ROUND in ticked, note)


def _share(typed: str) -> float | None:
    """`60` or `60 %` as a share of the full torque."""
    value = figure(typed.removesuffix("%"))
    return round(value / 100, 6) if value is not None and value <= 100 else None


def _percent(share: float | None) -> str:
    return written(round(share * 100, 4)) if share is not None else ""


def _amount(one: Pass) -> str:
    if one.share is not None:
        return _percent(one.share)
    return written(one.torque.value if one.torque else one.angle)
