"""How large the part is: the distance between two of its holes."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QWidget

from bagtag.domain.errors import BadInput
from bagtag.domain.holes import Scale
from bagtag.ui.forms.basics import Field, Line, button, label, tight
from bagtag.ui.forms.choices import Choices, Option
from bagtag.ui.forms.figures import count, length
from bagtag.ui.holes.hole_draft import Draft
from bagtag.ui.holes.hole_page import MapPage
from bagtag.ui.holes.hole_said import Said
from bagtag.ui.holes.hole_sheet import HoleSheet

SQUARE_ON = "Only a photo taken square-on is true to size all over. Check the print on the part."
DRAWN = "A drawn outline is in millimetres already; two holes are only needed to correct it."


class ScalePage(MapPage):
    """Two holes and how far apart their middles are: then the map prints at its true size."""

    title = "Scale"
    hint = "Click two holes and say how far apart their middles are, the farther the better."

    def __init__(self, draft: Draft, sheet: HoleSheet, parent: QWidget) -> None:
        super().__init__(draft, sheet, parent)
        self.first = Line(self, "First hole")
        self.second = Line(self, "Second hole")
        self.distance = Line(self, "Distance", hint="from middle to middle")
        self.unit = Choices("Unit of the distance", [Option("mm", "mm"), Option("in", "in")], self)
        self.unit.set_value("mm")
        self.set = button("Set the scale\u2002Enter", self, name="Set the scale")
        self.drop = button("Take it away", self, role="quiet", name="Take the scale away")
        self.true_size = label("", self)
        self.caution = label(SQUARE_ON, self, scale="small", tone="muted")
        self.fields = {
            "first": Field("First hole", self.first, self),
            "second": Field("Second hole", self.second, self),
            "scale": Field("Distance", self.distance, self),
        }
        self._lay()
        self.set.clicked.connect(self.accept)
        self.drop.clicked.connect(self._take_away)
        for line in (self.first, self.second):
            line.textEdited.connect(self._show_span)

    def _lay(self) -> None:
        grid = QGridLayout()
        tight(grid, 8)
        unit = Field("Unit", self.unit, self)
        for place, field in enumerate((*self.fields.values(), unit)):
            grid.addWidget(field, place // 2, place % 2, Qt.AlignmentFlag.AlignTop)
        acts = QHBoxLayout()
        tight(acts, 8)
        acts.addWidget(self.set)
        acts.addWidget(self.drop)
        acts.addStretch(1)
        self.column.addLayout(grid)
        self.column.addLayout(acts)
        self.column.addWidget(self.true_size)
        self.column.addWidget(self.caution)
        self.column.addStretch(1)

    def enter(self) -> None:
        scale = self.draft.map.scale
        if scale is not None:
            self._fill(scale.first, scale.second)
            self.distance.setText(f"{scale.distance.value:g}")
            self.unit.set_value(scale.distance.unit)
        self.refresh()

    def begin(self) -> None:
        (self.distance if self.second.text() else self.first).setFocus()

    def said(self) -> Said:
        scale = self.draft.map.scale
        if scale is None:
            return Said("No scale yet" if self.draft.map.photo else "Drawn in mm")
        return Said(str(scale.distance), f"from hole {scale.first} to hole {scale.second}")

    def refresh(self) -> None:
        hole_map = self.draft.map
        share = hole_map.millimetres_per_unit()
        self.drop.setVisible(hole_map.scale is not None)
        self.caution.setText(SQUARE_ON if hole_map.photo else DRAWN)
        if share is None:
            self.true_size.setText("No scale yet: the map cannot be printed at its true size.")
        else:
            what = "photo" if hole_map.photo else "sheet"
            wide, high = hole_map.width * share, hole_map.height * share
            self.true_size.setText(f"The {what} is {wide:.0f} × {high:.0f} mm on the part.")
        if self.isVisible():
            self._show_span()

    def take_spot(self, x: float, y: float) -> None:
        """A distance goes from hole to hole: a place without one is none."""

    def take_hole(self, number: int, adding: bool) -> None:
        self.say_nothing()
        if not self.first.text() or self.second.text():
            self._fill(number, None)
        else:
            self._fill(count(self.first.text()), number)
            self.distance.setFocus()
            self.distance.selectAll()
        self._show_span()

    def _fill(self, first: int | None, second: int | None) -> None:
        self.first.setText("" if first is None else str(first))
        self.second.setText("" if second is None else str(second))

    def accept(self) -> bool:
        self.say_nothing()
        first, second = count(self.first.text()), count(self.second.text())
        distance = length(self.distance.text(), self.unit.value)
        for name, value in (("first", first), ("second", second)):
            if value is None:
                self._wanting(name, "The number of a hole: click it on the map.")
                return True
        if distance is None:
            self._wanting("scale", "A distance is a figure above zero: 120, 120 mm, 4 3/4 in.")
            return True
        assert first is not None
        assert second is not None
        try:
            self.draft.set_scale(Scale(first, second, distance))
            self.unit.set_value(distance.unit)
            self.sheet.setFocus()  # so that undo is the map's
        except BadInput as wrong:
            self._wanting(wrong.field, wrong.sentence)
        return True

    def _wanting(self, name: str, sentence: str) -> None:
        field = self.fields.get(name, self.fields["scale"])
        field.say(sentence)
        field.editor.setFocus()

    def _take_away(self) -> None:
        self.draft.set_scale(None)
        self._fill(None, None)
        self.distance.clear()
        self._show_span()

    def _show_span(self) -> None:
        numbers = [count(line.text()) for line in (self.first, self.second)]
        self.sheet.show_span([number for number in numbers if number is not None])
