"""What the wrench is set to and what it gives, with a drawing of the lengths."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from PySide6.QtWidgets import QVBoxLayout, QWidget

from bagtag.domain.errors import BadInput
from bagtag.domain.hardware import HeldBy
from bagtag.domain.torque import Torque, TorqueUnit
from bagtag.domain.wrench import Wrench
from bagtag.domain.wrench_outcome import Outcome, Rig, to_get, to_set
from bagtag.ui.forms.basics import Field, Line, label, tight
from bagtag.ui.forms.choices import Choices, Option
from bagtag.ui.forms.signed import Signed
from bagtag.ui.torque.torque_lever import LeverPicture
from bagtag.ui.torque.torque_rig import RigForm
from bagtag.ui.torque.torque_typed import torque_of

TO_SET, TO_GET = "set", "get"
WAYS = (
    Option(TO_SET, "What to set it to", "from the fastener's torque"),
    Option(TO_GET, "What it gives", "from the figure it shows"),
)
_NO_TORQUE = "Type a torque first."
_NONE_SUITS = "No wrench of the list reaches this torque; the figure is not rounded to marks."
_SHOWS = "A figure above zero: 30, 30 lbf·ft."


class TorqueSetting(QWidget):
    """`follow` tells it the line of hardware whose torque is to be set."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._line, self._unit = HeldBy(), TorqueUnit.NEWTON_METRE
        self.way = Choices("Which way", WAYS, self)
        self.way.set_value(TO_SET)
        self.shows = Line(self, "The wrench shows", hint="30 lbf·ft")
        self.shows_field = Field("The wrench shows", self.shows, self)
        self.rig_form = RigForm(self)
        self.picture = LeverPicture(self)
        self.result = QWidget(self)
        self.head = label("", self.result, tone="muted")
        self.large = label("", self.result, scale="big")
        self.below = label("", self.result)
        self.warnings = Signed("!", self.result, name="Warnings")
        self._lay()
        self.way.chosen.connect(self.tell)
        self.shows.textChanged.connect(self.tell)
        self.rig_form.edited.connect(self.tell)
        self.tell()

    def _lay(self) -> None:
        told = QVBoxLayout(self.result)
        tight(told, 4)
        for said in (self.head, self.large, self.below, self.warnings):
            told.addWidget(said)
        column = QVBoxLayout(self)
        tight(column, 12)
        for part in (
            self.way, self.shows_field, self.rig_form, self.result, self.picture,
        ):  # fmt: skip
            column.addWidget(part)
        column.addStretch(1)

    def show_wrenches(self, wrenches: Sequence[Wrench]) -> None:
        self.rig_form.show_wrenches(wrenches)
        self.tell()

    def load(self, line: HeldBy) -> None:
        """Take up the drag and the adapter of a line of hardware."""
        self.rig_form.load(line)

    def follow(self, line: HeldBy, unit: TorqueUnit) -> None:
        """The line with the torque that is to be set; a bare figure here is in `unit` too."""
        self._line, self._unit = line, unit
        self.tell()

    @property
    def is_back(self) -> bool:
        """Whether it goes from the wrench to the fastener."""
        return bool(self.way.value == TO_GET)

    def tell(self) -> None:
        """Say what comes of what is filled in now."""
        self.shows_field.setVisible(self.is_back)
        rig = self.rig_form.rig(None if self.is_back else self._line.torque, self._unit)
        outcome = Outcome()
        try:
            outcome = self._outcome(rig) if rig is not None else outcome
        except BadInput as wrong:
            self.rig_form.say(wrong)
        self._show(rig or Rig(), outcome)

    def _outcome(self, rig: Rig) -> Outcome:
        if self.is_back:
            shows = self._shows(rig)
            return to_get(shows, rig) if shows is not None else Outcome()
        if self._line.torque is None:
            return Outcome(below=(_NO_TORQUE,))
        outcome = to_set(self._line.torque, rig, date.today())
        if self.rig_form.seeks_best and rig.wrench is None and outcome.large:
            return replace(outcome, below=(*outcome.below[:-1], _NONE_SUITS))
        return outcome

    def _shows(self, rig: Rig) -> Torque | None:
        """What the wrench shows: without a unit in that of its scale."""
        unit = rig.wrench.unit if rig.wrench is not None else self._unit
        shows = torque_of(self.shows.text(), unit)
        typed = bool(self.shows.text().strip())
        self.shows_field.say(_SHOWS if typed and shows is None else "")
        return shows

    def _show(self, rig: Rig, outcome: Outcome) -> None:
        called = f"the {rig.wrench.name}" if rig.wrench is not None else "the wrench"
        self.head.setText("The fastener gets" if self.is_back else f"Set {called} to")
        self.large.setText(outcome.large)
        self.below.setText("\n".join(outcome.below))
        for part in (self.head, self.large):
            part.setVisible(bool(outcome.large))
        self.below.setVisible(bool(outcome.below))
        self.warnings.say(outcome.warnings)
        self.rig_form.hint(rig.wrench)
        self.picture.show_lever(rig.reach, rig.adapter)
