"""How the passes of a part will read, and what is wrong with them, while they are written down."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QVBoxLayout, QWidget

from bagtag.domain.errors import Trouble
from bagtag.domain.joint_words import turned_words
from bagtag.domain.phrases import whole
from bagtag.domain.schedule import Round, checked, rounds_of
from bagtag.domain.tightening import Pass
from bagtag.ui.forms.basics import Field, label, tight

if TYPE_CHECKING:
    from bagtag.services.holes import MapView

_NO_PASS = "No torque is written down, so there is no pass."
_NO_TORQUE = "No torque is written down for it: a share of the full one has no figure yet."


class PassesRead(QWidget):
    """Each pass with its figures, and the sum of the angles."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.reads = label("", self)
        self.sum = label("", self, tone="muted")
        self.field = Field("As it will read", self.reads, self)
        column = QVBoxLayout(self)
        tight(column, 6)
        column.addWidget(self.field)
        column.addWidget(self.sum)

    def show_passes(self, view: MapView, passes: Sequence[Pass]) -> None:
        """Of this part, tightened by these."""
        found = rounds_of(replace(view.removal, passes=tuple(passes)), view.hole_map)
        self.reads.setText(_as_read(found) or _NO_PASS)
        self.sum.setText(_sum(found))
        self.sum.setVisible(bool(self.sum.text()))
        self.field.say(_wrong(view, passes))


def _as_read(found: Sequence[Round]) -> str:
    return "\n".join(f"{n}. {whole(one.words)}" for n, one in enumerate(found, 1))


def _sum(found: Sequence[Round]) -> str:
    if any(one.step.share and not one.torques for one in found):
        return _NO_TORQUE
    angles = turned_words(found)
    return f"{angles}." if angles else ""


def _wrong(view: MapView, passes: Sequence[Pass]) -> str:
    try:
        checked(passes, view.removal.held_by, view.hole_map)
    except Trouble as trouble:
        return trouble.sentence
    return ""
