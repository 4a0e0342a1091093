"""What the panel of Renew asks for in place: how many arrived, what was wrong, whether it is the
same as the old one."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QWidget

from bagtag.domain.phrases import capital
from bagtag.ui.forms.asking import Asking
from bagtag.ui.forms.basics import Field, Line, button, say_at
from bagtag.ui.forms.days import read_day, written
from bagtag.ui.forms.figures import count

if TYPE_CHECKING:
    from bagtag.domain.renewals import RenewLine

_MANY = "How many? Give a whole number of pieces."


class AskLine(Asking):
    """Fields in a row, by name."""

    def __init__(self, word: str, parent: QWidget) -> None:
        super().__init__(word, parent)
        self.named: dict[str, Field] = {}

    def put(self, fields: Mapping[str, tuple[Field, int]]) -> None:
        for name, (field, wide) in fields.items():
            self.named[name] = field
            self.fields.addWidget(field, wide)
        self._end(beside=False)

    def open_with(self, head: str) -> None:
        self.head.setText(head)
        for field in self.named.values():
            field.say("")
        self.show()

    def say(self, name: str, sentence: str) -> None:
        """Below its field, or below the first where there is none of that name."""
        if not say_at(self.named, name, sentence):
            say_at(self.named, next(iter(self.named)), sentence)


class AskDay(AskLine):
    """With the day it happened, today unless it is typed over."""

    def __init__(self, word: str, parent: QWidget) -> None:
        super().__init__(word, parent)
        self.on = Line(self, "On which day", hint="today")

    def open_with(self, head: str) -> None:
        super().open_with(head)
        self.on.setText(written(date.today()))

    def day(self) -> date | None:
        """The day that is typed, today for none; None, said below it, where it is no day."""
        found, is_read = read_day(self.named["on"], date.today(), past=True)
        return (found or date.today()) if is_read else None


class AskArrived(AskDay):
    """How many pieces are here."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__("They are here", parent)
        self.many = Line(self, "How many arrived")
        self.put(
            {
                "count": (Field("How many arrived", self.many, self), 2),
                "on": (Field("On which day", self.on, self), 3),
            }
        )

    def open_line(self, line: RenewLine) -> None:
        part = line.new_part
        left = max(part.still, 1)
        here = f", {part.arrived} of them here already" if part.arrived else ""
        self.open_with(f"Count what came: {part.count} wanted{here}.")
        self.many.setText(str(left))
        self.many.setFocus()
        self.many.selectAll()

    def answer(self) -> tuple[int, date] | None:
        many, on = count(self.many.text()), self.day()
        self.named["count"].say("" if many else _MANY)
        return (many, on) if many and on else None


class AskWrong(AskDay):
    """What was wrong with the part that came; it goes back, and is wanted again."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__("It goes back", parent)
        self.why = Line(self, "What is wrong", hint="2 mm too wide")
        self.many = Line(self, "How many go back")
        self.put(
            {
                "why": (Field("What is wrong with it", self.why, self), 4),
                "count": (Field("How many", self.many, self), 2),
                "on": (Field("Sent back on", self.on, self), 3),
            }
        )

    def open_line(self, line: RenewLine) -> None:
        self.open_with("The wrong part goes back, and the right one is wanted again.")
        self.why.clear()
        self.many.setText(str(line.new_part.arrived))
        self.named["count"].setVisible(line.new_part.arrived > 1)
        self.why.setFocus()

    def answer(self) -> tuple[str, date, int] | None:
        """What is wrong, when it went back, and how many pieces."""
        why, many, on = self.why.text().strip(), count(self.many.text()), self.day()
        self.named["count"].say("" if many else _MANY)
        self.named["why"].say("" if why else "Say what is wrong: the supplier will ask.")
        return (why, on, many) if why and on and many else None


class AskCompare(AskLine):
    """The new part held against the old one: the same, or not."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__("The same", parent)
        self.differs = button("Not the same", self)
        self._presses.insertWidget(1, self.differs)
        self.note = Line(self, "What was looked at", hint="bore, width, lip, part number")
        self.put({"note": (Field("What was looked at, or what differs", self.note, self), 1)})

    def open_line(self, line: RenewLine) -> None:
        self.open_with(f"{capital(line.old_part)}.")
        self.note.clear()
        self.note.setFocus()

    def answer(self, *, is_same: bool) -> str | None:
        """The note; None, said below it, where parts differ and nobody says how."""
        note = self.note.text().strip()
        wants = not is_same and not note
        self.say("note", "Say what differs: that decides whether it fits." if wants else "")
        return None if wants else note
