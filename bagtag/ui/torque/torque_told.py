"""What is said of a torque while it is typed: in all units, what it clamps with, what is asked."""

from collections.abc import Iterable

from PySide6.QtWidgets import QVBoxLayout, QWidget

from bagtag import services
from bagtag.domain.hardware import HeldBy
from bagtag.domain.sense import questions, sense
from bagtag.domain.torque_words import shown
from bagtag.ui.forms.basics import label, tight
from bagtag.ui.forms.signed import Signed


def thread_names() -> tuple[str, ...]:
    """The threads that are known, to be suggested."""
    return services.torque.threads().names()


class TorqueTold(QWidget):
    """Nothing is said of a line without a torque. What is asked refuses nothing."""

    def __init__(self, parent: QWidget, *, units: bool = True) -> None:
        super().__init__(parent)
        self._with_units = units
        self.units = label("", self)
        self.sense = label("", self, scale="small", tone="muted")
        self.asked = Signed("?", self, name="Can this be right?")
        column = QVBoxLayout(self)
        tight(column, 6)
        for part in (self.units, self.sense, self.asked):
            column.addWidget(part)
        self.show_line(HeldBy())

    def show_line(self, line: HeldBy) -> None:
        torque = line.torque
        self.units.setText(shown(torque) if torque is not None and self._with_units else "")
        self.units.setVisible(bool(self.units.text()))
        self.sense.setText(sense_words(line))
        self.sense.setVisible(bool(self.sense.text()))
        self.asked.say(questions_of((line,)))
        self.setVisible(torque is not None)


def questions_of(lines: Iterable[HeldBy]) -> tuple[str, ...]:
    """What is asked about the torques of lines of hardware."""
    with_torque = [line for line in lines if line.torque is not None]
    return tuple(
        asked for line in with_torque for asked in questions(line, services.torque.threads())
    )


def sense_words(line: HeldBy) -> str:
    """`Each clamps with about 16 kN …; class 8.8, dry threads: K from 0.15 to 0.25.`"""
    found = sense(line, services.torque.threads())
    if found is None:
        return ""
    return f"Each {found.said}; {', '.join(found.assumed)}."
