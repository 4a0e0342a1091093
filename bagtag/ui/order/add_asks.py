"""Figures that are asked for at sign-off: what is measured, its unit and its limits."""

from collections.abc import Sequence
from itertools import pairwise
from math import isfinite, nan

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QVBoxLayout, QWidget

from bagtag.domain.asked import places, shown
from bagtag.domain.errors import BadInput
from bagtag.domain.fitting import Asked
from bagtag.ui.forms.around import Around
from bagtag.ui.forms.basics import Line, Press, button, label, tight

NAMES = ("end float", "clearance", "backlash", "depth", "preload", "oil filled", "run-out")
UNITS = ("mm", "N·m", "l", "ml", "bar", "°")
_HEADS = ("What is measured", "Unit", "At least", "At most")
_WIDE = (5, 2, 2, 2)


class AskRow:
    """The four lines of one figure, and the button that takes it out."""

    def __init__(self, number: int, parent: QWidget) -> None:
        self.name = Line(parent, f"Figure {number}: what is measured", hint="end float")
        self.unit = Line(parent, f"Figure {number}: unit", hint="mm")
        self.low = Line(parent, f"Figure {number}: at least", hint="no limit")
        self.high = Line(parent, f"Figure {number}: at most", hint="no limit")
        self.out = button("×", parent, role="quiet", name=f"Take figure {number} out")
        self.name.suggest(NAMES)
        self.unit.suggest(UNITS)

    @property
    def lines(self) -> tuple[Line, ...]:
        return self.name, self.unit, self.low, self.high

    @property
    def is_empty(self) -> bool:
        return not any(line.text().strip() for line in (self.name, self.low, self.high))

    def fill(self, one: Asked) -> None:
        self.name.setText(one.name)
        self.unit.setText(one.unit)
        for line, value in ((self.low, one.low), (self.high, one.high)):
            line.setText("" if value is None else shown(value, one.places))

    def asked(self) -> Asked:
        """As filled in; BadInput for a limit that is no figure."""
        low, high = self.low.text(), self.high.text()
        return Asked(
            self.name.text(), self.unit.text(), limit(low), limit(high), places=places(low, high)
        )


def limit(typed: str) -> float | None:
    """`0.05` or `0,05` as a number, None for nothing; BadInput for what is no figure."""
    text = typed.strip().replace(",", ".").replace("−", "-")
    if not text:
        return None
    try:
        value = float(text)
    except ValueError:
        value = nan
    if not isfinite(value):
        raise BadInput(
            f"The limit {typed.strip()} is not a figure. Write it like 0.05, or leave it empty.",
            field="asks",
        )
    return value


class AskRows(Around):
    """As many figures as are wanted; one that is left empty is none. `after` is the control that
    Tab comes from."""

    changed = Signal()

    def __init__(self, parent: QWidget, after: QWidget | None = None) -> None:
        super().__init__(parent)
        self._after = after
        self.rows: list[AskRow] = []
        self._made = 0
        self._grid_box = QWidget(self)
        self._grid = QGridLayout(self._grid_box)
        tight(self._grid, 6)
        for place, wide in enumerate(_WIDE):
            head = label(_HEADS[place], self._grid_box, scale="small", tone="muted")
            self._grid.addWidget(head, 0, place)
            self._grid.setColumnStretch(place, wide)
        self.more = button("Ask for a figure", self, name="Ask for a figure at sign-off")
        self.more.clicked.connect(self.add)
        column = QVBoxLayout(self)
        tight(column, 6)
        column.addWidget(self._grid_box)
        column.addWidget(self.more, 0, Qt.AlignmentFlag.AlignLeft)
        self.setAccessibleName("Figures asked for at sign-off")
        self._arrange()

    def asks(self) -> tuple[Asked, ...]:
        """What is asked for; BadInput where a limit is no figure."""
        return tuple(row.asked() for row in self.rows if not row.is_empty)

    def set_asks(self, asks: Sequence[Asked]) -> None:
        while self.rows:
            self._drop(self.rows[-1])
        for one in asks:
            self._make().fill(one)
        self._arrange()

    @property
    def is_untouched(self) -> bool:
        """Whether no person has typed here."""
        return not any(line.isModified() for row in self.rows for line in row.lines)

    def add(self) -> None:
        """One more figure, the keys on its name."""
        self._make()
        self._arrange()
        self.rows[-1].name.setFocus()

    def _make(self) -> AskRow:
        self._made += 1
        row = AskRow(self._made, self._grid_box)
        at = self._grid.rowCount()
        for place, widget in enumerate((*row.lines, row.out)):
            self._grid.addWidget(widget, at, place)
            widget.show()
        for line in row.lines:
            line.textEdited.connect(self.changed)
        row.out.clicked.connect(self._take_out)
        self.rows.append(row)
        return row

    def _take_out(self) -> None:
        press = self.sender()
        assert isinstance(press, Press)
        self._drop(next(row for row in self.rows if row.out is press))
        self._arrange()
        self.more.setFocus()
        self.changed.emit()

    def _drop(self, row: AskRow) -> None:
        self.rows.remove(row)
        for widget in (*row.lines, row.out):
            self._grid.removeWidget(widget)
            widget.hide()
            widget.deleteLater()

    def _arrange(self) -> None:
        self._grid_box.setVisible(bool(self.rows))
        self.more.setText("Ask for another" if self.rows else "Ask for a figure")
        walked = [widget for row in self.rows for widget in (*row.lines, row.out)]
        start = [self._after] if self._after is not None else []
        for before, after in pairwise([*start, *walked, self.more]):
            QWidget.setTabOrder(before, after)

    def first(self) -> QWidget:
        return self.rows[0].name if self.rows else self.more
