"""A new measuring sheet: of which part, what is measured."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from bagtag import services
from bagtag.domain.measuring.sheet import SheetKind
from bagtag.domain.model import Removal
from bagtag.domain.phrases import capital
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import Field, Line
from bagtag.ui.forms.choices import Choices, Option
from bagtag.ui.forms.form_dialog import FormDialog
from bagtag.ui.forms.removal_picker import RemovalPicker

if TYPE_CHECKING:
    from bagtag.store.work import Store

TITLE = "A new measuring sheet"
_UNDER = (
    "What is likely for the part stands first. A sheet of several parts has none: leave it empty."
)
COLUMNS, WIDE = 3, 880


def open_new_sheet(desk: Desk, parent: QWidget | None, removal_id: int = 0) -> NewSheet:
    """Open the form; `removal_id` is the part that is most likely meant."""
    dialog = NewSheet(desk, parent, removal_id)
    dialog.open()
    return dialog


class NewSheet(FormDialog):
    """`made` gives the id of the sheet."""

    made = Signal(int)

    def __init__(self, desk: Desk, parent: QWidget | None, removal_id: int = 0) -> None:
        super().__init__(desk, TITLE, parent, keep="Make it")
        self.say_title(TITLE, _UNDER)
        self.removal_id = removal_id
        self.part = RemovalPicker(desk, "Which part", self.inner)
        kinds = [Option(kind, capital(kind.value)) for kind in SheetKind]
        self.kind = Choices("What is measured", kinds, self.inner, columns=COLUMNS)
        self.title = Line(self.inner, "Title", hint="where the part has several: cylinder 1")
        self.fields = {
            "removal_id": self.part.field,
            "kind": Field("What is measured", self.kind, self.inner),
            "title": Field("Title", self.title, self.inner),
        }
        for widget in (self.part, self.fields["kind"], self.fields["title"]):
            self.column.addWidget(widget)
        self.column.addStretch(1)
        self.part.picked.connect(self._picked)
        self.desk.ask(_kinds, removal_id, then=self._known)
        self.fit(690)
        self.resize(WIDE, self.height())
        (self.kind if removal_id else self.part).setFocus()

    def _picked(self, removal_id: int, _: str) -> None:
        self.removal_id = removal_id
        self.desk.ask(_kinds, removal_id, then=self._known)

    def _known(self, answer: tuple[Removal | None, Sequence[SheetKind]]) -> None:
        """The likely kinds first, the likeliest chosen."""
        removal, kinds = answer
        if (removal.id if removal else 0) != self.removal_id:
            return
        if removal is not None:
            self.part.show_chosen(f"{removal.number} {removal.name}")
        is_typing = self.title.hasFocus() or self.part.line.hasFocus()
        self.kind.set_options([Option(kind, capital(kind.value)) for kind in kinds])
        self.kind.set_value(kinds[0])
        if removal is not None and not is_typing:
            likeliest = self.kind.choice(kinds[0])
            likeliest.show()  # what is not shown yet would not get the keys
            likeliest.setFocus()

    def save(self) -> None:
        typed = bool(self.part.line.text().strip())
        if typed and not self.removal_id:
            self.say_wrong("Choose the part from the list, or leave the line empty.", "removal_id")
            return
        part = self.removal_id if typed else None
        add = services.measuring.add_sheet
        self.act(add, self.job_id, self.kind.value, part, self.title.text())

    def kept(self, result: Any) -> None:
        self.made.emit(result.new_id)


def _kinds(store: Store, removal_id: int) -> tuple[Removal | None, Sequence[SheetKind]]:
    removal = services.strip.get_removal(store, removal_id) if removal_id else None
    return removal, services.measuring.kinds_for(store, removal)
