"""Many holes at once: a ring, a grid or a row, by two clicks or by figures."""

from __future__ import annotations

from collections.abc import Sequence
from math import atan2, degrees, hypot

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QWidget

from bagtag.domain.errors import BadInput
from bagtag.domain.hole_places import MOST_AT_ONCE
from bagtag.domain.holes import Point
from bagtag.ui.forms.basics import Field, Line, button, tight
from bagtag.ui.forms.choices import Choices, Option
from bagtag.ui.forms.figures import count
from bagtag.ui.holes.hole_draft import Draft
from bagtag.ui.holes.hole_page import MapPage
from bagtag.ui.holes.hole_said import Said
from bagtag.ui.holes.hole_sheet import HoleSheet
from bagtag.ui.holes.pattern_points import Figures, Pattern, points_of, rounded, signed

TOP = Qt.AlignmentFlag.AlignTop
FIRST = {
    Pattern.RING: "Click the middle of the ring, then its first hole; or give the figures.",
    Pattern.GRID: "Click the first corner hole, then the one opposite; or give the figures.",
    Pattern.ROW: "Click the first hole, then the last; or give the figures.",
}
SECOND = {
    Pattern.RING: "Now click where its first hole is.",
    Pattern.GRID: "Now click the hole at the opposite corner.",
    Pattern.ROW: "Now click where the last hole is.",
}
PUT = "They are in. Click or change a figure for more."
FIELDS = {
    Pattern.RING: (("many", "How many"), ("size", "Diameter"), ("turn", "First hole at, °")),
    Pattern.GRID: (("many", "Holes across"), ("down", "Holes down"), ("size", "Step across"),
                   ("high", "Step down")),
    Pattern.ROW: (("many", "How many"), ("size", "First to last"), ("turn", "Direction, °")),
}  # fmt: skip
TURNED = {
    Pattern.RING: "0 is at the top, 90 at the right.",
    Pattern.ROW: "0 is to the right, 90 downwards.",
}
MOST = MOST_AT_ONCE


