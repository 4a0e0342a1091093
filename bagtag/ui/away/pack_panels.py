"""The parts that go, one below the other: what is wanted of each is said in its panel."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QWidget

from bagtag.domain.errors import BadInput, Trouble
from bagtag.domain.sending import Wanted
from bagtag.ui.away.looks import Looks
from bagtag.ui.away.pack_part import PackPart
from bagtag.ui.forms.basics import label
from bagtag.ui.forms.pick_model import PickRow
from bagtag.ui.forms.scroll import Scroll
from bagtag.ui.forms.sight import InSight

if TYPE_CHECKING:
    from bagtag.services.views import StripRow

CHOOSE = "Choose the parts at the left, or scan their tags. What is wanted of each is said here."


class PackPanels(Scroll):
    """What was typed for a part is kept while it is chosen off and on again."""

    let_go = Signal(int)

    def __init__(self, looks: Looks, parent: QWidget) -> None:
        super().__init__(parent, "Its parts")
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)  # Tab goes from field to field in it
        self._looks = looks
        self._rows: Mapping[int, StripRow] = {}
        self._parts: Sequence[PickRow] = ()
        self.panels: dict[int, PackPart] = {}
        self.none_yet = label(CHOOSE, self.body, tone="muted")
        self.column.setContentsMargins(2, 2, 12, 2)
        self.column.addWidget(self.none_yet)
        self.column.addStretch(1)
        InSight(self, ())

    def clear(self) -> None:
        """Nothing goes, and nothing was said of anything."""
        for panel in self.panels.values():
            panel.hide()
            panel.deleteLater()
        self.panels = {}
        self.show_chosen(())

    def set_rows(self, rows: Mapping[int, StripRow], parts: Sequence[PickRow]) -> None:
        """What may be taken off each: every line of the log but the part itself."""
        self._rows, self._parts = rows, parts
        for removal_id, panel in self.panels.items():
            panel.form.set_parts(self._but(removal_id))

    def show_chosen(self, chosen: Sequence[int], opened: int = 0) -> None:
        """A panel for each part that goes, in the order chosen; one that is new is open."""
        for place, one in enumerate(chosen):
            if one in self._rows:
                self.column.insertWidget(place, self._panel(one))
        for one, panel in self.panels.items():
            panel.setVisible(one in chosen)
        if opened in self.panels:
            self.open(opened)
        self.none_yet.setVisible(not chosen)

    def _panel(self, removal_id: int) -> PackPart:
        if removal_id not in self.panels:
            made = PackPart(self._rows[removal_id], self._looks, self.body)
            made.form.set_parts(self._but(removal_id))
            made.opened.connect(self.go_to)
            made.let_go.connect(self.let_go)
            self.panels[removal_id] = made
        return self.panels[removal_id]

    def _but(self, removal_id: int) -> list[PickRow]:
        return [row for row in self._parts if row.value != removal_id]

    def open(self, removal_id: int) -> None:
        """Only one is open, so that all of them are in sight."""
        for one, panel in self.panels.items():
            panel.open(one == removal_id)

    def go_to(self, removal_id: int) -> None:
        self.open(removal_id)
        self.panels[removal_id].form.work.setFocus()

    # What was said

    def wanted(self, chosen: Sequence[int]) -> list[Wanted]:
        """What is wanted of each part; BadInput, said in its panel, for what cannot be."""
        found: list[Wanted] = []
        for one in chosen:
            try:
                found.append(self.panels[one].form.wanted(one))
            except BadInput as wrong:
                self.open(one)
                self.panels[one].form.say_wrong(wrong)  # once more: only now it can have the keys
                raise
        return found

    def say_wrong(self, error: Trouble) -> bool:
        """Say it in the panel that is open; False where it has no such field."""
        panel = next((one for one in self.panels.values() if one.is_open), None)
        return panel is not None and panel.form.say_wrong(error)

    def say_nothing(self) -> None:
        for panel in self.panels.values():
            panel.form.say_nothing()
