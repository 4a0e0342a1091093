"""What the pages beside a hole map have in common."""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtWidgets import QVBoxLayout, QWidget

from bagtag.domain.errors import Trouble
from bagtag.ui.forms.basics import Field, label, tight
from bagtag.ui.holes.hole_draft import Draft
from bagtag.ui.holes.hole_said import Said, said
from bagtag.ui.holes.hole_sheet import HoleSheet


class MapPage(QWidget):
    """A page says what a click on the map means while it is open."""

    title = ""
    hint = ""
    is_of_lines = False
    """Whether the line of hardware that is chosen means something here."""
    takes_enter = False
    """Whether Enter on the map means the page's act, while no cross stands there."""

    def __init__(self, draft: Draft, sheet: HoleSheet, parent: QWidget) -> None:
        super().__init__(parent)
        self.draft, self.sheet = draft, sheet
        self.fields: dict[str, Field] = {}
        self.column = QVBoxLayout(self)
        tight(self.column, 10)
        self.told = label(self.hint, self, scale="small", tone="muted")
        self.column.addWidget(self.told)

    def enter(self) -> None:
        """The page is open."""
        self.refresh()

    def begin(self) -> None:
        """Put the keys where one begins."""
        self.sheet.setFocus()

    def said(self) -> Said:
        """What is said large above the page."""
        return said(self.draft)

    def leave(self) -> None:
        """Another page is open: what this one drew on the map goes."""
        self.sheet.show_ghost(())
        self.sheet.show_turns(())
        self.sheet.show_span(())

    def refresh(self) -> None:
        """Show the map as it is now."""

    def take_spot(self, x: float, y: float) -> None:
        """A click where no hole is."""
        self.draft.point(())

    def take_hole(self, number: int, adding: bool) -> None:
        """A click on a hole."""
        self.draft.point_at(number, adding=adding)

    def chain(self, widgets: Iterable[QWidget]) -> None:
        """Let Tab go from the map through these, which were made late, and on from there."""
        before: QWidget = self.sheet
        for widget in widgets:
            QWidget.setTabOrder(before, widget)
            before = widget

    def let_go(self) -> bool:
        """Esc: let go of what was begun on this page; whether there was anything."""
        return False

    def accept(self) -> bool:
        """Enter in a field of the page; whether it did anything."""
        return False

    def say_nothing(self) -> None:
        for field in self.fields.values():
            field.say("")

    def say_wrong(self, trouble: Trouble) -> bool:
        """Say it below its field; False where it belongs to none of this page."""
        field = self.fields.get(trouble.field)
        if field is None:
            return False
        field.say(trouble.sentence)
        return True