class PatternPage(MapPage):
    """The holes to come are drawn at once; Enter puts them."""

    title = "Pattern"
    is_of_lines = takes_enter = True

    def __init__(self, draft: Draft, sheet: HoleSheet, parent: QWidget) -> None:
        super().__init__(draft, sheet, parent)
        self._start: Point | None = None
        self._is_second = self._is_put = False
        self.kind = Choices(
            "Pattern", [Option(kind, kind.value) for kind in Pattern], self, columns=3
        )
        self.kind.set_value(Pattern.RING)
        names = ("many", "down", "size", "high", "turn")
        self.lines = {name: Line(self, name) for name in names}
        self.fields = {name: Field(name, line, self) for name, line in self.lines.items()}
        self.put = button("Put them in\u2002Enter", self, role="primary", name="Put them in")
        self._lay()
        self.kind.chosen.connect(self._kind_chosen)
        self.put.clicked.connect(self.accept)
        for line in self.lines.values():
            line.textEdited.connect(self._typed)

    def _lay(self) -> None:
        places = QGridLayout()
        tight(places, 8)
        for place, field in enumerate(self.fields.values()):
            places.addWidget(field, place // 2, place % 2, TOP)
        self._grid = places
        self.column.insertWidget(0, self.kind)
        self.column.addLayout(places)
        self.column.addWidget(self.put)
        self.column.addStretch(1)

    # What is asked

    def enter(self) -> None:
        self._kind_chosen()

    def refresh(self) -> None:
        self._name_fields()
        self._show_ghost()

    def begin(self) -> None:
        self.lines["many"].setFocus()
        self.lines["many"].selectAll()

    def said(self) -> Said:
        line = next((one for one in self.draft.held_by if one.mark == self.draft.line), None)
        into = (
            f"They get {line.mark}, {line.called()}." if line else "Their fastener is said later."
        )
        return Said(f"A {self.kind.value.lower()} of holes", into)

    def _typed(self) -> None:
        self._is_put = False
        self._show_ghost()

    def _kind_chosen(self) -> None:
        """Begin this pattern with figures that fit the map."""
        self._start, self._is_second, self._is_put = None, False, False
        hole_map, share = self.draft.map, self._share()
        small = min(hole_map.width, hole_map.height) * share
        kind = self.kind.value
        long = hole_map.width * share
        first = {
            Pattern.RING: {"many": self._wanted(), "size": 0.7 * small, "turn": 0},
            Pattern.GRID: {"many": 2, "down": 5, "size": 0.5 * small, "high": 0.15 * small},
            Pattern.ROW: {"many": self._wanted(), "size": 0.7 * long, "turn": 0},
        }
        for name, value in first[kind].items():
            self.lines[name].setText(f"{rounded(value):g}")
        self.refresh()

    def _wanted(self) -> int:
        """As many as the line of hardware that is chosen has fasteners."""
        lines = [line for line in self.draft.held_by if line.mark == self.draft.line]
        return lines[0].count or 6 if lines else 6

    def _name_fields(self) -> None:
        kind = self.kind.value
        unit = "px" if self.draft.map.millimetres_per_unit() is None else "mm"
        asked = dict(FIELDS[kind])
        for place, name in enumerate(asked):
            self._grid.addWidget(self.fields[name], place // 2, place % 2, TOP)
        for name, field in self.fields.items():
            said = asked.get(name, "")
            measured = name in ("size", "high")
            field.caption.setText(f"{said}, {unit}" if measured else said)
            self.lines[name].setAccessibleName(said)
            self.lines[name].setToolTip(TURNED.get(kind, "") if name == "turn" else "")
            field.setVisible(name in asked)
        said = PUT if self._is_put else (SECOND if self._is_second else FIRST)[kind]
        self.told.setText(said)

    def _share(self) -> float:
        """Millimetres to a unit of the map; 1 where a photo has no scale yet."""
        return self.draft.map.millimetres_per_unit() or 1.0

    # By clicks

    def take_spot(self, x: float, y: float) -> None:
        self._is_put = False
        if not self._is_second:
            self._start, self._is_second = (x, y), True
        elif self._start is not None:
            self._reach(x - self._start[0], y - self._start[1])
            self._is_second = False
        self.refresh()

    def take_hole(self, number: int, adding: bool) -> None:
        """A hole that is there already is a place as well."""
        hole = self.draft.map.hole(number)
        if hole is not None:
            self.take_spot(hole.x, hole.y)

    def let_go(self) -> bool:
        if self._start is None:
            return False
        self._kind_chosen()
        return True

    def _reach(self, across: float, down: float) -> None:
        """The figures that the second click means."""
        share, far = self._share(), hypot(across, down)
        kind = self.kind.value
        if kind is Pattern.GRID:
            columns, rows = self._count("many") or 1, self._count("down") or 1
            self._fill("size", across * share / max(columns - 1, 1))
            self._fill("high", down * share / max(rows - 1, 1))
            return
        is_ring = kind is Pattern.RING
        self._fill("size", far * share * (2 if is_ring else 1))
        turn = degrees(atan2(down, across)) + (90 if is_ring else 0)
        self._fill("turn", (turn + 180) % 360 - 180)

    def _fill(self, name: str, value: float) -> None:
        self.lines[name].setText(f"{rounded(value):g}")

    # The holes to come

    def _show_ghost(self) -> None:
        if self.isVisible():
            self.sheet.show_ghost((not self._is_put and self._shown_points()) or ())

    def _shown_points(self) -> Sequence[Point]:
        try:
            return self.points() or ()
        except BadInput:
            return ()

    def points(self) -> Sequence[Point] | None:
        """Where the holes will be; None while a figure cannot be read."""
        figures = {name: signed(self.lines[name].text()) for name in self.lines}
        counts = {name: self._count(name) for name in ("many", "down")}
        read = Figures(
            counts["many"], counts["down"], figures["size"], figures["high"], figures["turn"] or 0.0
        )
        middle = (self.draft.map.width / 2, self.draft.map.height / 2)
        return points_of(self.kind.value, read, self._share(), self._start, middle)

    def _count(self, name: str) -> int | None:
        return count(self.lines[name].text())

    def accept(self) -> bool:
        self.say_nothing()
        try:
            points = self.points()
        except BadInput as wrong:
            self.fields["many"].say(wrong.sentence)
            return True
        if points is None:
            self._say_wanting()
            return True
        self._start, self._is_second, self._is_put = None, False, True
        self._is_put = self.draft.put(points)
        if self._is_put:
            self.sheet.setFocus()  # so that undo is the map's
        self.refresh()
        return True

    def _say_wanting(self) -> None:
        self._show_ghost()
        for name in (name for name, _ in FIELDS[self.kind.value]):
            whole = name in ("many", "down")
            known = self._count(name) if whole else signed(self.lines[name].text())
            if known is None or (known == 0 and name != "turn") or (whole and known > MOST):
                self.fields[name].say(
                    f"A whole number from 1 to {MOST}." if whole else "A figure other than zero."
                )
                self.lines[name].setFocus()
                return
        self.fields["many"].say(f"At once {MOST} holes at most.")
