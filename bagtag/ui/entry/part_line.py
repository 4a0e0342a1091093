"""Another part: a line of the log, or the name of one that is not logged yet."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QWidget

from bagtag import services
from bagtag.domain.model import Removal
from bagtag.domain.which_way import OtherPart
from bagtag.ui.desk import Desk
from bagtag.ui.forms.basics import ENTER
from bagtag.ui.forms.removal_picker import Found, RemovalPicker


class PartLine(RemovalPicker):
    """What is typed is kept as a name; a line of the log is taken with Down, a click, or by its
    number. Enter and Esc are the form's."""

    edited = Signal()

    def __init__(self, desk: Desk, caption: str, parent: QWidget, *, hint: str = "") -> None:
        super().__init__(desk, caption, parent, hint=hint)
        self._part: OtherPart | None = None
        self._answered = ""
        self._wants_exact = False
        self.picked.connect(self._taken)

    @property
    def part(self) -> OtherPart | None:
        return self._part

    def load(self, part: OtherPart) -> None:
        """Show a part, by number and name where it is known."""
        self._part = OtherPart(part.name, part.uid)
        self.show_chosen(f"{part.number} {part.name}".strip())

    def keyPressEvent(self, event: QKeyEvent) -> None:
        typing = self.focusWidget() is self.line
        if event.key() == Qt.Key.Key_Escape:
            event.ignore()
        elif event.key() in ENTER and typing:
            self._enter(event)
        else:
            super().keyPressEvent(event)

    def _enter(self, event: QKeyEvent) -> None:
        typed = self.line.text().strip()
        if not self.line.isModified():
            event.ignore()
        elif typed[:1].isdigit() and typed != self._answered:
            self._wants_exact = True  # a number is no name: wait for its line of the log
        elif not self._pick_exact():
            event.ignore()

    def _pick_exact(self) -> bool:
        typed = self.line.text().strip().casefold()
        exact = [n for n, (_, text) in enumerate(self._found) if typed in _names(text)]
        if len(exact) == 1:
            self._pick(exact[0])
        return len(exact) == 1

    def _typed(self, typed: str) -> None:
        self._wants_exact = False
        name = typed.strip()
        self._part = OtherPart(name) if name else None
        super()._typed(typed)
        self.edited.emit()

    def _answer(self, answer: tuple[str, Found]) -> None:
        super()._answer(answer)
        self.field.say("")  # a part may be named before it is logged
        self._answered = answer[0]
        if self._wants_exact and self._answered == self.line.text().strip():
            self._wants_exact = False
            self._pick_exact()

    def _taken(self, removal_id: int, text: str) -> None:
        _, _, name = text.partition(" ")
        self._part = OtherPart(name) if removal_id else None
        self.edited.emit()
        if removal_id:
            self.desk.ask(services.strip.get_removal, removal_id, then=self._known)

    def _known(self, removal: Removal) -> None:
        if self.line.text() == f"{removal.number} {removal.name}":
            self._part = OtherPart(removal.name, removal.uid)
            self.edited.emit()


def _names(text: str) -> tuple[str, ...]:
    """What a line of the log answers to: "12 gear 3" to 12, to gear 3, and to all of it."""
    number, _, name = text.casefold().partition(" ")
    return number, name, text.casefold()
