"""What the card asks for in place, without a box in front of it: a shop, a number."""

from datetime import date

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from bagtag.domain.errors import BadInput, Trouble
from bagtag.domain.typed_days import typed_day
from bagtag.ui.forms.asking import Asking
from bagtag.ui.forms.basics import Field, Line


class AskShop(Asking):
    """Which shop a part goes to, what for, and when it is due back."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__("Send away", parent)
        self.shop = Line(self, "Shop", hint="for example: cylinder grinder")
        self.work = Line(self, "Work", hint="for example: bore 0.5 oversize")
        self.due = Line(self, "Due back", hint="12 May, 2 weeks")
        self._fields = {
            "shop": Field("Shop", self.shop, self),
            "work": Field("What for", self.work, self),
            "due": Field("Due back", self.due, self),
        }
        self.fields.addWidget(self._fields["shop"], 3)
        self.fields.addWidget(self._fields["work"], 3)
        self.fields.addWidget(self._fields["due"], 2)
        self._end(beside=False)

    def open_with(self, head: str) -> None:
        self.head.setText(head)
        self.work.clear()
        self.due.clear()
        self.say_wrong(None)
        self.show()
        self.shop.setFocus(Qt.FocusReason.OtherFocusReason)
        self.shop.selectAll()

    def answer(self) -> dict[str, object]:
        """What goes to the service; BadInput for a day that is none."""
        due = typed_day(self.due.text(), date.today())
        return {"shop": self.shop.text(), "work": self.work.text(), "due": due}

    def say_wrong(self, error: Trouble | None) -> None:
        """Put the sentence under the field it belongs to; one of no field under the first."""
        named = error.field if isinstance(error, BadInput) else "shop"
        for name, field in self._fields.items():
            mine = name == (named if named in self._fields else "shop")
            field.say(error.sentence if error is not None and mine else "")


class AskCount(Asking):
    """How many blank tags to print ahead."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__("Make and print", parent)
        self.head.setText("Blank tags are printed ahead; the first scan hangs one on something.")
        self.number = Line(self, "How many blank tags")
        self.field = Field("How many", self.number, self)
        self.fields.addWidget(self.field)
        self._end(beside=True)
        self.fields.addStretch(1)

    def open_now(self) -> None:
        self.field.say("")
        self.number.setText("21")
        self.show()
        self.number.setFocus(Qt.FocusReason.OtherFocusReason)
        self.number.selectAll()

    def count(self) -> int:
        """The number that was typed; BadInput when it is none."""
        typed = self.number.text().strip()
        if not typed.isdecimal() or len(typed) > 6:
            raise BadInput("How many? Give a whole number, for example 21.", field="count")
        return int(typed)
